"""What an order takes besides buttercream, where its rows are, how they are marked, and how its texts are kept: by hand.

The cake is 20 and 15 cm, both 10 cm high: swags and a base of shells on the lower tier, beads and pairs of leaves on the upper one. Coated they are
21 and 16 cm wide, 66 and 50.3 cm round.
"""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.buttercream import batch
from calc.calculators import CALCULATORS
from calc.calculators.order_besides import STANDS, STIRRED, TOOLS, Line, besides, purposes_of
from calc.calculators.order_tiers import tiers_file
from calc.calculators.order_words import clash_text, marking_text, place_of, reach_texts, row_phrase, size_words, sponge_words
from calc.calculators.packs import _same_thing
from calc.calculators.text_kept import LONGEST_KEY, MOST_BITS, MOST_KEYS, TextKept
from calc.order import Plan
from calc.units import LONGEST_RECORD, Formatter, Problem, letter_of, listed
from tests.calc.test_calculators_order import planned

SAY = Formatter()


def had(cake: Plan, group: str = "", say: Formatter = SAY) -> list[Line]:
    made = batch(cake.order.recipe, cake.buttercream_g)
    return [line for line in besides(cake, made, purposes_of(cake), say) if not group or line.group == group]


# --- besides the buttercream -------------------------------------------------------------------------------------------------


def test_sponges_for_two_tiers_by_hand() -> None:
    """10 cm less two fillings of 6 mm are 8.8 cm of sponge, 2.9 in each of three layers: 2765 and 1555 ml, at 0.415 g/ml 1.15 kg and 645 g.

    A tenth of a batter is lost as steam, so 1.99 kg of it, a quarter each of butter, sugar, eggs and flour: 498 g. Six layers are 1473 cm2 to brush:
    at 0.1 g per cm2, 147 g.
    """
    lower, upper, equal, syrup = had(planned(), "Sponges")
    assert lower[:3] == ("Sponge, round, 20 cm, or its ingredients by your own recipe", "3 layers of 2.9 cm, about 1.15 kg baked", "Lower")
    assert (upper.much, upper.use) == ("3 layers of 2.9 cm, about 645 g baked", "Upper")
    assert equal.much == "about 498 g of each" and syrup.much == "about 147 g" and syrup.use == "the layers"
    assert len({line.key for line in had(planned())}) == len(had(planned()))


def test_what_the_buttercream_is_wanted_for_adds_up() -> None:
    """Strings want a looser buttercream than other piping; fillings and coats are one purpose. Both tiers' strings count."""
    for cake in (planned(), planned(tiers__0__rows__0__kind="string", tiers__1__rows__2__kind="string"), planned(tiers__0__striped="cream")):
        found = purposes_of(cake)
        strings = sum(row.amount.mass_g for tier in cake.tiers for row in tier.rows if row.spec.kind == "string")
        assert found["strings"] == pytest.approx(strings) and found["piping"] + found["strings"] == pytest.approx(cake.piping_g)
        assert found["coats"] == pytest.approx(cake.filling_g + cake.coat_g + cake.lifted_g)


def test_what_is_stirred_in() -> None:
    """Syrup thins what is spread and piped; every colour but the plain one has its gel. 851 and 160 g are today's result."""
    thin, *gels = had(planned(), STIRRED)
    assert thin.use == "to thin it for coats and piping" and thin.what[0].isupper() and thin.much.startswith("up to ")
    assert [(gel.what, gel.much, gel.use) for gel in gels] == [
        ("Gel or paste colour for ivory", "a little", "851 g of buttercream"),
        ("Gel or paste colour for cream", "a little", "160 g of buttercream"),
    ]
    assert had(planned(tiers__0__rows__0__kind="string"), STIRRED)[0].use == "to thin it for coats, piping and strings"


