"""The panels of a row of piping in a page, from `calc.drawing.hands`, and what every drawing of the handbook needs.

Map
---
`mm`, `figure`, `turning`   a length of a fence; one drawing with its caption; panels that a left-handed reader can turn round
`told`                      what the panels of a row say in words, from handbook_told.toml
`technique`                 the tip from the front, its angle, the path of the hand, the finished row
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from pathlib import Path as File

from calc import units
from calc.colours import PALETTE
from calc.drawing.hands import STEPS, angle_panel, centres, front_panel, path_panel, path_seen_from, row_panel, seen_from
from calc.drawing.scene import Group, Item, Path, Scene, Style, circle, ellipse
from calc.drawing.shading import tone
from calc.drawing.svg import svg
from calc.page.html import Markup, element
from calc.rows import KINDS
from calc.tips import Tip, read_tip
from tools.films.compact_svg import compact

METRIC = units.Formatter()
TOLD = File(__file__).with_name("handbook_told.toml")
Values = Mapping[str, str]
USUAL = {"petal": 11.0, "round": 3.0, "open star": 9.0, "closed star": 8.0, "leaf": 9.0, "ruffle": 14.0, "basket": 14.0}


def mm(values: Values, name: str, default: str = "") -> float:
    """A length of a fence [mm]."""
    return units.read_quantity(values.get(name, default), "length", name, name, "millimeter")


def figure(scene: Scene, caption: str = "", kind: str = "") -> Markup:
    """One drawing with its caption."""
    words = element("figcaption", {}, caption) if caption else None
    return element(
        "figure", {"class": f"pb-drawing {kind}".rstrip(), "data-search-exclude": True}, Markup(compact(svg(scene), scene.width_mm)), words
    )


def turning(panels: Sequence[tuple[Scene, str]]) -> str:
    """Panels side by side that a left-handed reader can turn round."""
    return element("div", {"class": "pb-panels", "data-turns": True}, *(figure(scene, caption, "pb-panel") for scene, caption in panels))


@lru_cache(maxsize=1)
def told() -> dict[str, dict[str, str]]:
    """What the panels of each row say in words: their captions and descriptions."""
    with TOLD.open("rb") as file:
        return tomllib.load(file)


def _dotted(scene: Scene, kind: str) -> Scene:
    """Flowers with a dot in the middle of each, in another colour: the last thing that is piped on them."""
    honey = PALETTE["honey"]
    dots: list[Item] = []
    for x, y in centres(kind):
        dots.append(Path(circle(x, y, 2.1), Style(fill=tone(honey, -0.1), stroke=tone(honey, -0.55), width_mm=0.4)))
        dots.append(Path(ellipse(x - 0.5, y - 0.7, 0.8, 0.6), Style(fill=tone(honey, 0.6))))
    return replace(scene, items=(*scene.items, Group(tuple(dots), clip=(0, 0, scene.width_mm, scene.height_mm))))


def technique(values: Values, caption: str) -> str:
    """Four panels: the tip from the front, its angle, the path of the hand, the finished row."""
    kind = values["kind"]
    family = KINDS[kind].families[0]
    tip = read_tip(values["tip"], "tip", "Tip") if "tip" in values else Tip(family, USUAL[family])
    colour = PALETTE[values.get("colour", KINDS[kind].colour)]
    turned = values.get("turn") == "yes"
    path = f"turned {kind}" if turned else kind
    steps = ", ".join(f"{number} {said}" for number, said in enumerate(STEPS[path], 1))
    words = told()[path]
    named = units.a_or_an(f"{tip.name} tip")

    def saying(scene: Scene, panel: str) -> Scene:
        return replace(scene, description=words[f"told_{panel}"].format(tip=named, Tip=units.capitalised(named)))

    finished = row_panel(kind, tip, colour)
    return turning(
        (
            (saying(front_panel(kind, tip, colour), "front"), words["front"]),
            (saying(angle_panel(kind, tip, colour), "angle"), f"{seen_from(kind)}: {KINDS[kind].angle}"),
            (saying(path_panel(path, tip, colour), "path"), f"The path of the hand{path_seen_from(path)}: {steps}"),
            (saying(_dotted(finished, kind) if turned else finished, "row"), words["row"]),
        )
    )
