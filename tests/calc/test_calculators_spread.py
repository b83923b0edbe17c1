"""What is beaten and what is spread: a batch by weight, by bags, by what is in hand and by the bowl, and the coats of a tier, in every style."""

from __future__ import annotations

from typing import Any

import pytest

import calc
from calc.buttercream import RECIPES, density_g_per_ml
from calc.calculators import CALCULATORS, coats_form
from calc.calculators.batch_form import keeping_words, texture_line
from calc.calculators.declare import Answer, parse
from calc.drawing.scene import Scene
from calc.units import Formatter, Problem
from tests.calc.test_calculators_sums import answered, rows, value

SAY, US = Formatter(), Formatter("us")
PLAIN = RECIPES["plain"]  # coats 0 to 15 g of milk a kilogram, piping 0 to 7.5 g, strings 15 to 30 g
ITALIAN = RECIPES["italian_meringue"]  # coats 0 to 12.5 g of syrup, strings 10 to 25 g
SYRUP = "light corn syrup or glucose syrup"


def said(slug: str, **typed: str) -> list[str]:
    return [one["text"] for one in answered(slug, typed).notes]


def has(words: str, slug: str, **typed: str) -> bool:
    return any(words in one for one in said(slug, **typed))


def heads(answer: Any, name: str) -> list[tuple[str, str]]:
    (found,) = [one["columns"] for one in answer.tables if one["name"] == name]
    return [(column["label"], column["align"]) for column in found]


def title(answer: Any, name: str) -> str:
    (found,) = [one["title"] for one in answer.tables if one["name"] == name]
    return str(found)


def problem(slug: str, **typed: str) -> tuple[str, str]:
    (found,) = calc.compute(slug, typed).problems
    return found["input"], found["message"]


# --- thinned for each use ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "number, mass, words",
    [
        (0, 1000, "up to 15 g milk, whole"),
        (1, 1000, "up to 7.5 g milk, whole"),
        (2, 1000, "15 g to 30 g milk, whole"),
        (2, 2000, "30 g to 60 g milk, whole"),
        (1, 200, "up to 1.5 g milk, whole"),
        (1, 134, "up to 1 g milk, whole"),
        (1, 133, "a drop or two of milk, whole"),  # 0.9975 g: less than most scales show
        (2, 40, "0.6 g to 1.2 g milk, whole"),
        (2, 33, "a drop or two of milk, whole"),
        (1, 1, "a drop or two of milk, whole"),
    ],
)
def test_what_is_stirred_in_is_told_by_the_gram(number: int, mass: float, words: str) -> None:
    assert texture_line(SAY, PLAIN.textures[number], mass)[1] == words


def test_a_use_is_told_with_its_warmth_in_both_scales() -> None:
    """By 9/5 and 32, 19 to 22 °C are 66.2 to 71.6 °F. A gram or more of syrup is weighed: 25 g a kilogram are 1 g in 40 g."""
    strings = PLAIN.textures[2]
    assert texture_line(SAY, strings, 1000)[0] == "strings" and texture_line(SAY, strings, 1000)[3] == strings.looks
    assert texture_line(SAY, strings, 1000)[2] == "19 to 22 °C (66 to 72 °F)" and texture_line(US, strings, 1000)[2] == "66 to 72 °F (19 to 22 °C)"
    assert texture_line(SAY, RECIPES["flour_cooked"].textures[1], 40)[2] == "17 to 20 °C (63 to 68 °F)"  # 62.6
    assert texture_line(SAY, ITALIAN.textures[2], 40)[1] == f"0.4 g to 1 g {SYRUP}"
    assert texture_line(US, strings, 2000)[1] == "1 1/16 oz to 2 1/8 oz milk, whole"  # 30 and 60 g


