"""Rows at odd places, rows on rows, crowded tops, coats of several colours: what an order makes of them and what it says."""

from __future__ import annotations

import math

import pytest

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, parse
from calc.calculators.order_form import order_of
from calc.curves import arc_length_mm
from calc.drawing.scene import Path
from calc.drawing.tiers import TierDrawn
from calc.drawing.views import top_view
from calc.order import Plan, ledge_mm, plan
from calc.rows import KINDS, RowSpec, natural_pitch_mm, pipe
from calc.shapes import SHAPES, TWO_SIZES, outline
from calc.tips import Tip

Row = tuple[str, ...]


def texts(*rows: Row, **changes: str) -> dict[str, str]:
    """A round tier of 20 cm with rows of (kind, place, tip), as the form's texts; a change's name has __ for a dot."""
    made = {"guests": "20", "tiers.0.shape": "round", "tiers.0.width": "20 cm", "tiers.0.height": "12 cm", "tiers.0.name": "Tier"}
    for at, (kind, place, tip) in enumerate(rows):
        made |= {
            f"tiers.0.rows.{at}.kind": kind,
            f"tiers.0.rows.{at}.place": place,
            f"tiers.0.rows.{at}.tip": tip,
            f"tiers.0.rows.{at}.colour": "cream",
        }
    return made | {name.replace("__", "."): text for name, text in changes.items()}


def planned(inputs: dict[str, str]) -> Plan:
    return plan(order_of(parse(CALCULATORS["order"], inputs)))


def notes(inputs: dict[str, str]) -> list[str]:
    return [note["text"] for note in answered(inputs).notes]


def answered(inputs: dict[str, str]) -> Answer:
    answer = calc.compute("order", inputs)
    assert not answer.problems, answer.problems
    return answer


# --- rows on rows ------------------------------------------------------------------------------------------------------


def test_line_over_a_border_lies_on_it_and_comes_after_it() -> None:
    cake = planned(texts(("ruched border", "top edge", "petal 9 mm"), ("line", "over", "round 2 mm")))
    border, line = cake.tiers[0].rows
    assert (line.place, line.line_mm, line.on) == ("top edge", border.line_mm, border)
    assert not cake.tiers[0].clashes
    assert [step.row.spec.kind for step in cake.steps] == ["ruched border", "line"]


def test_line_over_a_swag_follows_its_curve() -> None:
    cake = planned(texts(("swag", "side", "petal 11 mm"), ("line", "over", "round 2 mm"), cutters="9 cm"))
    swag, line = cake.tiers[0].rows
    assert line.hung and line.drop_mm == swag.drop_mm and line.line_mm == swag.line_mm
    width = cake.tiers[0].division.width_mm
    assert line.amount.length_mm == pytest.approx(cake.tiers[0].division.repeats * arc_length_mm(width, swag.drop_mm))
    assert line.amount.kind == "line" and line.kind == "swag"


def test_swag_over_another_sits_on_its_upper_edge() -> None:
    swag, over = planned(texts(("swag", "side", "petal 11 mm"), ("swag", "over", "petal 9 mm"))).tiers[0].rows
    assert over.line_mm == pytest.approx(swag.line_mm - swag.amount.above_mm / 2)
    assert over.drop_mm == swag.drop_mm


def test_straight_row_under_a_swag_stands_below_its_lowest() -> None:
    tier = planned(texts(("swag", "side", "petal 11 mm"), ("bead", "under", "round 5 mm"))).tiers[0]
    swag, bead = tier.rows
    assert bead.top_mm >= swag.lowest_mm + 2.9
    assert not tier.clashes


def test_row_that_lies_on_another_is_never_piped_before_it() -> None:
    cake = planned(
        texts(("swag", "side", "petal 11 mm"), ("string", "side", "round 2 mm"), ("swag", "over", "petal 9 mm"), ("line", "over", "round 1.5 mm"))
    )
    order = [step.row for step in cake.steps]
    for row in order:
        assert row.on is None or order.index(row.on) < order.index(row)


