"""The drawings of the handbook's pages, made while the site is built from the same parts as the calculators' drawings.

`FIGURES`: name -> function of a fence's values and caption, giving HTML. The panels of a hand at work are in tools/site/handbook_panels.py.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

from calc import units
from calc.calculators.declare import Answer, parse
from calc.calculators.order_drawings import tier_drawing
from calc.calculators.order_form import CALCULATOR as ORDER
from calc.calculators.order_form import plan_of, unfold
from calc.colours import PALETTE
from calc.curves import arc_points, swag_drop_mm
from calc.division import dividers_mm
from calc.drawing.bag import hand_path, number_mark
from calc.drawing.figures import cutting_scene, division_scene, row_scene, swag_scene, tip_scene
from calc.drawing.motifs import LOOKS, tone
from calc.drawing.motifs.look import BOARD
from calc.drawing.scene import (
    CAKE,
    GUIDE,
    GUIDE_DASH,
    GUIDE_LINE,
    LINE,
    WORDS,
    WORDS_GUIDE,
    Group,
    Item,
    Path,
    Point,
    Scene,
    Style,
    Text,
    circle,
    ellipse,
    polygon,
    polyline,
    rectangle,
    smooth,
)
from calc.drawing.shading import mixed
from calc.drawing.svg import svg
from calc.drawing.tiers import TierDrawn
from calc.drawing.views import side_view, top_view
from calc.page.html import Markup, element
from calc.portions import cut_plan
from calc.rows import KINDS
from calc.rows.placement import PlacedRow
from calc.shapes import outline
from calc.tips import Tip, read_tip
from tools.build.paths import DOCS
from tools.films.shared_parts import BAY, BLUSH, CREAM, RUSSET
from tools.site import handbook_building, handbook_cards, handbook_grip, handbook_hands, handbook_lessons, handbook_scenes
from tools.site.handbook_panels import METRIC, Values, figure, mm, technique

LEADER = Style(stroke="#8a7280", width_mm=0.7)  # to be seen on the cake and on the ground, in both schemes

# --- measuring and marking ------------------------------------------------------------------------------------------------


def division(values: Values, caption: str) -> str:
    """A round cake from above with its joints, the pitch along the surface and the dividers straight across."""
    side_mm, repeats = mm(values, "side"), int(values["repeats"])
    scene = division_scene(side_mm, repeats)
    told = (
        f"A round cake from above. {repeats} small crosses on its edge mark the "
        f"joints, the first of them at the back; dashed lines run from each to the middle. "
        f"An arrow along the edge from one joint to the next is the pitch, "
        f"{METRIC.length(side_mm / repeats)}. A pair of dividers stands with its points on two "
        f"neighbouring joints, straight across: {METRIC.length(dividers_mm(side_mm, repeats))}."
    )
    return figure(
        replace(scene, description=told),
        caption
        or f"From above: {METRIC.length(side_mm)} round the side in {repeats} repeats. "
        "The tape goes round the curve, the dividers go straight across.",
    )


def swags(values: Values, caption: str) -> str:
    """Swags on the unrolled side with the cutter, the joints, the width, the drop and the guide tape."""
    side_mm, cutter = mm(values, "side"), mm(values, "cutter")
    repeats = int(values.get("repeats") or math.ceil(side_mm / cutter))
    width = side_mm / repeats
    drop = swag_drop_mm(cutter, min(width, cutter))
    return figure(
        swag_scene(width, drop, mm(values, "joints") if "joints" in values else 12.0, cutter, Tip("petal", 11)),
        caption
        or f"The side laid flat: {repeats} swags on {METRIC.length(side_mm)}. The left one is piped; the right one is marked with "
        f"{units.a_or_an(METRIC.length(cutter))} cutter that stands against the guide tape.",
    )


def coats(values: Values, caption: str) -> str:
    """A cake between two coating discs, cut down the middle."""
    width, height, disc = mm(values, "width"), mm(values, "height"), mm(values, "disc")
    coat = (disc - width) / 2
    half, show = width / 2, 2.2  # the coat is drawn wider than it is, to be seen
    thick = coat * show
    crumb = thick * 0.4
    out = half + thick
    glass = Style(fill="#cfe0e2", stroke="#51777b", width_mm=0.5)
    items: list[Item] = [Path(rectangle(-out, 0, 2 * out, 5), glass)]
    items.append(Path(rectangle(-out, -height - thick, 2 * out, height + thick), Style(fill="#f2e2bd", stroke="#8a6f5c", width_mm=0.4)))
    items.append(Path(rectangle(-half - crumb, -height - crumb, width + 2 * crumb, height + crumb), Style(fill="#e2c78e")))
    layers, filling = 3, 6.0
    each = (height - (layers - 1) * filling) / layers
    for k in range(layers):
        y = -each * (k + 1) - filling * k
        items.append(Path(rectangle(-half, y, width, each), Style(fill="#cf9a5c", stroke="#8a5a2a", width_mm=0.3)))
        if k:
            items.append(Path(rectangle(-half, y + each, width, filling), Style(fill="#f7e6c0")))
    items.append(Path(rectangle(-out, -height - thick - 6, 2 * out, 5), glass))
    items.append(Path(polyline([(-out, -height - thick - 0.6), (out, -height - thick - 0.6)]), Style(stroke="#fffaf0", width_mm=0.8)))
    items.append(
        Path(
            polygon([(out, -height - thick - 16), (out + 4, -height - thick - 16), (out + 16, -height / 2), (out + 4, 9), (out, 9)]),
            Style(fill="#a9a4ae", stroke="#4c4453", width_mm=0.5),
        )
    )
    items.append(Text(0, -height - thick - 11, f"upper disc {METRIC.length(disc)}", 12.6, "middle", "bold", WORDS))
    items.append(Text(0, 18.5, f"lower disc or board {METRIC.length(disc)}", 12.6, "middle", "bold", WORDS))
    items.append(Text(out + 19, -height / 2 + 4, "scraper", 12.6, "start", "bold", WORDS))
    dark = Style(fill="#2f1730")
    for y, said, x in ((-height * 0.83, "final coat", -half - thick * 0.8), (-height * 0.6, "crumb coat", -half - crumb * 0.5)):
        items.append(Path(polyline([(x, y), (-out - 6, y)]), LEADER))
        items.append(Text(-out - 8, y + 4, said, 12.6, "end", "text", WORDS))
    items.append(Text(-out - 8, -height * 0.43 + 4, f"both {METRIC.length(coat)}", 12.6, "end", "bold", WORDS_GUIDE))
    items.append(Path(polyline([(-out - 6, -height * 0.43), (-half, -height * 0.43)]), Style(stroke=GUIDE, width_mm=0.9)))
    items.append(Text(0, -each / 2 + 4, "layer of sponge", 12.6, "middle", "bold", dark))
    items.append(Path(polyline([(-half * 0.7, -each - filling / 2), (-out - 6, -each * 0.72)]), LEADER))
    items.append(Text(-out - 8, -each * 0.72 + 4, "filling", 12.6, "end", "text", WORDS))
    scene = Scene(
        "A cake between two coating discs",
        f"Cut down the middle: three layers {METRIC.length(width)} wide between discs of {METRIC.length(disc)}. "
        f"The scraper runs along both discs and leaves {METRIC.length(coat)} all round.",
        -out - 78,
        -height - thick - 25,
        2 * out + 152,
        height + thick + 49,
        tuple(items),
    )
    return figure(
        scene,
        caption
        or f"Cut down the middle. A disc {METRIC.length(disc - width)} wider than the cake leaves {METRIC.length(coat)} all round. "
        "The coat is drawn thicker than it is.",
    )


def filling(values: Values, caption: str) -> str:
    """A tier cut down the middle: layers, filling, and the dam at the edge."""
    width, height, layers, thick = mm(values, "width"), mm(values, "height"), int(values["layers"]), mm(values, "filling")
    half, dam = width / 2, 10.0
    each = (height - (layers - 1) * thick) / layers
    items: list[Item] = [Path(rectangle(-half - 8, 0, width + 16, 4), BOARD)]
    for k in range(layers):
        y = -each * (k + 1) - thick * k
        items.append(Path(rectangle(-half, y, width, each), Style(fill="#cf9a5c", stroke="#8a5a2a", width_mm=0.4)))
        if k:
            items.append(Path(rectangle(-half + dam, y + each, width - 2 * dam, thick), Style(fill="#b5423c")))
            for x in (-half + dam / 2, half - dam / 2):
                items.append(Path(ellipse(x, y + each + thick / 2, dam / 2, thick / 2), Style(fill="#f4e2b8", stroke="#8a6f5c", width_mm=0.4)))
    y = -each - thick / 2
    items += [
        Path(polyline([(half - dam / 2, y), (half + 14, y - 10)]), LEADER),
        Text(half + 16, y - 7, "dam", 10.6, "start", "bold", WORDS),
        Path(polyline([(-half + 24, y), (-half - 12, y - 10)]), LEADER),
        Text(-half - 14, y - 7, "filling", 10.6, "end", "bold", WORDS),
        Text(0, -each / 2 + 3.4, "layer", 10.6, "middle", "bold", Style(fill="#2f1730")),
    ]
    scene = Scene(
        "Layers, filling and dam",
        f"A tier {METRIC.length(width)} wide cut down the middle: {layers} layers, {layers - 1} fillings of {METRIC.length(thick)}, "
        "each inside a ring of firm buttercream.",
        -half - 54,
        -height - 6,
        width + 96,
        height + 14,
        tuple(items),
    )
    return figure(scene, caption or f"Cut down the middle: {layers} layers have {layers - 1} fillings, each held in by a dam.")


def edges(values: Values, caption: str) -> str:
    """A sharp and a soft edge, each cut through, with the tool at work."""
    items: list[Item] = []
    for at, soft in ((0.0, False), (100.0, True)):
        r = 16.0 if soft else 0.0
        x, top = at + 56, 24.0
        corner = [("C", x - r + r * 0.55, top, x, top + r - r * 0.55, x, top + r)] if soft else []
        items.append(
            Path(
                (("M", at, 78.0), ("L", at, top), ("L", x - r, top), *corner, ("L", x, 78.0), ("Z",)),
                Style(fill="#f2e2bd", stroke="#8a6f5c", width_mm=0.6),
            )
        )
        items.append(Path(rectangle(at, top + 12, 44, 42), Style(fill="#cf9a5c")))
        if soft:
            items += hand_path([(x + 9, top + 26), (x + 6, top + 6), (x - 8, top - 7), (x - 24, top - 9)], (0.98,))
        else:
            items.append(
                Path(
                    polygon([(x + 2, top - 1.4), (x - 34, top - 1.4), (x - 36, top - 3.4), (x + 2, top - 4)]),
                    Style(fill="#a9a4ae", stroke="#4c4453", width_mm=0.5),
                )
            )
            items += hand_path([(x + 6, top - 9), (x - 30, top - 9)], (1.0,))
        items.append(Text(at + 30, 90, "soft" if soft else "sharp", 7.5, "middle", "bold", WORDS))
    scene = Scene(
        "A sharp and a soft edge",
        "The top edge of a cake, cut through, twice. Sharp: top and side meet in a "
        "corner, and a palette knife held level on the top is drawn inwards from the edge. "
        "Soft: the corner is a quarter round, and an arrow goes up the side, over the edge and inwards.",
        -6,
        2,
        176,
        94,
        tuple(items),
    )
    return figure(scene, caption or "Sharp: draw the lip inwards with a level knife. Soft: round it upwards and inwards.")


def strip(values: Values, caption: str) -> str:
    """A marking strip as long as the side, with its joints and curves, one part folded up."""
    side_mm, repeats, drop = mm(values, "side"), int(values["repeats"]), mm(values, "drop")
    pitch = side_mm / repeats
    show, scale = 4, 0.55
    w, d = pitch * scale, drop * scale
    items: list[Item] = [Path(rectangle(0, 0, w * show, 46), Style(fill="#fffaf0", stroke="#54364f", width_mm=0.5))]
    for k in range(show + 1):
        items.append(Path(polyline([(w * k, 0), (w * k, 46)]), Style(stroke="#7d6673", width_mm=0.35, dash=(2.0, 1.4))))
        if k:
            items.append(Text(w * k - 1.4, 43.5, METRIC.length(pitch * k), 6.3, "end", "text", Style(fill="#2f1730")))
        if k < show:
            items.append(
                Path(smooth([(w * k + x * scale, 12 + y * scale) for x, y in arc_points(pitch, drop)]), Style(stroke="#0a6a62", width_mm=0.8))
            )
        items.append(Path(circle(w * k, 12, 1.3), Style(fill="#0a6a62")))
    items.append(Text(1.6, 43.5, "0", 6.3, "start", "text", Style(fill="#2f1730")))
    items.append(Text(w * 0.5, 12 + d + 7, f"drop {METRIC.length(drop)}", 6.3, "middle", "bold", Style(fill="#0a6a62")))
    items.append(Text(w * show, 54, "and so on round the side", 6.3, "end", "text", WORDS))
    items.append(Text(0, 54, "the ends meet at the back", 6.3, "start", "text", WORDS))
    scene = Scene(
        "A marking strip",
        f"A strip of paper {METRIC.length(side_mm)} long with joints every {METRIC.length(pitch)}, all measured from its end, "
        "and a curve in every part.",
        -3,
        -3,
        w * show + 6,
        60,
        tuple(items),
    )
    return figure(scene, caption or f"The strip for {METRIC.length(side_mm)} and {repeats} repeats. Every mark is measured from the end.")


def _flat_side(rows: Sequence[PlacedRow], side_mm: float, height_mm: float, width_mm: float, title: str, words: str) -> Scene:
    """Two repeats and a little more of the unrolled side, joints at half repeats."""
    scene = row_scene(tuple(rows), width_mm * 2.4, height_mm, side_mm=side_mm, begin_mm=width_mm * 1.3)
    return replace(scene, title=title, description=words)


def _numbered(scene: Scene, *places: Point) -> Scene:
    """A drawing with the order of piping on it, each number at a place from its left edge; large enough to be read on a telephone."""
    marks = [Group(tuple(number_mark((0.0, 0.0), k)), matrix=(1.7, 0.0, 0.0, 1.7, scene.x_mm + x, y)) for k, (x, y) in enumerate(places, 1)]
    return replace(scene, items=(*scene.items, *marks))


def layered(values: Values, caption: str) -> str:
    """Three rows on the same joints: two ribbons and a string."""
    side_mm, repeats, drop = mm(values, "side"), int(values["repeats"]), mm(values, "drop")
    rows = (
        PlacedRow("ruched swag", Tip("petal", 11), RUSSET, "side", 16, repeats, drop_mm=drop, shift=0.5),
        PlacedRow("swag", Tip("petal", 7), CREAM, "side", 13, repeats, drop_mm=drop * 0.92, shift=0.5),
        PlacedRow("string", Tip("round", 1.8), BLUSH, "side", 18, repeats, drop_mm=drop + 16, shift=0.5),
        PlacedRow("rosette", Tip("closed star", 5), BLUSH, "joints", 14, repeats, shift=0.5),
    )
    scene = _flat_side(
        rows,
        side_mm,
        72,
        side_mm / repeats,
        "Row on row",
        "Four rows on the same joints, numbered as they are piped. 1: a broad "
        "ruched swag. 2: a smaller, plain swag in a paler colour, laid along its "
        "upper edge so that the folds still show below it. 3: a thin string "
        "from the same joints that hangs deeper than both. 4: a rosette over every "
        "joint, which hides where all of them begin.",
    )
    pitch = side_mm / repeats
    scene = _numbered(scene, (pitch * 0.5, 21 + drop * 0.8), (pitch * 0.84, 14 + drop * 0.86), (pitch * 0.7, 18 + drop + 16), (pitch * 1.2 + 13, 9))
    return figure(
        scene,
        caption or "In this order: 1 a ruched swag, 2 a smaller swag on its upper edge, 3 a string from the same joints, 4 rosettes over the joints.",
    )


def nested(values: Values, caption: str) -> str:
    """Strings nested in each repeat."""
    side_mm, repeats, drop, loops = mm(values, "side"), int(values["repeats"]), mm(values, "drop"), int(values["loops"])
    rows = (PlacedRow("string", Tip("round", 2), RUSSET, "side", 14, repeats, drop_mm=drop, layers=loops, shift=0.5),)
    scene = _flat_side(
        rows,
        side_mm,
        64,
        side_mm / repeats,
        "Nested strings",
        f"{loops} strings in every repeat, numbered as they are dropped. All hang "
        f"freely from the same two joints: the first deepest, each of the others "
        "shallower than the last, with clear spaces between them.",
    )
    pitch, hung = side_mm / repeats, rows[0].what.drops_mm(rows[0].tip, drop, loops)
    scene = _numbered(scene, *((pitch * (0.58 + 0.12 * k), 14 + deep) for k, deep in enumerate(hung)))
    return figure(scene, caption or f"{loops} strings from the same joints, dropped in this order: the deepest first.")


def inside(values: Values, caption: str) -> str:
    """A tier from above with a border and a fine row inside it."""
    tier = TierDrawn(
        outline("round", 150.0),
        0.0,
        80.0,
        rows=(PlacedRow("ruched border", Tip("petal", 9), CREAM, "top edge", 0.0), PlacedRow("bead", Tip("round", 3), RUSSET, "top", 5.9)),
    )
    return figure(
        top_view((tier,), 176.0),
        caption or "From above: the border on the edge, and a fine row of beads that hides where it meets the top.",
    )


def closing(values: Values, caption: str) -> str:
    """Where a row of shells closes: the last five share what is over."""
    tip = Tip("open star", 9)
    side_mm, count = 600.0, 40
    pitch = side_mm / count
    row = PlacedRow("shell", tip, RUSSET, "base", count=count)
    left, wide, high = side_mm / 2 - 45.0, 150.0, 54.0
    x = left + 45.0 + pitch * 5
    first = x - 5 * pitch
    laid = row_scene(row, wide, high - 6, side_mm=side_mm, begin_mm=left)
    items: list[Item] = [
        *laid.items,
        Path(rectangle(left, high - 6, wide, 6), BOARD),
        # on the coat, which is light in both schemes
        Path(polyline([(x, 12), (x, high)]), GUIDE_DASH._replace(role="")),
        Text(x, 9, "the back", 6, "middle", "bold", Style(fill=GUIDE)),
        Path(polyline([(first, 29), (first, 25), (x - 1, 25), (x - 1, 29)]), GUIDE_LINE._replace(role="")),
        Text((first + x) / 2, 21.5, "the last five", 6, "middle", "bold", Style(fill=GUIDE)),
    ]
    scene = Scene(
        "Where a row closes",
        "A row of shells round the foot of a cake, seen from the front. A dashed "
        "upright line marks the back, where the row began and closes. A bracket over the five "
        "shells to its left: these were made a little longer, or shorter, all by "
        "the same, so that the last tail meets the first head and no gap is seen.",
        left,
        0,
        wide,
        high,
        tuple(items),
    )
    return figure(scene, caption or "The last five shells before the back share what is over or short. The last tail goes under the first head.")


def cutting(values: Values, caption: str) -> str:
    """A top cut into slices."""
    shape = outline(values.get("shape", "round"), mm(values, "width"), mm(values, "length") if "length" in values else None)
    slice_mm = units.read_pair(values.get("slice", "25 x 50 mm"), "slice", "slice", "millimeter")
    plan = cut_plan(shape, slice_mm, values.get("cut", "best"))
    told = {
        "rings": "A round top from above. 1: a circle is cut some way inside the edge. 2: "
        "the ring outside it is cut into slices, straight towards the middle. 3: "
        "the round in the middle is cut across into wedges.",
        "wedges": "A top from above, cut from the middle outwards into equal wedges.",
    }.get(plan.cut, "A top from above, cut into strips one slice long, and each strip across into slices.")
    scene = cutting_scene(plan)
    return figure(
        replace(scene, description=f"{told} {scene.description}"),
        caption or f"{plan.count} slices of {METRIC.length(slice_mm[0])} by {METRIC.length(slice_mm[1])}: the knife follows the numbers.",
    )


def hearts(values: Values, caption: str) -> str:
    """Hearts of one width side by side, from a lean one to a full one, with how full they are in per cent."""
    shares = [float(text) for text in values["fullness"].split()]
    step, high = 250.0, 300.0
    items: list[Item] = []
    for at, share in enumerate(shares):
        top = outline("heart", 200.0, fullness=share / 100)
        x, back = step * (at + 0.5), top.extent_mm[3]
        items.append(Path(polygon([(px + x, 30.0 + back - py) for px, py in top.points(180)]), CAKE))
        items.append(Text(x, 145.0, f"{share:g} %", 26, "middle", "bold", WORDS))
    scene = Scene(
        "How full a heart is",
        f"Hearts of one width: {', '.join(f'{share:g} %' for share in shares)} of a square.",
        0,
        0,
        step * len(shares),
        high,
        tuple(items),
    )
    return figure(scene, caption or "The top of a heart over a square as wide: a square with two half circles, most tins, a very full one.")


def tip_drawing(values: Values, caption: str) -> str:
    """The opening of a tip."""
    tip = read_tip(values["tip"], "tip", "Tip")
    return figure(tip_scene(tip), caption or f"The opening of {units.a_or_an(tip.name)} tip.")


def cake(values: Values, caption: str) -> str:
    """The cake of the first lessons: one tier with a row of each kind that is learnt."""
    side_mm, height = mm(values, "side"), mm(values, "height")
    repeats, drop = int(values["repeats"]), mm(values, "drop")
    rows = (
        PlacedRow("ruched swag", Tip("petal", 11), RUSSET, "side", 20, repeats, drop_mm=drop, shift=0.5),
        *((PlacedRow("string", Tip("round", 2), CREAM, "side", 20, repeats, drop_mm=drop + 14, shift=0.5),) if values.get("string") != "no" else ()),
        PlacedRow("shell", Tip("open star", 7), RUSSET, "base"),
        PlacedRow("ruched border", Tip("petal", 11), CREAM, "top edge", 0.0),
        PlacedRow("rosette", Tip("closed star", 5), RUSSET, "joints", 19, repeats, shift=0.5),
        PlacedRow("leaf", Tip("leaf", 6), BAY, "joints", 19, repeats, shift=0.5, per_joint=2),
    )
    tier = TierDrawn(outline("round", side_mm / math.pi), 0.0, height, rows=rows)
    told = (
        "A small round cake seen from the front. Ruched swags hang on its side from "
        "joint to joint, with a rosette and two leaves over every joint. A ruched border "
        "lies on the top edge, and shells go round the foot."
    )
    return figure(replace(side_view((tier,)), description=told), caption or "What you will have on the third evening.")


def tier(values: Values, caption: str) -> str:
    """One tier with one row round it, seen from the side as the whole cake is."""
    side_mm, height, repeats = mm(values, "side"), mm(values, "height"), int(values["repeats"])
    row = PlacedRow(
        values["kind"],
        read_tip(values["tip"], "tip", "Tip"),
        PALETTE[values.get("colour", "russet")],
        "side",
        mm(values, "line"),
        repeats,
        drop_mm=mm(values, "drop"),
        shift=0.5 if repeats % 2 == 0 else 0.0,
    )
    shells = PlacedRow("shell", Tip("open star", 7), row.colour, "base")
    scene = side_view((TierDrawn(outline("round", side_mm / math.pi), 0.0, height, rows=(row, shells)),))
    told = f"{repeats} {row.kind}s round a tier {METRIC.length(side_mm)} round."
    seen = (
        f"{told} Seen from the front: they hang in even curves, meet at joints of one height, and look narrower towards the sides; "
        "shells go round the foot."
    )
    return figure(replace(scene, title=told.rstrip("."), description=seen), caption or told)


def crumb(values: Values, caption: str) -> str:
    """A tier with its crumb coat, cut down the middle: the sponge shows through in places."""
    half, height, coat = 68.0, 90.0, 4.0
    items: list[Item] = [
        Path(rectangle(-half - 12, 0, 2 * half + 24, 4), BOARD),
        Path(
            rectangle(-half - coat, -height - coat, 2 * half + 2 * coat, height + coat),
            Style(fill="#f0e0b8", stroke="#8a6f5c", width_mm=0.4),
        ),
    ]
    for k in range(3):
        y = -(k + 1) * 26.0 - k * 6.0
        items.append(Path(rectangle(-half, y, 2 * half, 26), Style(fill="#cf9a5c", stroke="#8a5a2a", width_mm=0.3)))
        if k:
            items.append(Path(rectangle(-half, y + 26, 2 * half, 6), Style(fill="#f7e6c0")))
    for x, y, r in (
        (-half - 1.4, -18, 1.3),
        (-half - 1.8, -50, 1.6),
        (-half - 1.2, -77, 1.2),
        (half + 1.5, -30, 1.5),
        (half + 1.2, -64, 1.2),
        (-30, -height - 1.6, 1.4),
        (22, -height - 1.2, 1.2),
    ):
        items.append(Path(circle(x, y, r), Style(fill="#8a5a2a")))
    items += [
        Path(polyline([(half + 2, -30), (half + 16, -38)]), LEADER),
        Text(half + 18, -35, "a crumb, trapped", 10.2, "start", "bold", WORDS),
        Path(polyline([(half + 3, -75), (half + 16, -80)]), LEADER),
        Text(half + 18, -77, "crumb coat", 10.2, "start", "bold", WORDS),
        Path(polyline([(-half + 30, -55), (-half - 14, -62)]), LEADER),
        Text(-half - 16, -59, "filling", 10.2, "end", "bold", WORDS),
    ]
    scene = Scene(
        "A crumb coat",
        "A tier on its board, cut down the middle: three layers with two fillings. A "
        "coat no thicker than a crumb lies over top and sides, and loose crumbs of sponge "
        "are caught in it.",
        -half - 54,
        -height - 12,
        2 * half + 166,
        height + 20,
        tuple(items),
    )
    return figure(scene, caption or "The thin first coat holds the crumbs. Drawn thicker than it is.")


def _peak(x: float, floor: float, lean: float, high: float, colour: str) -> list[Item]:
    """A mound of buttercream with a peak that stands or bends."""
    tip = (x + lean, floor - high)
    bend = (x + lean * 0.25, floor - high * 1.12) if lean > 1 else (x, floor - high)
    left = [(x - 24, floor), (x - 20, floor - 9), (x - 9, floor - 14), (x - 3.4, floor - high * 0.72)]
    right = [(x + 4 + lean * 0.2, floor - high * 0.72), (x + 9, floor - 14), (x + 20, floor - 9), (x + 24, floor)]
    body = [*left, bend, tip, *([(x + lean * 0.45, floor - high * 0.95)] if lean > 1 else []), *right]
    return [
        Path((*smooth(body), ("Z",)), Style(fill=tone(colour, 0.0), stroke=tone(colour, -0.45), width_mm=0.5)),
        Path(
            smooth([(x - 15, floor - 5), (x - 6, floor - 12), (x - 1.5, floor - high * 0.68)]),
            Style(stroke=tone(colour, 0.6), width_mm=1.6, opacity=0.8),
        ),
    ]


def _spatula(x: float, hung: float, colour: str) -> list[Item]:
    """A spatula lifted out, upright, with what hangs from it."""
    wood = Style(fill="#b08a5c", stroke="#5c4326", width_mm=0.5)
    on_it = [(x - 8.6, -3.0), (x - 8.0, 5.0), (x - 4.0, 9.0)]
    right = [(2 * x - u, v) for u, v in reversed(on_it)]
    return [
        Path(polygon([(x - 2.4, -26), (x + 2.4, -26), (x + 2.4, -12), (x - 2.4, -12)]), wood),
        Path(smooth([(x - 7.6, -13), (x + 7.6, -13), (x + 8, 0), (x + 5, 6), (x, 7), (x - 5, 6), (x - 8, 0)], closed=True), wood),
        Path(
            (*smooth([*on_it, (x, 9.0 + hung), *right]), ("Z",)),
            Style(fill=tone(colour, 0.0), stroke=tone(colour, -0.45), width_mm=0.5),
        ),
    ]


def consistency(values: Values, caption: str) -> str:
    """Firm, middling and soft buttercream, on a lifted spatula."""
    floor, cream = 62.0, PALETTE["cream"]
    items: list[Item] = [Path(polyline([(-2, floor), (202, floor)]), LINE)]
    items += _peak(34, floor, 0.0, 40, cream)
    items += _peak(100, floor, 11.0, 36, cream)
    items.append(
        Path(
            (*smooth([(144, floor), (150, floor - 6), (166, floor - 9), (182, floor - 6), (190, floor)]), ("Z",)),
            Style(fill=tone(cream, 0), stroke=tone(cream, -0.45), width_mm=0.5),
        )
    )
    items.append(Path(smooth([(167, 12), (166.6, 30), (167.4, floor - 8)]), Style(stroke=tone(cream, -0.3), width_mm=2.6)))
    items.append(Path(smooth([(167, 12), (166.6, 30), (167.4, floor - 8)]), Style(stroke=tone(cream, 0.1), width_mm=1.6)))
    for x, hung in ((34.0, 7.0), (100.0, 6.0), (167.0, 3.0)):
        items += _spatula(x, hung, cream)
    for x, name, use in (
        (34.0, "firm", ("the peak stands:", "flowers")),
        (100.0, "middling", ("it bends over: swags,", "shells, rosettes")),
        (167.0, "soft", ("a thread falls:", "strings")),
    ):
        items.append(Text(x, 71, name, 7.4, "middle", "bold", WORDS))
        items += [Text(x, 79.5 + 8.0 * line, words, 6.8, "middle", "text", WORDS) for line, words in enumerate(use)]
    scene = Scene(
        "Three consistencies",
        "Three spatulas lifted out of buttercream. Firm: a peak stands up straight "
        "under it, to a point. Middling: the peak bends over at its tip. Soft: no peak, "
        "but a thread that falls from the spatula unbroken and sinks in.",
        -2,
        -22,
        204,
        113,
        tuple(items),
    )
    said = "Lift the spatula and look. Firm: the peak stands. Middling: it bends over. Soft: a thread falls without breaking."
    return figure(scene, caption or said)


def shades(values: Values, caption: str) -> str:
    """One strong tint let down with white."""
    strong, white = PALETTE[values.get("colour", "russet")], PALETTE["plain"]
    items: list[Item] = []
    for k, parts in enumerate((0, 1, 3, 7)):
        share = 1 / (1 + parts)
        tint = mixed(white, strong, share)
        x = 26 + 46 * k
        items.append(
            Path(
                (*smooth([(x - 19, 30), (x - 16, 16), (x - 2, 10), (x + 14, 15), (x + 19, 30), (x, 36)], closed=True),),
                Style(fill=tint, stroke=tone(tint, -0.4), width_mm=0.5),
            )
        )
        items.append(Path(smooth([(x - 11, 24), (x - 8, 17), (x + 1, 14)]), Style(stroke=tone(tint, 0.6), width_mm=2, opacity=0.7)))
        items.append(Text(x, 45, "strong" if not parts else f"1 to {parts} white", 6.3, "middle", "bold", WORDS))
    scene = Scene("A family of shades", "One strong tint, and the same with one, three and seven parts of white.", 0, 4, 190, 45, tuple(items))
    return figure(scene, caption or "One strong tint makes a family: let it down with white, by weight. On a screen, only roughly.")


def boxed(values: Values, caption: str) -> str:
    """A cake boxed for the road."""
    items: list[Item] = [
        Path(rectangle(-92, 34, 184, 5), Style(fill="#6b5f6d")),
        Text(0, 49, "level floor, mat that grips", 8.8, "middle", "bold", WORDS),
        Path(rectangle(-76, -72, 152, 104), Style(fill="#f1e4cd", stroke="#8a6f5c", width_mm=0.8)),
        Path(rectangle(-74, 29, 148, 3), Style(fill="#7d9b8c")),
        Path(rectangle(-62, 23, 124, 6), BOARD),
        Path(rectangle(-45, -27, 90, 50), Style(fill="#fbf3e0", stroke="#8a6f5c", width_mm=0.5)),
        Path(rectangle(-30, -62, 60, 35), Style(fill="#fbf3e0", stroke="#8a6f5c", width_mm=0.5)),
    ]
    for x in (-20.0, 20.0):
        items.append(Path(rectangle(x - 1.2, -27, 2.4, 50), Style(fill="#b08a5c", stroke="#5c4326", width_mm=0.3)))
    items += [
        Path(rectangle(-31, -28.6, 62, 1.8), Style(fill="#8a6f5c")),
        Path(polyline([(20, 0), (98, -6)]), LEADER),
        Text(100, -3, "dowels", 8.8, "start", "bold", WORDS),
        Path(polyline([(60, 26), (98, 20)]), LEADER),
        Text(100, 23, "stiff board", 8.8, "start", "bold", WORDS),
        Path(polyline([(76, -50), (98, -54)]), LEADER),
        Text(100, -51, "closed box", 8.8, "start", "bold", WORDS),
        Path(polyline([(-62, 14), (-76, 14)]), GUIDE_LINE._replace(role="", width_mm=0.9)),
        Text(-80, 17, "room", 8.8, "end", "bold", WORDS_GUIDE),
    ]
    scene = Scene(
        "A cake boxed for the road",
        "Two tiers on a stiff board, dowelled, in a closed box on a mat on a level floor, with room all round.",
        -108,
        -76,
        261,
        128,
        tuple(items),
    )
    return figure(scene, caption or "Stiff board, a mat under it, a closed box with room all round, on a level floor.")


def opening(values: Values, caption: str) -> str:
    """The demonstration cake as the whole-cake page draws it, a swag to the front, and the tape that gives the dividers' setting."""
    kept = (DOCS / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")
    cake = plan_of(parse(ORDER, unfold({"order": kept}, Answer("order"))))
    tiers = tuple(tier_drawing(tier, ()) for tier in cake.tiers)
    lower = cake.tiers[0]
    turned = 0.5 if lower.division.repeats % 2 == 0 else 0.0  # so that the middle of a swag is in front
    shown = tuple(replace(tier, rows=tuple(replace(row, shift=row.shift + turned) for row in tier.rows)) for tier in tiers)
    seen = side_view(shown, cake.supports[0].board_width_mm)
    joint_x = dividers_mm(lower.perimeter_mm, lower.division.repeats) / 2
    joint_y = -lower.height_mm + lower.rows[0].line_mm
    ground, ink, gold = "#3a1a3b", "#2f1730", "#ecbf55"
    half, tape, wide = seen.width_mm / 2 + 2, 27.0, 22.0
    top = seen.y_mm - 2
    long = half - 12
    items: list[Item] = [Path(rectangle(-half, top, 2 * half, tape + wide + 12 - top), Style(fill=ground)), *seen.items]
    items.append(Path(rectangle(-long, tape, 2 * long, wide), Style(fill=gold)))
    zero = -joint_x - 100.0  # the left joint stands over 10 cm
    ticks: list[tuple[str | float, ...]] = []
    for half_cm in range(math.ceil((-long - zero) / 5 + 0.4), math.floor((long - zero) / 5 - 0.4) + 1):
        x = zero + 5.0 * half_cm
        reach = 8.0 if half_cm % 10 == 0 else 6.0 if half_cm % 2 == 0 else 3.6
        ticks += [("M", x, tape), ("L", x, tape + reach)]
        if half_cm % 10 == 0:
            items.append(Text(x, tape + 18.6, str(half_cm // 2), 10.8, "middle", "bold", Style(fill=ink)))
    items.append(Path(tuple(ticks), Style(stroke=ink, width_mm=0.7)))
    for x in (-joint_x, joint_x):
        items += [
            Path(polyline([(x, joint_y - 6), (x, 0)]), Style(stroke=ink, width_mm=0.8, dash=(3.4, 2.6))),
            Path(polyline([(x, 13), (x, tape)]), Style(stroke=gold, width_mm=0.9, dash=(3.4, 2.6))),
            Path(polygon([(x, joint_y - 5), (x - 2.8, joint_y - 10.5), (x + 2.8, joint_y - 10.5)]), Style(fill=gold, stroke=ink, width_mm=0.4)),
        ]
    scene = Scene(
        "A cake that comes out even",
        "A two-tier cake seen from the side: swags in russet and cream with a string below them, shells round both bases, a ruched border and "
        "rosettes with leaves above. A measuring tape lies under it. Two dashed lines carry the joints of the front swag down to the tape, "
        f"{METRIC.length(2 * joint_x)} apart.",
        -half,
        top,
        2 * half,
        tape + wide + 12 - top,
        tuple(items),
    )
    return element("figure", {}, Markup(svg(scene)))


# The small drawings of the list of techniques: each kind as its look shows it, and what is piped from several rows.
SHOWN: dict[str, tuple[str, str, tuple[PlacedRow, ...]]] = {
    **{
        kind.name: (kind.page, kind.page_title, (replace(LOOKS[kind.name].shown, colour=PALETTE[kind.colour]),))
        for kind in KINDS.values()
        if kind.page
    },
    "layered": (
        "layered-swags",
        "Layered swags",
        (
            PlacedRow("ruched swag", Tip("petal", 12), RUSSET, "side", 18, 8, drop_mm=22),
            PlacedRow("swag", Tip("petal", 7), CREAM, "side", 14, 8, drop_mm=21),
        ),
    ),
    "nested": ("nested-strings", "Nested strings", (PlacedRow("string", Tip("round", 2), RUSSET, "side", 13, 8, drop_mm=30, layers=3),)),
    "vermicelli": ("vermicelli", "Vermicelli", ()),
    "blossom": ("blossoms", "Blossoms and buds", ()),
    "flower": ("small-flowers", "Small flowers", (PlacedRow("star", Tip("closed star", 15), BLUSH, "side", 29, count=20),)),
}


def gallery(values: Values, caption: str) -> str:
    """Small drawings of rows, each a link to its page."""
    links = []
    for name in (part.strip() for part in values["rows"].split(",")):
        page, title, rows = SHOWN[name]
        piece = row_scene(rows, 93.0, 58.0, side_mm=8 * 62.0, begin_mm=62.0 * 1.25) if rows else handbook_scenes.PIECES[name](93.0, 58.0)
        drawn = handbook_cards.small(svg(handbook_cards.within(replace(piece, title=title, description=title))))
        link = element("a", {"href": f"{page}/"}, drawn, element("span", {}, title))
        links.append(element("li", {"class": "pb-drawing", "data-kind": name if name in KINDS else None}, link))
    return element("ul", {"class": "pb-gallery"}, *links)


FIGURES: dict[str, Callable[[Values, str], str]] = {
    "opening": opening,
    "technique": technique,
    "division": division,
    "swags": swags,
    "coats": coats,
    "filling": filling,
    "edges": edges,
    "strip": strip,
    "grip": handbook_grip.grip,
    "layered": layered,
    "nested": nested,
    "inside": inside,
    "closing": closing,
    "cutting": cutting,
    "hearts": hearts,
    "tip": tip_drawing,
    "cake": cake,
    "gallery": gallery,
    "cards": lambda values, caption: handbook_cards.cards(values, FIGURES),
    "lessons": handbook_lessons.lessons,
    "ladder": handbook_lessons.ladder,
    "crumb": crumb,
    "tier": tier,
    "consistency": consistency,
    "shades": shades,
    "boxed": boxed,
    **handbook_hands.FIGURES,
    **handbook_scenes.FIGURES,
    **handbook_building.FIGURES,
}