def test_each_use_has_a_figure_that_no_list_shows() -> None:
    """2 kg of plain take 30 g of milk for coats, 15 for piping, 30 to 60 for strings."""
    found = answered("batch", {"mass": "2 kg"})
    quiet = {name: figure for name, figure in found.figures.items() if figure.get("quiet")}
    assert {name: (figure["low"], figure["value"], figure["high"], figure["unit"], figure["label"]) for name, figure in quiet.items()} == {
        "stir_in_coats": (0, 30, 30, "g", "To stir in for coats"),
        "stir_in_piping": (0, 15, 15, "g", "To stir in for piping"),
        "stir_in_strings": (30, 60, 60, "g", "To stir in for strings"),
    }
    half = answered("batch", {"mass": "500 g"}).figures["stir_in_piping"]
    assert (half["low"], half["value"], half["high"]) == (0, 3.75, 3.75)
    assert [figure["text"] for figure in quiet.values()] == [row[1] for row in rows(found, "textures")]


def test_a_recipe_keeps_by_the_day_and_by_the_month() -> None:
    """Thirty days are a month, sixty are two."""
    for name, days, months in (("plain", 7, "2 months"), ("flour_cooked", 4, "1 month"), ("swiss_meringue", 5, "2 months")):
        found = keeping_words(RECIPES[name])
        assert found == f"Covered, by common practice: up to {days} days in the fridge, {months} in the freezer. {RECIPES[name].keeping.note}"


# --- the batch -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, mass, note",
    [
        ({}, 1000, ""),
        ({"mass": "750 g"}, 750, ""),
        ({"mass": "2 l"}, 2116, ""),  # at 1.058 g/ml
        ({"mass": "2 l", "weighed_cup": "200 g", "cup": "250 ml"}, 1600, ""),  # at 0.8 g/ml
        ({"bags": "1"}, 300, "For 1 bag of 300 g; the mass typed is not used."),
        ({"bags": "2"}, 600, "For 2 bags of 300 g; the mass typed is not used."),
        ({"bags": "3", "bag_fill": "250 g"}, 750, "For 3 bags of 250 g; the mass typed is not used."),
        ({"in_hand": "160 g", "ingredient": "butter"}, 499.8, "As much as 160 g of butter, unsalted makes; the mass typed is not used."),
    ],
)
def test_how_much_is_made(typed: dict[str, str], mass: float, note: str) -> None:
    """Plain is 100 butter, 200 icing sugar, 10 milk, 2 vanilla and 0.4 salt, 312.4 in all: 160 g of butter make 499.84 g."""
    assert value(answered("batch", typed), "mass") == pytest.approx(mass, rel=1e-3)
    assert (note in said("batch", **typed)) if note else not has("the mass typed is not used", "batch", **typed)


def test_two_ways_to_say_how_much_are_one_too_many() -> None:
    assert problem("batch", bags="1", in_hand="1 g") == ("in_hand", "Bags and an ingredient in hand each set the mass. Leave one of them empty")
    assert problem("batch", in_hand="1 g")[0] == "ingredient"
    assert not has("not used", "batch", ingredient="butter"), "an ingredient alone says nothing of how much"


def test_a_batch_has_its_tables() -> None:
    found = answered("batch", {"recipe": "flour_cooked", "mass": "1.5 kg"})
    assert title(found, "ingredients") == "Flour-cooked, 1.5 kg" and title(found, "textures") == "Thinned for each use"
    assert heads(found, "ingredients") == [
        ("Ingredient", "left"), ("Weigh", "right"), ("By measure, where reliable", "left"), ("How", "left"),
    ]  # fmt: skip
    assert heads(found, "textures") == [
        ("For", "left"), ("Stir in, for this batch", "left"), ("Work at", "left"), ("It is right when it", "left"),
    ]  # fmt: skip
    assert title(found, "method") == "Method" and heads(found, "method") == [("Step", "right"), ("Do", "left")]
    assert [row[0] for row in rows(found, "method")] == ["1", "2", "3"] and rows(found, "method")[1][1].startswith("Press film on the paste")
    assert rows(found, "ingredients")[:2] == [
        ["milk, whole", "483 g", "468 ml", ""],
        ["wheat flour, plain", "72 g", "weigh it", "cooked through in the paste"],
    ]
    assert [row[0] for row in rows(found, "textures")] == ["coats", "piping", "strings"]
    assert found.figures["factor"]["text"] == "1.21" and found.figures["factor"]["unit"] == ""


