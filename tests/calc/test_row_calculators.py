"""The calculators of piped rows, tips and colours: figures that must be there, and problems that name their field and the way out."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET

import pytest

import calc
from calc.colours import PALETTE


def value(slug: str, name: str, **texts: str) -> float:
    answer = calc.compute(slug, texts)
    assert not answer.problems, answer.problems
    return float(answer.figures[name]["value"])


def problem(slug: str, texts: dict[str, str]) -> tuple[str, str]:
    answer = calc.compute(slug, texts)
    assert answer.problems and not answer.figures and not answer.tables
    return answer.problems[0]["input"], answer.problems[0]["message"]


COLOURS = {
    f"rows.{i}.{name}": text
    for i, row in enumerate(
        (
            ("russet", "petal 11 mm", "80 g"),
            ("cream", "petal 9 mm", "50 g"),
            ("cream", "round 1.8 mm", "5 g"),
            ("russet", "open star 7 mm", "50 g"),
            ("ivory", "", "600 g"),
        )
    )
    for name, text in zip(("colour", "tip", "mass"), row, strict=True)
}

FIGURES = (
    ("strings", {"side": "66 cm", "repeats": "9"}, ("width", "drop", "length_each", "length_total", "mass")),
    ("shells", {"side": "66 cm", "repeats": "6"}, ("shells", "pitch", "stretch", "mass")),
    ("rosettes", {"count": "6"}, ("count", "mass")),
    ("tips", {"family": "petal", "opening": "11"}, ("matches", "section", "laid", "line_width")),
    ("tint", {}, ("drops", "parts")),
    ("colours", COLOURS, ("mass_russet", "mass_cream", "mass_ivory", "mass", "bags", "couplers")),
)


@pytest.mark.parametrize("slug, texts, names", FIGURES)
@pytest.mark.parametrize("units", ["metric", "us"])
def test_figures_are_there_in_both_systems(slug: str, texts: dict[str, str], names: tuple[str, ...], units: str) -> None:
    answer = calc.compute(slug, {**texts, "units": units})
    assert not answer.problems and set(names) <= set(answer.figures)
    for figure in answer.figures.values():
        assert figure["text"] and math.isfinite(figure["value"])
    for drawing in answer.drawings:
        ET.fromstring(drawing["svg"])
        assert drawing["title"] and drawing["description"]


def test_a_length_means_the_same_however_it_is_written() -> None:
    for side in ("50 cm", "500 mm", "0.5 m", "50"):
        assert value("strings", "width", side=side, repeats="5") == pytest.approx(100)
    assert value("strings", "width", side="20 in", repeats="5") == pytest.approx(101.6)
    assert value("strings", "width", width="20 cm", repeats="10") == pytest.approx(20 * math.pi)


def test_strings_add_up() -> None:
    answer = calc.compute("strings", {"side": "48 cm", "repeats": "6", "drop": "2 cm"})
    assert answer.figures["length_each"]["value"] == pytest.approx(92.063289, abs=1e-5)
    assert answer.figures["length_total"]["value"] == pytest.approx(6 * 92.063289, abs=1e-4)


def test_shells_meet_the_joints_from_either_side() -> None:
    fitted = calc.compute("shells", {"side": "66 cm", "repeats": "6"}).figures
    assert (fitted["shells"]["value"], fitted["per_swag"]["value"]) == (60, 10)
    asked = calc.compute("shells", {"side": "66 cm", "per_swag": "12"}).figures
    assert asked["shells"]["value"] == asked["repeats"]["value"] * 12 and abs(asked["stretch"]["value"]) < 15
    both = calc.compute("shells", {"side": "66 cm", "per_swag": "8", "repeats": "6"})
    assert both.figures["shells"]["value"] == 48 and any("15 %" in note["text"] for note in both.notes)


def test_rosettes_by_number_or_by_spacing() -> None:
    assert value("rosettes", "count", count="7") == 7
    assert value("rosettes", "count", side="66 cm", spacing="5 cm") == 13
    assert value("rosettes", "spacing", side="66 cm", spacing="5 cm") == pytest.approx(660 / 13)
    assert value("rosettes", "mass", count="10") == pytest.approx(10 * value("rosettes", "each", count="1"))


@pytest.mark.parametrize("slug, texts", [("shells", {"side": "66 cm", "repeats": "6"}), ("strings", {"side": "66 cm"}), ("rosettes", {"count": "5"})])
def test_a_weighed_strip_replaces_the_estimate(slug: str, texts: dict[str, str]) -> None:
    one, two = (calc.compute(slug, {**texts, "piped": "30 cm", "weighed": w}) for w in ("21 g", "42 g"))
    assert two.figures["mass"]["value"] == pytest.approx(2 * one.figures["mass"]["value"])
    low, high = one.figures["mass"]["low"], one.figures["mass"]["high"]
    assert high / low == pytest.approx(1.1 / 0.9)
    estimate = calc.compute(slug, texts)
    assert estimate.figures["mass"]["high"] / estimate.figures["mass"]["low"] > high / low
    if slug == "shells":
        assert one.figures["mass"]["value"] == pytest.approx(0.66 * 70)


def test_the_finder_answers_from_effect_and_size() -> None:
    answer = calc.compute("tips", {"effect": "shell", "width": "13", "family": "open star"})
    tables = {table["name"]: table["rows"] for table in answer.tables}
    assert tables["matches"][0][0] == "open star 7 mm"
    assert [row[0] for row in tables["held"]] == ["open star: shell"]  # all are held alike, so it is said once
    assert answer.figures["opening_needed"]["value"] == pytest.approx(13 / 1.9)
    assert any("Measure the opening" in note["text"] for note in answer.notes)
    assert len(calc.compute("tips", {}).tables[0]["rows"]) >= 40


def test_colours_bags_and_mixing() -> None:
    answer = calc.compute("colours", COLOURS)
    figures = answer.figures
    assert figures["mass_russet"]["value"] == pytest.approx(130 + 40 + 13)
    assert figures["mass_ivory"]["value"] == pytest.approx(600 + 18 + 60)
    assert (figures["bags"]["value"], figures["bags_with_couplers"]["value"], figures["couplers"]["value"]) == (4, 2, 2)
    assert figures["mass"]["value"] == pytest.approx(sum(figures[f"mass_{c}"]["value"] for c in ("russet", "cream", "ivory")))
    assert {t["name"] for t in answer.tables} == {"amounts", "bags", "coupled", "mixing", "apart"}


def test_names_of_the_readers_own_are_kept_apart() -> None:
    texts = {f"rows.{i}.colour": c for i, c in enumerate(("Auntie's red!", "auntie s red", "Straße"))}
    answer = calc.compute("colours", texts)
    assert not answer.problems and sum(name.startswith("mass_") for name in answer.figures) == 3
    assert any("no value is known" in note["text"] for note in answer.notes)


@pytest.mark.parametrize(
    "slug, texts, field, says",
    [
        ("strings", {}, "side", "66 cm"),
        ("strings", {"side": "50 cm", "drop": "39 cm", "repeats": "8"}, "drop", "three times the width"),
        ("strings", {"side": "50 cm", "tip": "star"}, "tip", "open star"),
        ("strings", {"side": "50 cm", "piped": "30 cm"}, "weighed", "or neither"),
        ("strings", {"side": "50 cm", "weighed": "21 g"}, "piped", "or neither"),
        ("shells", {"side": "5 cm", "per_swag": "400", "repeats": "100"}, "per_swag", "fewer"),
        ("shells", {"side": "abc"}, "side", "length"),
        ("shells", {"side": "-3 cm"}, "side", "between"),
        ("rosettes", {}, "count", "spacing"),
        ("rosettes", {"count": "5", "size": "3 mm"}, "size", "at least"),
        ("rosettes", {"count": "1e9"}, "count", "between"),
        ("tips", {"family": "leaf", "effect": "shell"}, "effect", "another effect"),
        ("tips", {"opening": "5 kg"}, "opening", "weight"),
        ("tint", {"mass": "100 kg", "test_mass": "1 g", "test_drops": "500"}, "mass", "Weigh the colouring"),
        ("tint", {"test_drops": "lots"}, "test_drops", "number"),
        ("colours", {}, "rows", "Add at least 1"),
        ("colours", {"rows.0.colour": "#12"}, "rows.0.colour", "does not read"),
        ("colours", {"rows.0.mass": "heavy"}, "rows.0.mass", "weight"),
    ],
)
def test_problems_name_their_field_and_the_way_out(slug: str, texts: dict[str, str], field: str, says: str) -> None:
    named, message = problem(slug, texts)
    assert named == field and says in message
    assert not any(word in message.lower() for word in ("please", "sorry", "invalid", "oops"))


def test_every_two_tones_of_the_palette_can_be_compared() -> None:
    names = list(PALETTE)
    texts = {f"rows.{i}.colour": name for i, name in enumerate(names[:20])}
    assert len(next(t for t in calc.compute("colours", texts).tables if t["name"] == "apart")["rows"]) == 20 * 19 // 2


# --- the spacing of a practice row ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "kind, tip", [("shell", "open star 7 mm"), ("reverse shell", "open star 7 mm"), ("bead", "round 4 mm"), ("rope", "open star 6 mm")]
)
def test_the_spacing_of_a_practice_row_replaces_the_usual_one(kind: str, tip: str) -> None:
    """A row of 300 mm with 22 pieces has them 13.6 mm apart: 660 mm in 6 repeats of 110 mm take 8 each."""
    strip = {"piped": "30 cm", "pieces": "22"}
    slugs = [("row", {"kind": kind, "tip": tip, "side": "66 cm", "repeats": "6", **strip})]
    if kind != "rope":
        slugs.append(("shells", {"kind": kind, "tip": tip, "side": "66 cm", "repeats": "6", **strip}))
    for slug, texts in slugs:
        figures = calc.compute(slug, texts).figures
        assert figures["count" if slug == "row" else "shells"]["value"] == 48
        assert figures["pitch"]["value"] == pytest.approx(660 / 48)
    order = {"tiers.0.width": "20 cm", "tiers.0.side": "66 cm", "tiers.0.repeats": "6", "tiers.0.rows.0.kind": kind, "tiers.0.rows.0.tip": tip}
    order |= {"tiers.0.rows.0.place": "base", "measured.0.tip": tip, "measured.0.kind": kind, "measured.0.length": "30 cm", "measured.0.pieces": "22"}
    assert calc.compute("order", order).figures["count_1_1"]["value"] == 48
    other = order | {"measured.0.tip": f"{tip.rsplit(' ', 2)[0]} 9 mm", "measured.0.pieces": "20"}
    assert calc.compute("order", other).figures["count_1_1"]["value"] != 48  # a strip of another tip tells nothing


def test_shells_further_apart_are_longer_and_heavier() -> None:
    """A shell's head is as long as its pitch: 13.3 x 9.1 mm with 12 mm and with 10 mm of head, each with a tail of 5.6 mm."""
    wide, near = (value("shells", "mass", side="60 cm", repeats="1", piped="30 cm", pieces=pieces) for pieces in ("25", "30"))
    assert wide / 50 / (near / 60) == pytest.approx((12 / 6 + 5.6 / 12) / (10 / 6 + 5.6 / 12))


