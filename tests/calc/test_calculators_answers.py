"""What a reader sees of each calculator for one worked example: its figures, tables and notes, and what is said at a field that cannot be so.

Figures are worked out by hand beside each test, from the tests of the rooms that compute them where a sum would be long. The whole order has a file
of its own.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

import calc
from calc.calculators import lesson_sheets, row_amounts
from calc.calculators.division_words import GAP_COVERED_MM, why
from calc.calculators.timetable_form import read_rows
from calc.colours import DEEPENING
from calc.division import Division, division_choices
from calc.drawing.paper import Heading, Paragraphs, Picture
from calc.drawing.paper import Table as PaperTable
from calc.drawing.scene import Group, Scene, Text
from calc.lesson import EXERCISES
from calc.units import Formatter


def answered(slug: str, **texts: str) -> Any:
    """The answer to what was typed; a group's field is written rows__0__tip."""
    answer = calc.compute(slug, {name.replace("__", "."): text for name, text in texts.items()})
    assert answer.problems == [], answer.problems
    return answer


def problem(slug: str, **texts: str) -> tuple[str, str]:
    """The field at which the one problem stands, and what it says."""
    (found,) = calc.compute(slug, {name.replace("__", "."): text for name, text in texts.items()}).problems
    return found["input"], found["message"]


def text(answer: Any, figure: str) -> str:
    return str(answer.figures[figure]["text"])


def table(answer: Any, name: str) -> Any:
    (found,) = [one for one in answer.tables if one["name"] == name]
    return found


def rows(answer: Any, name: str) -> list[list[str]]:
    return [[str(cell) for cell in row] for row in table(answer, name)["rows"]]


def right(answer: Any, name: str) -> list[str]:
    """The columns whose figures stand under each other, on the right."""
    return [column["label"] for column in table(answer, name)["columns"] if column["align"] == "right"]


def has(answer: Any, name: str) -> bool:
    return any(one["name"] == name for one in answer.tables)


def notes(answer: Any) -> str:
    return " ".join(note["text"] for note in answer.notes)


# --- make buttercream -----------------------------------------------------------------------------------------------------------


def test_batch_for_bags_in_hand_or_by_weight() -> None:
    """Two bags of 300 g are 600 g. 500 g of butter out of the 550 g in a recipe that makes 1112 g are ten elevenths of it: 1011 g."""
    bags = answered("batch", bags="2", bowl="4.8 l")
    assert text(bags, "mass") == "600 g" and "For 2 bags of 300 g; the mass typed is not used." in notes(bags)
    assert "A bowl of 4.8 l is filled to no more than 60 %, so make it in 1 go of 600 g." in notes(bags)
    in_hand = answered("batch", in_hand="500 g", ingredient="butter", recipe="swiss_meringue")
    assert text(in_hand, "mass") == "1.01 kg" and text(in_hand, "factor") == "0.91"
    assert "As much as 500 g of butter, unsalted makes; the mass typed is not used." in notes(in_hand)
    assert problem("batch", bags="1", in_hand="500 g", ingredient="butter") == (
        "in_hand",
        "Bags and an ingredient in hand each set the mass. Leave one of them empty",
    )
    assert text(answered("batch", mass="750 g"), "mass") == "750 g"


def test_batch_tells_temperatures_in_both_scales() -> None:
    """By 9/5 and 32: 20 to 23 °C are 68 to 73.4 °F, 18 to 21 °C 64.4 to 69.8 °F, and 25 °C are 77 °F."""
    found = answered("batch")
    assert [row[2] for row in rows(found, "textures")][:2] == ["20 to 23 °C (68 to 73 °F)", "18 to 21 °C (64 to 70 °F)"]
    assert "edges hold to about 25 °C (77 °F)." in notes(found)
    assert rows(answered("batch", units="us"), "textures")[0][2] == "68 to 73 °F (20 to 23 °C)"


@pytest.mark.parametrize(
    "recipe, months",
    [("plain", "7 days in the fridge, 2 months in the freezer"), ("flour_cooked", "4 days in the fridge, 1 month in the freezer")],
)
def test_batch_tells_how_long_it_keeps(recipe: str, months: str) -> None:
    assert f"Covered, by common practice: up to {months}." in notes(answered("batch", recipe=recipe))


def test_batch_tells_a_density_with_its_range_or_as_weighed() -> None:
    """106 g in 100 ml are 1.06 g/ml, without a range; by the table plain buttercream has one."""
    assert text(answered("batch", weighed_cup="106 g", cup="100 ml"), "density") == "1.06 g/ml"
    assert text(answered("batch"), "density") == "1.06 g/ml (0.94 g/ml to 1.16 g/ml)"


# --- fill and coat a tier -------------------------------------------------------------------------------------------------------


def test_coats_of_a_tier_with_a_dam_in_stripes() -> None:
    """15 cm round, 10 cm high, two fillings of 6 mm with a dam of 1 cm: the rings are 2 x 0.6 x pi (7.5^2 - 6.5^2) = 53 ml, what is inside
    2 x 0.6 x pi 6.5^2 = 159 ml. Crumb coat pi (7.7^2 10.2 - 7.5^2 10) = 133 ml, final coat pi (8^2 10.5 - 7.7^2 10.2) = 211 ml; all of them 556 ml.
    At 1.058 g/ml: 168.5, 56.2, 140.5 and 223.5 g, about 588 g on the cake; so rounded that they add up to it, they are 169, 56, 140 and 223 g. Six
    stripes and six grounds share 10.5 cm: 8.75 mm each."""
    found = answered("coats", dam="10 mm", style="striped")
    assert rows(found, "amounts") == [
        ["2 fillings", "6 mm", "159 ml", "169 g"],
        ["Dam", "1 cm wide", "53 ml", "56 g"],
        ["Crumb coat", "2 mm", "133 ml", "140 g"],
        ["Final coat", "3 mm", "211 ml", "223 g"],
        ["All of it", "", "556 ml", "588 g"],
    ]
    assert right(found, "amounts") == ["Thick", "Volume", "Weight"]
    assert text(found, "mass").startswith("588 g (")
    assert rows(found, "stripes") == [["Ground", "8.8 mm", "134 ml", "141 g"], ["Stripe", "8.8 mm", "78 ml", "82 g"]]
    assert right(found, "stripes") == ["Each is high", "Volume", "Weight"]