@pytest.mark.parametrize(
    "recipe, words",
    [
        ("plain", "Sweet and firm. It crusts; colour cream to pale ivory; edges hold to about 25 °C (77 °F)."),
        ("flour_cooked", "It does not crust; colour nearly white; edges hold to about 23 °C (73 °F)."),
        ("italian_meringue", "edges hold to about 27 °C (81 °F)."),  # 27 x 9 / 5 + 32 = 80.6
        ("dairy_free", "edges hold to about 22 °C (72 °F)."),  # 71.6
        ("heat_stable", "edges hold to about 30 °C (86 °F)."),
    ],
)
def test_a_recipe_says_what_it_is_like(recipe: str, words: str) -> None:
    assert has(words, "batch", recipe=recipe)


@pytest.mark.parametrize(
    "typed, words",
    [
        ({"recipe": "plain"}, ""),
        ({"recipe": "flour_cooked", "mass": "1.5 kg"}, "The ingredients weigh 1.55 kg together; about 48 g of water boils off."),
        ({"recipe": "flour_cooked", "in_hand": "5.9 g", "ingredient": "butter"}, "The ingredients weigh 17 g together; about 0.52 g of"),
        ({"recipe": "flour_cooked", "in_hand": "5.6 g", "ingredient": "butter"}, ""),
    ],
)
def test_water_that_boils_off_is_told_from_half_a_gram(typed: dict[str, str], words: str) -> None:
    """Of 1000 g of flour-cooked buttercream 362 g are butter, and 32.2 g of water have boiled off: 5.9 g of butter lose 0.52 g, 5.6 g 0.498 g."""
    assert has("of water boils off", "batch", **typed) is bool(words) and has(words, "batch", **typed)


@pytest.mark.parametrize("mass, kept", [("1 kg", "30 g"), ("500 g", "15 g"), ("2 kg", "60 g"), ("50 g", "1.5 g")])
def test_what_stays_on_bowl_and_beater_is_three_percent(mass: str, kept: str) -> None:
    assert f"3 % or so ({kept}) stays on bowl and beater: make that much more if you need the full amount." in said("batch", mass=mass)


@pytest.mark.parametrize(
    "typed, words, times",
    [
        ({"mass": "500 g", "bowl": "4 l"}, "A bowl of 4 l is filled to no more than 60 %, so make it in 1 go of 500 g.", 1),
        ({"mass": "2 kg", "bowl": "2 l"}, "A bowl of 2 l is filled to no more than 60 %, so make it in 2 goes of 1 kg.", 2),
        ({"mass": "3 kg", "bowl": "2 l"}, "A bowl of 2 l is filled to no more than 60 %, so make it in 3 goes of 1 kg.", 3),
    ],
)
def test_a_small_bowl_takes_several_goes(typed: dict[str, str], words: str, times: int) -> None:
    """2 kg of plain fill up to 2.12 l and 3 kg up to 3.18 l; a bowl of 2 l takes 1.2 l."""
    assert words in said("batch", **typed) and value(answered("batch", typed), "mixes") == times
    assert "mixes" not in answered("batch", {"mass": "500 g"}).figures


def test_a_batch_fills_what_it_weighs_over_its_density() -> None:
    """1000 g at 1.058 g/ml (0.943 to 1.160) are 945 ml (862 to 1060); one that was weighed has no range."""
    volume = answered("batch", {}).figures["volume"]
    assert (volume["value"], volume["low"], volume["high"]) == pytest.approx((945.3, 862.2, 1060.3), abs=0.05)
    assert volume["text"] == "945 ml (862 ml to 1.06 l)" and volume["label"] == "Fills"
    density = answered("batch", {}).figures["density"]
    assert (density["value"], density["low"], density["high"]) == pytest.approx((1.058, 0.943, 1.160), abs=5e-4) and density["unit"] == "g/ml"
    weighed = answered("batch", {"weighed_cup": "200 g", "cup": "250 ml"}).figures
    assert weighed["volume"]["text"] == "1.25 l" and "low" not in weighed["volume"] and weighed["density"]["text"] == "0.8 g/ml"
    assert (weighed["density"]["low"], weighed["density"]["high"]) == (0.8, 0.8)


