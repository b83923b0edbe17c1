"""How much of each colour an order makes, its bags, what is bought besides, and its price: whole tables and whole sentences, by hand.

The cake is that of test_calculators_order. `RICH` has a lower tier in two bands under a disc, a striped upper one of 22 cm, two colours in one
bag, and a third tier of 9 cm without rows.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from calc import buttercream
from calc.buttercream import batch
from calc.calculators import CALCULATORS, order_amounts, order_costs
from calc.calculators.declare import parse
from calc.calculators.order_amounts import _meeting
from calc.calculators.order_besides import GROUPS, SPONGE, STANDS, STIRRED, TOOLS, _sponges, _stirred_in, besides, purposes_of
from calc.calculators.order_form import plan_of
from calc.colours import CAUTIONS
from calc.units import Formatter
from tests.calc.test_calculators_order import CAKE, ONE, answered, planned

SAY = Formatter()
RICH = {
    **{"tiers__0__bands": "russet, ivory 2", "tiers__0__disc": "21 cm", "tiers__1__striped": "sage", "tiers__1__height": "22 cm"},
    **{"tiers__2__name": "Top", "tiers__2__width": "9 cm", "guests": "70"},
    **{"tiers__0__rows__2__kind": "shell", "tiers__0__rows__2__place": "top", "tiers__0__rows__2__colour": "sage"},
    **{"tiers__0__rows__2__second": "cream", "tiers__1__rows__2__kind": "shell", "tiers__1__rows__2__place": "base"},
    **{"tiers__1__rows__2__colour": "russet", "tiers__1__rows__3__kind": "rosette", "tiers__1__rows__3__place": "top"},
    **{"tiers__1__rows__3__colour": "russet", "tiers__0__side": "70 cm", "tiers__1__side": "49 cm"},
}


def told(base: dict[str, str] = CAKE, **changes: str) -> Any:
    return answered(base | {name.replace("__", "."): text for name, text in changes.items()})


def notes(answer: Any, section: str) -> list[str]:
    return [note["text"] for note in answer.notes if note.get("section") == section]


def table(answer: Any, name: str) -> Any:
    (found,) = [one for one in answer.tables if one["name"] == name]
    return found


def heads(answer: Any, name: str) -> list[str]:
    """The heads of a table, with a bar before those whose cells stand to the right."""
    return [("|" if column["align"] == "right" else "") + column["label"] for column in table(answer, name)["columns"]]


COUPLER = "With 1 coupler you need {} instead of 4: "
TINTS = (
    "Tints deepen as they stand, a pale one by about 5 %, a deep one by 30 % (common practice): mix a shade light, and judge a test that has stood "
    "as long as the batch will."
)
STRIP = "Geometry is exact; what a hand pipes is an estimate. Pipe 30 cm, weigh it, and enter it under Measured tip to replace it."
TOUCH = "Ivory and cream are told apart only where they touch. Make one lighter or darker if both should show."
UNKNOWN = "{}: no value is known for {}, so {} drawn in plain cream and not compared. Add {} under Colour to have {} drawn and compared."
LOWER, UPPER = "tiers__0__rows__", "tiers__1__rows__"
NOTES: list[tuple[dict[str, str], list[str]]] = [
    # one coupler for four tips of a colour; one for two, which leaves two bags without; two for two and two; none where each bag has its own colour
    ({}, [COUPLER.format("1 bag") + "cream with petal 11 mm, round 4 mm, open star 7 mm and leaf 6 mm.", TINTS, TOUCH, STRIP]),
    (
        {f"{UPPER}0__colour": "sage", f"{UPPER}1__colour": "bay"},
        [COUPLER.format("3 bags") + "cream with petal 11 mm and open star 7 mm.", TINTS, TOUCH, STRIP],
    ),
    (
        {f"{UPPER}0__colour": "sage", f"{UPPER}1__colour": "sage"},
        [
            "With 2 couplers you need 2 bags instead of 4: cream with petal 11 mm and open star 7 mm; sage with round 4 mm and leaf 6 mm.",
            *(TINTS, TOUCH, STRIP),
        ],
    ),
    (
        {f"{LOWER}1__colour": "sage", f"{UPPER}0__colour": "bay", f"{UPPER}1__colour": "russet"},
        [TINTS, TOUCH, STRIP],
    ),
    # nothing is tinted, and nothing compared
    (
        {"tiers__0__colour": "plain", "tiers__1__colour": "plain"} | {f"{at}{i}__colour": "plain" for at in (LOWER, UPPER) for i in (0, 1)},
        [COUPLER.format("1 bag") + "plain with petal 11 mm, round 4 mm, open star 7 mm and leaf 6 mm.", STRIP],
    ),
    # under a disc: 85 g more on a side of 10 cm and 66 round, and 63 on the smaller one
    (
        {"tiers__0__disc": "21 cm", "tiers__1__disc": "16 cm"},
        [
            COUPLER.format("1 bag") + "cream with petal 11 mm, round 4 mm, open star 7 mm and leaf 6 mm.",
            *(TINTS, TOUCH),
            "Under a disc the coat makes up for what a sponge has drawn back from its tin, with up to 85 g on Lower and 63 g on Upper more. Measure "
            "the sponges; where they are narrower than their tins, make the high end of the range.",
            STRIP,
        ],
    ),
    # names that nobody knows: one, which is also where rows have it; three, by the alphabet; none where the reader says how it looks
    (
        {f"{LOWER}0__colour": "mine", f"{LOWER}1__colour": "yours", f"{UPPER}0__colour": "mine", "colours__0__name": "Mine"}
        | {"colours__0__look": "#ABCDEF"},
        [
            COUPLER.format("3 bags") + "mine with petal 11 mm and round 4 mm.",
            TINTS,
            UNKNOWN.format("Yours", "that name", "it is", "it", "it"),
            *(TOUCH, STRIP),
        ],
    ),
    (
        {"tiers__0__colour": "mine", f"{LOWER}1__colour": "yours", "tiers__1__colour": "bay", f"{UPPER}0__colour": "theirs"},
        [
            COUPLER.format("3 bags") + "cream with petal 11 mm and leaf 6 mm.",
            TINTS,
            UNKNOWN.format("Mine, theirs and yours", "those names", "they are", "them", "them"),
            STRIP,
        ],
    ),
    # alike to everybody; alike to some, and to which
    (
        {f"{LOWER}0__colour": "parchment", f"{LOWER}1__colour": "parchment", f"{UPPER}0__colour": "peach", "tiers__1__colour": "peach"}
        | {"tiers__0__colour": "cream"},
        [
            COUPLER.format("3 bags") + "parchment with petal 11 mm and open star 7 mm.",
            TINTS,
            "Cream and parchment will look the same on the cake. Make one lighter or darker.",
            "Peach and cream look nearly alike to a guest with no green receptors (about 1 man in 100). "
            "Set them apart by shape or by lightness as well.",
            STRIP,
        ],
    ),
]


@pytest.mark.parametrize("changes, wanted", NOTES)
def test_what_is_said_of_colours_and_bags_in_its_order(changes: dict[str, str], wanted: list[str]) -> None:
    assert notes(told(**changes), "amounts") == wanted


def test_a_cake_with_everything_says_everything_once() -> None:
    """A star of 7 mm is wanted in cream and in sage and cream; the disc adds 85 g. What is piped in two colours is said once, and only there."""
    said = notes(told(**RICH), "amounts")
    assert [text.split(":")[0].split(",")[0] for text in said] == [
        "Two colours in one bag",
        "With 2 couplers you need 3 bags instead of 7",
        "The open star 7 mm tip is needed in cream and sage and cream",
        "Tints deepen as they stand",
        "Ivory and cream are told apart only where they touch. Make one lighter or darker if both should show.",
        "Under a disc the coat makes up for what a sponge has drawn back from its tin",
        "Geometry is exact; what a hand pipes is an estimate. Pipe 30 cm",
    ]
    assert said[1].endswith("cream with petal 11 mm, round 5 mm, open star 7 mm and leaf 8 mm; russet with closed star 6 mm and open star 10 mm.")
    assert said[2].endswith(": have 2, or wash it in between.") and "with up to 85 g on Lower more." in said[5]
    assert "Pipe a foot, weigh it" in notes(told(units="us"), "amounts")[-1]
    found = told(**RICH)
    assert [one["text"] for one in found.cautions if one.get("section") == "amounts"] == [text for text, _ in CAUTIONS]


def test_the_tables_of_colours_and_bags_by_hand() -> None:
    """What goes into each colour, 20 g of each of the two in one bag. Crumb coats of 173 and 222 g under bands and stripes are 395; 211 g of the
    lower tier's bands with both coats of the smallest one, 64 and 105, are 380."""
    found = told(**RICH)
    assert heads(found, "colours") == ["Colour", "|Make", "|Range", "Goes into"]
    assert heads(found, "bags") == ["Bag", "Colour", "Tip", "|Holds in all", "|Fills"]
    assert heads(found, "mixing") == ["|Step", "What to do"]
    assert table(found, "colours")["rows"] == [
        ["ivory", "1.27 kg", "915 g to 1.7 kg", "crumb coat 395 g; coat 380 g; ground of the coat 200 g; lifted by the comb 149 g"],
        ["plain", "675 g", "512 g to 829 g", "filling 597 g"],
        [
            "cream",
            "205 g",
            "174 g to 246 g",
            "petal 11 mm 22 g; open star 7 mm 42 g; open star 7 mm, half of a bag 20 g; round 5 mm 15 g; leaf 8 mm 5.4 g",
        ],
        ["sage", "201 g", "170 g to 229 g", "open star 7 mm, half of a bag 20 g; stripes 149 g"],
        ["russet", "187 g", "155 g to 252 g", "coat 61 g; open star 10 mm 60 g; closed star 6 mm 10 g"],
    ]
    assert table(found, "bags")["rows"] == [
        ["A", "cream", "petal 11 mm", "22 g", "1"],
        ["B", "cream", "round 5 mm", "15 g", "1"],
        ["C", "cream", "open star 7 mm", "42 g", "1"],
        ["D", "russet", "closed star 6 mm", "10 g", "1"],
        ["E", "sage and cream", "open star 7 mm", "39 g", "1"],
        ["F", "cream", "leaf 8 mm", "5.4 g", "1"],
        ["G", "russet", "open star 10 mm", "60 g", "1"],
    ]
    assert table(found, "mixing")["rows"] == [
        ["1", "Keep 675 g plain."],
        ["2", "Tint 1.48 kg of plain to ivory. Take off 205 g for cream; 1.27 kg stays ivory."],  # 1.27 and 0.205
        ["3", "Tint 205 g taken from the ivory to cream."],
        ["4", "Tint 201 g of plain to sage."],
        ["5", "Tint 187 g of plain to russet. Mix it the day before and a shade light: it deepens most."],
    ]
    ivory, cream = "#f6efdc", "#f0dfae"  # looks as in the palette
    dots = table(found, "colours")["columns"][0]["looks"]
    assert dots == {"ivory": ivory, "plain": "#f4e9cf", "cream": cream, "sage": "#a8b699", "russet": "#a04b2c"}
    bags = table(found, "bags")["columns"]
    assert bags[1]["looks"] == {"cream": cream, "russet": "#a04b2c", "sage and cream": "#a8b699"}
    assert [i for i, column in enumerate(bags) if "looks" in column] == [1]
    assert [i for i, column in enumerate(table(found, "colours")["columns"]) if "looks" in column] == [0]
    own = told(**{f"{LOWER}0__colour": "mine", "colours__0__name": "Mine", "colours__0__look": "#ABCDEF"})
    assert table(own, "bags")["columns"][1]["looks"]["mine"] == "#abcdef" == table(own, "colours")["columns"][0]["looks"]["mine"]