def test_what_goes_where_adds_up_to_what_is_on_the_cake() -> None:
    for width in ("15 cm", "18 cm", "20 cm"):
        for units in ("metric", "us"):
            found = answered("coats", width=width, units=units)
            assert text(found, "mass").startswith(f"{rows(found, 'amounts')[-1][-1]} ("), (width, units)


def test_coats_of_one_layer_have_no_filling_and_no_dam() -> None:
    found = answered("coats", layers="1")
    assert [row[0] for row in rows(found, "amounts")] == ["Crumb coat", "Final coat", "All of it"]
    assert "dam" not in found.figures and "dam" not in answered("coats").figures


def test_coats_with_another_filling_weigh_the_dam_alone() -> None:
    """The dam's 53 ml at 1.058 g/ml, and at the ends of the density, 0.943 and 1.160: 50 to 61 g. The coats weigh 364 g (245 g to 481 g) as they do
    without a filling, so that 420 g (295 g to 543 g) are on the cake."""
    found = answered("coats", dam="10 mm", filled_with="something else")
    assert text(found, "mass") == "420 g (295 g to 543 g)"
    assert rows(found, "amounts")[0] == ["2 fillings", "6 mm", "159 ml", "by its own recipe"]


# --- colours and bags -----------------------------------------------------------------------------------------------------------


def test_colours_add_what_stays_in_bags_and_the_margin() -> None:
    """Russet: 80 g and 30 g from two bags, 20 g left in each, a tenth to spare: 110 + 40 + 11 = 161 g. Cream: 150 g, a bag's 20 g and 3 g that
    stay in the bowl of the 100 g spread with a knife, and 15 g: 188 g. With a coupler one bag does for russet's two tips: three bags, not four."""
    lines = "russet, petal 11 mm, 80 g; cream, 100 g; gran, round 2 mm, 20 g; russet, round 2 mm, 30 g; cream, petal 11 mm, 50 g"
    found = answered("colours", rows=lines)
    assert rows(found, "amounts") == [
        ["cream", "150 g", "23 g", "15 g", "188 g"],
        ["russet", "110 g", "40 g", "11 g", "161 g"],
        ["gran", "20 g", "20 g", "2 g", "42 g"],
    ]
    assert rows(found, "bags")[0] == ["1", "russet", "petal 11 mm", "80 g", "1"] and right(found, "bags") == ["Bag", "Holds in all", "Fills"]
    assert rows(found, "coupled") == [
        ["1", "russet", "petal 11 mm, round 2 mm", "110 g", "1"],
        ["2", "gran", "round 2 mm", "20 g", "1"],
        ["3", "cream", "petal 11 mm", "50 g", "1"],
    ]
    assert "The petal 11 mm tip is needed in russet and cream: have 2 of them" in notes(found)
    assert "Gran: no value is known for that name" in notes(found)


def test_colours_with_a_quarter_to_spare_and_nothing_left_in_the_bag() -> None:
    """100 g and a quarter are 125 g; 80 g are 100 g."""
    found = answered("colours", rows="sage, petal 11 mm, 80 g; blush, petal 11 mm, 100 g", margin="25 %", bag_loss="0 g")
    assert rows(found, "amounts") == [["blush", "100 g", "0 g", "25 g", "125 g"], ["sage", "80 g", "0 g", "20 g", "100 g"]]


def test_colours_that_only_some_guests_tell_apart() -> None:
    """Blush and peach differ by 10.3 at full sight, and by 2 to a guest without blue receptors. Sage and blush stay apart for everyone, by 7.3."""
    assert "look nearly alike to a guest" not in notes(answered("colours", rows="sage, 80 g; blush, 100 g"))
    assert "look nearly alike to a guest" in notes(answered("colours", rows="blush, 80 g; peach, 100 g"))


# --- divide a side --------------------------------------------------------------------------------------------------------------


def test_division_of_a_round_by_hand() -> None:
    """66 cm in 8 parts are 8.25 cm along the side. Straight across it is 2 r sin(180/8) with r = 66/2 pi: 8.04 cm; eight steps of 8 cm fall
    3.4 mm short."""
    found = answered("division", side="66 cm", repeats="8")
    assert (text(found, "pitch"), text(found, "dividers"), text(found, "closing_error")) == ("8.3 cm", "8 cm", "3.4 mm short")
    assert found.figures["dividers"]["value"] == pytest.approx(660 / math.pi * math.sin(math.pi / 8))
    assert "end 3.4 mm before the start" in notes(found)
    over = answered("division", side="66.3 cm", repeats="12")  # 54.6 mm, set to 55
    assert text(over, "closing_error") == "4.7 mm over" and "end 4.7 mm past the start" in notes(over)
    assert answered("division", side="66 cm", target="8 cm").figures["repeats"]["value"] == 8
    assert problem("division", side="66 cm")[0] == "repeats"


def test_division_of_an_oval_differs_from_step_to_step() -> None:
    """An oval of 20 by 30 cm is 79.3 cm round: 9.9 cm in each of eight parts, less straight across, and least where it bends most."""
    found = answered("division", shape="oval", width="20 cm", length="30 cm", repeats="8")
    assert [row[0] for row in rows(found, "dividers")] == ["1", "2 and 3", "4 and 5", "6 and 7", "8"] and right(found, "dividers") == [
        "Set the dividers to"
    ]
    assert "prick every 9.9 cm" in notes(found) and "dividers" not in found.figures
    square = answered("division", shape="square", width="20 cm", repeats="4")
    assert (text(square, "dividers"), text(square, "closing_error")) == ("20 cm", "none")