def test_boards_dowels_and_boxes_by_hand() -> None:
    """A board that shows 5 cm round 21 is 31, a thin one 16 as wide as its tier; four dowels and two spare. A box is 5 cm wider than its board and
    higher than what goes in: both tiers together, or each by itself where they are stacked at the venue."""
    assert [(line.what, line.much, line.use, line.pieces) for line in had(planned(), STANDS)] == [
        ("Cake board, 31 cm", "1", "under Lower, the next size sold", 1),
        ("Dowels to cut to 10.5 cm", "4 and 2 spare", "in Lower", 6),
        ("Thin board, 16 cm", "1", "under Upper", 1),
        ("Box, 36 cm x 36 cm, 26 cm high inside", "1", "the whole cake", 1),
    ]
    apart = had(planned(stacked="venue"), STANDS)
    assert [(line.what, line.use) for line in apart[-2:]] == [
        ("Box, 36 cm x 36 cm, 15.5 cm high inside", "Lower"),
        ("Box, 21 cm x 21 cm, 15.5 cm high inside", "Upper"),
    ]


def test_a_tall_tier_has_a_board_between_its_levels_and_a_tall_cake_a_rod() -> None:
    """22 cm is two levels, with a board inside, a centimetre narrower than the sponge, and dowels half as long: seven under it and four
    under Upper."""
    found = {line.what: line for line in had(planned(tiers__0__height="22 cm", tiers__0__width="25 cm"), STANDS)}
    inner, dowels, rod = (found[what] for what in ("Thin board, 24 cm", "Dowels to cut to 11.3 cm", "Centre rod, 31 cm"))
    assert (inner.much, inner.use, inner.pieces) == ("1", "inside Lower, between its levels", 1)
    assert dowels.pieces == 13 and dowels.much == "11 and 2 spare" and (rod.much, rod.use, rod.pieces) == ("1", "through all tiers", 1)


def test_bags_tips_and_couplers_by_hand() -> None:
    """Four tips in one colour: four bags and two spare, or one with a coupler, which saves three. A tip wanted in two colours is needed
    twice."""
    bags, *tips, couplers, paper = had(planned(), TOOLS)
    assert (bags.much, bags.use, bags.pieces) == ("4 and 2 spare", "one for each colour and tip", 6)
    assert [(tip.what, tip.much, tip.pieces) for tip in tips] == [
        (f"Tip, {name}", "1", 1) for name in ("petal 11 mm", "round 4 mm", "open star 7 mm", "leaf 6 mm")
    ]
    assert (couplers.much, couplers.use, couplers.pieces) == ("1", "they save 3 bags", 1) and paper.much == "a roll of each"
    twice = {
        line.what: line for line in had(planned(tiers__0__rows__2__kind="shell", tiers__0__rows__2__place="top", tiers__0__rows__2__colour="sage"))
    }
    assert (twice["Tip, open star 7 mm"].much, twice["Tip, open star 7 mm"].pieces) == ("2", 2)
    one = {
        line.what: line for line in had(planned(tiers__1__rows__0__colour="sage", tiers__1__rows__1__colour="bay", tiers__1__rows__1__kind="leaf"))
    }
    assert one["Couplers"].use == "they save 1 bag"
    filled = had(planned(tiers__0__width="40 cm", tiers__0__rows__0__layers="5", tiers__0__rows__0__tip="petal 26 mm"), TOOLS)[0]
    assert filled.use.startswith("one for each colour and tip, ") and filled.use.endswith(" fills")


# --- where rows are, and how they are marked -----------------------------------------------------------------------------------


def test_where_each_row_is_in_words() -> None:
    rows = {"2.kind": "line", "2.place": "over", "3.kind": "shell", "3.place": "top", "4.kind": "line", "4.place": "over"}
    rows |= {"5.kind": "line", "5.place": "inside", "6.kind": "bead", "6.place": "side", "7.kind": "leaf", "7.place": "joints"}
    tier = planned(**{f"tiers.0.rows.{name}": text for name, text in rows.items()}).tiers[0]
    told = [place_of(row, SAY) for row in tier.rows]
    assert told[:3] == ["joints 1.2 cm below the top edge", "round the base", "over the shell round the base"]
    assert told[3] == "on the top, 7 mm in from the edge" and told[4] == "over the shell on the top, 7 mm in from the edge"
    assert told[5].startswith("inside the top edge, ") and told[5].endswith(" cm in") and told[6] == "5.3 cm below the top edge"
    assert told[7] == "at every joint, 1.2 cm below the top edge"
    over = planned(tiers__0__rows__1__kind="line", tiers__0__rows__1__place="over").tiers[0].rows[1]
    assert place_of(over, SAY) == "over the swag, joints 1.2 cm below the top edge" and row_phrase(over) == "line, round 3 mm, cream"