def test_the_figures_of_an_order_add_up() -> None:
    """At 0.8978 g/ml 1.61 kg are 1.79 l. On the cake are 589 + 325 + 514 ml, 1.28 kg, and 73 g piped."""
    figures = told().figures
    assert [
        (name, figures[name]["label"], figures[name]["text"]) for name in ("buttercream", "piping", "mass", "volume", "density", "bags", "couplers")
    ] == [
        ("buttercream", "Buttercream to make", "1.61 kg (1.16 kg to 2.05 kg)"),
        ("piping", "Of it piped", "73 g (53 g to 98 g)"),
        ("mass", "Buttercream on the cake", "1.36 kg (948 g to 1.75 kg)"),
        ("volume", "Buttercream to make, by volume", "1.79 l"),
        ("density", "Density", "0.9 g/ml"),
        ("bags", "Bags", "4"),
        ("couplers", "Couplers that save bags", "1"),
    ]
    assert {name for name in ("buttercream", "piping", "mass", "volume", "density", "colour_cream") if figures[name].get("quiet")} == {
        *("mass", "volume", "density", "colour_cream"),
    }
    colours = [figures[f"colour_{name}"] for name in ("ivory", "plain", "cream")]
    assert [(one["label"], one["text"]) for one in colours] == [
        ("Buttercream, ivory", "851 g (569 g to 1.13 kg)"),
        ("Buttercream, plain", "598 g (453 g to 734 g)"),
        ("Buttercream, cream", "160 g (139 g to 188 g)"),
    ]
    for end in ("value", "low", "high"):
        assert figures["buttercream"][end] == pytest.approx(sum(one[end] for one in colours))
    assert told(**{f"{LOWER}0__colour": "old rose"}).figures["colour_old_rose"]["label"] == "Buttercream, old rose"