def test_division_tells_how_far_apart_to_prick() -> None:
    """79.6 cm in ten parts are 7.96 cm, told as 8."""
    assert "prick every 8 cm;" in notes(answered("division", shape="oval", side="79.6 cm", width="20 cm", length="30 cm", repeats="10"))


def test_division_where_the_dividers_would_be_as_wide_as_the_tier() -> None:
    """Two joints of an oval lie opposite each other: dividers of that width cannot step round it, so that no closing error is told."""
    found = answered("division", shape="oval", width="20 cm", length="21 cm", repeats="2")
    assert "closing_error" not in found.figures and "dividers" in found.figures


def a_way(**changes: Any) -> Division:
    """Eight repeats of 8.25 cm for which and against which nothing speaks, with changes."""
    plain = {
        "points": (("shallow", 0.0),),
        "also": (),
        "reasons": (),
        "wanted_drop_mm": None,
        "wanted_width_mm": None,
        "cutter_mm": None,
        "gap_mm": 0.0,
    }
    return replace(next(way for way in division_choices(660.0, (90.0,)) if way.repeats == 8), **{**plain, **changes})


def test_a_gap_that_the_piping_just_covers_is_covered() -> None:
    gap = float(GAP_COVERED_MM)
    words = f"the 9 cm cutter closes except for {Formatter().length(gap)}, which the piping covers"
    assert words in why(a_way(cutter_mm=90.0, gap_mm=gap), Formatter(), is_first=True)
    assert "closes" not in why(a_way(cutter_mm=90.0, gap_mm=gap + 0.1), Formatter(), is_first=True)


def test_pieces_are_spoken_of_only_where_there_are_some() -> None:
    assert "meet the joints" not in why(a_way(piece_stretch_percent=0.0), Formatter(), is_first=True)
    assert "pieces meet the joints" in why(a_way(piece_stretch_percent=0.0, points=(("pieces", 0.0),)), Formatter(), is_first=True)


def test_what_speaks_most_against_a_way_comes_first() -> None:
    """Beads stretched by 6 % weigh a fifth (a thirtieth of a point for each per cent), less than the half that a narrow swag does; by 21 % more."""
    slight, strong = (why(a_way(points=(("narrow", 0.5), ("shallow", 0.0)), also=(("beads", by),)), Formatter()) for by in (6.0, 21.0))
    assert slight.index("narrow") < slight.index("beads stretched by 6 %") and strong.index("beads stretched by 21 %") < strong.index("narrow")


# --- what is in the kitchen -------------------------------------------------------------------------------------------------------


def test_kitchen_compares_what_is_there_with_what_is_usual() -> None:
    """A 15 cm tin is 16 cm coated and 50.3 cm round: seven swags of 7.2 cm for a cutter of 7.5. Its board shows 5 cm round 16: 26 cm. 27 shells on
    30 cm are 11.1 mm apart, and an open star of 7 mm makes one in 11.2. 1.5 kg of a recipe of 750 g is twice of each."""
    found = answered(
        "kitchen", tips__0__tip="petal 11 mm", tins="15, 20 cm", cutters="7.5 cm, 9 cm", boards="25 cm, 30 cm",
        measured__0__kind="shell", measured__0__tip="open star 7 mm", measured__0__length="30 cm", measured__0__mass="21 g", measured__0__pieces="27",
        measured__1__kind="line", measured__1__tip="round 2 mm", measured__1__length="1 m", measured__1__mass="4 g",
        recipes__0__name="Mine", recipes__0__parts__0__ingredient="butter", recipes__0__parts__0__mass="250 g",
        recipes__0__parts__1__ingredient="icing_sugar", recipes__0__parts__1__mass="500 g",
        recipes__1__name="Twice", recipes__1__made="1.5 kg", recipes__1__parts__0__ingredient="butter", recipes__1__parts__0__mass="250 g",
        recipes__1__parts__1__ingredient="icing_sugar", recipes__1__parts__1__mass="500 g",
    )  # fmt: skip
    assert rows(found, "cutters")[:2] == [["15 cm", "7.5 cm", "7", "7.2 cm", "2.7 cm"], ["15 cm", "9 cm", "6", "8.4 cm", "2.9 cm"]]
    assert rows(found, "boards")[0] == ["15 cm", "26 cm", "25 cm"]
    assert rows(found, "strips") == [
        ["open star 7 mm", "shell", "one in 1.1 cm", "one in 1.1 cm", "as usual"],
        ["round 2 mm", "line", "4 g a metre", "3.4 g a metre", "as the estimate has it"],
    ]
    assert rows(found, "recipe_0") == [["butter, unsalted", "250 g", "33.3 %"], ["icing sugar", "500 g", "66.7 %"]]
    assert rows(found, "recipe_1") == [["butter, unsalted", "500 g", "33.3 %"], ["icing sugar", "1 kg", "66.7 %"]]


def test_kitchen_scales_a_recipe_to_the_tenth_of_a_gram() -> None:
    """A third of a recipe of 250 g and 500 g: 83.3 g and 166.7 g in 250 g."""
    found = answered(
        "kitchen", recipes__0__name="Third", recipes__0__made="250 g", recipes__0__parts__0__ingredient="salt",
        recipes__0__parts__0__mass="2.5 g", recipes__0__parts__1__ingredient="icing_sugar", recipes__0__parts__1__mass="747.5 g",
    )  # fmt: skip
    assert rows(found, "recipe_0") == [["fine salt", "0.83 g", "0.3 %"], ["icing sugar", "249 g", "99.7 %"]]


def test_kitchen_says_what_a_tip_pipes_at_a_usual_size() -> None:
    """From half to twice the opening that a row begins with: a rosette begins with 5 mm, so that closed stars of 3 to 10 mm pipe it, and
    13 mm does not."""
    for opening, is_usual in (("3", True), ("10", True), ("13", False)):
        made = rows(answered("kitchen", tips__0__tip=f"closed star {opening} mm"), "tips")[0][1]
        assert ("rosettes" in made.split(", ")) is is_usual, (opening, made)


