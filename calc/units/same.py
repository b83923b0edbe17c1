"""The same thing, not one like it: a key for what is kept of something large that does not change, without comparing all that is in it."""

from __future__ import annotations

from typing import Generic, TypeVar

Kind = TypeVar("Kind")


class Same(Generic[Kind]):
    """Equal only where both hold one and the same object, which lives as long as this does.

    >>> one, other = (1, [2]), (1, [2])
    >>> Same(one) == Same(one), Same(one) == Same(other), one == other
    (True, False, True)
    """

    __slots__ = ("what",)

    def __init__(self, what: Kind) -> None:
        self.what = what

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and self.what is other.what

    def __hash__(self) -> int:
        return id(self.what)
