"""The parts of an answer in the page, word for word: the buttons that the scripts look for, groups of sheets, drawings that come apart."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest

from calc.calculators.declare import Answer, Calculator, Drawing, Group, Input, Press
from calc.drawing.scene import Scene, Text
from calc.drawing.svg import svg
from calc.page.answer import answer_html, cures_html, main_drawing
from calc.page.html import Markup, element, join
from calc.page.lines import group_lines
from calc.page.reply import drawing_key, drawing_reply, page_reply

FORM = Calculator("form", "Form", "", (), lambda asked, answer: None)


def written(fill: Callable[[Answer], object]) -> str:
    """The HTML of an answer that was filled so."""
    answer = Answer("form")
    fill(answer)
    return str(answer_html(answer, 4, "pb-form"))


# ---- buttons -------------------------------------------------------------------------------------------------------------------------


def test_a_section_has_the_buttons_that_it_names_in_one_order_and_no_other() -> None:
    """`panel.js` tells them by their classes: one makes a sheet, one copies tables as text, one makes the customer's link, one opens the list
    for the shop. The last two look like the one that copies, so they have its class as well."""

    def fill(answer: Answer) -> None:
        answer.section(
            "price", "Price", prints="bill", copies="Copy it", copied=("price", "terms"), links="Link for the customer", takes="Take it along"
        )
        answer.note("in it")
        answer.sheet("bill", "The bill")
        answer.section("rest", "The rest")
        answer.note("the rest")

    assert written(fill) == (
        '<section class="pb-section" data-section="price" id="pb-form--part-price"><h4>Price</h4>'
        '<button type="button" class="pb-sheet" data-sheet="bill">Print it</button>'
        '<button type="button" class="pb-copy-text" data-copies="price terms">Copy it</button>'
        '<button type="button" class="pb-customer-link pb-copy-text">Link for the customer</button>'
        '<button type="button" class="pb-to-shop pb-copy-text">Take it along</button>'
        '<ul class="pb-notes"><li>in it</li></ul>'
        '<div class="pb-sheets"><button type="button" class="pb-sheet" data-sheet="bill">The bill</button></div></section>'
        '<section class="pb-section" data-section="rest" id="pb-form--part-rest"><h4>The rest</h4>'
        '<ul class="pb-notes"><li>the rest</li></ul></section>'
    )


def test_a_section_prints_one_sheet_of_its_name_and_none_where_there_is_none() -> None:
    def fill(answer: Answer, *sheets: str) -> None:
        answer.section("cake", "The cake", prints="plan")
        answer.note("in it")
        for name in sheets:
            answer.sheet(name, "A sheet", saved=f"{name}-kept")

    assert "Print it" not in written(fill) + written(lambda answer: fill(answer, "other"))
    html = written(lambda answer: fill(answer, "other", "plan", "plan"))
    assert html.count("Print it") == 1
    assert '<h4>The cake</h4><button type="button" class="pb-sheet" data-sheet="plan" data-saved="plan-kept">Print it</button><ul' in html


def test_sheets_of_a_group_stand_under_its_title_and_files_with_those_of_none() -> None:
    """The title is read out with the group as its label, so it is there for eyes and ears; a group without a name has neither."""

    def fill(answer: Answer) -> None:
        answer.sheet("plan", "The plan")
        answer.sheet("strip", "Strip", group="For the bench", saved="strips")
        answer.sheet("card", "Card", group="For the bench")
        answer.file("cake.ics", "Calendar", "text/calendar", saved="cake")

    assert written(fill) == (
        '<div class="pb-sheets"><button type="button" class="pb-sheet" data-sheet="plan">The plan</button>'
        '<button type="button" class="pb-save" data-file="cake.ics" data-type="text/calendar" data-saved="cake">Calendar</button></div>'
        '<div class="pb-sheets" role="group" aria-label="For the bench"><span class="pb-sheets-title">For the bench</span>'
        '<button type="button" class="pb-sheet" data-sheet="strip" data-saved="strips">Strip</button>'
        '<button type="button" class="pb-sheet" data-sheet="card">Card</button></div>'
    )


def test_what_a_press_sets_is_sent_in_plain_characters() -> None:
    """`form.js` reads `data-sets` as JSON; names of colours in it are as they were typed. What it clears or says is left out where it is nothing."""
    html = written(lambda answer: answer.note("Or so:", Press("Take it", {"colours.0.name": "crème"})))
    assert html == (
        '<ul class="pb-notes"><li>Or so:<button type="button" class="pb-press" data-sets="{&quot;colours.0.name&quot;:&quot;crème&quot;}">'
        "Take it</button></li></ul>"
    )


def test_a_cure_without_a_button_is_a_sentence_alone_and_those_of_one_copy_stand_together() -> None:
    answer = Answer("form")
    answer.cure("rows.0", "Too deep.")
    answer.cure("rows.1", "Too many.")
    answer.cure("rows.0", "Too wide.", Press("Take 9", {}))
    button = '<button type="button" class="pb-press" data-sets="{}">Take 9</button>'
    assert cures_html(answer) == {"rows.0": f"<p>Too deep.</p><p>Too wide. {button}</p>", "rows.1": "<p>Too many.</p>"}


# ---- figures and tables --------------------------------------------------------------------------------------------------------------


def test_a_figure_again_stands_after_the_figures_of_its_section_and_not_among_those_of_none() -> None:
    """`said.js` reads `data-figure` out, each once; one that is shown again has another name for that."""
    answer = Answer("form")
    answer.section("b", "B")
    answer.count("bags", "Bags", 5)
    answer.section("a", "A")
    answer.count("tiers", "Tiers", 2)
    answer.show_also("b", "tiers")
    answer.count("guests", "Guests", 36)
    answer.show_also("", "guests")
    first = (
        '<div class="pb-figure" data-figure="bags"><dt>Bags</dt><dd>5</dd></div>'
        '<div class="pb-figure" data-again="tiers"><dt>Tiers</dt><dd>2</dd></div>'
    )
    html = str(answer_html(answer, 4, "pb-form"))
    assert f'<h4>B</h4><dl class="pb-figures">{first}</dl></section>' in html
    assert html.startswith('<section class="pb-section" data-section="b"') and html.count("36") == 1


def test_a_row_with_a_cell_too_many_or_too_few_is_refused() -> None:
    """Rather than shown with its cells under other headings, or one short."""
    for row in (["Lower"], ["Lower", "2 kg", "3"]):
        for cells in (row, [Press(row[0], {}), *row[1:]]):
            with pytest.raises(ValueError, match="zip"):
                written(lambda answer, cells=cells: answer.table("t", "T", ("Tier", "Weighs"), [cells]))  # type: ignore[misc]


def test_rows_with_and_without_buttons_stand_in_one_table_in_their_order() -> None:
    """`tabindex` lets keys scroll a table that is wider than the page, and its label says what is scrolled."""
    html = written(lambda answer: answer.table("ways", "Ways", ("Repeats", "Use it"), [("9", "In use"), ("8", Press("Use 8", {})), ("7", "never")]))
    assert html == (
        '<div class="pb-table" data-table="ways" tabindex="0" role="group" aria-label="Ways"><table><caption>Ways</caption>'
        '<thead><tr><th scope="col">Repeats</th><th scope="col">Use it</th></tr></thead><tbody>'
        '<tr><th scope="row">9</th><td data-label="Use it">In use</td></tr>'
        '<tr><th scope="row">8</th><td data-label="Use it"><button type="button" class="pb-press" data-sets="{}">Use 8</button></td></tr>'
        '<tr><th scope="row">7</th><td data-label="Use it">never</td></tr></tbody></table></div>'
    )


# ---- drawings ------------------------------------------------------------------------------------------------------------------------


def drawn(title: str) -> str:
    """A drawing as the calculators make it."""
    return svg(Scene(title, "", 0, 0, 10, 10, (Text(1, 1, title, 3),)))


def pictured() -> Answer:
    """An answer with a drawing that stays in sight, one that is not drawn yet, and one in no hurry."""
    answer = Answer("form")
    answer.drawing("side", "Side", "", lambda: drawn("side"))
    answer.main_drawing("cake", "Cake", "", drawn("cake"))
    answer.drawing("top", "Top", "", drawn("top"))
    return answer


def test_the_drawing_that_stays_in_sight_stands_apart_from_the_others() -> None:
    """`render.js` finds it by `data-stays`, and puts it beside the form."""
    answer = pictured()
    assert main_drawing(answer, lambda drawing: Markup(drawing["name"])) == (
        '<figure class="pb-drawing" data-drawing="cake" data-stays>cake<figcaption>Cake</figcaption></figure>'
    )
    assert answer_html(answer, 4, "pb-form", lambda drawing: Markup(drawing["name"])) == (
        '<figure class="pb-drawing" data-drawing="side">side<figcaption>Side</figcaption></figure>'
        '<figure class="pb-drawing" data-drawing="top">top<figcaption>Top</figcaption></figure>'
    )
    assert main_drawing(Answer("form")) is None


def replied(later: tuple[str, ...] = (), shown: dict[str, str] | None = None, answer: Answer | None = None) -> list[object]:
    """The drawings in the reply to a page, in the order of its HTML: the one in sight first."""
    reply = json.loads(page_reply(FORM, {}, answer or pictured(), 4, "pb-form", later, shown or {}))
    found: list[object] = reply["drawings"]
    return found


def test_a_drawing_comes_later_only_where_it_may_and_is_not_drawn_yet() -> None:
    assert replied() == [drawn("cake"), drawn("side"), drawn("top")]
    assert replied(("side", "top")) == [drawn("cake"), None, drawn("top")]  # the top is drawn already, so that waiting would save nothing
    assert replied(("cake",)) == [drawn("cake"), drawn("side"), drawn("top")]
    answer = pictured()
    assert not answer.drawings[0].is_drawn and replied(("side",), answer=answer)[1] is None and not answer.drawings[0].is_drawn


def test_a_drawing_that_the_page_shows_is_not_sent_again() -> None:
    """It is known by the key that the page makes of it; under another's name, or changed, it is sent."""
    keys = {name: drawing_key(drawn(name)) for name in ("cake", "side", "top")}
    assert replied(shown=keys) == [True, True, True]
    assert replied(shown={"cake": keys["cake"]}) == [True, drawn("side"), drawn("top")]
    assert replied(shown={"cake": keys["top"], "side": keys["cake"]}) == [drawn("cake"), drawn("side"), drawn("top")]