# --- a lesson -----------------------------------------------------------------------------------------------------------------------


def test_lesson_for_nine_at_three_tables() -> None:
    """Nine at tables of four take three tables of three, with a turntable for two of them: two at each. Ten minutes of welcome, 8 of showing, 20 of
    practice for each of three exercises, a break of 15 min and 11 min to clear are the two hours."""
    found = answered("lesson", students="9", room="100", tutor="no")
    assert rows(found, "tables") == [["1", "3", "570 g", "2"], ["2", "3", "570 g", "2"], ["3", "3", "570 g", "2"]]
    assert right(found, "tables") == ["Seats", "Buttercream", "Turntables"]
    assert right(found, "exercises") == ["One sheet", "Times over", "Buttercream"]
    assert rows(found, "plan")[0] == ["0 min", "10 min", "Welcome, wash hands, set out"] and right(found, "plan") == ["From", "Takes"]
    assert right(found, "bags") == ["Buttercream", "Filled"]
    assert table(found, "table_kits")["columns"][2]["label"] == "All 3"
    assert (text(found, "cost"), text(found, "cost_each")) == ("100.00", "11.11") and right(found, "cost") == ["Amount"]


def test_lesson_at_one_table_says_so_and_asks_for_costs() -> None:
    found = answered("lesson", students="4", tutor="no")
    assert table(found, "table_kits")["columns"][2]["label"] == "In all"
    assert not has(found, "cost") and "to see what the class costs a head" in notes(found)


def test_lesson_costs_what_its_packs_cost() -> None:
    """Eight students and the tutor take 547 g of butter: three packs of 250 g at 2.50, 7.50, a head 0.94."""
    found = answered("lesson", tutor="yes", students="8", packs__0__name="butter", packs__0__mass="250 g", packs__0__price="2.50")
    assert rows(found, "shopping")[0][1:3] == ["547 g", "3 of 250 g"] and (text(found, "cost"), text(found, "cost_each")) == ("7.50", "0.94")


class Written(list[Any]):
    """Stands in for what writes a sheet, and keeps its title and its blocks."""

    def __call__(self, name: str, title: str, blocks: Any, *rest: Any) -> Any:
        self.append((title, blocks))
        return name


@pytest.mark.parametrize("left, title", [(False, "What we practise"), (True, "What we practise, for the left hand")])
def test_hand_out_is_boxed_where_it_warns_and_drawn_as_it_fits(left: bool, title: str, monkeypatch: pytest.MonkeyPatch) -> None:
    written = Written()
    monkeypatch.setattr(lesson_sheets, "written_sheet", written)
    lesson_sheets.hand_out([EXERCISES["shells"]], "plain", left, Heading(), "A4", Formatter())
    ((found, blocks),) = written
    warned = {block.title: block.boxed for block in blocks if isinstance(block, Paragraphs)}
    assert found == title and warned["Who must not touch it"] and warned["Cautions"] and not warned["Shells, open star 7 mm"]
    assert [block.scaled for block in blocks if isinstance(block, Picture)] == [False]


def test_words_of_a_drawing_in_the_mirror_can_still_be_read() -> None:
    """A word at 30 of a drawing from 10 to 110 wide comes to stand at 90, and runs the other way from there: turned twice it reads as before."""
    scene = Scene("x", "X", 10.0, 0.0, 100.0, 50.0, (Text(30.0, 5.0, "tip"), Group((Text(30.0, 5.0, "in a group", anchor="middle"),))))
    (mirror,) = lesson_sheets.turned_round(scene).items
    assert isinstance(mirror, Group) and mirror.matrix == (-1.0, 0.0, 0.0, 1.0, 120.0, 0.0)  # x becomes 120 - x
    word, group = mirror.items
    assert isinstance(word, Group) and word.matrix == (-1.0, 0.0, 0.0, 1.0, 60.0, 0.0) and word.items[0].anchor == "end"  # 60 - x about 30
    assert isinstance(group, Group) and group.items[0].items[0].anchor == "middle"


@pytest.mark.parametrize("exercises, most", [("shells", 1), ("shells, swags", 3), ("shells, swags, strings", 5)])
def test_lesson_has_a_break_between_two_things_at_most(exercises: str, most: int) -> None:
    """Each exercise is shown and practised: between two things that are done there is room for one break."""
    field, message = problem("lesson", exercises=exercises, breaks="6", minutes="10 h")
    assert field == "breaks" and f"{most} at most" in message


# --- portions -----------------------------------------------------------------------------------------------------------------------


def test_portions_of_a_round_by_hand() -> None:
    """A 20 cm top has 314 cm2, 25 slices of 12.5 cm2. Rings of 5 cm: 18 round the edge (75 % of the area) and 6 in the core."""
    found = answered("portions", width="20 cm", height="10 cm")
    assert (text(found, "portions"), text(found, "area_bound"), text(found, "slice_volume")) == ("24", "25", "125 ml")
    assert "None is a whole rectangle: they have the area of the slice" in notes(found)
    assert [row[0] for row in rows(found, "cuts")] == ["Grid", "Strips", "Rings", "Wedges"]


def test_portions_of_a_square_have_no_note_on_shapes_and_no_rings() -> None:
    """Eight across, four deep: 32 whole rectangles of 25 by 50 mm, on two levels 64."""
    found = answered("portions", shape="square", width="20 cm", height="20 cm")
    assert (text(found, "portions"), text(found, "rectangles")) == ("64", "64") and "equal by area" not in notes(found)
    assert [row[0] for row in rows(found, "cuts")] == ["Grid", "Strips", "Wedges"]


