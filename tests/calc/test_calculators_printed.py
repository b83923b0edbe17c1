"""What goes on paper and in the car for an order: which sheet is made with what, which pages the job has, and each line that is taken along.

The order is that of test_calculators_order, and a cake of three tiers, 25, 20 and 15 cm, stacked at the venue.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS, order_sheets, practice_form
from calc.calculators.declare import parse
from calc.calculators.order_drawings import tier_drawing
from calc.calculators.order_form import plan_of
from calc.calculators.order_moving import load_list
from calc.calculators.order_schemes import _pinned_words
from calc.calculators.order_sheets import _circle_sizes, _circles, _practised, _tips, group_of, sheet_of
from calc.calculators.order_words import marking_table, marking_text, place_of, size_words, there_words
from calc.drawing.paper import Heading, Picture, Table
from calc.drawing.tilted import tilted_view
from calc.rows import KINDS
from calc.tips import Tip
from calc.units import Formatter, Problem
from tests.calc.test_calculators_order import ONE, asked, planned
from tests.calc.test_calculators_sums import answered, rows

SAY, US = Formatter(), Formatter("us")
THREE = {
    **{"tiers__0__width": "25 cm", "tiers__1__width": "20 cm", "tiers__2__name": "Top", "tiers__2__width": "15 cm", "stacked": "venue"},
    **{"tiers__2__rows__0__kind": "shell", "tiers__2__rows__0__place": "base"},
    **{"tiers__1__rows__0__kind": "shell", "tiers__1__rows__0__place": "base", "tiers__1__rows__0__tip": "open star 7 mm"},
}
SWAGS = {"tiers__1__rows__0__kind": "swag", "tiers__1__rows__0__place": "side"}
DAY = "Sat 16 October 2027, 18:00"

# --- in the car --------------------------------------------------------------------------------------------------------------


def test_what_goes_in_the_car_for_a_cake_stacked_there() -> None:
    """A box for each tier: its board and 5 cm more each way; ten dowels in the two lower tiers. The rod is as long as the tiers less 2 cm."""
    assert load_list(planned(**THREE), SAY) == (
        ("Box, 41 cm x 41 cm, 15.5 cm high", "Lower"),
        ("Box, 26 cm x 26 cm, 15.5 cm high", "Upper"),
        ("Box, 21 cm x 21 cm, 15.5 cm high", "Top"),
        ("10 dowels, cut and counted, and two spare", "in the tiers before the drive, if they stand firm"),
        ("Centre rod, 29.5 cm, and what drives it in", "once the tiers are stacked"),
        ("Two wide palette knives, a spirit level, clean gloves", "to stack the tiers"),
        (
            "Bag: cream, open star 7 mm, in a cool box",
            "piped at the venue: shell, open star 7 mm, cream on Top and shell, open star 7 mm, cream on Upper",
        ),
        ("Repair kit: one bag of each colour, small palette knife, cocktail sticks, damp cloth, scissors", "in a cool box"),
        ("Non-slip mat, thermometer, this list, the cutting guide, the list of allergens", "whoever receives it: 10 dowels, 3 boards in it"),
    )


def test_each_bag_for_the_venue_has_a_line() -> None:
    bags = [line for line in load_list(planned(**THREE, tiers__2__rows__0__colour="sage"), US) if line[0].startswith("Bag")]
    assert bags == [
        ("Bag: sage, open star 7 mm, in a cool box", "piped at the venue: shell, open star 7 mm, sage on Top"),
        ("Bag: cream, open star 7 mm, in a cool box", "piped at the venue: shell, open star 7 mm, cream on Upper"),
    ]
    words = [what for what, _ in load_list(planned(**THREE), US)]
    assert "Two wide offset spatulas, a spirit level, clean gloves" in words and words[0] == "Box, 16 1/8 in x 16 1/8 in, 6 1/8 in high"


def test_two_tiers_stacked_there_need_no_rod_and_one_nothing_of_the_kind() -> None:
    two = [what for what, _ in load_list(planned(stacked="venue"), SAY)]
    assert "4 dowels, cut and counted, and two spare" in two and not any("rod" in what for what in two)
    one = load_list(plan_of(parse(CALCULATORS["order"], ONE)), SAY)
    assert [use for _, use in one] == ["the whole cake", "in a cool box", "whoever receives it"]


def test_what_is_piped_there_says_so() -> None:
    assert [there_words(step) for step in planned(**THREE).steps if step.row.place == "base" and step.row.tier > 0] == [", at the venue"] * 2
    assert {there_words(step) for step in planned().steps} == {""}


# --- which sheet is made with what -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "name, group",
    [
        ("job", ""),
        ("shopping-list", "Buy"),
        ("timetable", "Buy"),
        ("baking-card", "Bake"),
        ("bag-card", "Colour and coat"),
        ("marking-strip-prick-lower", "Mark"),
        ("top-template-lower", "Mark"),
        ("cutter-circles", "Mark"),
        ("stacking-template-lower", "Mark"),
        ("bench-sheet", "Pipe"),
        ("tip-gauge", "Pipe"),
        ("box-label", "Deliver"),
        ("hand-out", "Serve"),
        ("cutting-guide-lower", "Serve"),
        ("quotation", "Customer"),
        ("practice-lines-and-curves", "Practise before"),
    ],
)
def test_a_sheet_stands_in_the_group_of_its_work(name: str, group: str) -> None:
    assert group_of(name) == group


def test_what_is_at_hand_comes_to_the_list_on_paper(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(order_sheets, "shop_sheet", lambda cake, typed, told, heading, paper: (told, heading, paper))
    cake, typed = planned(), asked()
    told: Any = sheet_of(typed, cake, 'shopping-list:{"bags": "2"}', "Letter")
    assert told == ('shopping-list:{"bags": "2"}', Heading("A cake", DAY), "Letter")
    plain: Any = sheet_of(typed, cake, "shopping-list", "A4")
    assert (plain[0], plain[2]) == ("", "A4")
    with pytest.raises(KeyError, match="there is no sheet called nothing"):
        sheet_of(typed, cake, "nothing", "A4")
    with pytest.raises(Problem) as found:
        sheet_of(typed, cake, "bag-card", "A5" * 20)
    assert (found.value.input, found.value.message) == ("paper", f"Paper is one of A4 and Letter, not {'A5' * 10}")


def test_each_row_is_practised_once_with_its_kind_and_tip(monkeypatch: pytest.MonkeyPatch) -> None:
    """Shells in two colours are one sheet, in the colour that is piped first; a scroll is as high as it was asked for and spans no repeat."""
    changes = {
        **{"tiers__0__rows__2__kind": "shell", "tiers__0__rows__2__place": "top", "tiers__0__rows__2__colour": "sage"},
        **{"tiers__1__rows__0__kind": "C scroll", "tiers__1__rows__0__place": "side", "tiers__1__rows__0__drop": "4 cm"},
        **{"tiers__0__rows__0__layers": "2"},
    }
    cake, typed = planned(**changes), asked(**changes)
    assert {name: row.spec.kind for name, row in _practised(cake).items()} == {
        "practice-c-scroll-open-star-4-5-mm": "C scroll",
        "practice-swag-petal-11-mm": "swag",
        "practice-shell-open-star-7-mm": "shell",
        "practice-leaf-leaf-6-mm": "leaf",
    }
    first = next(step.row for step in cake.steps if step.row.spec.kind == "shell")
    assert _practised(cake)["practice-shell-open-star-7-mm"] is first
    monkeypatch.setattr(order_sheets, "practice_sheet", lambda *told: told)
    made: dict[str, Any] = {name: sheet_of(typed, cake, name, "A4") for name in _practised(cake)}
    scroll, swag = made["practice-c-scroll-open-star-4-5-mm"], made["practice-swag-petal-11-mm"]
    assert (scroll[0].kind, scroll[0].drop_mm, scroll[1]) == ("C scroll", pytest.approx(40), 0.0)
    assert (swag[0].kind, swag[0].layers, swag[1]) == ("swag", 2, pytest.approx(660 / cake.tiers[0].division.repeats, abs=0.1))
    assert swag[0].drop_mm == cake.tiers[0].rows[0].drop_mm > 0 and made["practice-leaf-leaf-6-mm"][1] == 0.0
    assert [one[2:5] for one in made.values()] == [(Heading("A cake", DAY), "A4", "metric")] * 4


def test_a_stacking_template_shows_a_tier_and_the_one_on_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """Coated they are 26, 21 and 16 cm wide; the topmost carries nothing."""
    monkeypatch.setattr(order_sheets, "stacking_template", lambda *told: told)
    cake, typed = planned(**THREE), asked(**THREE)
    for name, widths in (("Lower", (260, 210)), ("Upper", (210, 160))):
        lower, upper, stand, heading, paper, called, units = sheet_of(typed, cake, f"stacking-template-{name.lower()}", "Letter")  # type: ignore[misc]
        assert (lower.width_mm, upper.width_mm) == pytest.approx(widths) and stand is cake.supports[("Lower", "Upper").index(name)]
        assert (heading, paper, called, units) == (Heading("A cake", DAY), "Letter", name, "metric")
    with pytest.raises(KeyError):
        sheet_of(typed, cake, "stacking-template-top", "A4")


def test_swags_on_one_circle_share_it() -> None:
    """Seven of 7.2 cm on 50.3 cm hang from the same cutter as the nine of 7.3 cm, but are narrower. A row under another is on its circle, and is told
    once for each kind."""
    both = planned(**SWAGS)
    assert _circle_sizes(both) == {(75.0, 73.3): ["Lower, 9 swags"], (75.0, 71.8): ["Upper, 7 swags"]}
    under = {"tiers__0__rows__2__kind": "ruffled swag", "tiers__0__rows__2__place": "under"}
    assert _circle_sizes(planned(**under)) == {(75.0, 73.3): ["Lower, 9 swags", "Lower, 9 ruffled swags"]}
    assert [circle.words for circle in _circles(planned(**under))] == ["Lower, 9 swags; Lower, 9 ruffled swags"]
    assert [(circle.diameter_mm, circle.width_mm) for circle in _circles(both)] == [(75.0, 73.3), (75.0, 71.8)]
    beads_first = {
        f"tiers__0__rows__{i}__{name}": text
        for i, kind, place in ((0, "bead", "top edge"), (1, "swag", "side"))
        for name, text in (("kind", kind), ("place", place))
    }
    assert _circle_sizes(planned(**beads_first)) == {(75.0, 73.3): ["Lower, 9 swags"]}
    twice = planned(tiers__0__rows__2__kind="swag", tiers__0__rows__2__place="over")
    assert _circle_sizes(twice) == {(75.0, 73.3): ["Lower, 9 swags"]}
    wide = planned(tiers__0__side="63.7 cm", tiers__0__repeats="7", cutters="9 cm")  # 9.1 cm with a cutter of 9: the piping covers 1 mm
    assert _circle_sizes(wide) == {(90.0, 90.0): ["Lower, 7 swags"]}


def test_tips_of_a_kind_stand_together_with_those_to_compare() -> None:
    """The tips of the cake first in each family, in the order of the bench, and of the table's others none twice."""
    found = _tips(planned(tiers__1__rows__0__tip="petal 9 mm", tiers__1__rows__0__kind="swag", tiers__1__rows__0__place="side"))
    petals = [(tip.opening_mm, words) for tip, words in found if tip.family == "petal"]
    assert sorted(petals[:2]) == [(9, "for the swag"), (11, "for the swag")] and all(not words for _, words in petals[2:]) and len(petals) > 3
    assert len({tip for tip, _ in found}) == len(found)
    assert [tip.family for tip, words in found if words] == ["petal", "petal", "open star", "leaf"]
    assert (Tip("round", 2), "") not in found  # no round tip pipes anything here


