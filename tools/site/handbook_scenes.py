"""Drawings of the handbook's pages that show a place or a handful of moments: the fridge, a slip and its mending, vermicelli, blossoms."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from calc.colours import PALETTE
from calc.drawing.bag import bag_and_tip, bag_on_end, hand_path, number_mark
from calc.drawing.figures import COAT, row_scene, wander_scene
from calc.drawing.marks import label, rule
from calc.drawing.motifs import SHADOW_COLOUR, motif, ribbon, strand_paths, tone
from calc.drawing.motifs.laid import WAVE
from calc.drawing.motifs.look import BOARD
from calc.drawing.scene import (
    CAKE,
    GUIDE_LINE,
    LINE,
    WORDS,
    Gradient,
    Group,
    Item,
    Motif,
    Path,
    Point,
    Scene,
    Style,
    Text,
    Use,
    arc,
    circle,
    ellipse,
    polygon,
    polyline,
    rectangle,
    smooth,
)
from calc.drawing.tiers import lay
from calc.drawing.wander import wander_points
from calc.rows.placement import PlacedRow
from calc.tips import Tip, read_tip
from tools.films.shared_parts import BAY, BLUSH, CREAM, RUSSET, WOOD, bud_parts, petal
from tools.site.handbook_panels import Values, figure, mm, turning

STEEL = Style(fill="#a9a4ae", stroke="#4c4453", width_mm=0.5)


def _flake(x: float, y: float, size: float) -> list[Item]:
    """A snow crystal."""
    items: list[Item] = []
    ink = Style(stroke="#2d6f8f", width_mm=size * 0.11)
    for k in range(6):
        c, n = math.cos(math.tau * k / 6 + math.pi / 6), math.sin(math.tau * k / 6 + math.pi / 6)
        items.append(Path(polyline([(x, y), (x + c * size, y + n * size)]), ink))
        for side in (-1, 1):
            turn = math.tau * k / 6 + math.pi / 6 + side * 0.7
            fork = (x + c * size * 0.55, y + n * size * 0.55)
            items.append(Path(polyline([fork, (fork[0] + math.cos(turn) * size * 0.36, fork[1] + math.sin(turn) * size * 0.36)]), ink))
    return items


def _small_cake(x: float, floor: float) -> list[Item]:
    """A coated cake on its board with shells round its foot and its edge."""
    items: list[Item] = [
        Path(rectangle(x - 33, floor - 3, 66, 3), BOARD),
        Path(
            rectangle(x - 26, floor - 41, 52, 38),
            Style(
                fill=Gradient(x - 26, 0, x + 26, 0, ((0, "#e3cfa6"), (0.3, "#faf0da"), (0.7, "#f3e4c6"), (1, "#cfb78b"))),
                stroke="#8a6f5c",
                width_mm=0.5,
            ),
        ),
    ]
    for k in range(8):
        items.append(Use(motif("shell", RUSSET), (0.08, 0.0, 0.0, 0.085, x - 26 + 6.9 * k, floor - 3)))
    for k in range(7):
        items.append(Use(motif("rosette", RUSSET), (0.085, 0.0, 0.0, 0.085, x - 24 + 8 * k, floor - 40)))
    return items


def fridge(values: Values, caption: str) -> str:
    """A cake on the shelf of an open fridge, uncovered, with a clock beside it."""
    case = Style(fill="#e8ecec", stroke="#51777b", width_mm=1.0)
    inside = Style(fill="#f8fbfb", stroke="#8fa9ab", width_mm=0.6)
    bar = Style(fill="#c9dcde", stroke="#6d8f93", width_mm=0.5)
    items: list[Item] = [
        Path(rectangle(0, 0, 96, 124), case),
        Path(rectangle(6, 6, 84, 110), inside),
        # the door, swung out to the right, with its shelves
        Path(polygon([(96, 0), (142, -9), (142, 133), (96, 124)]), Style(fill="#dbe3e3", stroke="#51777b", width_mm=1.0)),
        Path(polygon([(100, 6), (137, 0), (137, 124), (100, 118)]), inside),
    ]
    for y in (38.0, 78.0, 112.0):
        items.append(Path(polygon([(101, y), (136, y + (y - 62) * 0.1), (136, y + 5 + (y - 62) * 0.1), (101, y + 4)]), bar))
    for x, y, high, fill in (
        (109.0, 38.0, 18.0, "#8fae7f"),
        (124.0, 37.0, 22.0, "#f2d98f"),
        (112.0, 78.0, 25.0, "#f4f4ee"),
        (127.0, 79.0, 15.0, "#b5423c"),
    ):
        items.append(Path(rectangle(x - 4, y - high, 8, high), Style(fill=fill, stroke="#5b6f70", width_mm=0.4)))
        items.append(Path(rectangle(x - 2, y - high - 4, 4, 4), Style(fill="#5b6f70")))
    for y in (27.0, 88.0):
        items.append(Path(rectangle(6, y, 84, 2.4), bar))
    # a small picture of it has no room for a piped cake
    items += [Path(rectangle(30, 56, 36, 32), Style(fill="#f7ead2", stroke="#8a6f5c", width_mm=0.6))] if values.get("empty") else _small_cake(48, 88)
    # butter and eggs, above and below
    items.append(Path(rectangle(14, 15, 26, 12), Style(fill="#f2d98f", stroke="#8a6f2c", width_mm=0.5)))
    items.append(Path(polyline([(22, 15), (22, 27)]), Style(stroke="#8a6f2c", width_mm=0.4)))
    for k in range(4):
        items.append(Path(ellipse(54 + 8.6 * k, 22.4, 3.7, 4.6), Style(fill="#e7c9a4", stroke="#8a5a2a", width_mm=0.4)))
    items.append(Path(rectangle(10, 96, 76, 17), Style(fill="#dcebec", stroke="#6d8f93", width_mm=0.6)))
    items.append(Path(rectangle(40, 99, 16, 2.4), bar))
    items += _flake(17, 39.5, 6.0)
    items += _flake(79, 39.5, 6.0)
    # a clock on the wall beside it, a third of its face filled: twenty minutes
    x, y, r = -30.0, 40.0, 21.0
    items += [
        Path(circle(x, y, r), Style(fill="#fffaf0", stroke="#2f1730", width_mm=1.2)),
        Path((("M", x, y), ("L", x, y - r + 3), *arc(x, y, r - 3, -90, 30)[1:], ("Z",)), Style(fill="#9fd0cb")),
        *(
            Path(
                polyline(
                    [
                        (x + math.cos(math.tau * k / 12) * (r - 3), y + math.sin(math.tau * k / 12) * (r - 3)),
                        (x + math.cos(math.tau * k / 12) * (r - 1), y + math.sin(math.tau * k / 12) * (r - 1)),
                    ]
                ),
                Style(stroke="#2f1730", width_mm=0.8),
            )
            for k in range(12)
        ),
        Path(polyline([(x, y), (x, y - r + 4)]), Style(stroke="#2f1730", width_mm=1.1)),
        Path(
            polyline([(x, y), (x + (r - 4) * math.cos(math.radians(30)), y + (r - 4) * math.sin(math.radians(30)))]),
            Style(stroke="#0a6a62", width_mm=1.3),
        ),
        Text(x, y + r + 9, "20 minutes", 7.5, "middle", "bold", WORDS),
    ]
    scene = Scene(
        "A cake in the fridge",
        "An open fridge. A coated and piped cake stands on a cleared shelf on its board, uncovered. A clock beside it marks twenty minutes.",
        -58,
        -14,
        206,
        152,
        tuple(items),
    )
    return figure(scene, caption or "A cleared shelf, the cake on its board, nothing over it, a timer set.")


SWAG_MM, SIDE_MM = 46.0, 46.0 * 12


def _swag() -> tuple[Motif, float]:
    """One swag as a motif from its left joint, and the height of the joints."""
    row = PlacedRow("swag", Tip("petal", 9.0), RUSSET, "side", 14.0, 12, drop_mm=13.0)
    (first, *_) = lay(row, SIDE_MM, 60.0).ribbons
    return Motif("mending-swag", tuple(ribbon(first.upper, first.lower, RUSSET, WAVE))), 14.0


def bare_place(x: float) -> list[Item]:
    """The bare place where a swag was lifted off at `x`: a paler patch, filled level, with the strokes of the knife in it."""
    patch = [(x + 4, 17), (x + 10, 25), (x + 23, 29), (x + 36, 25), (x + 42, 17), (x + 41, 29), (x + 33, 38), (x + 23, 41), (x + 13, 38), (x + 5, 29)]
    items: list[Item] = [Path(smooth(patch, closed=True), Style(fill="#fffaf0", opacity=0.4))]
    for k, y in enumerate((26.0, 31.0, 36.0)):
        strokes = [(x + 8 + 2 * k, y - 4), (x + 16, y), (x + 23, y + 1.2), (x + 30, y), (x + 38 - 2 * k, y - 4)]
        items.append(Path(smooth(strokes), Style(stroke="#c9ae82", width_mm=0.5, opacity=0.8)))
    return items


def mending(values: Values, caption: str) -> str:
    """A swag that slid, lifted off; the place made level; a new swag between its neighbours."""
    swag, line = _swag()
    panels: list[tuple[Scene, str]] = []
    wide, high = 100.0, 62.0
    left = wide / 2 - SWAG_MM * 1.5
    for number, (said, told) in enumerate(
        (
            (
                "Chill, then lift it off whole",
                "Swags on the side of a cake. The middle one has slid down and hangs "
                "askew, away from its joints. A palette knife comes from the right, flat "
                "against the side, and is pushed under it to lift it off in one piece.",
            ),
            (
                "Fill, and smooth with a warm, dry knife",
                "The middle swag is gone, its two joints are marked with rings. The bare "
                "place between them is filled level, and the blade of a palette knife is "
                "drawn over it from left to right.",
            ),
            (
                "Pipe it again, touching its neighbours",
                "The middle swag is piped again. It hangs as deep as the others and meets them in a point at both joints.",
            ),
        ),
        1,
    ):
        items: list[Item] = [Path(rectangle(-2, 2, wide + 4, high + 4), CAKE), rule(-2, 2, wide + 2, 2, LINE)]
        items += [Use(swag, (1.0, 0.0, 0.0, 1.0, left + SWAG_MM * k, 0.0)) for k in ((-1, 0, 1, 2, 3) if number == 3 else (-1, 0, 2, 3))]
        middle = left + SWAG_MM
        if number == 1:
            c, n = math.cos(0.2), math.sin(0.2)
            items.append(
                Path(
                    smooth([(middle + 3, line + 6), (middle + 22, line + 26), (middle + 42, line + 17)]),
                    Style(stroke=SHADOW_COLOUR, width_mm=9, opacity=0.12),
                )
            )
            items.append(Use(swag, (c, n, -n, c, middle + 4.5, 7.5)))
            items.append(
                Path(polygon([(middle + 5, 39.5), (middle + 41, 49.5), (middle + 43, 47.0), (middle + 42, 44.5), (middle + 7, 36.5)]), STEEL)
            )
            items.append(Path(polygon([(middle + 42, 49.5), (middle + 72, 58.0), (middle + 74, 52.0), (middle + 43, 44.5)]), WOOD))
        if number == 2:
            items += bare_place(middle)
            items.append(
                Path(polygon([(middle + 14, 14.5), (middle + 19, 14.0), (middle + 23, 42.0), (middle + 18.5, 43.5), (middle + 16, 42.0)]), STEEL)
            )
            items.append(Path(polygon([(middle + 18.4, 43.0), (middle + 23.2, 42.0), (middle + 27, 64.0), (middle + 20.5, 65.0)]), WOOD))
            items += hand_path([(middle + 27, 37.5), (middle + 40, 34.0)], (1.0,))
            for x in (middle, middle + SWAG_MM):
                items.append(Path(circle(x, line, 1.6), GUIDE_LINE._replace(width_mm=0.8)))
        items += number_mark((7.5, 9.5), number)
        scene = Scene(f"Mending a swag, {number}", told, 0, 0, wide, high, (Group(tuple(items), clip=(0, 0, wide, high)),))
        panels.append((scene, f"{number} {said}"))
    return turning(panels)


def _inside(line: list[Point], rim: float, right: float, foot: float) -> list[Point]:
    """The longest piece of a line that stays within the picture."""
    best: list[Point] = []
    now: list[Point] = []
    for x, y in line:
        now = [*now, (x, y)] if rim <= x <= right and rim <= y <= foot else []
        best = max(best, now, key=len)
    return best


def piece_of_vermicelli(wide_mm: float, high_mm: float) -> Scene:
    """A piece of vermicelli for the list of techniques, as large as the rows beside it."""
    patch = wander_scene(9.0, 3.2, RUSSET, wide_mm + 6.0, high_mm + 6.0, COAT, seed=5)
    left, top = (patch.width_mm - wide_mm) / 2, (patch.height_mm - high_mm) / 2
    return replace(patch, x_mm=left, y_mm=top, width_mm=wide_mm, height_mm=high_mm)


def vermicelli(values: Values, caption: str) -> str:
    """Four panels of vermicelli: the tip from the front, from the side, the path of the hand, the finished ground."""
    tip = read_tip(values["tip"], "tip", "Tip")
    pitch = mm(values, "gap") + tip.bead_width_mm
    times = 2.0  # drawn larger than it is, as the other rows are
    wide, high = 100.0, 72.0
    pitch, bead = pitch * times, tip.bead_width_mm * times
    ground = Path(rectangle(-2, -2, wide + 4, high + 4), CAKE)
    patch = wander_scene(pitch, bead, CREAM, wide, high, COAT, seed=5)
    line = [(x * pitch, y * pitch) for x, y in wander_points(round(patch.width_mm / pitch), round(patch.height_mm / pitch), 5)]
    spare = ((wide - patch.width_mm) / 2, (high - patch.height_mm) / 2)
    half = min(range(len(line) // 3, 3 * len(line) // 4), key=lambda k: math.dist(line[k], (34.0, 34.0)))  # the hand in the middle
    done = line[: half + 1]
    ink = tone(CREAM, -0.12)

    def shown(title: str, told: str, items: list[Item]) -> Scene:
        return Scene(f"Vermicelli: {title}", told, 0, 0, wide, high, (Group(tuple(items), clip=(0, 0, wide, high)),))

    def put(items: list[Item]) -> Group:
        return Group(tuple(items), matrix=(1.0, 0.0, 0.0, 1.0, *spare))

    at = (done[-1][0] + spare[0], done[-1][1] + spare[1])
    front = shown(
        "the tip from the front",
        "Half of a piece of the side is filled by one line that wanders in short "
        "curls. The tip is on its end; the bag stands straight out from the side, so "
        "that you look at the fist and at the twisted end of the bag.",
        [ground, put(strand_paths(done, bead, "smooth", ink)[::2]), *bag_on_end(at, 40.0, Tip("round", 4.0), 0.62)],
    )
    wall = 24.0
    beads: list[Item] = [Path(ellipse(wall + 1.9, 4 + 9.0 * k, 2.3, 2.6), Style(fill=ink, stroke=tone(CREAM, -0.6), width_mm=0.5)) for k in range(4)]
    turned = Path((*arc(wall, 36.0, 34.0, 90, 0),), GUIDE_LINE._replace(width_mm=0.8))
    side = shown(
        "the angle of the tip",
        "Seen from the side, the cake cut upright at the left. The tip is at right "
        "angles to it, 90°, and just off it; the line runs from its mouth onto the "
        "cake. The curls already piped are cut across, one above the other, with clear spaces between them.",
        [
            Path(rectangle(-2, -2, wall + 2, high + 4), CAKE),
            *beads,
            *strand_paths([(wall + 1.7, 33.4), (wall + 2.4, 35.4), (wall + 5.0, 36.0)], 3.0, "smooth", ink),
            *bag_and_tip((wall + 4.2, 36.0), 0.0, Tip("round", 4.0), 0.95, arm_deg=40.0),
            rule(wall, -2, wall, high + 2, LINE._replace(width_mm=0.9)),
            turned,
            label(wall + 34, 66.5, "90°", 6.4, "middle", "bold", True),
        ],
    )
    few = _inside([(x * 15.0 - 4, y * 15.0 - 4) for x, y in wander_points(8, 6, 4, 0.1)], 9.0, wide - 9.0, high - 9.0)
    path = shown(
        "the path of the hand",
        "A short piece of the line drawn large, with the path of the hand along it. "
        "1: squeeze evenly and set off to the right. 2: curl round and come back. 3: "
        "curl the other way, close beside what is there, and never across it.",
        [
            ground,
            Group(tuple(strand_paths(few, 4.6, "smooth", ink)[::2]), opacity=0.5),
            *hand_path(few, (0.2, 0.45, 0.7, 0.995)),
            *number_mark(few[0], 1),
            *number_mark(few[len(few) // 2], 2),
            *number_mark((few[-1][0] - 8.0, few[-1][1]), 3),
        ],
    )
    whole = shown(
        "the finished ground",
        "A finished piece: one line wanders over the whole of it in short curls. "
        "It comes close to itself everywhere, with even spaces, and crosses nowhere.",
        [ground, put(list(patch.items[1:]))],
    )
    return turning(
        (
            (front, "From the front: the bag points straight at you, the tip on the end of the line"),
            (side, "From the side: nearly upright to the surface, just above it"),
            (path, "The path of the hand: 1 squeeze evenly, 2 curl each in a different direction, 3 close beside the last, never over it"),
            (whole, "The finished ground: even spaces, and no crossing anywhere"),
        )
    )


# --- blossoms and buds at a joint ---------------------------------------------------------------------------------------------

BLOSSOM = 9.6  # from the middle of a blossom to the end of a petal


def _only_paths(items: Sequence[Item]) -> tuple[Path, ...]:
    return tuple(item for item in items if isinstance(item, Path))


def _sprays() -> tuple[Motif, Motif, Motif]:
    """A petal from its foot, the dots in the middle of a blossom, and a bud on its foot, all about (0, 0)."""
    honey = Style(fill=PALETTE["honey"], stroke=tone(PALETTE["honey"], -0.5), width_mm=0.25)
    dots = tuple(Path(circle(x, y, 1.1), honey) for x, y in ((-1.1, -0.3), (1.0, -0.9), (0.1, 1.1)))
    curl, fold, foot = bud_parts(0.0, -28.0)
    sepal = _only_paths(foot)[:2]  # without the arrow that shows how it is drawn up
    return (
        Motif("petal of a blossom", _only_paths(petal(0.0, 0.0, 0.0, BLOSSOM, BLUSH))),
        Motif("dots of a blossom", dots),
        Motif("finished bud", (*_only_paths(curl), *_only_paths(fold), *sepal)),
    )


def _put(one: Motif, x: float, y: float, turned_deg: float = 0.0, size: float = 1.0) -> Use:
    c, n = size * math.cos(math.radians(turned_deg)), size * math.sin(math.radians(turned_deg))
    return Use(one, (c, n, -n, c, x, y))


def spray_at_joint(wide_mm: float, high_mm: float) -> Scene:
    """Three blossoms and two buds with leaves behind them, where two swags meet: for the head of a page, and for the list of techniques."""
    pitch, joint = 62.0, (124.0, 19.0)
    hung = PlacedRow("swag", Tip("petal", 9), RUSSET, "side", joint[1], 8, drop_mm=20)
    x, y = joint
    leaf, (one_petal, dots, bud) = motif("leaf", BAY), _sprays()
    items: list[Item] = []
    for angle, size in ((168.0, 0.21), (12.0, 0.21), (128.0, 0.19), (52.0, 0.19)):
        items.append(_put(leaf, x + 6 * math.cos(math.radians(angle)), y + 3 + 5 * math.sin(math.radians(angle)), angle, size))
    items += [_put(bud, x - 11.5, y + 4.0, -72.0, 0.48), _put(bud, x + 11.5, y + 4.0, 72.0, 0.48)]
    for left, low, turned in ((-7.6, -1.5, 20.0), (7.6, -1.5, 52.0), (0.0, 9.4, 90.0)):
        items += [_put(one_petal, x + left, y + low, turned - 72.0 * k, 1.0) for k in range(5)]
        items.append(_put(dots, x + left, y + low))
    laid = row_scene(hung, wide_mm, high_mm, side_mm=8 * pitch, begin_mm=joint[0] - wide_mm / 2)
    return replace(laid, items=(*laid.items, *items))


def spray(values: Values, caption: str) -> str:
    """Blossoms, buds and leaves on the joint of two swags."""
    scene = replace(
        spray_at_joint(120.0, 56.0),
        title="Blossoms and buds at a joint",
        description="The side of a cake, close to. Two russet swags meet in the middle. Three pink blossoms of five petals cover the joint, two side "
        "by side and one below between them, each with small yellow dots in its middle. A closed bud on a green foot points outwards on either "
        "side, and leaves show behind them.",
    )
    return figure(scene)


FIGURES = {"fridge": fridge, "mending": mending, "vermicelli": vermicelli, "spray": spray}
PIECES = {"vermicelli": piece_of_vermicelli, "blossom": spray_at_joint}  # for the list of techniques: what no row is made of