def test_portions_by_strips_say_how_many_are_whole() -> None:
    """Strips 5 cm deep across a heart: some pieces lie wholly inside it, and the note counts them."""
    found = answered("portions", shape="heart", width="25 cm")
    whole = found.figures["rectangles"]["value"]
    assert 1 < whole < found.figures["portions"]["value"] and f"{whole} are whole rectangles; the others have" in notes(found)


@pytest.mark.parametrize(
    "slice_, words", [("25 x 50 mm", "2 are whole rectangles; the others have"), ("40 x 50 mm", "1 is a whole rectangle; the others have")]
)
def test_portions_of_a_small_heart_say_which_are_whole(slice_: str, words: str) -> None:
    """In the lobes of a 13 cm heart there is room for two whole slices of 25 by 50 mm, one either side, or one of 40 by 50 across the middle."""
    assert words in notes(answered("portions", shape="heart", width="13 cm", slice=slice_))


def test_a_slice_is_from_two_centimetres_to_thirty() -> None:
    """30 by 2 cm are 60 cm2; a millimetre more, or a millimetre less, is no slice."""
    assert text(answered("portions", width="40 cm", slice="300 x 20 mm"), "slice_area") == "60 cm²"
    for slice_ in ("301 x 25 mm", "25 x 19 mm"):
        field, message = problem("portions", width="40 cm", slice=slice_)
        assert field == "slice" and message.startswith("Slice must be between 2 cm and 30 cm each way")


def test_two_sizes_in_one_field_are_a_rectangle_or_a_square_of_that_size() -> None:
    """20 x 20 cm is a square of 20; 20 x 30 is none, and a heart has one size whatever two are written."""
    assert text(answered("portions", shape="square", width="20 x 20 cm"), "portions") == "32"
    assert text(answered("portions", width="20 x 30 cm"), "portions") == "48"
    for shape, width in (("square", "20 x 30 cm"), ("heart", "20 x 20 cm")):
        field, message = problem("portions", shape=shape, width=width)
        assert field == "width" and "has two sizes" in message


def test_no_slice_comes_out_of_a_top_smaller_than_it() -> None:
    assert problem("portions", width="10 cm", slice="100 x 100 mm") == (
        "slice",
        "A slice of 10 cm x 10 cm is larger than this top. Make the slice smaller or the tin wider",
    )


# --- price ----------------------------------------------------------------------------------------------------------------------------


def test_a_margin_on_the_price_ends_at_95_percent_and_a_markup_does_not() -> None:
    """The usual cake costs 38 for ingredients, 8 h at 16, 7 for packaging, and 15 % overhead on 173: 198.95. A markup of 96 % makes it 389.94; 95 %
    of the price as profit makes it twenty times the cost, 3979."""
    assert text(answered("price", margin="96 %", margin_of="cost"), "price") == "389.94"
    assert text(answered("price", margin="95 %"), "price") == "3979.00"
    assert problem("price", margin="96 %")[0] == "margin"


# --- any row, shells, strings ---------------------------------------------------------------------------------------------------------


def test_any_row_that_hangs() -> None:
    """Eight swags round 66 cm are 8.25 cm wide. A petal of 11 mm lays a line 8.8 mm broad; 3 cm deep, the row covers 3.9 cm."""
    found = answered("row", kind="swag", side="66 cm", repeats="8", drop="3 cm")
    assert (text(found, "width"), text(found, "band"), found.figures["count"]["label"]) == ("8.3 cm", "3.9 cm", "Pieces of the line")
    assert problem("row", kind="swag", side="66 cm")[0] == "repeats"
    assert problem("row", kind="swag", side="66 cm", repeats="8")[0] == "drop"
    assert text(answered("row", kind="swag", side="66 cm", repeats="10", drop="19.8 cm"), "width") == "6.6 cm"
    assert problem("row", kind="swag", side="66 cm", repeats="10", drop="19.9 cm") == (
        "drop",
        "Drop must be at most three times the width, 19.8 cm for 10 repeats. Make it shallower, or use fewer repeats",
    )


def test_any_row_that_runs_on_has_no_drop() -> None:
    """A ruched border is as broad as the line it is made of, whatever is typed as a drop."""
    plain, dropped = answered("row", kind="ruched border", side="66 cm"), answered("row", kind="ruched border", side="66 cm", drop="3 cm")
    assert text(plain, "band") == text(dropped, "band") == "8.9 mm" and "count" not in plain.figures
    assert answered("row", kind="shell", tip="open star 7 mm", side="66 cm").figures["count"]["label"] == "How many"


def test_a_scroll_rises_as_well_and_covers_only_itself() -> None:
    """A scroll's drop is its whole height, from crest to trough: it is not added once more below."""
    found = answered("row", kind="S scroll", tip="round 3 mm", side="66 cm", repeats="8", drop="3 cm")
    assert found.figures["band"]["value"] < 1.5 * 30


def test_shells_that_meet_the_joints() -> None:
    """An open star of 7 mm makes one in 11.2 mm: 59 on 66 cm. In eight repeats 7 each, 56 in all, 11.8 mm apart and 5.2 % longer; six, eight or nine
    stretch by 22.8, -7.9 and -18.2 %, ten would be squeezed by over 30 %, twice what shows."""
    alone = answered("shells", side="66 cm")
    assert text(alone, "shells") == "59" and [row[0] for row in rows(alone, "others")] == ["57", "58", "60", "61"]
    found = answered("shells", side="66 cm", repeats="8")
    assert (text(found, "shells"), text(found, "stretch")) == ("56", "5.2 %")
    assert rows(found, "others") == [["6", "48", "1.4 cm", "22.8 %"], ["8", "64", "1.03 cm", "-7.9 %"], ["9", "72", "9.2 mm", "-18.2 %"]]
    nine = answered("shells", side="66 cm", repeats="8", per_swag="9")
    assert [row[0] for row in rows(nine, "others")] == ["7", "8", "10"]  # -26.3 % still; with eleven -33 %


