"""When something is said: every sentence stands where its reason holds and nowhere else, tried just on either side of it.

A sentence too many makes a reader doubt an answer that is right; one that is missing leaves a layer that tears or a tip that does not pipe. Limits of
judgement (a layer under 8 mm tears, a filling over 12 mm bulges) are common practice, no source.
"""

from __future__ import annotations

from typing import Any

import pytest

import calc

Typed = dict[str, str | None]  # with None a field, or one more thing of a list, is not there


def computed(slug: str, typed: Typed) -> Any:
    return calc.compute(slug, {name.replace("__", "."): text for name, text in typed.items() if text is not None})


def sentences(slug: str, typed: Typed) -> list[str]:
    """Notes and cautions of an answer without problems."""
    answer = computed(slug, typed)
    assert answer.problems == [], answer.problems
    return [one["text"] for one in (*answer.notes, *answer.cautions)]


TAPE = "The side is worked out from the width. Measure it with a tape before you mark, and go by the tape."
SHELLS = {"exercises": "shells"}
ONE_TIP: Typed = {"tips__0__tip": "round 3 mm"}
EVERY_TIP = ("round 2", "round 4", "open star 6", "closed star 5", "petal 9", "leaf 6")  # between them they pipe every kind
PACKS: Typed = {"items__0__name": "butter", "items__0__mass": "300 g", "items__0__pack": "250 g", "items__0__pack_price": "2.50"}
OURS: Typed = {"recipes__0__name": "Ours"}
BUTTER: Typed = {"recipes__0__parts__0__ingredient": "butter", "recipes__0__parts__0__mass": "250 g"}

THREE = "25 x 10 cm; 20 x 10 cm; 15 x 10 cm"
KEPT: Typed = {"tins": "20 cm", "cutters": "9 cm"}