# --- at the joints -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "kind, tip", [("shell", "open star 7 mm"), ("bead", "round 5 mm"), ("reverse shell", "open star 7 mm"), ("rope", "open star 5 mm")]
)
def test_pieces_at_the_joints_keep_their_size(kind: str, tip: str) -> None:
    """Eight shells at eight joints weigh what eight shells weigh, not what a row round the side does."""
    row = planned(texts((kind, "joints", tip), tiers__0__repeats="8")).tiers[0].rows[0]
    assert row.amount.count == 8 and row.amount.stretch_percent == 0
    read = row.tip
    assert row.amount.length_each_mm == pytest.approx(natural_pitch_mm(kind, read))
    whole = pipe(RowSpec(kind, read, run_mm=natural_pitch_mm(kind, read) * 100, repeats=1, count=100))
    assert row.amount.volume_ml == pytest.approx(whole.volume_ml * 8 / 100, rel=1e-6)
    assert not row.amount.notes


def test_pieces_at_the_joints_that_touch_are_said() -> None:
    said = notes(texts(("shell", "joints", "open star 9 mm"), tiers__0__repeats="40", tiers__0__rows__0__per_joint="4"))
    assert any("160 of them set 4 mm apart touch" in note for note in said)


@pytest.mark.parametrize("kind", ["swag", "string", "ruched border", "zigzag", "line"])
def test_what_runs_on_cannot_sit_at_a_joint_and_is_told(kind: str) -> None:
    said = notes(texts((kind, "joints", "round 2 mm")))
    assert any("runs on and cannot sit at a joint" in note for note in said)


@pytest.mark.parametrize("place", ["base", "top edge", "top", "inside"])
def test_what_hangs_is_laid_straight_elsewhere_and_told(place: str) -> None:
    row = planned(texts(("swag", place, "petal 9 mm"))).tiers[0].rows[0]
    assert not row.hung and row.drop_mm == 0
    assert any("hangs only on the side" in note for note in notes(texts(("swag", place, "petal 9 mm"))))


# --- scrolls -----------------------------------------------------------------------------------------------------------


def test_scroll_takes_the_depth_it_is_given() -> None:
    deep, own = (planned(texts(("C scroll", "side", "round 2 mm"), **more)).tiers[0].rows[0] for more in ({"tiers__0__rows__0__drop": "30 mm"}, {}))
    assert deep.amount.drops_mm == (30.0,)
    assert own.amount.drops_mm[0] == pytest.approx(0.35 * own.amount.pitch_mm)
    assert deep.lowest_mm == pytest.approx(deep.line_mm + 30.0 + 0.5 * deep.tip.bead_width_mm)


def test_a_row_without_a_tip_begins_with_the_one_of_its_kind_on_that_tier() -> None:
    """Shells begin with an open star of 7 mm on a tier of 10 cm, and with a third more on one of 20 cm."""
    for height, low, high in (("10 cm", 6.5, 7.5), ("20 cm", 8.5, 10.5)):
        (row,) = planned(texts(("shell", "base", ""), tiers__0__height=height)).tiers[0].rows
        assert row.tip.family == "open star" and low <= row.tip.opening_mm <= high
    (string,) = planned({name: text for name, text in texts(("string", "side", "")).items() if not name.endswith(".tip")}).tiers[0].rows
    assert string.tip == KINDS["string"].begin_tip(120.0)
    (own,) = planned(texts(("shell", "base", "petal 9 mm"))).tiers[0].rows
    assert own.tip == Tip("petal", 9.0)


def test_scroll_keeps_its_capital_in_a_sentence() -> None:
    assert any("C scroll, round 9 mm" in note for note in notes(texts(("C scroll", "side", "round 9 mm"))))


# --- on the top --------------------------------------------------------------------------------------------------------