def test_stripes_change_nothing_of_what_is_on_the_cake() -> None:
    """What the comb lifts out is made as well, and does not stay on it: neither in the value nor, but for how
    errors of parts add up, in the range."""
    striped, plain = told(tiers__0__striped="sage"), told()
    assert striped.figures["mass"]["value"] == pytest.approx(plain.figures["mass"]["value"])
    for end in ("low", "high"):
        assert striped.figures["mass"][end] == pytest.approx(plain.figures["mass"][end], rel=0.03)
    assert striped.figures["buttercream"]["value"] > plain.figures["buttercream"]["value"] + 100  # a tenth of the cake, and more than 3 %


@pytest.mark.parametrize(
    "changes, pairs",
    [
        ({}, [("ivory", "cream")]),
        ({f"{LOWER}0__colour": "sage"}, [("ivory", "sage"), ("ivory", "cream"), ("sage", "cream")]),
        # bands lie on each other by intent, and the coat's own colour has none of the tier; the ground and its stripes should be told apart
        ({"tiers__0__bands": "bay, sage"}, [("bay", "cream"), ("sage", "cream"), ("ivory", "cream")]),
        ({"tiers__0__striped": "sage"}, [("ivory", "sage"), ("ivory", "cream"), ("sage", "cream")]),
        # a pair turned round on the other tier is the same pair
        ({"tiers__1__colour": "cream", f"{UPPER}0__colour": "ivory", f"{UPPER}1__colour": "ivory"}, [("ivory", "cream")]),
        ({f"{LOWER}0__colour": "sage", f"{LOWER}0__second": "bay"}, [
            *(("ivory", "sage"), ("ivory", "bay"), ("ivory", "cream"), ("sage", "bay"), ("sage", "cream"), ("bay", "cream")),
        ]),
    ],
)  # fmt: skip
def test_colours_that_stand_beside_each_other(changes: dict[str, str], pairs: list[tuple[str, str]]) -> None:
    assert _meeting(planned(**changes)) == pairs