def test_shells_that_no_tip_pipes() -> None:
    field, message = problem("shells", side="66 cm", repeats="200", per_swag="10")
    assert field == "per_swag" and message.startswith("2000 pieces on 66 cm would be 0.33 mm apart")
    field, message = problem("shells", side="66 cm", repeats="8", per_swag="1")  # one of 83 mm, where the tip usually makes 11
    assert field == "per_swag" and "take more of them, about 59 in all" in message
    field, message = problem("shells", side="6 m", repeats="50", per_swag="120")  # 1 mm
    assert "take fewer of them, about 536 in all" in message


def drawn(answer: Any, name: str) -> tuple[float, ...]:
    """Where a drawing begins, its width and its height, as its SVG says [mm]."""
    (found,) = [one for one in answer.drawings if one["name"] == name]
    return tuple(float(number) for number in str(found["svg"]).split('viewBox="')[1].split('"')[0].split())


def test_a_piece_of_a_row_is_drawn_to_scale() -> None:
    """Ten shells of 660 / 59 mm are 111.9 mm. The drawing is two and a half times as high as a shell stands out."""
    out = answered("row", kind="shell", tip="open star 7 mm", side="66 cm").figures["stands_out"]["value"]
    _, _, width, height = drawn(answered("shells", side="66 cm"), "row")
    assert width == pytest.approx(10 * 660 / 59, abs=0.01) and height == pytest.approx(2.5 * out, abs=0.01)


def test_two_repeats_of_strings_are_drawn_from_joint_to_joint() -> None:
    """Eight repeats round 66 cm are 82.5 mm: the third and the fourth of a row, from 165 mm on, and 2 cm more than the drop in height."""
    assert drawn(answered("strings", side="66 cm"), "row") == pytest.approx((165.0, 0.0, 165.0, 50.0))


def test_strings_are_drawn_as_wide_as_they_are(monkeypatch: pytest.MonkeyPatch) -> None:
    """A drawing lays its row round three times what it shows: where two repeats of 82.5 mm are shown, six of them go round."""
    shown: list[tuple[int, float]] = []
    monkeypatch.setattr(row_amounts, "draw", lambda answer, row, wide_mm, *rest: shown.append((row.repeats, wide_mm)))
    answered("strings", side="66 cm")
    assert shown == [(6, pytest.approx(2 * 82.5))]


def test_strings_that_hang_in_each_other() -> None:
    """Three strings share 3 cm: 3, 2 and 1 cm. Eight repeats of three are 24."""
    found = answered("strings", side="66 cm", loops="3")
    assert [row[:2] for row in rows(found, "loops")] == [["1", "3 cm"], ["2", "2 cm"], ["3", "1 cm"]] and text(found, "strings") == "24"
    assert not has(answered("strings", side="66 cm"), "loops")


# --- which tins -------------------------------------------------------------------------------------------------------------------------


def test_stack_for_36_guests() -> None:
    """A 20 cm round gives 24, a 15 cm one 13: 37, one more than wanted, with a step of 5 cm. One of 25 cm gives 38."""
    found = answered("stack", guests="36")
    assert text(found, "tiers") == "20 cm + 15 cm" and rows(found, "tiers")[0][:4] == ["1", "20 cm", "24", "rings"]
    assert rows(found, "stacks")[:2] == [["20 cm + 15 cm", "2", "37", "1", "5 cm"], ["25 cm", "1", "38", "2", "none"]]
    assert right(found, "stacks") == ["Tiers", "Portions", "Over the guests"]
    assert "cut on" not in notes(found) and "cut on 2 levels" in notes(answered("stack", guests="36", height="20 cm"))


def test_stack_of_tins_that_hold_more_than_their_names_say() -> None:
    """A 25 cm round, 10 cm deep, holds 4.91 l. One that holds 5.5 l is wider by the root of 5.5 / 4.91: 5.8 %; the steps grow with it, 5.3 cm.
    The tins keep their names."""
    found = answered("stack", tins="15, 20, 25 cm", holds="5.5 l", deep="10 cm", guests="30")
    assert "the tins are 5.9 % wider than their names say" in notes(found)
    assert [row[0] for row in rows(found, "stacks")] == ["25 cm", "20 cm + 15 cm"] and rows(found, "stacks")[1][4] == "5.3 cm"


def test_stack_of_hearts_as_full_as_the_widest_is() -> None:
    """A heart of 25 cm and 10 cm deep that holds 4.5 l has 450 cm2 of 625: 72 % of its square. It keeps its width."""
    found = answered("stack", shape="heart", tins="15, 20, 25 cm", holds="4.5 l", deep="10 cm", guests="30")
    assert "the hearts' fullness is 72 %" in notes(found) and "wider than their names say" not in notes(found)


@pytest.mark.parametrize(
    "asked, field, words",
    [
        ({"tins": "15, 16 cm", "tier_count": "2"}, "tier_count", "No 2 of these tins can stand on each other with steps of 5 cm to 10 cm."),
        ({"tins": "15, 16 cm", "keep_top": "yes"}, "tins", "No 2 of these tins can stand on each other"),
        ({"tins": "6 cm", "slice": "100 x 100 mm"}, "slice", "No slice of 10 cm x 10 cm comes out of these tins."),
        ({"tins": "15, 20 x 30 cm"}, "tins", "a round tin has one length, and “20 x 30 cm” does not read as that"),
        ({"shape": "oval", "tins": "15; 20 x 30 cm"}, "tins", "an oval tin has two lengths, and “15 cm” does not read as that"),
        ({"tins": "104 cm"}, "tins", "must each be between 5 cm and 100 cm, not 104 cm"),
        ({"tins": ", ".join(["20"] * 20) + " and 20 cm"}, "tins", "Tins you have is a list of up to 20"),
    ],
)
def test_stack_says_what_cannot_be(asked: dict[str, str], field: str, words: str) -> None:
    found = problem("stack", **asked)
    assert found[0] == field and words in found[1]