def test_rows_on_the_top_stand_behind_each_other() -> None:
    tier = planned(texts(("ruched border", "top edge", "petal 9 mm"), ("shell", "top", "open star 7 mm"), ("bead", "inside", "round 4 mm"))).tiers[0]
    border, shell, bead = tier.rows
    assert shell.line_mm - shell.amount.above_mm >= border.amount.below_mm - 1e-9
    assert bead.line_mm - bead.amount.above_mm >= shell.reach_mm - 1e-9
    assert shell.run_mm == pytest.approx(tier.side_mm - 2 * math.pi * shell.line_mm)  # a circle nearer the middle
    assert tier.side_mm > shell.run_mm > bead.run_mm


def test_square_top_loses_eight_times_the_distance() -> None:
    tier = planned(texts(("shell", "top", "open star 7 mm"), tiers__0__shape="square")).tiers[0]
    assert tier.rows[0].run_mm == pytest.approx(tier.side_mm - 8 * tier.rows[0].line_mm)


def test_top_that_is_too_narrow_beside_the_next_tier_is_said() -> None:
    two = texts(
        ("shell", "inside", "open star 9 mm"),
        **{
            "tiers__1__width": "17 cm",
            "tiers__1__name": "Upper",
            "tiers__1__rows__0__kind": "shell",
            "tiers__1__rows__0__place": "base",
            "tiers__1__rows__0__tip": "open star 7 mm",
        },
    )
    said = [note for note in notes(two) if "in from the edge, and only" in note]
    assert len(said) == 1 and "beside Upper" in said[0]
    crowd = planned(two).crowded[0]
    assert crowd.free_mm < 15.0 < crowd.reach_mm
    assert not planned(two | {"tiers.1.width": "10 cm"}).crowded


def test_inside_edge_on_a_small_tier_is_said() -> None:
    said = notes(texts(("shell", "inside", "open star 26 mm"), tiers__0__width="6 cm"))
    assert any("free to the middle" in note for note in said)


@pytest.mark.parametrize("shape", SHAPES)
def test_ledge_is_the_coat_of_an_outline_and_its_offset(shape: str) -> None:
    """A tier grown by a coat stands that far outside itself, wherever it is narrowest."""
    inner = outline(shape, 200.0, 260.0 if shape in TWO_SIZES else None)
    assert ledge_mm(inner.offset(20.0), inner) == pytest.approx(20.0, abs=0.35)


# --- the cutter and the drop -------------------------------------------------------------------------------------------


def test_a_drop_the_cutter_does_not_make_is_marked_from_a_strip() -> None:
    inputs = texts(("swag", "side", "petal 11 mm"), cutters="9 cm", tiers__0__repeats="8", tiers__0__rows__0__drop="4 cm")
    tier = planned(inputs).tiers[0]
    assert tier.drop_mm == 40.0 and not tier.by_cutter and tier.guide is None
    said = " ".join(notes(inputs))
    assert "The drop asked for is 4 cm" in said and "mark the arcs from a paper strip" in said and "guide tape" not in said
    assert answered(inputs).figures["drop"]["value"] == 40.0


def test_a_drop_within_a_millimetre_of_the_cutters_is_the_cutters() -> None:
    own = planned(texts(("swag", "side", "petal 11 mm"), cutters="9 cm", tiers__0__repeats="8")).tiers[0]
    near = planned(
        texts(("swag", "side", "petal 11 mm"), cutters="9 cm", tiers__0__repeats="8", tiers__0__rows__0__drop=f"{own.drop_mm + 0.8} mm")
    ).tiers[0]
    assert near.drop_mm == own.drop_mm and near.by_cutter