@pytest.mark.parametrize(
    "changes, words",
    [
        (
            {},  # the circle stands 37.5 + root(37.5^2 - 36.7^2) = 45.4 mm over the joints, which are 12 down; its foot is 12 + 29.6 down
            "9 repeats of 7.3 cm close round 66 cm; joints 1.2 cm below the top edge. The 7.5 cm cutter, rolled from joint to joint, drops 3 cm. "
            "The cutter's top stands 4.5 cm above the joints, over the cake's edge, so the guide tape goes under it: its upper edge 4.2 cm below the "
            "top edge, and the cutter rests on it.",
        ),
        (
            {"tiers__0__rows__0__below": "5 cm"},
            "joints 5 cm below the top edge. The 7.5 cm cutter, rolled from joint to joint, drops 3 cm. Put the guide tape with its lower edge 4.6 "
            "mm below the top edge (4.5 cm above the joints) and hang the cutter from it.",
        ),
        (
            {"cutters": ""},
            "8 repeats of 8.2 cm close round 66 cm; joints 1.2 cm below the top edge. No cutter: mark the arcs from a paper strip, drop",
        ),
        (
            {"tiers__0__repeats": "7", "tiers__0__cutter": "9 cm"},  # 66 cm over 7 are 94.2 mm; 66 over 9 cm are 7.3, so eight close it
            "No cutter at hand fits: the 9 cm cutter leaves a gap of 4.2 mm at every joint; 8 repeats close it.",
        ),
        (
            {"tiers__0__rows__0__drop": "4.5 cm", "tiers__0__repeats": "9", "tiers__0__cutter": "7.5 cm"},
            "The drop asked for is 4.5 cm, and the 7.5 cm cutter would drop 3 cm: mark the arcs from a paper strip, or leave the drop empty",
        ),
    ],
)
def test_how_a_tier_is_marked_in_words(changes: dict[str, str], words: str) -> None:
    assert words in marking_text(planned(**changes).tiers[0], SAY)


def test_what_runs_into_what_is_told_with_a_way_out() -> None:
    deep = planned(tiers__0__rows__0__drop="9 cm", tiers__0__repeats="5").tiers[0]
    told = [clash_text(clash, SAY) for clash in deep.clashes]
    assert any(
        "the swag, petal 11 mm, cream does not fit: it runs" in text and "past the board. Make the drop shallower, use" in text for text in told
    )
    assert any("and the shell, open star 7 mm, cream collide between the joints: they overlap by" in text for text in told)
    assert any(text.endswith("Make the drop shallower, move the joints, or leave one out.") for text in told)
    high = planned(tiers__0__rows__0__below="2 mm").tiers[0]
    assert any("past the top edge. Set its joints lower." in clash_text(clash, SAY) for clash in high.clashes)
    beads = {"tiers__0__rows__2__kind": "bead", "tiers__0__rows__2__place": "side", "tiers__0__rows__2__below": "9.5 cm"}
    straight = [clash_text(clash, SAY) for clash in planned(**beads).tiers[0].clashes]
    assert any("collide all round: they overlap by" in text and "Move one of them, use finer tips, or leave one out." in text for text in straight)
    assert any(
        "past the top edge. Set it lower, or use a finer tip." in clash_text(clash, SAY)
        for clash in planned(**{**beads, "tiers__0__rows__2__below": "1 mm"}).tiers[0].clashes
    )


def test_small_words() -> None:
    assert [letter_of(i) for i in (0, 1, 25, 26, 51, 52)] == ["A", "B", "Z", "AA", "ZZ", "AAA"]
    assert (listed(["cream"]), listed(["cream", "sage"]), listed(["cream", "sage", "bay"])) == ("cream", "cream and sage", "cream, sage and bay")
    assert (size_words(200.0, 200.4, SAY), size_words(200.0, 200.6, SAY), size_words(200.0, 300.0, SAY)) == (
        "20 cm",
        "20 cm x 20.1 cm",
        "20 cm x 30 cm",
    )
    assert sponge_words(planned(tiers__0__shape="heart", tiers__1__width="10 cm").tiers[0], SAY) == "heart, 20 cm"
    two = planned(tiers__0__shape="rectangle", tiers__0__length="30 cm").tiers[0]
    assert sponge_words(two, SAY) == "rectangle, 20 cm x 30 cm"