def test_the_page_before_the_job_says_what_is_in_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """The contents, two pages for the strip and one for the list: pages 2 and 3, and 4."""
    small = {
        "marking-strip-lower": lambda: SimpleNamespace(title="Strip", pages=("a", "b")),
        "shopping-list": lambda: SimpleNamespace(title="List", pages=("c",)),
    }
    told: list[Any] = []
    monkeypatch.setattr(order_sheets, "_makers", lambda typed, cake, paper: small)
    monkeypatch.setattr(order_sheets, "sheet_names", lambda cake: dict.fromkeys(("job", *small, "practice-x", "marking-strip-prick-lower"), ""))
    monkeypatch.setattr(order_sheets, "written_sheet", lambda *given: told.append(given) or SimpleNamespace(title="The job", pages=("front",)))
    monkeypatch.setattr(order_sheets, "pdf", lambda pages, about, parts: (pages, about, parts))
    typed = asked(colours__0__name="Moss", colours__0__look="#123456", maker__0__name="Pat", guests="40")
    made: Any = order_sheets._job(typed, planned(guests="40"), "Letter")
    pages, about, parts = made
    assert pages == ["front", "a", "b", "c"]
    assert [(part.title, part.pages, part.group) for part in parts] == [("The job", 1, ""), ("Strip", 2, "Mark"), ("List", 1, "Buy")]
    assert (about.title, about.author, about.subject) == ("The job: A cake", "Pat", f"A cake, ready {DAY}, for 40 guests")
    ((name, title, (contents, apart, picture), heading, paper, under),) = told
    assert (name, title, heading, paper) == ("job", "The job", Heading("A cake", DAY), "Letter")
    assert under == "4 pages. Print it at 100 %; then the strips and templates are to scale."
    assert isinstance(contents, Table) and contents.columns == ("Group", "Sheet", "Pages of this file") and contents.tick
    assert contents.rows == (("Mark", "Strip", "2 to 3"), ("Buy", "List", "4")) and contents.numeric == (2,)
    assert apart.paragraphs == ("Practice sheets, and the strips to prick through, are printed apart.",)
    assert isinstance(picture, Picture) and not picture.scaled and 80 <= picture.height_mm < 95  # it leaves room for some thirty lines above it
    moss = (("moss", "#123456"),)
    assert picture.scenes == (tilted_view(tuple(tier_drawing(tier, moss) for tier in planned(guests="40").tiers), 310.0),)  # 21 cm, and 5 cm round it