def test_guide_goes_by_the_joints_of_the_row_that_is_marked() -> None:
    tier = planned(texts(("swag", "side", "petal 11 mm"), cutters="9 cm", tiers__0__repeats="8", tiers__0__rows__0__below="70 mm")).tiers[0]
    assert tier.guide is not None and tier.division.guide_mm is not None
    assert tier.guide == ("lower edge", pytest.approx(70.0 - tier.division.guide_mm))
    assert "joints 7 cm below the top edge" in " ".join(
        notes(texts(("swag", "side", "petal 11 mm"), cutters="9 cm", tiers__0__repeats="8", tiers__0__rows__0__below="70 mm"))
    )


# --- coats of several colours ------------------------------------------------------------------------------------------


def test_ombre_coat_is_made_in_its_colours() -> None:
    plain, ombre = planned(texts()), planned(texts(tiers__0__bands="russet 2, blush 1, ivory 1"))
    coat = ombre.tiers[0].coats
    bands = ombre.tiers[0].bands
    assert [round(band.to_mm / coat.finished_height_mm, 6) for band in bands] == [0.5, 0.75, 1.0]
    assert math.fsum(band.volume_ml for band in bands) == pytest.approx(coat.final_ml)
    made = {amount.colour: amount for amount in ombre.amounts}
    assert {"russet", "blush", "ivory"} <= set(made)
    assert made["russet"].used_g == pytest.approx(bands[0].volume_ml * ombre.density)
    assert math.fsum(a.used_g for a in ombre.amounts) == pytest.approx(math.fsum(a.used_g for a in plain.amounts))
    table = next(t for t in answered(texts(tiers__0__bands="russet 2, blush 1, ivory 1")).tables if t["name"] == "coat_colours")
    assert [row[1].split(",")[0] for row in table["rows"]] == ["russet", "blush", "ivory"]


def test_striped_coat_makes_what_the_comb_lifts_as_well() -> None:
    cake = planned(texts(tiers__0__striped="Cream", tiers__0__stripes="5", tiers__0__stripe_share="40 %"))
    cut = cake.tiers[0].stripes
    assert cut is not None and cut.count == 5
    made = {amount.colour: amount for amount in cake.amounts}
    assert made["cream"].used_g == pytest.approx(cut.stripes_ml * cake.density)
    assert math.fsum(a.used_g for a in cake.amounts) == pytest.approx(cake.coat_g + cake.filling_g + cake.lifted_g)
    assert cake.lifted_g == pytest.approx(made["cream"].used_g)


def test_coats_of_several_colours_are_drawn() -> None:
    for more in ({"tiers__0__bands": "russet, blush"}, {"tiers__0__striped": "cream"}):
        side = next(d["svg"] for d in answered(texts(**more)).drawings if d["name"] == "side")
        assert side != next(d["svg"] for d in answered(texts()).drawings if d["name"] == "side")


@pytest.mark.parametrize(
    "field, text, words",
    [
        ("bands", "2, 3", "not a colour"),
        ("bands", "russet 0", "not a colour"),
        ("bands", ",".join(["russet"] * 25), "Write up to 24"),
        ("top", "50 mm", "between"),
        ("dam", "59 mm", "leaves no even room"),
        ("stripes", "0", "between"),
        ("stripe_share", "100 %", "between"),
    ],
)
def test_coat_that_cannot_be_is_said_at_its_field(field: str, text: str, words: str) -> None:
    inputs = texts(tiers__0__layers="3", tiers__0__width="11 cm", tiers__0__striped="" if field == "bands" else "cream")
    answer = calc.compute("order", inputs | {f"tiers.0.{field}": text})
    assert [p["input"] for p in answer.problems] == [f"tiers.0.{field}"]
    assert words in answer.problems[0]["message"]


def test_ombre_and_striped_at_once_is_said() -> None:
    answer = calc.compute("order", texts(tiers__0__bands="russet, blush", tiers__0__striped="cream"))
    assert answer.problems[0]["input"] == "tiers.0.striped"


