"""The words in drawings: on a telephone none is too small to read, none lies on another, none is cut off: in the drawings of the
answers kept in tests/vectors, which are drawn of much else than the pages begin with. tests/browser/test_every_page.py looks at every page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from calc import compute
from tools.check import vectors

TELEPHONE = {"width": 390, "height": 844}  # CSS px
LEAST_PX = 10.5
SPARE_PX = 1.0  # so much may boxes of words lie over one another or over the edge: the words themselves are smaller
LEGIBLE = "plan/supports/"  # any page with a calculator, to show the drawings of other answers in

# Of every drawing that is seen, its name and its labels; of each its words, its size on the screen, and the corners of the box that holds
# its letters: of a line of type the part from the height of capitals to a little below the base line. What a moving picture shows at another
# moment stands wholly beside it.
LABELS = """() => [...document.querySelectorAll("main svg")].filter(svg => svg.checkVisibility() && svg.querySelector("text")).map(svg => {
    const box = svg.getBoundingClientRect();
    const labels = [...svg.querySelectorAll("text")].filter(text => text.textContent.trim()).map(text => {
        const size = parseFloat(getComputedStyle(text).fontSize), { x, width } = text.getBBox(), y = Number(text.getAttribute("y"));
        const m = text.getScreenCTM(), corners = [[x, y - .72 * size], [x + width, y - .72 * size], [x + width, y + .2 * size], [x, y + .2 * size]];
        return [text.textContent, size * Math.sqrt(Math.abs(m.a * m.d - m.b * m.c)),
            corners.map(([h, v]) => [m.a * h + m.c * v + m.e, m.b * h + m.d * v + m.f])];
    }).filter(([, , corners]) => !(svg.closest(".pb-moving") && corners.every(([h]) => h < box.left || h > box.right)));
    return [svg.querySelector("title").textContent, [box.left, box.top, box.right, box.bottom], labels];
})"""

UNFOLD = """() => { for (const fold of document.querySelectorAll("main details")) fold.open = true;
    for (const fold of document.querySelectorAll("main [hidden=until-found]")) fold.removeAttribute("hidden"); }"""

Corners = list[tuple[float, float]]


def overlap(one: Corners, other: Corners) -> bool:
    """Whether two boxes, turned as they may be, share more than the tolerance: no side of either divides them."""
    for box in (one, other):
        for (ax, ay), (bx, by) in ((box[0], box[1]), (box[1], box[2])):
            long = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 or 1.0
            across = ((bx - ax) / long, (by - ay) / long)
            ends = [[x * across[0] + y * across[1] for x, y in each] for each in (one, other)]
            if min(max(ends[0]), max(ends[1])) - max(min(ends[0]), min(ends[1])) <= SPARE_PX:
                return False
    return True


def faults(where: str, drawings: list[Any]) -> list[str]:
    """What is wrong with the labels of some drawings."""
    found = []
    for title, (left, top, right, bottom), labels in drawings:
        for i, (words, size, corners) in enumerate(labels):
            if size < LEAST_PX:
                found.append(f"{where}, {title}: {words!r} is {size:.1f} px")
            if any(not (left - SPARE_PX <= x <= right + SPARE_PX and top - SPARE_PX <= y <= bottom + SPARE_PX) for x, y in corners):
                found.append(f"{where}, {title}: {words!r} leaves the drawing")
            found += [f"{where}, {title}: {words!r} lies on {other!r}" for other, _, its in labels[:i] if overlap(corners, its)]
    return found


@pytest.fixture
def telephone(browser: Browser) -> Iterator[Page]:
    """A page as wide as a telephone, without our scripts."""
    context = browser.new_context(viewport=TELEPHONE, service_workers="block", bypass_csp=True)
    context.route("**/assets/js-*/**", lambda route: route.abort())
    page = context.new_page()
    yield page
    context.close()


def shown(page: Page, address: str) -> None:
    """Open a page with all of it laid out."""
    page.goto(address, wait_until="load")
    page.add_style_tag(content="* { content-visibility: visible !important }")
    page.evaluate(UNFOLD)
    page.evaluate("() => document.fonts.ready.then(() => true)")


def test_two_boxes_on_one_another_are_found() -> None:
    one = [(0.0, 0.0), (40.0, 0.0), (40.0, 10.0), (0.0, 10.0)]
    assert overlap(one, [(x + 30, y + 5) for x, y in one])
    assert not overlap(one, [(x + 39.5, y) for x, y in one])
    upright = [(45.0, -20.0), (45.0, 20.0), (35.0, 20.0), (35.0, -20.0)]
    assert overlap(one, upright)
    assert faults("", [["", [0.0, 0.0, 39.0, 10.0], [["swag", 10.4, one], ["drop", 10.6, upright]]]]) == [
        ", : 'swag' is 10.4 px",
        ", : 'drop' leaves the drawing",
        ", : 'drop' lies on 'swag'",
    ]


def test_labels_of_other_answers(telephone: Page, address: str) -> None:
    shown(telephone, address + LEGIBLE)
    found, names = [], set()
    for vector in vectors.kept():
        drawings = [one for one in compute(vector["calculator"], vector["inputs"]).drawings if "<text" in one["svg"]]
        if not drawings:
            continue
        figures = "".join(f'<figure class="pb-drawing" data-drawing="{one["name"]}">{one["svg"]}</figure>' for one in drawings)
        telephone.evaluate("html => { document.querySelector('.pb-answer').innerHTML = html }", figures)
        measured = telephone.evaluate(LABELS)
        assert len(measured) >= len(drawings)
        names.update(one["name"].split("_")[0] for one in drawings)
        found += faults(f"{vector['calculator']} {vector['inputs']}", measured)
    assert not found, "\n".join(found)
    assert names >= {"cutting", "dividers", "dowels", "marked", "opening", "section", "times", "unrolled"}
