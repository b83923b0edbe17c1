"""How a kind of row looks: what every file of `calc.drawing.motifs` declares.

Map
---
`Piece`, `PIECES`    one piece of piping, drawn once in a square of 100 units and laid many times through a matrix
`Look`, `LOOKS`      how a kind is laid round a side and shown in the panels of its page
`RunLook`            a row that runs on in pieces; `SingleLook`, pieces piped one by one
`Panel`, `PathDrawn` what a look is given to draw a panel, and the path of the hand that it gives back
`Variant`, `VARIANTS` a kind piped in another way
`register`           adds a look, and its piece, by the name of its kind

A piece is drawn x along the row in the direction of piping and y downwards. Whole units keep the drawing light.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from calc.drawing.bag import angle_mark, bag_and_tip, lens
from calc.drawing.marks import rule
from calc.drawing.motifs.laid import WAVE, Laid, RowLaid, joints_mm, wobble
from calc.drawing.scene import CAKE, GUIDE_DASH, LINE, Item, Path, Point, Style, Use, rectangle, smooth
from calc.drawing.shading import ribbon, strand_paths
from calc.rows import KINDS, RowSpec
from calc.rows.placement import PlacedRow
from calc.tips import Tip

WIDE, HIGH = 100.0, 72.0  # a panel
BOARD = Style(fill="#dcc9a6", stroke="#8a6f5c", width_mm=0.5)


@dataclass(frozen=True)
class Piece:
    """One piece of piping.

    `sits` on y = 0, with its head to the left, so that the nearer one hides the next; `points` from its foot along x, as a leaf; `faces_out`
    of the side, as a flower.
    """

    name: str
    draw: Callable[[str], list[Path]]
    sits: bool = False
    points: bool = False
    faces_out: bool = False


PIECES: dict[str, Piece] = {}


@dataclass(frozen=True)
class Panel:
    """What a look is given to draw a panel: the tip, the colour, the line and the mark it follows, and ways to lay the row.

    `piped` draws the row as far as an x; `long` gives a row laid on a long side, with where the panel begins on it and how far down its
    top edge lies; `use` draws one piece through a matrix.
    """

    tip: Tip
    colour: str
    line: float
    mark: list[Point]
    piped: Callable[[float], list[Item]]
    long: Callable[[], tuple[RowLaid, float, float]]
    use: Callable[[str, tuple[float, float, float, float, float, float]], Use]


class PathDrawn(NamedTuple):
    """The path of the hand in a panel: its points, its arrow heads as shares of it, where its numbers stand, and what is drawn under it.

    `faint` is the row under the path; `ground` stands in for the cake, where it is given; a path of several strokes has `stroke` points each.
    """

    path: list[Point]
    heads: tuple[float, ...]
    numbers: list[Point]
    faint: list[Item] | None = None
    ground: list[Item] | None = None
    stroke: int = 0
    opacity: float = 0.42  # of what is faint


@dataclass(frozen=True, kw_only=True)
class Look:
    """How a kind of row looks.

    In the panels of its page it is shown on a `surface` ("side", "edge" or "base"), the bag `held` at degrees clockwise from the right with so
    much of its length seen; a curve has repeats of `repeat_mm` that drop by `drop_mm` from a line at `line_mm`. `enlarged` is how much
    larger its tip is drawn under the path of the hand.
    """

    kind: str
    shown: PlacedRow = PlacedRow("", Tip("round", 1.0), "")  # a piece of it in the list of techniques, without its colour
    piece: Piece | None = None
    surface: str = "side"
    held: tuple[float, float] = (26.0, 0.68)
    upright: bool = False  # the bag stands at right angles to the surface, so that from the front it is seen from its end
    repeat_mm: float = 0.0
    drop_mm: float = 0.0
    line_mm: float = 34.0
    enlarged: float = 1.0
    eye: str = "From above"  # where the eye is in the panel of the angle
    path_eye: str = ""  # and in that of the path, where it is not in front
    deep_mm: float = 5.4  # of the ribbon or line seen from above in that panel
    low: float = 0.0  # how far above its line the tip is held in the front view

    def lay(self, row: PlacedRow, perimeter_mm: float, height_mm: float) -> RowLaid:
        """Lay the row round a side."""
        raise NotImplementedError

    def front(self, panel: Panel) -> tuple[list[Item], Point]:
        """The row half piped, and where the tip is."""
        if self.repeat_mm:
            at = panel.mark[12]
            return [Path(smooth(panel.mark), GUIDE_DASH), *panel.piped(at[0])], (at[0] + 0.5, at[1])
        return panel.piped(44.0), (46.0, panel.line - self.low)

    def angle(self, panel: Panel) -> list[Item]:
        """The tip against the cake, seen from above: the side along the top of the panel, the line laid on it, the bag at 45°."""
        wall, petal, tip = 13.0, panel.tip.family == "petal", panel.tip
        at = (54.0 if petal else 38.0, wall + 0.4 + min(13.0, max(3.0, tip.opening_mm)) / 2 * math.sin(math.pi / 4))
        deep = self.deep_mm
        items: list[Item] = [Path(rectangle(-2, -2, WIDE + 4, wall + 2), CAKE)]
        laid = [(x, wall + deep * 0.42) for x in (-6.0, 12.0, 26.0)]
        if petal:  # the thick edge on the side, the thin one away from it and wavy
            stations = [-6.0 + 1.5 * k for k in range(round((at[0] + 7.0) / 1.5))]
            upper = [(x, wall) for x in stations]
            items += ribbon(upper, [(x, wall + deep * 1.25 + (0.9 if k % WAVE == 0 else -0.5)) for k, x in enumerate(stations)], panel.colour, WAVE)
        else:
            items += strand_paths([*laid, (at[0], wall + deep * 0.5)], deep, "ridged", panel.colour)
        items += bag_and_tip(at, 45.0, tip, 0.95, -1)
        items.append(rule(-2, wall, WIDE + 2, wall, LINE._replace(width_mm=0.9)))
        items += angle_mark((at[0], wall), 25.0, 0.0, 45.0, "45°")
        if petal:
            items += lens(tip, panel.colour)
        return items

    def hand(self, panel: Panel) -> list[Point]:
        """The strokes that the kind declares for one repeat, from in front: the same path that its amount and its time go by."""
        long = self.repeat_mm or WIDE - 18.0
        begin = panel.mark[0][0] if self.repeat_mm else (WIDE - long) / 2
        ways = KINDS[self.kind].ways(RowSpec(self.kind, panel.tip, run_mm=long, drop_mm=self.drop_mm))
        points = [*ways[0].points[:1], *(point for way in ways for point in way.points[1:])]
        return [(begin + along, self.line_mm + down) for along, down, _ in points]

    def path(self, panel: Panel) -> PathDrawn:
        """The path of the hand over the row: along the mark, or to and fro across it."""
        kind, mark = KINDS[self.kind], panel.mark
        if kind.rocking_mm(panel.tip) is None:
            path = list(mark) if kind.scroll else self.hand(panel)
            return PathDrawn(path, (0.3, 0.72, 0.99), [path[0], path[len(path) // 2], path[-1]])
        path = self.hand(panel)
        line = self.line_mm
        first, middle, last = (
            (mark[0], mark[len(mark) // 2], mark[-1]) if self.repeat_mm else ((path[0][0], line), (WIDE / 2, line), (path[-1][0], line))
        )
        out = 8.0 if self.repeat_mm else 15.0  # clear of the strokes
        return PathDrawn(path, (0.995,), [(first[0] - 1, first[1] - out), (middle[0], middle[1] + 15), (last[0] + 1, last[1] - out)])


@dataclass(frozen=True, kw_only=True)
class RunLook(Look):
    """A row that runs on in pieces side by side.

    `reach` is how far a piece reaches along the row over the pitch, `solid` what is left of its width when it is seen from its side.
    """

    piece: Piece
    reach: float
    solid: float
    by_count: bool = True  # as many pieces as the row is said to have

    def sizes(self, row: PlacedRow) -> tuple[float, float, float]:
        """Natural pitch, height of a piece and how far it stands out [mm]."""
        raise NotImplementedError

    def turned(self, index: int) -> float:
        """-1 for a piece that lies the other way up, else 1."""
        return 1.0

    def piece_and_reach(self, tip: Tip) -> tuple[Piece, float]:
        """The piece that a tip makes, and how far it reaches along the row over the pitch."""
        return self.piece, self.reach

    def lay(self, row: PlacedRow, perimeter_mm: float, height_mm: float) -> RowLaid:
        """Lay pieces evenly all round."""
        piece, reach = self.piece_and_reach(row.tip)
        natural, high, out = self.sizes(row)
        count = min(4000, (row.count if self.by_count else None) or max(3, round(perimeter_mm / natural)))
        pitch = perimeter_mm / count
        along = pitch * reach
        middle = height_mm - high / 2 if row.place == "base" else row.line_mm
        if row.place == "top edge":
            middle -= high * 0.12
        foot = high * 0.46 if piece.sits else 0.0
        pieces = []
        for i in range(count):
            loose = 0.035 * wobble(i, high)
            across = high * self.turned(i) * (1 + loose)
            pieces.append(Laid(piece.name, (i + 0.5 + row.shift) * pitch, middle + foot, loose, along, across, out, self.solid))
        return RowLaid((), (), tuple(pieces))

    def laid_before(self, panel: Panel, floor: float) -> list[Item]:
        """The pieces that lie before the tip in the panel of the angle."""
        raise NotImplementedError

    def angle(self, panel: Panel) -> list[Item]:
        """The tip over its surface, seen from the side, at 45° and pointing back along the row."""
        floor = 52.0
        at = (40.0, floor - 4.2)
        items: list[Item] = [Path(rectangle(-2, floor, WIDE + 4, HIGH), BOARD if self.surface == "base" else CAKE)]
        items += self.laid_before(panel, floor)
        items += bag_and_tip(at, -45.0, panel.tip, 0.95, arm_deg=12.0)
        items.append(rule(-2, floor, WIDE + 2, floor, LINE._replace(width_mm=0.9)))
        items += angle_mark((at[0], floor), 27.0, 0.0, -45.0, "45°")
        return items

    def three(self, panel: Panel) -> tuple[list[Laid], float, float]:
        """Pieces that lie in the panel, where the panel begins, and how far down its top edge is."""
        laid, begin, top = panel.long()
        return [one for one in laid.pieces if begin + 14 < one.s < begin + WIDE], begin, top


@dataclass(frozen=True, kw_only=True)
class SingleLook(Look):
    """Pieces piped one by one; in a panel each is `size_mm` large and they stand `apart_mm` apart."""

    piece: Piece
    size_mm: float
    apart_mm: float
    eye: str = "From the side"
    solid: float = 0.45

    def piece_of(self, tip: Tip) -> Piece:
        """The piece that a tip makes."""
        return self.piece

    def usual_mm(self, row: PlacedRow) -> float:
        """How large one is when the row does not say [mm]."""
        return KINDS[self.kind].across_mm(row.tip)

    def placed(self, row: PlacedRow, s: float, line: float, size: float) -> list[Laid]:
        """The pieces at one place: beside each other."""
        middle = (row.per_joint - 1) / 2
        name = self.piece_of(row.tip).name
        return [Laid(name, s + (k - middle) * size * 0.95, line, 0.0, size, size, size * 0.3, self.solid) for k in range(row.per_joint)]

    def lay(self, row: PlacedRow, perimeter_mm: float, height_mm: float) -> RowLaid:
        """Lay pieces at every joint, or evenly all round."""
        size = row.width_mm or self.usual_mm(row)
        line = (height_mm - size / 2) if row.place == "base" else row.line_mm
        places: Sequence[float] = joints_mm(row, perimeter_mm) if row.place == "joints" or row.count is None else ()
        if not places:
            count = row.count or max(3, round(perimeter_mm / (size * 1.02)))
            places = tuple((i + 0.5 + row.shift) * perimeter_mm / count for i in range(count))
        return RowLaid((), (), tuple(piece for s in places for piece in self.placed(row, s, line, size)))

    def matrix(self, x: float) -> tuple[float, float, float, float, float, float]:
        """Where one stands in a panel."""
        return self.size_mm / 100, 0.0, 0.0, self.size_mm / 100, x, self.line_mm

    def front(self, panel: Panel) -> tuple[list[Item], Point]:
        """Those that are piped, and the tip at the one in the middle."""
        return panel.piped(51.0), (50.0, self.line_mm)


class Variant(NamedTuple):
    """A kind piped in another way, with a path of the hand of its own."""

    kind: str
    title: str
    steps: tuple[str, ...]
    path: Callable[[Panel], PathDrawn]


LOOKS: dict[str, Look] = {}
VARIANTS: dict[str, Variant] = {}


def register(look: Look, *pieces: Piece) -> None:
    """Add a look by the name of its kind, with the pieces it draws."""
    for piece in (*((look.piece,) if look.piece else ()), *pieces):
        PIECES[piece.name] = piece
    LOOKS[look.kind] = look