@pytest.mark.parametrize(
    "weighed, words",
    [
        ("200 g", "By your scale it holds 37 % air."),
        ("300 g", "By your scale it holds 6 % air."),
        ("318 g", "By your scale it holds 0 % air."),
        ("328 g", "By your scale it holds 0 % air."),
        ("329 g", "That is heavier than this recipe can be without any air (1.27 g/ml)."),
    ],
)
def test_what_a_measure_weighs_says_how_much_air_there_is(weighed: str, words: str) -> None:
    """Without air plain weighs 1.2746 g/ml, 318.6 g in 250 ml: 200 g are 37 % less. Up to 3 % more, 328.2 g, is how scales and cups differ."""
    assert has(words, "batch", weighed_cup=weighed, cup="250 ml")


@pytest.mark.parametrize("units, measure, density", [("metric", "250 ml", 0.8), ("us", "1 cup", 200 / 236.588)])
def test_a_measure_that_is_not_told_is_a_cup_of_the_readers(units: str, measure: str, density: float) -> None:
    words = f"The measure is taken to hold {measure}. A cup of 250 ml, of 240 ml and a US cup of 237 ml are three different cups."
    assert words in said("batch", weighed_cup="200 g", units=units)
    assert value(answered("batch", {"weighed_cup": "200 g", "units": units}), "density") == pytest.approx(density, rel=1e-4)
    assert not has("The measure is taken to hold", "batch", weighed_cup="200 g", cup="240 ml", units=units)
    assert not has("By your scale", "batch", units=units)


@pytest.mark.parametrize(
    "recipe, begin",
    [
        ("plain", ["Standing out. ", "Allergens "]),
        ("flour_cooked", ["Standing out. ", "Cooked milk paste: ", "Flour is a raw food", "Allergens "]),
        ("italian_meringue", ["Standing out. ", "Egg white: ", "Hot syrup: ", "Allergens "]),
    ],
)
def test_a_batch_comes_with_the_cautions_of_its_recipe(recipe: str, begin: list[str]) -> None:
    found = [one["text"] for one in answered("batch", {"recipe": recipe}).cautions]
    assert [text[: len(words)] for text, words in zip(found, begin, strict=True)] == begin
    assert "between 40 °F (4 °C) and 140 °F (60 °C)" in answered("batch", {"recipe": recipe, "units": "us"}).cautions[0]["text"]


# --- coats ---------------------------------------------------------------------------------------------------------------


def figures(**typed: str) -> dict[str, tuple[float, float | None, float | None]]:
    return {name: (one["value"], one.get("low"), one.get("high")) for name, one in answered("coats", typed).figures.items()}


def test_what_is_on_the_cake_and_what_is_made_have_their_ranges() -> None:
    """A filling of 224 g (173 to 274) and a coat of 364 g (245 to 481) are 588 g (418 to 755). For what stays on bowl and spatula 3 % of 588 g are
    made besides, 17.6 g, and a tenth to spare: 665 g, from 418 + 17.6 + 41.8 = 478 to 755 + 17.6 + 75.5 = 849 g."""
    found = figures()
    assert found["mass"] == pytest.approx((588.2, 418.4, 755.5), abs=0.06)
    assert found["make"] == pytest.approx((664.7, 477.9, 848.7), abs=0.06)
    assert found["filling"] == pytest.approx((212.1, 169.6, 254.5), abs=0.06)  # a fifth more or less
    assert found["crumb_coat"] == pytest.approx((132.8, 79.7, 185.9), abs=0.06)  # two fifths
    assert found["final_coat"] == pytest.approx((211.2, 158.4, 264.1), abs=0.06)  # a quarter
    texts = {name: one["text"] for name, one in answered("coats", {}).figures.items()}
    assert texts == {
        "filling": "212 ml (170 ml to 254 ml)", "crumb_coat": "133 ml (80 ml to 186 ml)", "final_coat": "211 ml (158 ml to 264 ml)",
        "mass": "588 g (418 g to 755 g)", "make": "665 g (478 g to 849 g)", "finished_width": "16 cm", "finished_side": "50.3 cm",
        "finished_height": "10.5 cm", "coat": "5 mm",
    }  # fmt: skip
    assert not any(one.get("quiet") for one in answered("coats", {}).figures.values())


