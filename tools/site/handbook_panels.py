"""The panels of a row of piping in a page, from `calc.drawing.hands`, and what every drawing of the handbook needs.

Map
---
`mm`, `figure`, `turning`   a length of a fence; one drawing with its caption; panels that a left-handed reader can turn round
`technique`                 the tip from the front, its angle, the path of the hand, the finished row
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from calc import units
from calc.colours import PALETTE
from calc.drawing.hands import STEPS, angle_panel, front_panel, path_panel, path_seen_from, row_panel, seen_from
from calc.drawing.scene import Scene
from calc.drawing.svg import svg
from calc.page.html import Markup, element
from calc.rows import KINDS
from calc.tips import Tip, read_tip

RUSSET, CREAM, BLUSH, BAY = (PALETTE[name] for name in ("russet", "cream", "blush", "bay"))
METRIC = units.Say()
Values = Mapping[str, str]
USUAL = {"petal": 11.0, "round": 3.0, "open star": 9.0, "closed star": 8.0, "leaf": 9.0, "ruffle": 14.0, "basket": 14.0}


def mm(values: Values, name: str, default: str = "") -> float:
    """A length of a fence [mm]."""
    return units.read_quantity(values.get(name, default), "length", name, name, "millimeter")


def figure(scene: Scene, caption: str = "", kind: str = "") -> Markup:
    """One drawing with its caption."""
    words = element("figcaption", {}, caption) if caption else None
    return element("figure", {"class": f"pb-drawing {kind}".rstrip(), "data-search-exclude": True}, Markup(svg(scene)), words)


def turning(panels: Sequence[tuple[Scene, str]]) -> str:
    """Panels side by side that a left-handed reader can turn round."""
    return element("div", {"class": "pb-panels", "data-turns": True}, *(figure(scene, caption, "pb-panel") for scene, caption in panels))


def technique(values: Values, caption: str) -> str:
    """Four panels: the tip from the front, its angle, the path of the hand, the finished row."""
    kind = values["kind"]
    family = KINDS[kind].families[0]
    tip = read_tip(values["tip"], "tip", "Tip") if "tip" in values else Tip(family, USUAL[family])
    colour = PALETTE[values.get("colour", KINDS[kind].colour)]
    path = "turned star" if values.get("turn") == "yes" else kind
    steps = ", ".join(f"{number} {said}" for number, said in enumerate(STEPS[path], 1))
    return turning(
        (
            (front_panel(kind, tip, colour), "From the front"),
            (angle_panel(kind, tip, colour), f"{seen_from(kind)}: {KINDS[kind].angle}"),
            (path_panel(path, tip, colour), f"The path of the hand{path_seen_from(path)}: {steps}"),
            (row_panel(kind, tip, colour), "The finished row"),
        )
    )
