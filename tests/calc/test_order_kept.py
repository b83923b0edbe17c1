"""What is kept from one answer to the next changes none: an order that was changed often is answered as one that is asked for first."""

from __future__ import annotations

import json
import random
from pathlib import Path

import pytest

from calc import compute
from calc.calculators import CALCULATORS
from calc.page.reply import page_reply
from tools.bench.edits import edits
from tools.bench.seven_tiers import seven_tiers
from tools.runtime.warm import clear_caches

SUPPER = (Path(__file__).parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")
ORDER = CALCULATORS["order"]

# Beside numbers and choices near those of the example, what changes one thing of many: words only, the reader's units, the maker's own figures,
# what leaves no room and what cannot be read. Each line is put in, one change after the other, and taken back.
Change = tuple[str, str]
OTHERS: tuple[tuple[Change, ...], ...] = (
    (("units", "us"),),
    (("weighed", "83 g"),),
    (("tiers.0.name", "Lower <b>&"),),
    (("tiers.1.name", "Base"),),
    (("hours", "Sat 9:00 to 9:20"),),
    (("hours", "Mon to Fri 18:00 to 22:00; Sat 8:00 to 18:00"),),
    (("ready_at", "2027-10-17 09:00"),),
    (("keep_top", "yes"),),
    (("tiers.1.rows.0.kind", "swag"), ("tiers.1.rows.0.place", "side"), ("together", "yes"), ("tiers.0.repeats", "10"), ("tiers.0.name", "Foot")),
    (("tiers.0.height", "14 cm"),),
    (("tiers.0.fit", "all"),),
    (("tiers.1.rows.0.kind", "swag"), *((f"tiers.0.rows.{row}.kind", "shell") for row in range(3))),
    (("tiers.1.width", "fifteen"),),
    (("tiers.1.width", '6" square'),),
    (("tiers.1.rows.0.colour", "mauve"), ("colours.3.name", "mauve"), ("colours.3.look", "#996699")),
    (("tiers.1.rows.4.kind", "dot"),),
    (("tiers.0.repeats", "11"),),
    (("rate", "€ 20"),),
    (("cutters", "9 cm, 7.5 cm"),),
    (("tips", "petal 10 mm"),),
    (("measured.0.kind", "swag"),),
    (("packs.0.name", "butter"),),
    (("stacked", "venue"),),
)


def _sequence(texts: dict[str, str], count: int, seed: int) -> list[dict[str, str]]:
    """Forms, each with the last few of a sequence of changes; one line of `OTHERS` is put in for a moment after each."""
    chance = random.Random(seed)
    made = [edit for edit in edits(ORDER, texts, 2 * count, seed) if not compute("order", texts | dict([edit])).problems][:count]
    others = chance.sample(OTHERS, len(OTHERS))
    forms = []
    for number in range(count):
        now = texts | dict(made[max(0, number - 2) : number + 1])
        lines = others[number % len(others)]
        forms += [now, *(now | dict(lines[: at + 1]) for at in range(len(lines))), now]
    return forms


def _answered(texts: dict[str, str]) -> str:
    """Everything that an order is answered with, as data and as the page shows it."""
    answer = compute("order", texts)
    shown = page_reply(ORDER, texts, answer, 2, "pb", ("tilted", "side", "top"))
    drawn = next((drawing["svg"] for drawing in answer.drawings if drawing["name"] == "side"), "")
    return shown + drawn + json.dumps([answer.figures, answer.problems, answer.notes, answer.cautions, answer.tables, answer.sheets, answer.files])


@pytest.mark.parametrize(("record", "count", "seed"), [(SUPPER, len(OTHERS), 1), (seven_tiers(), 5, 3)], ids=["supper", "seven"])
def test_an_order_is_answered_alike_whatever_was_asked_before(record: str, count: int, seed: int) -> None:
    texts = {name: text for name, text in (compute("order", {"order": record}).fields or {}).items() if name != "units"}
    texts |= {"tiers.0.crumb": "2 mm", "tiers.0.final": "3 mm"}  # so that one tier is the same in both units
    forms = _sequence(texts, count, seed)
    clear_caches(())
    kept = [_answered(form) for form in forms]
    assert len(set(kept)) > count
    assert sum('"problems":[]' in one for one in kept) > count
    for form, before in zip(forms, kept, strict=True):
        clear_caches(())
        assert _answered(form) == before