# --- marking, in words ----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "changes, lines",
    [
        ({}, (("Lower", "66 cm", "9", "7.2 cm", "1.2 cm", "7.5 cm", "3 cm"), ("Upper", "50.3 cm", "8", "6.1 cm", "1.2 cm", "none", ""))),
        (
            {"cutters": "", "tiers__0__rows__0__drop": "4 cm", "tiers__0__rows__0__below": "2 cm"},  # 66 over 7 are 9.4 cm, 9.1 straight across
            (("Lower", "66 cm", "7", "9.1 cm", "2 cm", "none", "4 cm"), ("Upper", "50.3 cm", "8", "6.1 cm", "1.2 cm", "none", "")),
        ),
        (
            {"tiers__0__rows__0__drop": "4.5 cm", "tiers__0__repeats": "9"},  # a drop of one's own is not the cutter's
            (("Lower", "66 cm", "9", "7.2 cm", "1.2 cm", "none", "4.5 cm"), ("Upper", "50.3 cm", "8", "6.1 cm", "1.2 cm", "none", "")),
        ),
    ],
)
def test_what_is_set_and_measured_to_mark_each_tier(changes: dict[str, str], lines: tuple[tuple[str, ...], ...]) -> None:
    heads, found = marking_table(planned(**changes), SAY)
    assert heads == ("Tier", "Round the side", "Repeats", "Dividers", "Joints below the top edge", "Cutter", "Drop") and found == lines