def test_another_filling_is_left_out_of_the_weight_and_its_dam_is_not() -> None:
    """A dam of 1 cm, twice 6 mm high: 2 x 0.6 x pi (7.5^2 - 6.5^2) = 52.8 ml, 55.8 g at 1.058 g/ml (0.943 to 1.160), with 364 g of coat."""
    found = figures(filled_with="something else", dam="1 cm")
    assert found["mass"] == pytest.approx((55.8 + 363.9, 49.8 + 245.1, 61.2 + 481.3), abs=0.2)
    table = rows(answered("coats", {"filled_with": "something else", "dam": "1 cm"}), "amounts")
    assert table[0] == ["2 fillings", "6 mm", "159 ml", "by its own recipe"] and table[1][:3] == ["Dam", "1 cm wide", "53 ml"]
    thin = rows(answered("coats", {"dam": "0.1 mm"}), "amounts")[1]
    assert thin[:2] == ["Dam", "0.1 mm wide"], "2 x 0.6 x pi (7.5^2 - 7.49^2) = 0.6 ml"
    assert table[-1][3] == "420 g" and found["dam"] == (pytest.approx(52.8, abs=0.05), None, None)


@pytest.mark.parametrize(
    "layers, row, label",
    [
        ("1", None, "Filling"),
        ("2", ["1 filling", "6 mm", "106 ml", "112 g"], "Filling"),
        ("3", ["2 fillings", "6 mm", "212 ml", "224 g"], "Filling, 2 of them"),
        ("4", ["3 fillings", "6 mm", "318 ml", "336 g"], "Filling, 3 of them"),
    ],
)
def test_fillings_are_counted(layers: str, row: list[str] | None, label: str) -> None:
    """Each is 0.6 pi 7.5^2 = 106 ml, 112.2 g at 1.058 g/ml; three are 336.5 g, told as 336 so that what is told adds up."""
    found = answered("coats", {"layers": layers})
    assert rows(found, "amounts")[0] == (row or ["Crumb coat", "2 mm", "133 ml", "140 g"])
    assert found.figures["filling"]["label"] == label and heads(found, "amounts") == [
        ("What", "left"), ("Thick", "right"), ("Volume", "right"), ("Weight", "right"),
    ]  # fmt: skip


@pytest.mark.parametrize("top, words", [("", "3 mm"), ("5 mm", "3 mm"), ("5.1 mm", "3 mm; top 5.1 mm in all"), ("8 mm", "3 mm; top 8 mm in all")])
def test_a_top_that_differs_from_the_side_is_told(top: str, words: str) -> None:
    found = answered("coats", {"top": top})
    assert [row[1] for row in rows(found, "amounts") if row[0] == "Final coat"] == [words]
    assert value(found, "finished_height") == pytest.approx(100 + (float(top[:-3]) if top else 5))


