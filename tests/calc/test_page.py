"""Answers as HTML: whatever words go in, they come out as text, and only the elements and attributes that an answer is made of are there.

The site and its content security policy are a second line; these tests look at the first alone.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, Calculator, Group, Input, Press, Ranged, ranged
from calc.drawing.scene import Scene, Text
from calc.drawing.svg import svg
from calc.page.answer import answer_html, cures_html, main_drawing, section_links, swatch
from calc.page.html import VOID, element
from calc.page.lines import group_lines
from calc.page.reply import page_reply

ORDER = (Path(calc.__file__).parents[1] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")

STROKES = {"fill", "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin", "stroke-dasharray", "opacity", "class", "transform"}
ALLOWED: dict[str, set[str]] = {
    "section": {"class", "data-section", "id", "tabindex"},
    "h4": set(),
    "button": {"type", "class", "data-sheet", "data-file", "data-type", "data-saved", "data-copies", "data-sets", "data-clears", "data-done"},
    "dl": {"class"},
    "div": {"class", "data-figure", "data-again", "data-long", "data-table", "data-wide", "tabindex", "role", "aria-label"},
    "dt": set(),
    "dd": set(),
    "span": {"class"},
    "ul": {"class"},
    "li": set(),
    "p": set(),
    "a": {"href", "data-part"},
    "figure": {"class", "data-drawing"},
    "figcaption": set(),
    "table": set(),
    "caption": set(),
    "thead": set(),
    "tbody": set(),
    "tr": set(),
    "th": {"scope", "class", "data-label"},
    "td": {"class", "data-label"},
    "svg": {"class", "viewbox", "aria-hidden", "data-look", "xmlns", "xmlns:xlink", "role", "aria-labelledby"},
    "circle": {"cx", "cy", "r", "fill"},
    "title": {"id"},
    "desc": {"id"},
    "defs": set(),
    "g": {"id", "transform", "opacity", "clip-path", "data-part"},
    "path": {"d", *STROKES},
    "text": {"x", "y", "font-size", "font-weight", "text-anchor", *STROKES},
    "use": {"xlink:href", "transform", "opacity"},
    "lineargradient": {"id", "gradientunits", "x1", "x2", "y1", "y2"},
    "stop": {"offset", "stop-color"},
    "clippath": {"id"},
    "rect": {"x", "y", "width", "height"},
}
EMPTY = {"circle", "path", "use", "stop", "rect"}  # of SVG, closed in themselves
TYPES = ("button",)

PIECES = (
    "<",
    ">",
    '"',
    "'",
    "&",
    "=",
    "/",
    " ",
    "`",
    "<b>",
    "</",
    "<!--",
    "-->",
    "]]>",
    "<script>",
    "</svg>",
    "</title>",
    "&lt;",
    "&#",
    "onload=",
    "x",
)
hostile = (
    st.lists(st.one_of(st.sampled_from(PIECES), st.text(st.characters(exclude_categories=["Cs", "Cc", "Cn"]), max_size=5)), min_size=1, max_size=12)
    .map("".join)
    .filter(len)
)
PLANTED = (
    """"><img src=x onerror="ran()">""",
    """'><svg onload='ran()'><script>ran()</script>""",
    """</title></text></svg><iframe srcdoc='<script>ran()</script>'></iframe>""",
    "<!-- & &amp; <b x='1'>",
    "javascript:ran()",
)