def test_the_key_of_a_drawing_is_the_word_that_its_names_begin_with_and_its_length() -> None:
    """`render.js` makes the same of what it shows. A text without such names is like no other, so that it is always sent."""
    text = '<svg role="img" aria-labelledby="d76ed70fft d76ed70ffd"></svg>'
    assert len(text) == 62 and drawing_key(text) == "d76ed70ff.62"
    assert drawing_key("<svg></svg>") == ""


def test_a_drawing_that_came_later_is_sent_by_its_name() -> None:
    answer = pictured()
    assert json.loads(drawing_reply(answer, "side")) == {"problems": [], "svg": drawn("side")}
    assert json.loads(drawing_reply(answer, "top")) == {"problems": [], "svg": drawn("top")}
    assert drawing_reply(answer, "back") == '{"problems":[],"svg":null}'


def test_the_reply_has_all_parts_and_is_written_in_plain_characters() -> None:
    answer = Answer("form")
    answer.note("Crème")
    assert page_reply(FORM, {}, answer, 4, "pb-form") == (
        '{"problems":[],"lines":{},"cures":{},"html":"<ul class=\\"pb-notes\\"><li>Crème</li></ul>","drawings":[]}'
    )
    answer.problems = [{"input": "name", "message": "Name: say something"}]
    assert page_reply(FORM, {}, answer, 4, "pb-form") == '{"problems":[{"input":"name","message":"Name: say something"}],"lines":{}}'