def test_notes_on_coats_are_whole() -> None:
    """A disc of 162 mm round 150 mm leaves 6 mm a side, 4 of them final."""
    told = said("coats", disc="16.2 cm", layers="2", weighed_cup="200 g", cup="250 ml")
    assert told[1:] == [
        "The volumes are exact for the thicknesses typed. The ranges allow for different hands and the spread of the density; “Make” adds 3 % for "
        "what stays on bowl and spatula, and 10 % to spare.",
        "The height is that of the stacked sponge with its fillings: 2 layers of 4.7 cm each and 1 of 6 mm filling. Portions are counted on the "
        "sponge, not on the coat.",
        "The disc sets the coat: 6 mm on the side, of which 4 mm is final coat. The final coat typed is not used.",
        "A sponge draws back 1 mm to 2 mm from its tin on each side, and under a disc the coat makes up for it: the high end counts that in. Measure "
        "the sponge rather than the tin.",
    ]
    assert has("1 layer of 10 cm each. Portions", "coats", layers="1") and has("3 layers of 2.9 cm each and 2 of", "coats", layers="3")
    assert has("The final coat is only 0.5 mm: the crumb coat will show through.", "coats", disc="15.5 cm")
    assert has("Layers of 7.9 mm tear when they are lifted.", "coats", layers="10", height="133 mm")
    assert has("A filling of 1.3 cm bulges under the layers above it.", "coats", filling="13 mm")
    assert not has("The final coat typed is not used", "coats", disc="16.2 cm", final_coat="")


def test_another_filling_has_rules_of_its_own() -> None:
    plain, other, single = (
        [one["text"] for one in answered("coats", typed).cautions]
        for typed in ({}, {"filled_with": "something else"}, {"filled_with": "something else", "layers": "1"})
    )
    assert plain == single == [] and len(other) == 1
    assert other[0].startswith("A filling of cream, custard, curd or fresh fruit decides how long the cake may stand out. US advice for")


def test_a_sponge_has_one_size_or_two() -> None:
    """One and a half times the width is offered as an example."""
    assert problem("coats", shape="oval", width="20 cm") == ("length", "Length is empty, and an oval needs one. Write it like 30 cm")
    assert problem("coats", shape="rectangle", width="20 cm") == ("length", "Length is empty, and a rectangle needs one. Write it like 30 cm")
    assert "Length is not used: a square has one size, its width." in said("coats", shape="square", length="30 cm")
    assert "Length is not used: an octagon has one size, its width." not in said("coats", shape="square", length="15 cm")
    wide = figures(shape="rectangle", width="20 cm", length="30 cm")
    assert wide["finished_width"][0] == pytest.approx(210) and wide["finished_side"][0] == pytest.approx(2 * (210 + 310), rel=0.02)


def asked(**typed: str) -> Any:
    return parse(CALCULATORS["coats"], typed)


def sections(monkeypatch: pytest.MonkeyPatch, **typed: str) -> list[Any]:
    """What the cut through a tier is drawn from, besides the tier."""
    given: list[Any] = []

    def drawn(made: Any, units: str, bands: Any = (), **more: Any) -> Scene:
        given.append((units, [tuple(round(at, 3) for at in band) for band in bands], more))
        return Scene("Cut", "A cut", 0.0, 0.0, 10.0, 10.0, ())

    monkeypatch.setattr(coats_form, "section_scene", drawn)
    answer = Answer("coats", typed.get("units", "metric"))
    coats_form.work_out(asked(**typed), answer)
    (drawing,) = answer.drawings
    assert (drawing["name"], drawing["title"], drawing["description"]) == ("section", "Cut", "A cut")
    return given[0]  # type: ignore[no-any-return]


def test_a_tier_is_drawn_in_its_style(monkeypatch: pytest.MonkeyPatch) -> None:
    """10.5 cm in three stripes and three grounds: 35 mm for each pair. Half a ground is at the base and half at the top. With 40 % of the height a
    stripe has 14 mm and a ground 21."""
    assert sections(monkeypatch, units="us")[:2] == ("us", [])
    assert sections(monkeypatch, style="ombre", colours="2")[1] == [(0.0, 52.5), (52.5, 105.0)]
    assert sections(monkeypatch, style="ombre", shares="2, 1")[1] == [(0.0, 70.0), (70.0, 105.0)]
    units, bands, more = sections(monkeypatch, style="striped", stripes="3")
    assert (units, bands, more["groove_mm"]) == ("metric", [], 3.0)
    assert [tuple(map(float, one)) for one in more["stripes_mm"]] == [pytest.approx(ends) for ends in ((8.75, 26.25), (43.75, 61.25), (78.75, 96.25))]
    _, _, more = sections(monkeypatch, style="striped", stripes="3", stripe_share="40 %", groove="2 mm")
    assert [tuple(map(float, one)) for one in more["stripes_mm"]] == [pytest.approx(ends) for ends in ((10.5, 24.5), (45.5, 59.5), (80.5, 94.5))]
    assert more["groove_mm"] == 2.0