@pytest.mark.parametrize(
    "pack, ingredient, same",
    [
        ("butter", "butter, unsalted", True),
        ("Unsalted Butter", "butter, unsalted", True),
        ("salted butter", "butter, unsalted", False),
        ("", "butter, unsalted", False),
        ("but", "butter, unsalted", False),
    ],
)
def test_a_pack_is_known_by_whole_words(pack: str, ingredient: str, same: bool) -> None:
    assert _same_thing(pack, ingredient) is same


def test_rows_that_stand_in_the_way_are_told_with_the_worst_first() -> None:
    """A string close under a ruched swag is come at from below; between that and a border that stands out further, from above the border."""
    under = planned(tiers__0__rows__0__kind="ruched swag", tiers__0__rows__1__kind="string", tiers__0__rows__1__place="under")
    assert reach_texts(under, SAY) == {
        2: "The ruched swag of step 1 stands out 1.1 cm close by: come from below, with the tip almost flat to the side."
    }
    rows = {"0.kind": "ruched swag", "0.place": "side", "0.below": "3 cm", "2.kind": "string", "2.place": "side", "2.below": "4.2 cm"}
    rows |= {"1.kind": "ruched border", "1.place": "side", "1.below": "6 cm", "1.tip": "petal 13 mm"}
    between = planned(**{f"tiers.0.rows.{name}": text for name, text in rows.items()})
    assert [(later.number, earlier.number) for later, earlier in between.in_the_way] == [(3, 1), (3, 2)]
    assert reach_texts(between, SAY) == {
        3: "The ruched border of step 1 stands out 1.3 cm close by: come from above, with the tip almost flat to the side."
    }


# --- the tiers for other calculators -------------------------------------------------------------------------------------------


def filled(cake: Plan, calculator: str, units: str = "metric") -> list[dict[str, dict[str, str]]]:
    found = tiers_file(cake, f"tiers for {json.dumps({'calculator': calculator, 'units': units})}", CALCULATORS)
    return list(json.loads(found))


def test_a_tier_fills_the_coats_with_its_tin_and_its_layers() -> None:
    upper, lower = filled(planned(), "coats")
    assert (upper["words"], lower["words"]) == ("Upper", "Lower")
    wanted = {"shape": "round", "width": "20 cm", "height": "10 cm", "layers": "3", "filling": "6 mm", "crumb_coat": "2 mm", "final_coat": "3 mm"}
    assert {name: lower["sets"][name] for name in wanted} == wanted
    assert lower["sets"]["length"] == "" == lower["sets"]["disc"]
    disc = filled(planned(tiers__0__disc="21 cm"), "coats")[1]["sets"]
    assert (disc["final_coat"], disc["disc"]) == ("", "21 cm")
    long = filled(planned(tiers__0__shape="rectangle", tiers__0__length="30 cm"), "coats")[1]["sets"]
    assert (long["shape"], long["width"], long["length"]) == ("rectangle", "20 cm", "30 cm")
    heart = filled(planned(tiers__0__shape="heart", tiers__1__width="10 cm"), "coats")[1]["sets"]
    assert heart["fullness"] == "72 %"


def test_a_whole_order_fills_its_supports() -> None:
    (found,) = filled(planned(tiers__0__shape="rectangle", tiers__0__length="30 cm"), "supports")
    assert found["words"] == "All of it" and found["sets"]["tiers"] == "20 cm x 30 cm x 10 cm rectangle; 15 cm x 10 cm round"
    assert filled(planned(), "supports", "us")[0]["sets"]["tiers"] == "7 7/8 in x 3 15/16 in round; 5 7/8 in x 3 15/16 in round"


# --- texts kept in a file ------------------------------------------------------------------------------------------------------

KEPT = TextKept("order", "The order", "Begin with a tier")


def refused(text: str) -> str:
    with pytest.raises(Problem) as caught:
        KEPT.read(text)
    assert caught.value.input == "order"
    return caught.value.message


texts = st.text(alphabet=st.characters(blacklist_categories=("Cs", "Cc")), max_size=12)
fields = st.dictionaries(st.sampled_from(["name", "width", "tip", "a b"]), texts, min_size=1, max_size=3)


