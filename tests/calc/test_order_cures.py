"""What is amiss at a row of an order is said there, and what is offered there mends it."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from calc.calculators import compute
from calc.calculators.declare import Answer, Cure, Press

RECORD = (Path(__file__).resolve().parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")


def form(**changed: str) -> dict[str, str]:
    """The texts of the form of the harvest supper, with some of them changed."""
    fields = compute("order", {"order": RECORD}).fields
    assert fields is not None
    return dict(fields) | {name.replace("__", "."): text for name, text in changed.items()}


def pressed(texts: dict[str, str], press: Press) -> dict[str, str]:
    """The texts after a press, as the page sets them."""
    kept = {name: text for name, text in texts.items() if not any(name.startswith(f"{group}.") for group in press.clears)}
    return kept | dict(press.sets)


def cures(answer: Answer) -> list[tuple[str, str]]:
    """Where something is amiss, and what."""
    assert not answer.problems
    return [(cure.at, cure.text) for cure in answer.cures]


def first_press(texts: dict[str, str], at: str, words: str) -> tuple[Cure, Press]:
    """The cure at a row that says so, with the first that can be pressed."""
    found = [cure for cure in compute("order", texts).cures if cure.at == at and words in cure.text]
    assert len(found) == 1, (words, cures(compute("order", texts)))
    return found[0], found[0].presses[0]


def test_nothing_is_amiss_with_the_example() -> None:
    assert cures(compute("order", form())) == []


@pytest.mark.parametrize(
    ("changed", "at", "words", "offered"),
    [
        ({"tiers__0__rows__0__kind": "string"}, "tiers.0.rows.0", "not usually piped with a petal tip", "Use round 1.8 mm"),
        ({"tiers__0__rows__3__place": "side"}, "tiers.0.rows.3", "nothing to sit on", "Put it round the base"),
        ({"tiers__0__rows__2__place": "top edge"}, "tiers.0.rows.2", "hangs only on the side", "Put it on the side"),
        ({"tiers__1__rows__0__place": "joints"}, "tiers.1.rows.0", "cannot sit at a joint", "Put it on the top edge"),
        ({"tiers__0__rows__0__drop": "11 cm", "tiers__0__rows__3__place": "top"}, "tiers.0.rows.0", "past the board", "Make its drop"),
        ({"tiers__0__rows__0__drop": "7.5 cm"}, "tiers.0.rows.0", "past the upper edge of Row 4", "Make its drop"),
        ({"tiers__0__rows__0__below": "2 mm"}, "tiers.0.rows.0", "past the top edge", "Have it placed"),
        ({"tiers__1__rows__1__place": "top edge"}, "tiers.1.rows.1", "both lie on the top edge and hide each other", "Put it inside the top edge"),
        ({"tiers__1__rows__2__tip": "closed star 45 mm"}, "tiers.1.rows.2", "over half of the", "Use closed star"),
        ({"tiers__0__rows__0__colour": "Rusett"}, "tiers.0.rows.0", "no rusett", "Use russet"),
        ({"tiers__1__colour": "ivroy"}, "tiers.1", "no ivroy", "Use ivory"),
        ({"tiers__0__bands": "russet 2, ivroy 1.5, cream"}, "tiers.0", "no ivroy", "Use ivory"),
        ({"tiers__1__striped": "creem"}, "tiers.1", "no creem", "Use cream"),
    ],
)
def test_one_press_mends_what_is_amiss(changed: dict[str, str], at: str, words: str, offered: str) -> None:
    texts = form(**changed)
    cure, press = first_press(texts, at, words)
    assert press.startswith(offered) and press.done
    mended = compute("order", pressed(texts, press))
    assert not [(place, text) for place, text in cures(mended) if place == at and text == cure.text], cures(mended)


@pytest.mark.parametrize("drop", ["62 mm", "70 mm", "85 mm", "100 mm", "3.2 in"])
@pytest.mark.parametrize("units", ["metric", "us"])
def test_the_drop_that_is_offered_fits(drop: str, units: str) -> None:
    texts = form(tiers__0__rows__0__drop=drop, units=units)
    for _ in range(3):
        answer = compute("order", texts)
        deep = [press for cure in answer.cures for press in cure.presses if press.startswith("Make its drop")]
        if not deep:
            break
        texts = pressed(texts, deep[0])
    assert cures(compute("order", texts)) == []


def test_where_tiers_are_fitted_to_one_another_a_cure_says_that_others_may_follow() -> None:
    deep = {"tiers__0__rows__0__drop": "7.5 cm", "tiers__1__rows__0__kind": "swag", "tiers__1__rows__0__place": "side"}
    for together, says in (("no", False), ("yes", True)):
        texts = form(together=together, **deep)
        found = [cure for cure in compute("order", texts).cures if any(press.startswith("Make its drop") for press in cure.presses)]
        assert found and all(("Upper tier may be divided otherwise" in cure.text) == says for cure in found), cures(compute("order", texts))
    alone = form(together="yes", tiers__0__rows__0__drop="7.5 cm", tiers__1__rows="")
    without = {name: text for name, text in alone.items() if not name.startswith("tiers.1.")}
    assert not [text for _, text in cures(compute("order", without)) if "otherwise" in text]


def test_a_colour_of_ones_own_can_be_kept_and_is_drawn_then() -> None:
    texts = form(tiers__0__rows__0__colour="granny's sage", colours__0__name="old", colours__0__look="#112233")
    (cure,) = compute("order", texts).cures
    take, keep = cure.presses
    assert dict(take.sets) == {"tiers.0.rows.0.colour": "sage"}
    assert set(keep.sets) == {"colours.1.name", "colours.1.look"}
    assert cures(compute("order", pressed(texts, keep))) == []


def test_a_row_left_out_leaves_the_others_as_they_were() -> None:
    texts = form(tiers__1__rows__1__place="top edge")
    (cure,) = compute("order", texts).cures
    after = pressed(texts, cure.presses[-1])
    assert cure.presses[-1].done == "Row 2 removed."
    rows = [{name.split(".")[-1]: text for name, text in after.items() if name.startswith(f"tiers.1.rows.{i}.")} for i in range(4)]
    before = [{name.split(".")[-1]: text for name, text in texts.items() if name.startswith(f"tiers.1.rows.{i}.")} for i in range(4)]
    assert rows == [before[0], before[2], before[3], {}]


HANGING = ("swag", "ruffled swag", "string")


def overhanging(seed: int) -> dict[str, str]:
    """An order in which a row hangs too deep, most times: any shape, height, cutters and number of hung rows."""
    chance = random.Random(seed)
    texts = form(
        units=chance.choice(("metric", "metric", "us")),
        together=chance.choice(("no", "no", "yes")),
        cutters=chance.choice(("9 cm, 7.5 cm", "", "6 cm", "12 cm, 5 cm")),
        tiers__0__shape=chance.choice(("round", "square", "heart", "petal")),
        tiers__0__height=f"{chance.randint(60, 180)} mm",
        tiers__0__fit=chance.choice(("own", "all")),
    )
    texts |= {"tiers.0.width": "20 cm", "tiers.0.disc": "", "tiers.0.side": ""}
    for row in range(3):
        texts |= {f"tiers.0.rows.{row}.kind": chance.choice(HANGING), f"tiers.0.rows.{row}.tip": ""}
        texts[f"tiers.0.rows.{row}.place"] = chance.choice(("side", "over", "under")) if row else "side"
        texts[f"tiers.0.rows.{row}.drop"] = f"{chance.randint(20, 130)} mm" if row == 0 or chance.random() < 0.4 else ""
    return texts


def test_the_drop_that_is_offered_leaves_nothing_too_deep() -> None:
    """With another drop a tier may be divided otherwise, and the rows under it laid elsewhere: that is looked at before a drop is offered."""
    offered = 0
    for seed in range(60):
        texts = overhanging(seed)
        answer = compute("order", texts)
        for cure in answer.cures:
            for press in (press for press in cure.presses if press.startswith("Make its drop")):
                offered += 1
                left = [one for one in compute("order", pressed(texts, press)).cures if one.at == cure.at]
                again = [one.text for one in left if any(each.startswith("Make its drop") for each in one.presses) or "past" in one.text]
                assert not again, (seed, cure.text, press, again)
    assert offered > 20