def test_bands_of_an_ombre_are_told_from_the_base_up() -> None:
    """211 ml of final coat: 2 : 1 of the height. The top of the cake goes to the upper band."""
    found = answered("coats", {"style": "ombre", "shares": "2, 1"})
    first, second = rows(found, "bands")
    assert (first[:3], second[:3]) == (["1", "0 mm", "7 cm"], ["2", "7 cm", "10.5 cm"])
    assert title(found, "bands") == "Ombre, from the base up"
    assert heads(found, "bands") == [
        ("Band", "right"), ("From", "right"), ("To", "right"), ("Volume", "right"), ("Weight", "right"), ("Mix up to", "right"),
    ]  # fmt: skip
    volumes = [float(row[3].split()[0]) for row in (first, second)]
    assert sum(volumes) == pytest.approx(211, abs=1)
    for row, volume in zip((first, second), volumes, strict=True):  # at 1.058 g/ml; at most a quarter more of it, at 1.160 g/ml
        assert float(row[4].split()[0]) == pytest.approx(1.058 * volume, abs=1) and float(row[5].split()[0]) > 1.2 * float(row[4].split()[0])
    assert has("The top of the cake has the colour of the top band.", "coats", style="ombre")
    assert not has("The top of the cake", "coats", style="striped") and not has("The top of the cake", "coats")
    assert len(rows(answered("coats", {"style": "ombre"}), "bands")) == 3


@pytest.mark.parametrize("stripes, words", [("1", "1 stripe"), ("2", "2 stripes"), ("6", "6 stripes")])
def test_stripes_are_counted_and_combed(stripes: str, words: str) -> None:
    """A groove as deep as the final coat: 211 ml at 1.058 g/ml are 223 g of ground, and half of what lies on the side comes out of it again."""
    found = answered("coats", {"style": "striped", "stripes": stripes})
    assert title(found, "stripes") == words and [row[0] for row in rows(found, "stripes")] == ["Ground", "Stripe"]
    assert heads(found, "stripes") == [("Colour", "left"), ("Each is high", "right"), ("Volume", "right"), ("Weight", "right")]
    (comb,) = [one["text"] for one in found.notes if "comb grooves" in one["text"]]
    assert comb.startswith(
        "Coat with the ground colour and comb grooves 3 mm deep, chill until it is firm, fill the grooves too full and scrape back."
    )
    stripe = rows(found, "stripes")[1]
    assert comb.endswith(f"Mix 223 g of the ground colour: the comb lifts {stripe[3]} of it out again.")
    assert not has("comb grooves", "coats") and not any(one["name"] in ("stripes", "bands") for one in answered("coats", {}).tables)


def test_shares_are_read_in_any_of_the_ways_they_are_written() -> None:
    read = coats_form._shares
    assert read("2, 1, 1") == read("2 : 1 : 1") == read(" 2;1/1 ") == (2, 1, 1) and read("50 %, 25%, 25 %") == read("50%; 25% 25%") == (50, 25, 25)
    assert len(read(", ".join(["1"] * 24))) == 24 and rows(answered("coats", {"style": "ombre", "shares": "50 %, 50 %"}), "bands")[0][2] == "5.3 cm"
    with pytest.raises(Problem, match="“%” does not read as one"):
        read("1, %")
    with pytest.raises(Problem, match="24 numbers at most; there are 25"):
        read(", ".join(["1"] * 25))


def test_densities_used_here_are_those_of_plain_buttercream() -> None:
    density = density_g_per_ml("plain", "whipped")
    assert (float(density), density.low, density.high) == pytest.approx((1.058, 0.943, 1.160), abs=5e-4)