def test_dam_and_thicker_top_change_the_volumes() -> None:
    plain, dammed = planned(texts()), planned(texts(tiers__0__dam="10 mm", tiers__0__top="12 mm"))
    before, after = plain.tiers[0].coats, dammed.tiers[0].coats
    assert after.dam_ml > 0 and after.filling_ml + after.dam_ml == pytest.approx(before.filling_ml)
    assert after.finished_height_mm == pytest.approx(132.0)
    assert after.final_ml > before.final_ml


# --- colours -----------------------------------------------------------------------------------------------------------


def test_colours_that_look_alike_are_said() -> None:
    said = " ".join(
        notes(
            texts(
                ("swag", "side", "petal 11 mm"),
                ("bead", "base", "round 4 mm"),
                tiers__0__rows__0__colour="cream",
                tiers__0__rows__1__colour="buttermilk",
            )
        )
    )
    assert "Cream and buttermilk will look the same" in said or "Cream and buttermilk are told apart only where they touch" in said


def test_colours_alike_to_colour_blind_guests_are_said() -> None:
    said = " ".join(
        notes(
            texts(
                ("swag", "side", "petal 11 mm"),
                ("leaf", "joints", "leaf 6 mm"),
                tiers__0__rows__0__colour="red",
                tiers__0__rows__1__colour="green",
                colours__0__name="red",
                colours__0__look="#b05030",
                colours__1__name="green",
                colours__1__look="#7d7030",
            )
        )
    )
    assert "look nearly alike to a guest with" in said


def test_a_colour_without_a_value_is_said_and_not_compared() -> None:
    said = " ".join(notes(texts(("swag", "side", "petal 11 mm"), tiers__0__rows__0__colour="granny's green")))
    assert "no value is known for that name" in said and "Granny's green and" not in said


def test_mixing_order_is_told_lightest_first() -> None:
    table = next(t for t in answered(texts(("swag", "side", "petal 11 mm"), tiers__0__rows__0__colour="russet")).tables if t["name"] == "mixing")
    told = [row[1] for row in table["rows"]]
    assert "plain" in told[0] and "russet" in told[-1] and "the day before" in told[-1]


def test_units_of_a_rows_notes_are_the_readers() -> None:
    said = " ".join(notes(texts(("C scroll", "side", "round 9 mm"), units="us")))
    assert "deep close up" in said and " in wide" in said


def test_tips_of_one_opening_with_other_points_are_two_bags() -> None:
    cake = planned(texts(("shell", "base", "open star 9 mm"), ("shell", "top edge", "open star 9 mm, 12 points")))
    assert len(cake.bags.bags) == 2
    assert Tip("open star", 9.0, 12) in {bag.tip for bag in cake.bags.bags}


# --- bands of layers ---------------------------------------------------------------------------------------------------


def test_inner_strings_that_lie_on_the_swag_above_are_said() -> None:
    """One string of the swag's own drop keeps clear of it; of three nested ones the innermost hangs across it."""
    rows = (("swag", "side", "petal 11 mm"), ("string", "under", "round 1.8 mm"))
    one = planned(texts(*rows, cutters="9 cm")).tiers[0]
    three = planned(texts(*rows, cutters="9 cm", tiers__0__rows__1__layers="3")).tiers[0]
    assert not one.clashes
    string = three.rows[1]
    assert string.shallow_mm == pytest.approx(string.drop_mm / 3)
    assert [(clash.where, clash.second) for clash in three.clashes] == [("between the joints", string)]
    gap = string.top_mm + string.shallow_mm - (three.rows[0].bottom_mm + three.rows[0].drop_mm)
    assert three.clashes[0].overlap_mm <= -gap + 1e-9


def test_double_swag_covers_from_its_upper_layer() -> None:
    double = planned(texts(("swag", "side", "petal 11 mm"), tiers__0__rows__0__layers="2", cutters="9 cm")).tiers[0].rows[0]
    assert double.shallow_mm == pytest.approx(max(double.drop_mm / 2, double.drop_mm - 0.8 * double.tip.bead_width_mm))