def test_stack_of_three_steps_tells_the_least_and_the_most() -> None:
    """Tins of 10, 15.4, 21.3 and 27.9 cm: steps of 5.4, 5.9 and 6.6 cm."""
    found = answered("stack", tins="10, 15.4, 21.3, 27.9 cm", tier_count="4", guests="60")
    assert rows(found, "stacks")[0][4] == "5.4 cm to 6.6 cm"
    two = answered("stack", tins="10, 15.4, 21.3 cm", tier_count="3", guests="30")
    assert rows(two, "stacks")[0][4] == "5.4 cm and 5.9 cm"


# --- boards and supports ---------------------------------------------------------------------------------------------------------------


def test_supports_tier_by_tier() -> None:
    """20 cm and a coat of 5 mm are 21 cm; a board that shows 5 cm is 31. Four dowels carry 15 cm; each is as long as 10.5 cm."""
    found = answered("supports")
    assert [row[:4] for row in rows(found, "supports")] == [["1, 20 cm round", "31 cm", "4", "10.5 cm"], ["2, 15 cm round", "16 cm", "none", ""]]
    assert rows(found, "supports")[1][5:] == ["nothing", "one person"]
    assert (text(found, "board"), text(found, "board_2"), text(found, "dowels")) == ("31 cm", "16 cm", "4")
    assert [sheet["name"] for sheet in found.sheets] == ["stacking-template-1"]
    assert calc.sheet("supports", {}, "stacking-template-1").startswith(b"%PDF")
    with pytest.raises(KeyError):
        calc.sheet("supports", {}, "stacking-template-0")


def test_supports_of_tiers_with_two_sizes() -> None:
    """30 x 20 cm, coat and border: 41 x 31 cm. Five dowels carry 20 cm: four, and one for the 5 cm beyond 15."""
    found = answered("supports", tiers="30 x 20 x 10 cm rectangle; 20 x 15 x 10 cm oval")
    assert [row[:3] for row in rows(found, "supports")] == [
        ["1, 30 cm x 20 cm rectangle", "41 cm x 31 cm", "5"],
        ["2, 20 cm x 15 cm oval", "21 cm x 16 cm", "none"],
    ]
    assert text(answered("supports", tiers="50 x 5 x 10 cm oval"), "board") == "61 cm"  # ten times as long as wide, and no more
    assert "at most ten times" in problem("supports", tiers="51 x 5 x 10 cm oval")[1]


@pytest.mark.parametrize(
    "tiers, words",
    [
        ("", "Tiers is empty."),
        ("20 cm round", "Tier 1 is width x height and a shape, and “20 cm round” does not read as that"),
        ("twenty centimetres wide and ten high", "“twenty centimetres wide and te” does not read as that"),  # its first thirty characters
        ("30 x 10 cm rectangle", "Tier 1 is width x length x height and a shape"),
        ("20 x 1.4 cm", "Tier 1: the height must be between 1.5 cm and 60 cm, not 1.4 cm"),
        ("3.9 x 10 cm", "Tier 1: the width must be between 4 cm and 100 cm"),
        ("15 x 10 cm; 20 x 10 cm", "Tier 2 is wider than tier 1 under it (20 cm on 15 cm)"),
    ],
)
def test_supports_says_which_tier_cannot_be(tiers: str, words: str) -> None:
    field, message = problem("supports", tiers=tiers)
    assert field == "tiers" and words in message


def test_supports_takes_a_low_tier_and_one_whose_fillings_are_as_high_as_it() -> None:
    assert text(answered("supports", tiers="20 x 1.5 cm"), "height") == "2 cm"  # 15 mm and a coat of 5
    field, message = problem("supports", tiers="20 x 10 cm; 15 x 2 cm", filling="20 mm")
    assert field == "filling" and "less than tier 2 is high (2 cm)" in message


# --- swags ------------------------------------------------------------------------------------------------------------------------------


def test_swags_with_two_cutters() -> None:
    """Nine of 7.3 cm for the 7.5 cm cutter, eight of 8.3 cm for the 9 cm one. The circle of 3.75 cm radius drops r - root(r2 - w2/4) = 3 cm."""
    found = answered("swags", side="66 cm", cutter="9 cm, 7.5 cm")
    assert [row[:4] for row in rows(found, "cutters")] == [["7.5 cm", "9", "7.3 cm", "3 cm"], ["9 cm", "8", "8.3 cm", "2.7 cm"]]
    assert right(found, "cutters") == ["Cutter", "Repeats", "Width", "Drop"]
    assert found.figures["drop"]["value"] == pytest.approx(37.5 - math.sqrt(37.5**2 - (660 / 9 / 2) ** 2))
    assert "more than half the width" not in notes(found)


def test_swags_deeper_than_half_their_width_turn_in() -> None:
    """Eight of 8.25 cm: half of that is 4.1 cm, and 4.5 cm hangs past a semicircle."""
    assert "more than half the width" in notes(answered("swags", side="66 cm", drop="4.5 cm", repeats="8"))
    assert "more than half the width" not in notes(answered("swags", side="66 cm", drop="4.1 cm", repeats="8"))


def test_swags_as_narrow_as_can_be() -> None:
    """20 on 20 cm are a centimetre wide, the least; with 21 the drop is the first thing that cannot be, or the width."""
    assert text(answered("swags", side="20 cm", drop="1 cm", repeats="20"), "width") == "1 cm"
    assert problem("swags", side="20 cm", drop="1 cm", repeats="21") == (
        "repeats",
        "Repeats: 21 would be swags 9.5 mm wide, and 1 cm is the least. Use 20 or fewer",
    )


def test_swags_of_ones_own_choice_say_what_would_be_chosen() -> None:
    assert "You chose 10 repeats; chosen for you, it would be 8." in notes(answered("swags", side="66 cm", cutter="9 cm", repeats="10"))
    assert "You chose 8 repeats; that is what would be chosen for you too." in notes(answered("swags", side="66 cm", cutter="9 cm", repeats="8"))


