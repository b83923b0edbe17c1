"""A person's mistakes, tied to the inputs they were made in; no other exception is meant for a reader."""

from __future__ import annotations

from collections.abc import Iterable


class Problem(ValueError):
    """One mistake in what a person typed, tied to the input it is in."""

    def __init__(self, input_name: str, message: str) -> None:
        super().__init__(message)
        self.input = input_name
        self.message = message


class Problems(ValueError):
    """Several mistakes found in one go."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("; ".join(problem.message for problem in self.problems))
