"""What the worker sends to the page: one JSON text with the answer as HTML and its drawings beside it.

A drawing stands apart from the HTML because most edits leave most drawings as they are: the page compares its text with the one shown and
parses only the lines that differ. Those that a page shows already come after the words and figures (`drawing_reply`): the page asks for the
main one at once, and for the others one by one when the reader pauses. Drawn with the answer, they were half of what a slow edit took.
"""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Mapping
from functools import lru_cache
from types import MappingProxyType

from calc.calculators.declare import Answer, Calculator, Drawing
from calc.page.answer import answer_html, cures_html, main_drawing
from calc.page.html import Markup
from calc.page.lines import group_lines

_NAME = re.compile(r'aria-labelledby="(d[0-9a-f]+)t')  # the word that all names inside a drawing begin with; the page looks for the same
_json = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode


def page_reply(
    calculator: Calculator,
    texts: Mapping[str, str],
    answer: Answer,
    level: int,
    identity: str,
    later: Collection[str] = frozenset(),
    shown: Mapping[str, str] = MappingProxyType({}),
) -> str:
    """Return the answer to the texts of a form, as the page shows it.

    The object has `problems`, `lines` (over the copies of its groups) and, where there are no problems, `cures` (what is amiss at each copy, as
    HTML), `html` (the drawing that stays in sight and the content of `.pb-answer`; each drawing has only its caption), `drawings` (the SVG of
    each, in the order of the HTML; null for one that is named in `later` and not drawn yet, true for one whose key is that under its name in
    `shown`: it would be most of the message).
    """
    lines = group_lines(calculator, texts)
    if answer.problems:
        return _json({"problems": answer.problems, "lines": lines})
    drawings: list[str] = []

    def set_aside(drawing: Drawing) -> Markup:
        is_later = drawing["name"] in later and not drawing.is_drawn
        if is_later:
            drawings.append("null")
        else:
            is_shown = shown.get(drawing["name"]) == drawing_key(drawing["svg"])
            drawings.append("true" if is_shown else _drawing_json(drawing["svg"]))
        return Markup()

    html = (main_drawing(answer, set_aside) or "") + answer_html(answer, level, identity, set_aside)
    told = _json({"problems": [], "lines": lines, "cures": cures_html(answer), "html": html})
    return f'{told[:-1]},"drawings":[{",".join(drawings)}]}}'


def drawing_reply(answer: Answer, name: str) -> str:
    """Return one drawing of an answer that was given without it; null where the answer has none of that name."""
    svg = next((drawing["svg"] for drawing in answer.drawings if drawing["name"] == name), None)
    return f'{{"problems":[],"svg":{"null" if svg is None else _drawing_json(svg)}}}'


def drawing_key(svg: str) -> str:
    """What tells a drawing from all others on a page: the name that `calc.drawing.svg` made from all that is in it, and its length."""
    name = _NAME.search(svg)
    return f"{name[1]}.{len(svg)}" if name else ""


@lru_cache(maxsize=32)
def _drawing_json(svg: str) -> str:
    """A drawing as JSON; cached, because most edits leave most drawings as they are."""
    return _json(svg)