@pytest.mark.parametrize(
    "texts, field, words",
    [
        ({"pieces": "25"}, "piped", "or the number of its pieces"),
        ({"piped": "30 cm"}, "weighed", "or the number of its pieces"),
        ({"piped": "30 cm", "pieces": "300"}, "pieces", "Count them again"),
        ({"piped": "30 cm", "pieces": "3"}, "pieces", "Count them again"),
    ],
)
def test_a_strip_that_tells_no_spacing_is_said_at_its_field(texts: dict[str, str], field: str, words: str) -> None:
    for slug in ("shells", "row"):
        (problem,) = calc.compute(slug, {"side": "66 cm", "tip": "open star 7 mm", **({"kind": "shell"} if slug == "row" else {}), **texts}).problems
        assert problem["input"] == field and words in problem["message"]


def test_a_measured_strip_of_an_order_has_a_weight_or_a_number_of_pieces() -> None:
    strip = {"tiers.0.width": "20 cm", "measured.0.tip": "open star 7 mm", "measured.0.kind": "shell", "measured.0.length": "30 cm"}
    (problem,) = calc.compute("order", strip).problems
    assert problem["input"] == "measured.0.mass" and "how many pieces" in problem["message"]
    (problem,) = calc.compute("order", strip | {"measured.0.pieces": "300"}).problems
    assert problem["input"] == "measured.0.pieces"
