"""Comparing what readers see with another commit: every text counts, the digits behind it do not."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tools.check import vectors

CALC = """
import json

class Answer:
    def to_json(self):
        return json.dumps({"notes": [{"text": "SAID"}]})

def compute(slug, inputs):
    if not inputs:
        raise ValueError("nothing asked")
    return Answer()
"""
ASKED: list[vectors.Vector] = [{"calculator": "swags", "inputs": {"side": "52 cm"}}, {"calculator": "swags", "inputs": {}}]


def other(folder: Path, said: str) -> Path:
    """A folder with a calc of another commit."""
    folder.mkdir()
    (folder / "calc.py").write_text(CALC.replace("SAID", said), encoding="utf-8")
    return folder.resolve()


def test_the_answers_are_those_of_the_calc_in_the_folder(tmp_path: Path) -> None:
    first, second = vectors.answers_of(other(tmp_path / "old", "so wide"), ASKED)
    assert first["notes"] == [{"text": "so wide"}]
    assert second == {"exception": "ValueError: nothing asked"}


@pytest.mark.parametrize(
    "change, differs",
    [
        ({"notes": [{"text": "otherwise"}]}, True),
        ({"notes": []}, True),
        ({"notes": [{"text": "so wide"}, {"text": "more"}]}, True),
        ({"figures": {"n": {"text": "3", "value": 3.0001}}}, False),
        ({"figures": {"m": {"text": "3", "value": 3.0}}}, True),
        ({"drawings": [{"name": "d", "svg": "<svg>"}]}, False),
        ({"drawings": [{"name": "e", "svg": "<svg/>"}]}, True),
    ],
)
def test_every_text_counts_and_where_it_stands(change: dict[str, Any], differs: bool) -> None:
    answer = {"notes": [{"text": "so wide"}], "figures": {"n": {"text": "3", "value": 3.0}}, "drawings": [{"name": "d", "svg": "<svg/>"}]}
    assert (dict(vectors.words(answer, False)) != dict(vectors.words({**answer, **change}, False))) is differs


def test_drawings_count_when_they_are_asked_for() -> None:
    one, two = ({"drawings": [{"name": "d", "svg": svg}]} for svg in ("<svg/>", "<svg>"))
    assert dict(vectors.words(one, True)) != dict(vectors.words(two, True))