@pytest.mark.parametrize(
    "changes, words",
    [
        # 63 cm are exactly seven of 9 cm; six are 10.5 cm with a gap of 1.5
        ({"side": "63 cm", "repeats": "6", "cutter": "9 cm"}, "the 9 cm cutter leaves a gap of 1.5 cm at every joint; 7 repeats close it."),
        ({"side": "63.1 cm", "repeats": "6", "cutter": "9 cm"}, "at every joint; 8 repeats close it."),
        ({"repeats": "7", "cutter": "9 cm"}, "No cutter at hand fits: the 9 cm cutter leaves a gap of 4.2 mm at every joint; 8 repeats close it."),
        ({"side": "63.7 cm", "repeats": "7", "cutter": "9 cm"}, "The 9 cm cutter, rolled from joint to joint, drops 4.5 cm. "),
    ],
)
def test_a_cutter_that_is_too_small_says_how_many_close(changes: dict[str, str], words: str) -> None:
    assert words in marking_text(planned(**{f"tiers__0__{name}": text for name, text in changes.items()}).tiers[0], SAY)


def test_where_a_row_over_another_is() -> None:
    """On an edge, at the base, on the top and on the side each in its own words."""
    texts = {"r0": ("bead", "top edge"), "r1": ("line", "over"), "r2": ("line", "inside"), "r3": ("line", "over")}
    changes = {f"tiers__0__rows__{name[1]}__kind": kind for name, (kind, _) in texts.items()}
    changes |= {f"tiers__0__rows__{name[1]}__place": place for name, (_, place) in texts.items()}
    found = [place_of(row, SAY) for row in planned(**changes).tiers[0].rows]
    assert found[:2] == ["on the top edge", "over the bead on the top edge"]
    assert found[2].startswith("inside the top edge, ") and found[3] == f"over the line {found[2]}"
    side = planned(tiers__0__rows__1__kind="bead", tiers__0__rows__1__place="side", tiers__0__rows__2__kind="line", tiers__0__rows__2__place="over")
    bead, line = (place_of(row, SAY) for row in side.tiers[0].rows[1:])
    assert line == f"over the bead, {bead}" and bead.endswith(" below the top edge") and "joints" not in bead