def test_curls_of_a_scroll_keep_clear_of_the_border_above() -> None:
    """The curls stand above the scroll's own line; the first row on the side is put so far down that they clear the border."""
    tier = planned(texts(("ruched border", "top edge", "petal 9 mm"), ("C scroll", "side", "round 2 mm"))).tiers[0]
    border, scroll = tier.rows
    assert scroll.amount.above_mm > scroll.amount.drops_mm[0] / 4
    assert scroll.top_mm >= border.bottom_mm + 2.9
    assert not tier.clashes


# --- sizes -------------------------------------------------------------------------------------------------------------


def test_sheets_and_their_boards_have_two_sizes() -> None:
    answer = answered(texts(tiers__0__shape="rectangle", tiers__0__length="30 cm", tiers__0__final="4 mm"))
    tables = {t["name"]: t["rows"] for t in answer.tables}
    assert tables["portions"][0][1] == "rectangle, 20 cm x 30 cm tin"
    assert tables["supports"][0][1] == "31.2 cm x 41.2 cm"
    assert answered(texts()).tables[0]["rows"][0][1] == "round, 20 cm tin"


# --- sizes that are only just sizes, found by the long run of tests/calc/test_any_text.py ---------------------------------------------


def test_an_oval_longer_than_ten_times_its_width_is_said_at_its_field() -> None:
    answer = calc.compute("order", texts(tiers__0__shape="oval", tiers__0__width="5 cm", tiers__0__length="100 cm"))
    assert [problem["input"] for problem in answer.problems] == ["tiers.0.length"]
    assert "ten times" in answer.problems[0]["message"]


@pytest.mark.parametrize("shape, width, length", [("rectangle", "5 cm", "100 cm"), ("oval", "10 cm", "100 cm"), ("oval", "20 cm", "35 cm")])
def test_the_board_of_a_long_tier_shows_as_much_all_round(shape: str, width: str, length: str) -> None:
    inputs = texts(tiers__0__shape=shape, tiers__0__width=width, tiers__0__length=length)
    answer = calc.compute("order", inputs)
    assert not answer.problems and len(answer.drawings) >= 2
    tier = planned(inputs).tiers[0].coats.finished
    scene = top_view((TierDrawn(tier, 0.0, 100.0),), answer.figures["board"]["value"])
    boards = [item for item in scene.items if isinstance(item, Path) and item.style.stroke == "#a8916a"]
    assert len(boards) == 1
    xs = [float(v) for part in boards[0].parts for v in part[1::2]]
    ys = [float(v) for part in boards[0].parts for v in part[2::2]]
    beside, before = (max(xs) - min(xs) - tier.width_mm) / 2, (max(ys) - min(ys) - tier.length_mm) / 2
    assert beside == pytest.approx(50.0, abs=0.1) and before == pytest.approx(50.0, abs=0.1)


# --- ways to divide -----------------------------------------------------------------------------------------------------


def test_a_tier_with_something_at_its_joints_lists_the_ways_to_divide_it_without_words_of_what_hangs() -> None:
    inputs = texts(("rosette", "joints", "closed star 5 mm"), ("shell", "base", "open star 7 mm"))
    (table,) = [table for table in answered(inputs).tables if table["name"] == "others_1"]
    assert [column["label"] for column in table["columns"]] == ["Repeats", "From joint to joint", "For and against", "Use it"]
    told = " ".join(row[2] for row in table["rows"])
    assert "closer together" in told and "further apart" in told
    assert not [word for word in ("hang", "flat", "swag", "deep", "pipe", "wider", "narrow") if word in told]
    press = table["rows"][1][3]
    (again,) = [table for table in answered(inputs | dict(press.sets)).tables if table["name"] == "others_1"]
    assert [row[0] for row in again["rows"] if row[3] == "Your choice"] == [table["rows"][1][0]]
    assert not [table for table in answered(texts(("shell", "base", "open star 7 mm"))).tables if table["name"] == "others_1"]