class Checked(HTMLParser):
    """Reads markup, refuses what an answer may not have, and keeps the text."""

    def __init__(self, markup: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.text: list[str] = []
        self.values: dict[str, list[str]] = {}
        self.feed(markup)
        self.close()
        assert self.open == [], "elements that were not closed"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag in ALLOWED, tag
        self.text.append(f"\N{SYMBOL FOR RECORD SEPARATOR}{tag} ")
        assert {name for name, _ in attrs} <= ALLOWED[tag], (tag, attrs)
        assert len({name for name, _ in attrs}) == len(attrs), (tag, attrs)
        for name, value in attrs:
            self.values.setdefault(name, []).append(value or "")
            assert name not in ("href", "xlink:href") or (value or "").startswith("#"), value
            assert name != "type" or value in TYPES
            assert "url(" not in (value or "") or tag not in ("path", "g", "text") or (value or "").startswith("url(#d")
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag in EMPTY
        self.handle_starttag(tag, attrs)
        self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text.append(data)

    def handle_comment(self, data: str) -> None:
        raise AssertionError(f"a comment: {data}")

    def handle_decl(self, decl: str) -> None:
        raise AssertionError(f"a declaration: {decl}")

    def handle_pi(self, data: str) -> None:
        raise AssertionError(f"an instruction: {data}")

    def unknown_decl(self, data: str) -> None:
        raise AssertionError(f"a declaration: {data}")


def answer_of(words: str) -> Answer:
    """An answer that has the words in every place that takes words."""
    answer = Answer("swags")
    press = Press(words, {words: words}, clears=(words,), done=words)
    for section in ("", words):
        if section:
            answer.section(section, words, short=words, prints=words, copies=words, copied=(words,))
        answer.figure(f"{section} figure", words, 1.0, "", words)
        answer.figure(f"{section} ranged", words, 1.0, "g", Ranged(words, words, words), 0.5, 2.0)
        answer.note(words, press)
        answer.caution(words)
        answer.cure(words, words, press)
        answer.drawing(words, words, words, svg(Scene(words, words, 0, 0, 10, 10, (Text(1, 1, words, 3),))))
        answer.table(
            words,
            words,
            (words, words, words),
            [(words, Ranged(words, words, words), words), (press, words, words)],
            numeric=(1,),
            looks={2: {words: words}},
        )
        answer.sheet(words, words, group=section, saved=words)
        answer.file(words, words, words, saved=words)
    answer.show_also(words, " figure")
    return answer


@settings(max_examples=100, deadline=None)
@given(hostile)
def test_any_words_in_any_place_of_an_answer_are_text(words: str) -> None:
    answer = answer_of(words)
    checked = Checked(answer_html(answer, 4, "pb-swags") + (section_links(answer, "pb-swags") or ""))
    expected = Checked(answer_html(answer_of("plain"), 4, "pb-swags") + (section_links(answer_of("plain"), "pb-swags") or ""))
    assert "".join(checked.text) == "".join(expected.text).replace("plain", words)
    counts = {"data-sheet": 3, "data-table": 2, "aria-label": 3, "data-saved": 5, "data-copies": 1}
    assert {name: checked.values[name] for name in counts} == {name: [words] * count for name, count in counts.items()}


def text_inputs(inputs: tuple[Input, ...], groups: tuple[Group, ...], path: str = "") -> list[str]:
    """Every input that a reader types into, by its full name; the first of each group."""
    typed = [path + declared.name for declared in inputs if declared.kind not in ("choice", "yes_no", "long_text")]
    return typed + [name for group in groups for name in text_inputs(group.inputs, group.groups, f"{path}{group.name}.0.")]


@pytest.mark.parametrize("slug", CALCULATORS)
def test_planted_markup_in_every_text_input_is_text(slug: str) -> None:
    """Typed into one input after the other, the others as they begin; where it is an answer, it has no markup of its own."""
    calculator = CALCULATORS[slug]
    start = {"order": ORDER} if slug == "order" else {}
    for number, name in enumerate(text_inputs(calculator.inputs, calculator.groups)):
        answer = calc.compute(slug, {**start, name: PLANTED[number % len(PLANTED)]})
        Checked(answer_html(answer, 4, f"pb-{slug}"))


@pytest.mark.parametrize("words", PLANTED)
def test_planted_markup_in_an_order_is_shown_as_it_was_typed(words: str) -> None:
    names = ("name", "tiers.0.name", "tiers.0.rows.0.colour", "colours.0.name", "packs.0.name")
    answer = calc.compute("order", {"order": ORDER, **dict.fromkeys(names, words)})
    assert not answer.problems
    shown = Checked(answer_html(answer, 4, "pb-order"))
    assert "".join(shown.text).count(words) > 3


def test_what_can_be_pressed_carries_what_it_sets() -> None:
    answer = Answer("order")
    press = Press("Take 9", {"tiers.0.repeats": "9", "tiers.0.cutter": ""}, clears=("tiers.0.rows", "packs"), done="Tier 1 has 9.")
    answer.note("Nine fit.", press)
    answer.table("others", "Others", ("Repeats", "Why"), [(press, "they fit")])
    answer.cure("tiers.0.rows.1", "Too many.", press, Press("Leave it", {}))
    button = (
        '<button type="button" class="pb-press" data-sets="{&quot;tiers.0.repeats&quot;:&quot;9&quot;,&quot;tiers.0.cutter&quot;:&quot;&quot;}" '
        'data-clears="tiers.0.rows packs" data-done="Tier 1 has 9.">Take 9</button>'
    )
    html = answer_html(answer, 4, "pb-x")
    assert f"<li>Nine fit.{button}</li>" in html
    assert f'<th scope="row">{button}</th>' in html
    plain = '<button type="button" class="pb-press" data-sets="{}">Leave it</button>'
    assert cures_html(answer) == {"tiers.0.rows.1": f"<p>Too many. {button}{plain}</p>"}
    reply = json.loads(page_reply(CALCULATORS["order"], {}, answer, 4, "pb-x"))
    assert reply["cures"] == cures_html(answer)


def test_an_attribute_cannot_be_left() -> None:
    parser = HTMLParser()
    found: list[tuple[str, str | None]] = []
    parser.handle_starttag = lambda tag, attrs: found.extend(attrs)  # type: ignore[method-assign]
    parser.feed(element("input", {"value": PLANTED[0], "title": PLANTED[1], "hidden": True, "checked": False, "id": None}))
    assert found == [("value", PLANTED[0]), ("title", PLANTED[1]), ("hidden", None)]


# ---- what an answer looks like -----------------------------------------------------------------------------------------------


def test_a_figure_with_a_range_keeps_its_text() -> None:
    answer = Answer("swags")
    answer.mass("mass", "Buttercream", 19.0, 16.0, 24.0)
    markup = answer_html(answer, 4, "pb-x")
    assert re.sub(r"<[^>]+>", "", markup) == "Buttercream" + answer.figures["mass"]["text"] == "Buttercream19 g (16 g to 24 g)"
    assert '<span class="pb-range">(16 g to 24 g)</span>' in markup


def test_brackets_in_words_are_no_range() -> None:
    answer = Answer("swags")
    answer.figure("mass", "Mass", 1.0, "g", "19 g (weighed)", 0.5, 2.0)
    answer.table("rows", "Rows", ("Row", "Cut"), [("1", "12 (by hand)")], numeric=(1,))
    assert "pb-range" not in answer_html(answer, 4, "pb-x")


def test_a_range_is_text_like_any_other() -> None:
    text = ranged(lambda value: f"{value:.0f} g", 19.4, 16.0, 24.0)
    assert json.loads(json.dumps(text)) == text == "19 g (16 g to 24 g)"
    assert isinstance(text, Ranged) and (text.value, text.range) == ("19 g", "(16 g to 24 g)")
    assert not isinstance(ranged(lambda value: f"{value:.0f} g", 19.2, 19.1, 19.3), Ranged)


def test_items_stand_in_their_sections_and_none_is_lost() -> None:
    answer = Answer("swags")
    answer.note("nowhere")
    answer.section("a", "A")
    answer.note("in a")
    answer.section("empty", "Empty")
    answer.notes.append({"text": "lost", "section": "never declared"})
    before, inside = answer_html(answer, 4, "pb-x").split("<section")
    assert "nowhere" in before and "lost" in before and "in a" in inside
    assert "Empty" not in inside


def test_a_figure_can_stand_in_a_second_section_and_a_quiet_one_in_none() -> None:
    answer = Answer("swags")
    answer.section("a", "A")
    answer.count("tiers", "Tiers", 3)
    with answer.quietly():
        answer.count("rows", "Rows", 8)
    answer.section("b", "B")
    answer.note("in b")
    answer.show_also("b", "tiers")
    first, second = answer_html(answer, 4, "pb-x").split("<section")[1:]
    assert 'data-figure="tiers"' in first and 'data-again="tiers"' in second and "Rows" not in first + second


@pytest.mark.parametrize("slug", ["swags", "order"])
def test_the_reply_to_a_page_is_the_answer_with_its_drawings_apart(slug: str) -> None:
    """Put back where they belong, the drawings make it the HTML that the build writes."""
    answer = calc.compute(slug, {"order": ORDER} if slug == "order" else {"side": "66 cm", "cutter": "9 cm"})
    reply = json.loads(page_reply(CALCULATORS[slug], {}, answer, 4, "pb-x"))
    assert reply["problems"] == [] and len(reply["drawings"]) == len(answer.drawings) > 0
    drawings = iter(reply["drawings"])
    whole = (main_drawing(answer) or "") + answer_html(answer, 4, "pb-x")
    assert re.sub(r'(?<=<figure class="pb-drawing" )[^>]*>', lambda start: start[0] + next(drawings), reply["html"]) == whole


def test_a_reply_with_problems_has_nothing_else() -> None:
    reply = json.loads(page_reply(CALCULATORS["swags"], {}, calc.compute("swags", {"side": "abc"}), 4, "pb-x"))
    assert reply.keys() == {"problems", "lines"} and reply["problems"]


# ---- the lines of a form -----------------------------------------------------------------------------------------------------

PLACES = (("edge", "Top Edge"), ("side", "On the side (hung)"))
ROW = Group(
    "rows",
    "Row",
    (
        Input("kind", "Kind", "choice", "swag", choices=(("swag", "Swag (hung)"),)),
        Input("place", "Where", "choice", choices=PLACES),
        Input("tip", "Tip", "text"),
    ),
    (Group("bags", "Bag", (Input("colour", "Colour", "text"),)),),
    line=("{kind}", "{place} of the cake", "{tip}", "{bags}"),
)
FORM = Calculator("form", "Form", "", (), lambda asked, answer: None, groups=(ROW,))


def line(**texts: str) -> str:
    """The line of the only row, into which this was typed."""
    return group_lines(FORM, {f"rows.0.{name.replace('_', '.')}": text for name, text in texts.items()})["rows.0."]


def test_a_piece_with_nothing_to_say_is_left_out_whole() -> None:
    assert line(kind="", place="", tip="") == "no bags"
    assert line(kind="swag", place="", tip=" ") == "Swag · no bags"


def test_what_was_chosen_stands_without_brackets_and_only_the_first_with_its_capital() -> None:
    assert line(kind="swag", place="edge", tip="Petal 11 mm") == "Swag · top Edge of the cake · Petal 11 mm · no bags"
    assert line(kind="", place="side", tip="") == "On the side of the cake · no bags"


def test_what_was_typed_stands_with_single_spaces_and_is_cut_off_after_forty_characters() -> None:
    assert line(tip="  a \n b  ") == "Swag · a b · no bags"
    assert line(tip="\N{SHORTCAKE}" * 40) == f"Swag · {chr(0x1F370) * 40} · no bags"
    assert line(tip="\N{SHORTCAKE}" * 41) == f"Swag · {chr(0x1F370) * 40}… · no bags"


def test_groups_inside_are_counted() -> None:
    assert line(kind="swag", bags_0_colour="russet") == "Swag · 1 bag"
    assert line(kind="swag", bags_0_colour="russet", bags_1_colour="bay") == "Swag · 2 bags"


def test_every_copy_has_a_line_and_no_other() -> None:
    texts = {"rows.0.kind": "swag", "rows.2.bags.1.colour": "bay", "order": "text"}
    assert group_lines(FORM, texts) == {"rows.0.": "Swag · no bags", "rows.2.": "Swag · 1 bag", "rows.2.bags.1.": "bay"}


# --- what the elements say ---------------------------------------------------------------------------------------------------------


def written(fill: Callable[[Answer], None]) -> str:
    """The HTML of an answer that was filled so."""
    answer = Answer("test")
    fill(answer)
    return str(answer_html(answer, 4, "pb-test"))


def test_a_section_that_is_linked_can_take_the_focus_and_one_that_prints_has_a_button() -> None:
    def fill(answer: Answer) -> None:
        answer.section("cake", "The cake", "Cake", "plan")
        answer.count("tiers", "Tiers", 2)
        answer.section("rest", "The rest")
        answer.count("bags", "Bags", 3)
        answer.sheet("other", "Another sheet")
        answer.sheet("plan", "The plan")

    html = written(fill)
    cake, rest = re.findall(r"<section [^>]*>", html)
    assert 'id="pb-test--part-cake"' in cake and 'tabindex="-1"' in cake and "tabindex" not in rest
    assert html.count("<h4>") == 2 and html.count(">Print it</button>") == 1
    assert re.search(r'<h4>The cake</h4><button type="button" class="pb-sheet" data-sheet="plan"[^>]*>Print it</button>', html)
    answer = Answer("test")
    fill(answer)
    assert str(section_links(answer, "pb-test")) == '<ul><li><a href="#pb-test--part-cake" data-part="cake">Cake</a></li></ul>'
    assert section_links(Answer("test"), "pb-test") is None


def test_a_figure_of_more_than_twelve_characters_is_long_without_its_range() -> None:
    def is_long(text: str) -> bool:
        html = written(lambda answer: answer.figure("a", "A", 1.0, "g", text))
        return "data-long" in html

    assert [is_long("x" * length) for length in (1, 12, 13)] == [False, False, True]
    assert not is_long(Ranged("1,200 g", "1,000 g", "1,500 g"))


def test_a_table_of_six_columns_or_more_is_a_list_on_a_narrow_page() -> None:
    def is_wide(columns: int) -> bool:
        return "data-wide" in written(lambda answer: answer.table("t", "T", "abcdefgh"[:columns], ["12345678"[:columns]]))

    assert [is_wide(columns) for columns in (1, 5, 6, 7)] == [False, False, True, True]


def test_the_first_cell_heads_its_row_and_the_others_carry_the_label_of_their_column() -> None:
    html = written(lambda answer: answer.table("t", "T", ("Tier", "Weighs"), [("Lower", "2 kg")], (1,)))
    head = '<tr><th scope="col">Tier</th><th scope="col" class="pb-number">Weighs</th></tr>'
    assert head in html and '<tr><th scope="row">Lower</th><td data-label="Weighs" class="pb-number">2 kg</td></tr>' in html
    numbered = written(lambda answer: answer.table("t", "T", ("Step", "What"), [("1", "Pipe")], (0,)))
    assert '<th scope="row" data-label="Step" class="pb-number">1</th><td data-label="What">Pipe</td>' in numbered


def test_a_known_colour_has_its_dot_and_an_unknown_one_an_empty_dot() -> None:
    assert 'data-look="#a4502f"><circle cx="8" cy="8" r="7" fill="#a4502f">' in str(swatch("#a4502f"))
    assert "data-look" not in str(swatch("")) and 'fill="none"' in str(swatch(""))
    html = written(lambda answer: answer.table("t", "T", ("Colour",), [("russet",), ("odd",)], looks={0: {"russet": "#a4502f"}}))
    assert html.count("<svg") == 1 and html.index("<svg") < html.index("russet") < html.index("odd")


def test_sentences_drawings_sheets_and_files_stand_in_order() -> None:
    def fill(answer: Answer) -> None:
        answer.file("a.ics", "Calendar", "text/calendar")
        answer.sheet("strip", "Strip")
        answer.drawing("side", "The side", "", "<svg></svg>")
        answer.note("A note")
        answer.caution("A caution")

    html = written(fill)
    places = [
        html.index(words) for words in ("pb-cautions", "A caution", "pb-notes", "A note", "pb-drawing", "The side", "pb-sheets", "Strip", "Calendar")
    ]
    assert places == sorted(places)
    assert '<button type="button" class="pb-sheet" data-sheet="strip">Strip</button>' in html
    assert '<button type="button" class="pb-save" data-file="a.ics" data-type="text/calendar">Calendar</button>' in html
    assert "pb-figures" not in html and "pb-sheets" not in written(lambda answer: answer.note("A note"))


def test_the_reply_is_written_in_plain_characters() -> None:
    assert "é" in page_reply(CALCULATORS["order"], {"name": "é", "tiers.0.name": "é"}, calc.compute("order", {"tiers.0.name": "é"}), 4, "pb-order")


def test_what_is_kept_of_a_table_tells_apart_what_only_reads_alike() -> None:
    """Ranges, buttons and plain words that are the same text; the same rows under other headings, aligned or coloured otherwise."""

    def table(cell: str, label: str = "Weighs", numeric: tuple[int, ...] = (), looks: dict[str, str] | None = None) -> str:
        answer = Answer("order")
        answer.table("one", "One", ("Row", label), [["Swag", cell]], numeric, {1: looks} if looks else None)
        return answer_html(answer, 4, "pb")

    mass = Ranged("19 g", "16 g", "24 g")
    presses = [
        Press(str(mass), {"tiers.0.repeats": repeats}, clears=clears, done=done)
        for repeats in ("8", "9")
        for clears in ((), ("x",))
        for done in ("", "y")
    ]
    written = [
        table(mass),
        table(str(mass)),
        *map(table, presses),
        table(mass, "Mass"),
        table(mass, numeric=(1,)),
        table(str(mass), looks={str(mass): "#aabbcc"}),
        table(str(mass), looks={str(mass): "#aabbcd"}),
    ]
    assert len(set(written)) == len(written)
    figures = []
    for text in (mass, str(mass)):
        answer = Answer("order")
        answer.figure("mass", "Mass", 19.0, "g", text)
        figures.append(answer_html(answer, 4, "pb"))
    assert figures[0] != figures[1]


def test_cells_that_read_alike_are_told_apart_from_one_answer_to_the_next() -> None:
    cells = (Press("1 g (1 g to 2 g)", {"x": "1"}), Press("1 g (1 g to 2 g)", {"x": "2"}), Ranged("1 g", "1 g", "2 g"), "1 g (1 g to 2 g)")
    written = []
    for cell in cells:
        answer = Answer("order")
        answer.table("masses", "Masses", ("What", "Weighs"), [["Shells", cell]])
        written.append(answer_html(answer, 2, "pb"))
    assert len(set(written)) == len(cells)
