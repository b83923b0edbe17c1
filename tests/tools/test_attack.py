"""The attack that stays: its quick part holds here, and what does not hold is said with the way to have it again."""

from __future__ import annotations

import random
import sys

import pytest

from tools.build.paths import SITE
from tools.check import attack


@pytest.mark.parametrize("name", ["bombs", "mangled_orders"])
def test_the_quick_part_holds(name: str) -> None:
    attack.TRIALS[name](attack.Attack(seed=1, seconds=0, site=SITE))


def test_mangling_is_the_same_for_the_same_seed_and_changes_the_text() -> None:
    text = "guests = 36\n" * 20
    assert attack.mangled(text, random.Random(7)) == attack.mangled(text, random.Random(7)) != text


def test_what_does_not_hold_is_said_with_its_seed(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    def breaks(_: attack.Attack) -> None:
        raise AssertionError("it broke")

    monkeypatch.setattr(attack, "TRIALS", {"breaks": breaks, "holds": lambda _: None})
    monkeypatch.setattr(sys, "argv", ["attack", "--seed", "5"])
    assert attack.main() == 1
    said = capsys.readouterr().out
    assert "breaks: DID NOT HOLD" in said and "holds: held" in said and "--seed 5 --only breaks" in said