def test_two_sizes_are_told_where_they_differ_by_half_a_millimetre() -> None:
    assert [" x " in size_words(200.0, length, SAY) for length in (199.5, 199.6, 200.0, 200.4, 200.5)] == [True, False, False, False, True]


def test_tiers_that_were_pinned_are_named_as_a_list() -> None:
    tiers = [SimpleNamespace(name=name, repeats=None, cutter_mm=None, joints_below_mm=None) for name in ("A", "B", "C", "D")]
    order: Any = SimpleNamespace(tiers=tiers)
    assert _pinned_words(order) == ""
    tiers[0].repeats, tiers[1].cutter_mm, tiers[3].joints_below_mm = 8, 75.0, 0.0
    assert _pinned_words(order) == "A, B and D: repeats and joints are chosen again."


# --- practice -----------------------------------------------------------------------------------------------------------------------------


def test_what_a_student_practises_line_by_line() -> None:
    """The easiest first; how the tip is held, the hand and what to look for are those of the kind."""
    found = answered("practice", {"exercises": "swags, shells"})
    assert [row[:2] for row in rows(found, "exercises")] == [["Shells", "open star 7 mm"], ["Swags", "petal 11 mm"]]
    shell = KINDS["shell"]
    assert rows(found, "exercises")[0][2:4] == [shell.held("open star"), shell.hand]
    assert (found.figures["exercises"]["text"], found.figures["tips"]["text"]) == ("2", "2")
    same = answered("practice", {"exercises": "shells, reverse shells"}).figures
    assert (same["exercises"]["value"], same["tips"]["value"]) == (
        2,
        len({row[1] for row in rows(answered("practice", {"exercises": "shells, reverse shells"}), "exercises")}),
    )
    wander = rows(answered("practice", {"exercises": "vermicelli"}), "exercises")
    assert wander[0][3].startswith("One line in short curls, ") and wander[0][3].endswith(" from pass to pass.")
    assert len(found.cautions) == 2 and "milk" in found.cautions[0]["text"]


def test_sheets_for_the_left_hand_are_mirrored_only_where_one_is_asked_for() -> None:
    right, left = ([one["name"] for one in answered("practice", {"exercises": "swags", "hand": hand}).sheets] for hand in ("right", "left"))
    assert right != left and len(right) == len(left) and any(name.endswith("-left") for name in left) and not any("left" in name for name in right)


def test_a_sheet_of_practice_is_drawn_for_its_reader(monkeypatch: pytest.MonkeyPatch) -> None:
    def drawn(exercises: Any, recipe: str, name: str, heading: Heading, paper: str, say: Formatter) -> Any:
        told = ([one.name for one in exercises], recipe, name, paper, say.units)
        return SimpleNamespace(pdf=lambda units: (*told, units))

    monkeypatch.setattr(practice_form, "student_sheet", drawn)
    made: Any = calc.sheet("practice", {"exercises": "swags, shells", "recipe": "plain", "units": "us"}, "hand-out", "Letter")
    assert made == (["Shells", "Swags"], "plain", "hand-out", "Letter", "us", "us")