# Calculator, what is said, what is typed so that it is, and, changed from that, so that it is not. Where a whole sentence must go, the words have no
# number in them that would change with what is typed.
SENTENCES: list[tuple[str, str, Typed, Typed]] = [
    ("coats", " tear when they are lifted.", {"layers": "10", "height": "133 mm"}, {"height": "134 mm"}),
    ("coats", " bulges under the layers above it.", {"filling": "13 mm"}, {"filling": "12 mm"}),
    ("coats", "bulges under the layers above it", {"filling": "13 mm"}, {"dam": "1 cm"}),
    ("coats", "bulges under the layers above it", {"filling": "13 mm"}, {"layers": "1"}),
    ("coats", ": the crumb coat will show through.", {"disc": "155.9 mm"}, {"disc": "156 mm"}),
    ("coats", "A sponge draws back 1 mm to 2 mm from its tin", {"disc": "16 cm"}, {"disc": ""}),
    ("coats", "The final coat typed is not used.", {"disc": "16 cm"}, {"final_coat": ""}),
    ("coats", "In a notch the coats of both sides meet", {"shape": "heart"}, {"shape": "round"}),
    ("coats", "In a notch the coats of both sides meet", {"shape": "petal"}, {"shape": "square"}),
    ("coats", "A filling of cream, custard, curd or fresh fruit decides", {"filled_with": "something else"}, {"layers": "1"}),
    ("coats", "A filling of cream, custard, curd or fresh fruit decides", {"filled_with": "something else"}, {"filled_with": "buttercream"}),
    ("coats", "2 layers of 4.7 cm each and 1 of 6 mm filling", {"layers": "2"}, {"layers": "3"}),
    ("coats", "1 layer of 10 cm each. ", {"layers": "1"}, {"layers": "2"}),
    ("coats", "Length is not used: a round has one size, its width.", {"length": "30 cm"}, {"length": "15 cm"}),
    ("portions", "Length is not used: a round has one size, its width.", {"width": "20 cm", "length": "30 cm"}, {"length": "20 cm"}),
    ("portions", "For comparison, food labels in the US count a portion of such cake as 80 g.", {"height": "10 cm"}, {"height": ""}),
    ("portions", "high is more than most people eat", {"height": "20 cm"}, {"height": "10 cm"}),
    ("division", TAPE, {"side": "", "width": "20 cm", "repeats": "8"}, {"side": "63 cm"}),
    ("price", "A margin of 20 % on the price is a markup of 25 % on the cost.", {"margin": "20 %"}, {"margin_of": "cost"}),
    ("price", "A markup of 25 % on the cost is a margin of 20 % on the price.", {"margin": "25 %", "margin_of": "cost"}, {"margin_of": "price"}),
    ("price", "Whole packs cost ", PACKS, {"count": "used"}),
    ("price", "Whole packs cost ", PACKS, {"items__0__mass": "500 g"}),
    ("price", "No pack price for butter: it is not in the cost.", {**PACKS, "items__0__pack_price": ""}, PACKS),
    ("batch", "of water boils off", {"recipe": "flour_cooked"}, {"recipe": "plain"}),
    ("batch", "By your scale it holds ", {"weighed_cup": "200 g", "cup": "250 ml"}, {"weighed_cup": ""}),
    ("batch", "That is heavier than this recipe can be without any air", {"weighed_cup": "400 g", "cup": "250 ml"}, {"weighed_cup": "200 g"}),
    ("batch", "The measure is taken to hold ", {"weighed_cup": "200 g"}, {"cup": "250 ml"}),
    ("batch", "For 1 bag of 300 g; the mass typed is not used.", {"bags": "1"}, {"bags": "2"}),
    ("batch", "so make it in 1 go of 500 g", {"mass": "500 g", "bowl": "5 l"}, {"mass": "50 kg"}),
    ("stack", "The kept tier is not counted.", {"keep_top": "yes"}, {"keep_top": "no"}),
    ("stack", " are built with a board and supports inside and cut on ", {"height": "20 cm"}, {"height": "10 cm"}),
    ("portions", "The portions are equal by area. ", {"width": "20 cm", "cut": "rings"}, {"shape": "square", "cut": "grid"}),
    ("division", "Share that out over the last few steps", {"side": "63 cm", "repeats": "8"}, {"repeats": "3"}),
    ("division", "Dividers set to a whole millimetre end 3.4 mm before the start.", {"side": "66 cm", "repeats": "8"}, {"repeats": "6"}),
    ("division", "Dividers set to a whole millimetre end 4.7 mm past the start.", {"side": "66.3 cm", "repeats": "12"}, {"side": "66 cm"}),
    ("division", "Dividers set to 7/8 in end 0.2 in past", {"side": "66.3 cm", "repeats": "30", "units": "us"}, {"units": "metric"}),
    ("division", TAPE, {"shape": "square", "side": "", "width": "20 cm", "repeats": "8"}, {"side": "80 cm"}),
    ("swags", TAPE, {"side": "", "width": "20 cm", "cutter": "9 cm"}, {"side": "63 cm"}),
    ("strings", TAPE, {"side": "", "width": "20 cm"}, {"side": "63 cm"}),
    ("shells", TAPE, {"side": "", "width": "20 cm"}, {"side": "63 cm"}),
    ("row", TAPE, {"side": "", "width": "20 cm"}, {"side": "63 cm"}),
    ("vermicelli", TAPE, {"side": "", "width": "20 cm"}, {"side": "63 cm"}),
    ("strings", "Pipe the outermost string of every repeat first", {"side": "64 cm", "loops": "2"}, {"loops": "1"}),
    # a closed star of 5 mm makes rosettes 3 x 5.5 = 16.5 mm wide; 0.7 and 1.7 times that are 11.55 and 28.05 mm
    (
        "rosettes",
        "More turns will look unlike the usual ones.",
        {"count": "6", "tip": "closed star 5 mm", "size": "28.1 mm"},
        {"size": "27.9 mm"},
    ),
    (
        "rosettes",
        "Less than a turn will look unlike the usual ones.",
        {"count": "6", "tip": "closed star 5 mm", "size": "11.4 mm"},
        {"size": "11.6 mm"},
    ),
    ("row", "The amount is an estimate from the tip's opening", {"side": "64 cm"}, {"piped": "30 cm", "weighed": "20 g"}),
    ("lesson", "A beginner will not finish a whole sheet in the time: shells.", {"exercises": "shells, swags, strings"}, {"minutes": "10 h"}),
    ("lesson", "Each printed sheet lies under parchment or clear film", {"scrape": "yes"}, {"scrape": "no"}),
    ("lesson", "9 kits, 2 tables, and one kit of them is the tutor's, at the front.", {"students": "8", "tutor": "yes"}, {"tutor": "no"}),
    ("lesson", "1 kit, 1 table. The buttercream is 1 batch of up to 2 kg.", {"students": "1", "tutor": "no"}, {"students": "2"}),
    ("lesson", "40 kits, 10 tables. The buttercream is 4 batches of up to 2 kg.", {"students": "40", "tutor": "no"}, {"students": "8"}),
    ("kitchen", "Nothing of yours is kept yet.", {}, ONE_TIP),
    ("kitchen", "Nothing of yours is kept yet.", {}, {"hand": "learning"}),
    ("kitchen", "No tip of yours for ", ONE_TIP, {f"tips__{place}__tip": f"{tip} mm" for place, tip in enumerate(EVERY_TIP)}),
    ("kitchen", "Your hand is learning: piping is planned with ", {"hand": "learning"}, {"hand": "practised", **ONE_TIP}),
    ("kitchen", "Ours has no ingredients yet.", OURS, BUTTER),
    ("kitchen", "Standing out. ", OURS, {"recipes__0__name": None, **ONE_TIP}),
    ("kitchen", "Flour is a raw food", {**OURS, **BUTTER, "recipes__0__parts__0__ingredient": "flour"}, BUTTER),
    ("kitchen", "US label: milk; EU and UK label: milk", {**OURS, **BUTTER}, {"recipes__0__parts__0__ingredient": "icing_sugar"}),
    ("tint", "drops cannot be counted out. Put 1 whole drop into", {"mass": "10 g"}, {"mass": "50 g"}),
    ("tint", "drops cannot be counted out. Put 2 whole drops into", {"mass": "20 g"}, {"mass": "10 g"}),
    ("tint", "Standing deepens a pale tint as if it had", {"depth": "pale"}, {"test_stood": "1 h", "will_stand": "2 h"}),
    ("tips", "No opening between 0.5 mm and 60 mm makes a shell", {"effect": "shell", "width": "30 cm"}, {"width": "2 cm"}),
    ("tips", "A line is thicker than the hole it comes from", {"family": "round", "opening": "4 mm"}, {"opening": ""}),
    ("timetable", "The number in brackets says which person.", {"people": "2"}, {"people": "1"}),
    ("timetable", "Too large for a shelf of ", {"oven_shelf": "20 x 20 cm", "tiers": "25 x 10 cm", "rows": "1"}, {"oven_shelf": "45 x 40 cm"}),
    ("supports", "The lowest board shows 5 cm all round", {}, {"border": "0 cm"}),
    ("supports", "Push one dowel in at the highest spot", {}, {"tiers": "20 x 10 cm"}),
    ("supports", "Tier 1 is built on 2 levels. Inside: 1 thin board", {"tiers": "20 x 22 cm"}, {"tiers": "20 x 10 cm"}),
    ("supports", "Tier 2 is built on 3 levels. Inside: 2 thin boards", {"tiers": "20 x 10 cm; 15 x 35 cm"}, {"tiers": "20 x 10 cm; 15 x 10 cm"}),
    ("supports", "A pointed rod of ", {"tiers": THREE}, {"tiers": "20 x 10 cm; 15 x 10 cm"}),
    ("supports", "It goes in at the venue, once they are stacked, and is taken out", {"tiers": THREE, "stacked": "venue"}, {"stacked": "home"}),
    ("lesson", "Type what packs, room and hours cost", {}, {"room": "10"}),
    ("lesson", "Type what packs, room and hours cost", {}, {"rate": "10"}),
    ("lesson", "Type what packs, room and hours cost", {}, {"each": "10"}),
    ("timetable", "The times are for a hand that is learning, which take", {"hand": "learning"}, {"hand": "practised"}),
    ("timetable", "a hand that is practised. They", {}, {"hand": "quick"}),
    ("kitchen", "Tiers stacked at home are carried as one", {**ONE_TIP, "stacked": "home"}, {"stacked": "venue"}),
    ("kitchen", "has egg white: use pasteurised white", {**OURS, **BUTTER, "recipes__0__parts__0__ingredient": "egg_white"}, BUTTER),
    ("kitchen", "US label: none of the nine", {**OURS, **BUTTER, "recipes__0__parts__0__ingredient": "icing_sugar"}, BUTTER),
    ("kitchen", "Here a coated tier is taken to be 1 cm wider than its tin", KEPT, {"cutters": ""}),
    ("kitchen", "Here a coated tier is taken to be 1 cm wider than its tin", KEPT, {"tins": ""}),
    ("swags", "The cutter is narrower than the swag and leaves a gap", {"side": "66 cm", "cutter": "9 cm", "repeats": "7"}, {"repeats": "8"}),
    ("swags", " The piping covers that. 8 repeats close it", {"side": "63.7 cm", "cutter": "9 cm", "repeats": "7"}, {"side": "66 cm"}),
    ("swags", "Roll the cutter round the side", {"side": "66 cm", "cutter": "9 cm"}, {"cutter": "", "drop": "3 cm"}),
    ("swags", "so the guide tape goes under the cutter", {"side": "66 cm", "cutter": "9 cm"}, {"joints": "9 cm"}),
    ("division", "Do not set the dividers to the pitch", {"side": "66 cm", "repeats": "8"}, {"repeats": "3"}),
]