# --- timetable ----------------------------------------------------------------------------------------------------------------------------


def test_timetable_of_two_tiers() -> None:
    """Baking, boards and buttercream on the day before are 25 + 25 + 20 + 40 min; the rows of 30 and 45 min come on the day."""
    found = answered("timetable", tiers="2", rows="shells base tier 2 30 min; swags 45 min")
    assert rows(found, "days") == [["Fri 15", "1 h 50 min"], ["Sat 16", "5 h 30 min"]] and right(found, "days") == ["Work"]
    assert rows(found, "out")[0] == ["lower tier", "1 h 25 min", "2 h", "1 h 5 min", "4 h 30 min", "2 h"]
    assert right(found, "out") == [column["label"] for column in table(found, "out")["columns"]][1:]
    assert ["Sat 14:00", "Pipe: shells base", "30 min", "1 h"] in rows(found, "tasks") and text(found, "stacked") == "at home"
    assert "yours holds" not in str(found.cautions)


def test_timetable_of_one_tier_is_not_stacked_and_has_a_fridge_to_fit() -> None:
    found = answered("timetable", tiers="1", fridge="1", rows="4")
    assert "stacked" not in found.figures and "yours holds" not in str(found.cautions)
    assert "3 tiers are in the fridge at one time, and yours holds 1" in str(answered("timetable", tiers="3", fridge="1").cautions)


@pytest.mark.parametrize("tiers", ["0", "8", "; ;", "; ".join(["20 cm"] * 8)])
def test_timetable_has_one_to_seven_tiers(tiers: str) -> None:
    field, message = problem("timetable", tiers=tiers)
    assert field == "tiers" and message.startswith("Tiers must be between 1 and 7.")


def test_timetable_pipes_a_base_over_the_joint_after_stacking() -> None:
    """Shells round the base of the upper tier cover the joint: they wait until it stands, while a row of its side is piped beforehand."""
    base, side, low = read_rows("base shells tier 2 30 min; swags tier 2 20 min; base shells 30 min", "rows", "Rows", 2)
    assert [(row.tier, row.time_min, row.all_in) for row in (base, side, low)] == [(1, 30.0, True), (1, 20.0, True), (0, 30.0, True)]
    assert (base.joint, side.joint, low.joint) == (True, False, False)


# --- tips, tins, vermicelli --------------------------------------------------------------------------------------------------------------


def test_tips_for_an_effect_or_near_an_opening() -> None:
    assert table(answered("tips"), "matches")["title"] == "All the tips of the table"
    assert table(answered("tips", effect="swag"), "matches")["title"] == "Tips that make it"
    near = answered("tips", family="petal", opening="11 mm")
    assert table(near, "matches")["title"] == "Nearest in opening first" and rows(near, "matches")[0][0] == "petal 11 mm"
    wide = answered("tips", effect="swag", width="20 mm")
    assert table(wide, "matches")["title"] == "Nearest in size first" and rows(wide, "matches")[0][0] == "petal 20 mm"
    assert [row[0] for row in rows(wide, "openings")] == ["round", "open star", "petal", "leaf", "ruffle"]  # no basket pipes a swag


def test_a_heart_tin_by_what_it_holds() -> None:
    """2.9 l in a tin 10 cm deep and 20 cm wide: 290 cm2 of 400 are 72.5 %."""
    assert "the heart's fullness is 72.5 %" in notes(answered("coats", shape="heart", width="20 cm", holds="2.9 l", deep="10 cm"))


def test_vermicelli_by_hand() -> None:
    """A band of 8 cm round 66 cm is 528 cm2. Lines 3 mm apart and 1.9 broad lie 4.9 mm from middle to middle; what is left out on a large ground is
    only the spacing that would make more than 100 m of line."""
    found = answered("vermicelli", side="66 cm")
    assert text(found, "area") == "528 cm²" and [row[0] for row in rows(found, "gaps")] == ["2 mm", "3 mm", "4 mm", "6 mm"]
    large = answered("vermicelli", side="4.5 m", height="10 cm", gap="6 mm")
    assert [row[0] for row in rows(large, "gaps")] == ["3 mm", "4 mm", "6 mm"]
    assert problem("vermicelli", side="66 cm", height="60 cm", gap="0.5 mm")[0] == "gap"


def test_the_top_of_a_round_is_a_strip_as_high_as_its_circumference_over_4_pi() -> None:
    """Its area is s2 / 4 pi: 66 cm round are 346.6 cm2, and so is a strip of 66 cm that is 5.252 cm high."""
    top, strip = answered("vermicelli", ground="top", side="66 cm"), answered("vermicelli", side="66 cm", height=f"{660 / 4 / math.pi:.6f} mm")
    for name in ("mass", "volume", "time"):
        assert top.figures[name]["value"] == pytest.approx(strip.figures[name]["value"], rel=1e-5)


def test_a_register_has_a_line_for_each_student(monkeypatch: pytest.MonkeyPatch) -> None:
    """Numbered from 1, each with room for a name and for what its student must not touch."""
    written = Written()
    monkeypatch.setattr(lesson_sheets, "written_sheet", written)
    lesson_sheets.register_sheet(9, "plain", Heading(), "A4")
    ((_, blocks),) = written
    (lines,) = [block.rows for block in blocks if isinstance(block, PaperTable)]
    assert [line[0] for line in lines] == [str(number) for number in range(1, 10)] and all(cell == "" for line in lines for cell in line[1:])


@pytest.mark.parametrize("depth", DEEPENING)
def test_how_much_a_tint_deepens_is_told_with_its_range(depth: str) -> None:
    told = DEEPENING[depth]
    shares = [f"{100 * share:.0f} %" for share in (told, told.low, told.high)]
    assert f"as if it had {shares[0]} more drops ({shares[1]} to {shares[2]}, common practice)" in notes(answered("tint", depth=depth))