@given(fields, st.lists(st.tuples(fields, st.lists(fields, max_size=3)), max_size=12))
@settings(max_examples=40)
def test_what_was_kept_reads_as_what_was_typed(order: dict[str, str], tiers: list[tuple[dict[str, str], list[dict[str, str]]]]) -> None:
    """An order's own fields, those of its tiers, and those of each tier's rows."""
    typed = dict(order)
    for i, (tier, rows) in enumerate(tiers):
        typed |= {f"tiers.{i}.{name}": text for name, text in tier.items()}
        typed |= {f"tiers.{i}.rows.{j}.{name}": text for j, row in enumerate(rows) for name, text in row.items()}
    assert KEPT.read(KEPT.write(typed, ())) == typed


def test_copies_are_kept_in_the_order_of_their_numbers_and_names_first_that_are_asked_first() -> None:
    typed = {f"tiers.{i}.name": f"Tier {i}" for i in range(12)} | {"name": "Cake"}
    text = KEPT.write(typed, ("name",))
    assert text.startswith('name = "Cake"') and [text.index(f"Tier {i}") for i in (1, 2, 10, 11)] == sorted(
        text.index(f"Tier {i}") for i in (1, 2, 10, 11)
    )
    assert KEPT.read(text) == typed
    assert KEPT.write({"b": "1", "a": "2"}, ("a", "c")) == 'a = "2"\nb = "1"\n'


def test_values_without_quotes_are_read_as_they_would_be_typed() -> None:
    text = 'a = true\nb = false\nc = 3\nd = 2.5\ne = 2027-10-16T14:00:00\nf = 2027-10-16\ng = [7.5, 9]\n[[h]]\ni = "x"\n[[h]]\ni = "y"'
    assert KEPT.read("\ufeff" + text) == {
        **{"a": "yes", "b": "no", "c": "3", "d": "2.5", "e": "2027-10-16 14:00", "f": "2027-10-16", "g": "7.5, 9"},
        **{"h.0.i": "x", "h.1.i": "y"},
    }


def test_what_is_no_order_is_told_where() -> None:
    assert refused(" \n") == "The order is empty. Begin with a tier"
    assert "does not read as TOML at line 2, column" in refused('a = "1"\nb = = 2')
    assert f"{LONGEST_RECORD + 1} characters; {LONGEST_RECORD} is the most" in refused("#" * (LONGEST_RECORD + 1))
    assert KEPT.read('a = "1"\n' + "#" * (LONGEST_RECORD - 8)) == {"a": "1"}


def test_a_text_has_so_many_names_and_no_more() -> None:
    assert f"has over {MOST_KEYS} names" in refused("\n".join(f"a{i}=1" for i in range(MOST_KEYS + 1)))
    assert "has over" not in refused("\n".join(f"a{i}=1" for i in range(MOST_KEYS)))
    assert KEPT.read('a = "1" # ' + "=" * (MOST_KEYS + 1)) == {"a": "1"}
    assert KEPT.read(f'a = "{"=" * (MOST_KEYS + 1)}"') == {"a": "=" * (MOST_KEYS + 1)}


def test_names_and_numbers_are_no_longer_than_a_form_has() -> None:
    assert f"has a name or a number of {LONGEST_KEY + 1} characters" in refused(f"{'a' * (LONGEST_KEY + 1)} = 1")
    assert KEPT.read(f"{'a' * LONGEST_KEY} = 1") == {"a" * LONGEST_KEY: "1"}
    assert KEPT.read(f"a = {2**MOST_BITS - 1}")["a"] == str(2**MOST_BITS - 1)
    assert "more digits than any measurement has" in refused(f"a = {2**MOST_BITS}")


def test_brackets_count_while_they_are_open_and_not_in_quotes() -> None:
    assert KEPT.read(f"a = [{', '.join(['[1]'] * 100)}]")["a.99"] == "1"
    assert KEPT.read(f"a = \"{'[' * 100}\"\nb = '{'{' * 100}' # {'[' * 100}") == {"a": "[" * 100, "b": "{" * 100}
    assert "holds more than any order can" in refused("a = " + "[" * 8 + "{b = 1}" + "]" * 8)