@pytest.mark.parametrize("slug, words, typed, changed", SENTENCES)
def test_a_sentence_stands_where_its_reason_holds_and_nowhere_else(slug: str, words: str, typed: Typed, changed: Typed) -> None:
    assert any(words in one for one in sentences(slug, typed)), sentences(slug, typed)
    assert not any(words in one for one in sentences(slug, {**typed, **changed}))


# Calculator, the field, what is said there, what is typed so that it is, and, changed from that, so that it can be worked out.
PROBLEMS: list[tuple[str, str, str, Typed, Typed]] = [
    ("coats", "length", "Length is empty, and an oval needs one. Write it like 30 cm", {"shape": "oval", "width": "20 cm"}, {"length": "30 cm"}),
    ("coats", "length", "at most ten times as long as it is wide", {"shape": "oval", "width": "9.9 cm", "length": "100 cm"}, {"width": "10 cm"}),
    ("coats", "length", "at most ten times as long as it is wide", {"shape": "oval", "width": "100 cm", "length": "9.9 cm"}, {"length": "10 cm"}),
    ("coats", "length", "a rectangle needs one", {"shape": "rectangle"}, {"length": "9 cm"}),
    ("portions", "length", "Length of the tin is empty, and an oval needs one", {"shape": "oval", "width": "20 cm"}, {"length": "30 cm"}),
    ("portions", "length", "at most ten times", {"shape": "oval", "width": "9.9 cm", "length": "100 cm"}, {"width": "10 cm"}),
    (
        "stack",
        "tins",
        "at most ten times",
        {"shape": "oval", "tins": "9.9 x 100 cm; 20 x 30 cm", "guests": "20"},
        {"tins": "10 x 100 cm; 20 x 30 cm"},
    ),
    ("stack", "tins", "this is empty, and what the widest of them holds is given", {"holds": "2 l"}, {"holds": ""}),
    ("batch", "ingredient", "Choose which ingredient you have that much of", {"in_hand": "250 g"}, {"ingredient": "butter"}),
    ("division", "repeats", "Repeats is empty. Write how many equal parts", {"side": "63 cm", "repeats": "", "target": ""}, {"target": "8 cm"}),
    ("coats", "shares", "1 to 24 numbers above 0", {"style": "ombre", "shares": "0, 1"}, {"shares": "0.5, 1"}),
    ("lesson", "left_handed", "must be 8 or fewer", {"students": "8", "left_handed": "9"}, {"left_handed": "8"}),
    (
        "lesson",
        "minutes",
        "must be 68 or more for 3 exercises: each is shown for 8 min and needs 8 min of practice. Allow",
        {"minutes": "67 min"},  # 10 + 3 x (8 + 8) + 10 = 68
        {"minutes": "68 min"},
    ),
    ("lesson", "minutes", ", and breaks take 15 min. Allow longer", {"minutes": "82 min", "breaks": "1"}, {"minutes": "83 min"}),
    ("lesson", "minutes", "for 1 exercise:", {"minutes": "30 min", **SHELLS}, {"minutes": "60 min"}),
    ("kitchen", "currency", "a sign or letters such as", {"currency": "1"}, {"currency": "£"}),  # before 20 it would be 120
    ("kitchen", "currency", "a sign or letters such as", {"currency": "£2"}, {"currency": "USD"}),
    ("kitchen", "currency", "a sign or letters such as", {"currency": "-"}, {"currency": "€"}),
    ("kitchen", "currency", "a sign or letters such as", {"currency": "doubloons"}, {"currency": "$"}),
    ("rosettes", "count", "How many is empty", {"count": "", "side": "", "width": ""}, {"count": "8"}),
    ("row", "repeats", "and a swag hangs between joints", {"side": "64 cm", "kind": "swag", "repeats": "", "drop": "3 cm"}, {"repeats": "8"}),
    ("row", "drop", "Write how far the swag hangs below its joints", {"side": "64 cm", "kind": "swag", "repeats": "8", "drop": ""}, {"drop": "3 cm"}),
    (
        "row",
        "drop",
        "at most three times the width, 24 cm for 8 repeats",
        {"kind": "string", "side": "64 cm", "repeats": "8", "drop": "24.1 cm"},
        {"drop": "24 cm"},
    ),
    ("row", "weighed", "Give both the strip's length and its weight", {"side": "64 cm", "piped": "30 cm"}, {"weighed": "20 g"}),
    ("row", "piped", "Give both the strip's length and its weight", {"side": "64 cm", "weighed": "20 g"}, {"piped": "30 cm"}),
    ("tint", "mass", "more than anyone counts", {"mass": "100 kg", "test_mass": "1 g", "test_drops": "3"}, {"mass": "1 kg"}),
    ("tips", "effect", "no basket tip makes that", {"family": "basket", "effect": "swag"}, {"family": "petal"}),
    ("timetable", "hours", "Give longer hours or more days", {"hours": "Mon 9:00-9:10"}, {"hours": "9:00 to 18:00"}),
    (
        "supports",
        "tiers",
        "Tier 2, a square, hangs over the round under it",
        {"tiers": "20 x 10 cm round; 19 x 10 cm square"},
        {"tiers": "20 x 10 cm round; 14 x 10 cm square"},
    ),
    (
        "supports",
        "tiers",
        "Tier 2 is wider than tier 1 under it (20.1 cm on 20 cm)",
        {"tiers": "20 x 10 cm round; 20.1 x 10 cm round"},
        {"tiers": "20 x 10 cm round; 20 x 10 cm round"},
    ),
]


@pytest.mark.parametrize("slug, field, words, typed, mended", PROBLEMS)
def test_what_cannot_be_is_said_at_its_field_and_what_just_can_is_worked_out(slug: str, field: str, words: str, typed: Typed, mended: Typed) -> None:
    (found,) = computed(slug, typed).problems
    assert found["input"] == field and words in found["message"]
    assert computed(slug, {**typed, **mended}).problems == []
