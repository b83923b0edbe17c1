"""The answers readers see today, as kept in tests/vectors (written by tools/check/vectors.py; they pin, and do not prove)."""

from __future__ import annotations

from calc.calculators import CALCULATORS
from tools.check import vectors


def test_kept_vectors_are_the_ones_asked() -> None:
    asked = [(v["calculator"], v["inputs"]) for v in vectors.vectors()]
    assert asked == [(v["calculator"], v["inputs"]) for v in vectors.kept()]
    assert {slug for slug, _ in asked} == set(CALCULATORS)


def test_native_answers_are_the_kept_ones() -> None:
    for vector in vectors.kept():
        assert vectors.natively(vector) == vector["shown"], (vector["calculator"], vector["inputs"])