@pytest.mark.parametrize("least, said", [(4.99, True), (5.0, False)])
def test_colours_are_nearly_alike_under_a_difference_of_five(least: float, said: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """The least difference that some guest sees decides; at five two colours can be told apart."""
    found = SimpleNamespace(verdict="clear", least=least, least_sight="tritanopia")
    monkeypatch.setattr(order_amounts, "difference", lambda one, other: found)
    words = "Ivory and cream look nearly alike to a guest with no blue receptors (rare). Set them apart by shape or by lightness as well."
    assert (words in notes(told(), "amounts")) == said


# --- besides ------------------------------------------------------------------------------------------------------------------------------


def test_all_that_a_large_cake_takes_besides() -> None:
    """Sponges of 1.15 kg, 1.53 kg and 232 g, 2.91 kg baked, are 3.23 kg of batter, 807 g of each of four.

    Syrup: six layers on 20 and 15 cm as in the small cake, 147 g, and three of 63.6 cm2 more, 19 g. Five dowels carry two tiers above; four carry the
    third and five the level above the board. 10.5, 22.5 and 10.5 cm less 2 are the rod.
    """
    cake = planned(**RICH)
    lines = besides(cake, batch(cake.order.recipe, cake.buttercream_g, density=cake.density), purposes_of(cake), SAY)
    own = "or its ingredients by your own recipe"
    assert [(line.what, line.much, line.use) for line in lines if line.group == SPONGE] == [
        (f"Sponge, round, 20 cm, {own}", "3 layers of 2.9 cm, about 1.15 kg baked", "Lower"),
        (f"Sponge, round, 15 cm, {own}", "3 layers of 6.9 cm, about 1.53 kg baked", "Upper"),
        (f"Sponge, round, 9 cm, {own}", "3 layers of 2.9 cm, about 232 g baked", "Top"),
        ("Or by equal weights: butter, sugar, eggs, flour", "about 807 g of each", "all sponges"),
        ("Sugar syrup, if you brush the layers", "about 166 g", "the layers"),
    ]
    assert [(line.what, line.much, line.use) for line in lines if line.group == STIRRED] == [
        ("Light corn syrup or glucose syrup", "up to 25 g", "to thin it for coats and piping"),
        ("Gel or paste colour for ivory", "a little", "1.27 kg of buttercream"),
        ("Gel or paste colour for cream", "a little", "205 g of buttercream"),
        ("Gel or paste colour for sage", "a little", "201 g of buttercream"),
        ("Gel or paste colour for russet", "a little", "187 g of buttercream"),
    ]
    assert [(line.what, line.much, line.use, line.pieces) for line in lines if line.group == STANDS] == [
        ("Cake board, 31 cm", "1", "under Lower, the next size sold", 1),
        ("Dowels to cut to 10.5 cm", "5 and 2 spare", "in Lower", 7),
        ("Thin board, 16 cm", "1", "under Upper", 1),
        ("Thin board, 14 cm", "1", "inside Upper, between its levels", 1),
        ("Dowels to cut to 11.3 cm", "9 and 2 spare", "in Upper", 11),
        ("Thin board, 10 cm", "1", "under Top", 1),
        ("Centre rod, 41.5 cm", "1", "through all tiers", 1),
        ("Box, 36 cm x 36 cm, 15.5 cm high inside", "1", "Lower", 1),
        ("Box, 21 cm x 21 cm, 27.5 cm high inside", "1", "Upper", 1),
        ("Box, 15 cm x 15 cm, 15.5 cm high inside", "1", "Top", 1),
    ]
    drawer = "in the drawer already?"
    assert [(line.what, line.much, line.use, line.pieces) for line in lines if line.group == TOOLS] == [
        ("Piping bags", "7 and 2 spare", "one for each colour and tip", 9),
        ("Tip, petal 11 mm", "1", drawer, 1),
        ("Tip, round 5 mm", "1", drawer, 1),
        ("Tip, open star 7 mm", "2", drawer, 2),
        ("Tip, closed star 6 mm", "1", drawer, 1),
        ("Tip, leaf 8 mm", "1", drawer, 1),
        ("Tip, open star 10 mm", "1", drawer, 1),
        ("Couplers", "2", "they save 4 bags", 2),
        ("Non-stick paper, clear tape", "a roll of each", "under marking strips, for labels", 0),
    ]
    assert [line.group for line in lines] == [group for group in GROUPS for line in lines if line.group == group]
    # what was ticked off is known again by its key, which must not change with the weights
    assert [line.key for line in lines] == [
        *("sponge-0-round-200", "sponge-1-round-150", "sponge-2-round-90", "equal-weights", "syrup", "thin-syrup", "gel-ivory", "gel-cream"),
        *("gel-sage", "gel-russet", "board-0-310", "dowels-1-105", "board-2-160", "board-3-140", "dowels-4-112", "board-5-100", "rod-6-415"),
        *("box-7-360", "box-8-210", "box-9-150", "bags", "tip-petal 11 mm", "tip-round 5 mm", "tip-open star 7 mm", "tip-closed star 6 mm"),
        *("tip-leaf 8 mm", "tip-open star 10 mm", "couplers", "paper"),
    ]
    assert [line[:3] for line in lines] == [tuple(row) for row in table(told(**RICH), "besides")["rows"]]


def test_the_smallest_sponge_by_hand() -> None:
    """One layer of 5 cm, 25 mm high: 49.1 ml at 0.415 g/ml are 20.4 g, of 22.6 g of batter 5.7 g each; 19.6 cm2 take 2 g of syrup."""
    typed = {"tiers.0.width": "5 cm", "tiers.0.height": "25 mm", "tiers.0.layers": "1"}
    sponge, equal, syrup = _sponges(plan_of(parse(CALCULATORS["order"], ONE | typed)), SAY)
    assert sponge.much == "1 layer of 2.5 cm, about 20 g baked"
    assert (equal.much, syrup.much) == ("about 5.7 g of each", "about 2 g")
    assert _sponges(planned(tiers__0__layers="2"), SAY)[0].much.startswith("2 layers of 4.7 cm, about ")  # 10 cm less 6 mm, in two


@pytest.mark.parametrize("changes, saved", [({}, "they save 3 bags"), ({"tiers__1__rows__1__colour": "sage"}, "they save 2 bags")])
def test_couplers_save_a_bag_for_each_further_tip(changes: dict[str, str], saved: str) -> None:
    cake = planned(**changes)
    (line,) = [one for one in besides(cake, batch(cake.order.recipe, cake.buttercream_g), purposes_of(cake), SAY) if one.key == "couplers"]
    assert (line.much, line.use) == ("1", saved)


def test_a_cake_without_rows_has_no_bags_and_no_couplers() -> None:
    cake = plan_of(parse(CALCULATORS["order"], ONE))
    made = batch(cake.order.recipe, cake.buttercream_g)
    assert [line.what for line in besides(cake, made, purposes_of(cake), SAY) if line.group == TOOLS] == ["Non-stick paper, clear tape"]


@pytest.mark.parametrize("layers, use", [("1", "one for each colour and tip"), ("5", "one for each colour and tip, 7 fills")])
def test_bags_that_are_filled_again_are_told(layers: str, use: str) -> None:
    """Four bags, of which that of the swags, over a kilogram for five layers round 40 cm, is filled four times."""
    cake = planned(tiers__0__width="40 cm", tiers__0__rows__0__layers=layers, tiers__0__rows__0__tip="petal 26 mm" if layers == "5" else "")
    made = batch(cake.order.recipe, cake.buttercream_g)
    assert next(line for line in besides(cake, made, purposes_of(cake), SAY) if line.key == "bags").use == use


@pytest.mark.parametrize(
    "grams, told_g, uses",
    [
        ({"coats": 0.5}, "1 g", "coats"),  # 6 mg, and nobody weighs less than a gram
        ({"coats": 0.4, "piping": 0.5}, "1 g", "piping"),
        ({"coats": 1000.0, "piping": 2000.0}, "23 g", "coats and piping"),  # 12.5 g and 5 g to the kilogram: 12.5 and 10
        ({"coats": 1000.0, "piping": 1000.0, "strings": 100.0}, "20 g", "coats, piping and strings"),  # 25 g to the kilogram of strings
    ],
)
def test_what_thins_it_is_added_up_over_its_uses(grams: dict[str, float], told_g: str, uses: str) -> None:
    cake = planned()
    thin = _stirred_in(cake, batch("swiss_meringue", 1000.0), grams, SAY)[0]
    assert (thin.what, thin.much, thin.use, thin.key) == (
        "Light corn syrup or glucose syrup",
        f"up to {told_g}",
        f"to thin it for {uses}",
        "thin-syrup",
    )


def test_what_takes_nothing_is_not_thinned() -> None:
    """Less than half a gram of a use; a use that takes no liquid at all, or one that is not piped."""
    cake = planned()
    gels = ["Gel or paste colour for ivory", "Gel or paste colour for cream"]
    assert [line.what for line in _stirred_in(cake, batch("swiss_meringue", 1000.0), {"coats": 0.49, "other": 500.0}, SAY)] == gels
    dry: Any = SimpleNamespace(recipe=SimpleNamespace(textures=[SimpleNamespace(purpose="coats", liquid="milk", liquid_high_g_per_kg=0.0)]))
    assert [line.what for line in _stirred_in(cake, dry, {"coats": 500.0}, SAY)] == gels
    dry.recipe.textures[0].liquid_high_g_per_kg = 1.0  # half a gram, which is told as the least that is weighed
    assert _stirred_in(cake, dry, {"coats": 500.0}, SAY)[0][:3] == ("Milk, whole", "up to 1 g", "to thin it for coats")
    dry.recipe.textures[0].liquid_high_g_per_kg = 0.0
    all_plain = planned(tiers__0__colour="plain", tiers__1__colour="plain")
    assert [line.what for line in _stirred_in(all_plain, dry, {}, SAY)] == ["Gel or paste colour for cream"]


# --- what it costs --------------------------------------------------------------------------------------------------------------------------


def test_textures_are_told_from_half_a_gram(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(order_costs, "purposes_of", lambda cake: {"coats": 0.5, "piping": 0.49})
    assert [row[0] for row in table(told(), "textures")["rows"]] == ["coats"]


def test_the_recipe_is_described_in_one_note() -> None:
    """A meringue one does not crust and holds to 25 °C, 77 °F; one of butter and icing sugar crusts."""
    swiss = notes(told(), "shopping")[0]
    assert swiss.startswith("Swiss meringue: it does not crust; edges hold to about 25 °C (77 °F). Covered, ")
    assert notes(told(recipe="heat_stable"), "shopping")[0].startswith("Heat-stable: it crusts; edges hold to about 30 °C (86 °F). ")
    assert notes(told(recipe="dairy_free"), "shopping")[0].startswith("Dairy-free: it crusts; edges hold to about 22 °C (72 °F). ")
    assert notes(told(units="us"), "shopping")[0].startswith("Swiss meringue: it does not crust; edges hold to about 77 °F (25 °C). ")


@pytest.mark.parametrize(
    "us, eu, words",
    [
        (("milk", "eggs"), ("eggs", "milk"), "milk, eggs (of the nine named in the US); eggs, milk (of the fourteen in the EU and UK)."),
        ((), ("mustard",), "none of the nine (of the nine named in the US); mustard (of the fourteen in the EU and UK)."),
        (("milk",), (), "milk (of the nine named in the US); none of the fourteen (of the fourteen in the EU and UK)."),
    ],
)
def test_allergens_are_told_by_both_laws_or_that_there_are_none(us: Any, eu: Any, words: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(buttercream, "allergens", lambda recipe: SimpleNamespace(us=us, eu=eu, check=()))
    found = next(one["text"] for one in told().cautions if one.get("section") == "shopping")
    assert found.startswith(f"Allergens in the buttercream: {words} Add those of sponge")


def test_the_recipe_asks_for_its_care_where_it_is_bought() -> None:
    """Egg white is heated, and what stands out is told, beside the allergens; with US units in degrees Fahrenheit first."""
    for units, words in (("metric", "71 °C (160 °F)"), ("us", "160 °F (71 °C)")):
        care = [one["text"] for one in told(units=units).cautions if one.get("section") == "shopping"]
        assert [text.split(" ")[0].rstrip(":") for text in care] == ["Allergens", "Standing", "Egg", "Allergens"] and words in care[2]


def test_a_price_by_hand() -> None:
    """8 h at 20 are 160; with 40 of other things 200, and a tenth of that over them, 20: 220. A quarter of the price is margin: 293.33. For 37
    portions 7.93."""
    found = told(rate="20", extras="40", overhead="10 %", margin="25 %")
    assert table(found, "price")["rows"] == [
        ["Buttercream, its share of the packs: no pack has a price yet, so nothing is counted", "0.00"],
        ["Sponge, boards, box, delivery", "40.00"],
        ["Hands, 8 h at 20.00 an hour", "160.00"],
        ["Overhead", "20.00"],
        ["Cost", "220.00"],
        ["Margin, 25 % of the price", "73.33"],
        ["Price, before any tax", "293.33"],
    ]
    assert heads(found, "price") == ["What", "|Amount"]
    assert [(found.figures[name]["label"], found.figures[name]["text"]) for name in ("cost", "price", "per_portion")] == [
        ("Cost", "220.00"),
        ("Price", "293.33"),
        ("For each portion", "7.93"),
    ]