def test_a_drawing_without_a_place_of_its_own_is_drawn_where_it_stands() -> None:
    answer = Answer("form")
    answer.drawings.append(Drawing("<svg>1</svg>", name="one", title="One"))
    assert answer_html(answer, 4, "pb-form") == '<figure class="pb-drawing" data-drawing="one"><svg>1</svg><figcaption>One</figcaption></figure>'


# ---- elements and lines ----------------------------------------------------------------------------------------------------------------


def test_attributes_are_left_out_written_alone_or_with_a_value() -> None:
    assert element("p", {}) == "<p></p>"
    assert element("p", {"a": None, "b": False, "c": True, "d": "", "e": "x"}, "y") == '<p c d="" e="x">y</p>'
    assert element("br", {"class": "x"}, "never") == '<br class="x">'
    assert element("input", {}) == "<input>"


def test_plain_words_are_escaped_and_finished_markup_is_not() -> None:
    assert join(["<a>", Markup("<b>"), None, "", "&"]) == "&lt;a&gt;<b>&amp;"


ROW = Group(
    "rows",
    "Row",
    (Input("kind", "Kind", "choice", "swag", choices=(("swag", "Swag (hung)"), ("dot", "Dot"))), Input("wide", "Width", "text", "9 cm")),
    (Group("bags", "Bag", (Input("colour", "Colour", "text"),)), Group("dots", "Dot", (Input("colour", "Colour", "text"),))),
    line=("{wide} wide", "{kind}", "{dots} and {bags}"),
)


def test_a_line_says_defaults_and_tells_the_groups_inside_apart() -> None:
    form = Calculator("form", "Form", "", (), FORM.work_out, groups=(ROW,))
    texts = {"rows.0.bags.0.colour": "bay", "rows.1.kind": "dot", "rows.1.wide": "", "rows.1.dots.0.colour": "bay", "rows.1.dots.1.colour": "ivory"}
    assert group_lines(form, texts) == {
        "rows.0.": "9 cm wide · swag · no dots and 1 bag",
        "rows.0.bags.0.": "bay",
        "rows.1.": "Dot · 2 dots and no bags",
        "rows.1.dots.0.": "bay",
        "rows.1.dots.1.": "ivory",
    }
