"""Writes a moving picture into a page.

`markup`   the film as HTML: the views and their controls for the screen, the five moments for paper and for readers without scripts

`docs/assets/js/moving.js` plays it. A layer says in attributes what the script has to write: `data-of` names the attribute, the transform where
nothing is named; `data-keys` its keys (`keys_text`), or "squeeze", whose keys the figure has for all. The numbers take the places of those that
stand in the attribute, or of each # of `data-form`. A group with `data-grow` holds pieces that appear from one time to another (`data-t`) and grow
meanwhile. `moving_short` then writes all the films of a page in fewer characters.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Sequence

from calc.drawing.scene import Item, Matrix, Parts, Path, Point, Style, smooth
from calc.drawing.shading import strand_paths
from calc.drawing.svg import MARK, Pen, escape
from calc.page.html import Markup, element
from tools.films.moving import GONE, Film, Grown, Keys, Laid, Layer, Led, Moved, Rod, Sheet, Still, Thread, Timed, Turning, View, Wiped, value_at

SHARED = "v"  # how the names begin of what all films of a page share


def few(value: float) -> str:
    """A number to a tenth."""
    text = f"{value:.1f}"
    return text[:-2].replace("-0", "0") if text.endswith(".0") else text


def _coarser(body: str) -> str:
    """Paths to a tenth of a millimetre: a view is some 130 mm wide and seldom over 700 pixels."""

    def path(found: re.Match[str]) -> str:
        return re.sub(r"-?\d+\.\d\d", lambda number: few(float(number[0])), found[0])

    return re.sub(r' d="[^"]*"', path, body)


def _hundredths(time_s: float) -> str:
    return str(round(time_s * 100))


def thinned(keys: Keys, within: float = 0.06) -> Keys:
    """Leave out keys that lie straight between their neighbours."""
    kept = [keys[0]]
    for i in range(1, len(keys) - 1):
        (t0, a), (t1, b), (t2, c) = kept[-1], keys[i], keys[i + 1]
        if not t0 < t1 < t2:
            if (t1, b) != kept[-1]:
                kept.append(keys[i])
            continue
        share = (t1 - t0) / (t2 - t0)
        if any(abs(p + (r - p) * share - q) > within for p, q, r in zip(a, b, c, strict=True)):
            kept.append(keys[i])
    return (*kept, keys[-1]) if len(keys) > 1 else tuple(kept)


def keys_text(keys: Keys, parts: int = 10) -> str:
    """Times in hundredths of a second, each followed by its numbers in tenths; all as differences from the key before."""
    before = [0] * (len(keys[0][1]) + 1)
    text = []
    for time, values in keys:
        now = [round(time * 100), *(round(value * parts) for value in values)]
        text += [str(a - b) for a, b in zip(now, before, strict=True)]
        before = now
    return " ".join(text)


def _share(value: float) -> str:
    """A share to a hundredth."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _filled(form: str, values: Sequence[float]) -> str:
    for value in values:
        form = form.replace("#", few(value), 1)
    return form


def _matrix(m: Matrix) -> str:
    a, b, c, d, e, f = m
    return f"matrix({a:.3g} {b:.3g} {c:.3g} {d:.3g} {few(e)} {few(f)})"


def _offsets(shares: Keys) -> Keys:
    """How far a dash of 100 is moved back along a way of 100 so that it ends at a share of it; out of sight where nothing is there."""
    keys: list[tuple[float, tuple[float, ...]]] = []
    for k, (time, (share,)) in enumerate(shares):
        if share > 0:
            keys.append((time, (100.0 * (1.0 - share),)))
        elif k and shares[k - 1][1][0] > 0:
            keys += [(time, (100.0,)), (time + 0.01, (104.0,))]
        elif k + 1 < len(shares) and shares[k + 1][1][0] > 0:
            keys += [(max(time - 0.01, keys[-1][0]) if keys else time, (104.0,)), (time, (100.0,))]
        else:
            keys.append((time, (104.0,)))
    return tuple(keys)


class _Writer:
    """Writes a film: what several views and moments share is defined once."""

    def __init__(self, film: Film, on_page: set[str]) -> None:
        self.film = film
        self.pen = Pen()
        self.name = f"w{zlib.crc32(f'{film.name} {film.note}'.encode()):x}"
        self.shared: list[str] = []
        self.on_page = on_page

    def fresh(self, name: str) -> bool:
        """Whether nothing of that name stands on the page yet."""
        found = name not in self.on_page
        self.on_page.add(name)
        return found

    def drawn(self, items: Sequence[Item]) -> str:
        return "".join([self.pen.item(item) for item in items])

    def share(self, body: str) -> str:
        """Define something once for all films of a page, by a name that it alone has; gives how to use it."""
        body = _coarser(body)
        name = f"{SHARED}{zlib.crc32(body.encode()):x}"
        if self.fresh(name):
            self.shared.append(f'<g id="{name}">{body}</g>')
        return f'<use xlink:href="#{name}"'

    def definitions(self, shown: str) -> str:
        """What the film rests on and no film before it on the page has defined; not what only moments need at which it is out of the picture."""
        defs = "".join([text for name, text in self.pen.defs.items() if self.fresh(name)])
        used, kept = set(re.findall(r'#([^")]+)[")]', shown)), []
        for text in reversed(self.shared):
            name = text[text.index('"') + 1 :].partition('"')[0]
            if name in used:
                kept.append(text)
                used.update(re.findall(r'#([^")]+)[")]', text))
            else:
                self.on_page.discard(name)
        return (defs + "".join(reversed(kept))).replace(MARK, SHARED)

    def _set(self, attribute: str, form: str, keys: Keys, time: float) -> str:
        """An attribute as it is at a time, and its keys; where each of its numbers changes, the script reads its form from what is written."""
        keys = thinned(keys, 0.09)
        return f'{attribute}="{_filled(form, value_at(keys, time))}" data-of="{attribute}" data-keys="{keys_text(keys)}"'

    def squeezed(self, attribute: str, form: str, time: float) -> str:
        """An attribute that follows the squeeze, whose keys the figure has once for all."""
        value = form.replace("#", _share(value_at(self.film.hand.squeeze, time)[0]))
        told = f' data-form="{form}"' if form != "#" else ""
        return f'{attribute}="{value}" data-of="{attribute}"{told} data-keys="squeeze"'

    def view(self, number: int, view: View, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        """What moves on the screen, and what is seen of it at each moment."""
        stage: list[str] = []
        frames: list[list[str]] = [[] for _ in moments]
        for at, layer in enumerate(view.layers):
            key = f"{number}{at}"
            live, stills = getattr(self, f"_{type(layer).__name__.lower()}")(key, layer, poster, moments)
            stage.append(live)
            for frame, still in zip(frames, stills, strict=True):
                frame.append(still)
        return "".join(stage), ["".join(frame) for frame in frames]

    def _still(self, key: str, layer: Still, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        body = _coarser(self.drawn(layer.items))
        # words are written where they stand: a rule of the page that turns them back for the left hand does not reach what is used from elsewhere
        use = body if "<text" in body else self.share(body) + "/>"
        return use, ["" if layer.inset else use] * len(moments)

    def _moved(self, key: str, layer: Moved, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        turns = len(layer.keys[0][1]) == 3
        form = "translate(# #)rotate(#)" if turns else "translate(# #)"
        held = f"rotate({few(layer.turn_deg)})scale({layer.seen:.2f} 1)" if layer.turn_deg or layer.seen != 1.0 else ""
        body = self.share(self.drawn(layer.items)) + "/>" if layer.items else ""
        squeeze = self.film.hand.squeeze
        stills = []
        press = self.share(self.drawn(layer.pressed)) if layer.pressed else ""
        for moment in moments:
            faint = value_at(squeeze, moment)[0]
            marks = f'{press} opacity="{_share(faint)}"/>' if press and faint > 0.02 else ""
            at = value_at(layer.keys, moment)
            stills.append("" if at[0] >= GONE else f'<g transform="{_filled(form, at)}{held}">{body}{marks}</g>')
        inside = body + (f"{press} {self.squeezed('opacity', '#', poster)}/>" if press else "")
        inside = f'<g transform="{held}">{inside}</g>' if held else inside
        return f"<g {self._set('transform', form, layer.keys, poster)}>{inside}</g>", stills

    def _grown(self, key: str, layer: Grown, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        (ax, ay), live = layer.anchor, []
        sizes = tuple((share, (x, y)) for share, x, y in layer.profile)

        def grown(piece: Timed, time: float) -> str:
            along, across = value_at(sizes, (time - piece.begin_s) / (piece.end_s - piece.begin_s))
            size = f"scale({along:.2f} {across:.2f})"
            return f"translate({few(ax)} {few(ay)}){size}translate({few(-ax)} {few(-ay)})" if ax or ay else size

        parts: list[list[str]] = [[] for _ in moments]
        growing: list[list[str]] = [[] for _ in moments]
        for piece in layer.pieces:
            use = f'<use xlink:href="#{self.pen.motif(piece.motif)}"'
            a, b, c, d, e, f = piece.matrix
            matrix = _matrix(piece.matrix)
            shown = "" if piece.begin_s < poster else ' display="none"'
            now = grown(piece, poster) if piece.begin_s < poster < piece.end_s else ""
            live.append(f'{use} transform="{matrix}{now}" data-t="{_hundredths(piece.begin_s)} {_hundredths(piece.end_s)}"{shown}/>')
            for k, moment in enumerate(moments):
                if piece.end_s <= moment and not (k and piece.end_s <= moments[k - 1]):
                    parts[k].append(f'{use} transform="{matrix}"/>')
                elif piece.begin_s < moment < piece.end_s:
                    along, across = value_at(sizes, (moment - piece.begin_s) / (piece.end_s - piece.begin_s))
                    u, v = ax * (1.0 - along), ay * (1.0 - across)  # so that the anchor stays
                    m = (a * along, b * along, c * across, d * across, a * u + c * v + e, b * u + d * v + f)
                    growing[k].append(f'{use} transform="{_matrix(m)}"/>')
        before, stills = "", []
        for k, part in enumerate(parts):
            if part:
                before = self.share(before + "".join(part)) + "/>"
            stills.append(before + "".join(growing[k]))
        profile = " ".join(f"{part:.3g}" for row in layer.profile for part in row)
        return f'<g data-grow="{few(ax)} {few(ay)} {profile}">{"".join(live)}</g>', stills

    def _inner(self, key: str, layers: Sequence[Layer], poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        """Layers that belong together."""
        live, stills = "", [""] * len(moments)
        for at, inner in enumerate(layers):
            moving, standing = getattr(self, f"_{type(inner).__name__.lower()}")(f"{key}t{at}", inner, poster, moments)
            live += moving
            stills = [before + still for before, still in zip(stills, standing, strict=True)]
        return live, stills

    def _laid(self, key: str, layer: Laid, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        live, stills = self._inner(key, layer.layers, poster, moments)
        through = f'<g transform="{_matrix(layer.matrix)}">'
        return f"{through}{live}</g>", [f"{through}{still}</g>" for still in stills]

    def _turning(self, key: str, layer: Turning, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        form = "translate(# #)rotate(#)"
        live, stills = self._inner(key, layer.layers, poster, moments)
        places = [value_at(layer.keys, moment) for moment in moments]
        turned = ["" if at[0] >= GONE else f'<g transform="{_filled(form, at)}">{still}</g>' for at, still in zip(places, stills, strict=True)]
        return f"<g {self._set('transform', form, layer.keys, poster)}>{live}</g>", turned

    def _wiped(self, key: str, layer: Wiped, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        use = self.share(self.drawn(layer.items)) + "/>"

        def cut(name: str, inside: str) -> str:
            return f'<clipPath id="{self.name}{name}"><rect x="-20" y="-20" height="200" {inside}/></clipPath>'

        keys = tuple((time, (x + 20.0,)) for time, (x,) in layer.keys)
        stills = []
        for k, moment in enumerate(moments):
            self.shared.append(cut(f"{key}c{k}", f'width="{few(value_at(keys, moment)[0])}"'))
            stills.append(f'<g clip-path="url(#{self.name}{key}c{k})">{use}</g>')
        live = cut(f"{key}c", self._set("width", "#", keys, poster))
        return f'{live}<g clip-path="url(#{self.name}{key}c)">{use}</g>', stills

    def _led(self, key: str, layer: Led, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        """A dash as long as the whole way is moved along it; before the beginning nothing of it is seen, not even its round end."""
        keys = _offsets(layer.keys)
        dashed = 'stroke-dasharray="100 220"'

        def measured(items: Sequence[Item]) -> str:
            return self.drawn(items).replace("<path ", '<path pathLength="100" ')

        def offset(time: float) -> str:
            return f'stroke-dashoffset="{few(value_at(keys, time)[0])}"'

        if not layer.way:
            use = self.share(measured(layer.items)) + "/>"
            stills = [f"<g {dashed} {offset(moment)}>{use}</g>" for moment in moments]
            return f"<g {dashed} {self._set('stroke-dashoffset', '#', keys, poster)}>{use}</g>", stills
        use = self.share(self.drawn(layer.items)) + "/>"
        line = self.share(measured([Path(smooth(layer.way), Style(stroke="#ffffff", width_mm=layer.wide_mm, cap="butt"))])) + "/>"

        def mask(name: str, set_to: str) -> str:
            return f'<mask id="{self.name}{name}"><g {dashed} {set_to}>{line}</g></mask>'

        stills = []
        for k, moment in enumerate(moments):
            self.shared.append(mask(f"{key}m{k}", offset(moment)))
            stills.append(f'<g mask="url(#{self.name}{key}m{k})">{use}</g>')
        live = mask(f"{key}m", self._set("stroke-dashoffset", "#", keys, poster))
        return f'{live}<g mask="url(#{self.name}{key}m)">{use}</g>', stills

    def _thread(self, key: str, layer: Thread, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        def points(values: Sequence[float]) -> list[Point]:
            return list(zip(values[::2], values[1::2], strict=True))

        def parts(values: Sequence[float]) -> Parts:
            return smooth(points(values))

        strands = [item for item in strand_paths([(0.0, 0.0), (1.0, 0.0)], layer.width_mm, "smooth", layer.colour) if isinstance(item, Path)]
        form = "".join(f"{part[0]}{' '.join('#' * (len(part) - 1))}" for part in parts(layer.keys[0][1]))
        keys = tuple((time, tuple(float(v) for part in parts(values) for v in part[1:])) for time, values in layer.keys)
        laid = [(f' transform="translate({part.parts[0][1]:.2f} {part.parts[0][2]:.2f})"', part.style) for part in strands]
        return self._along(key, form, keys, laid, poster, moments)

    def _rod(self, key: str, layer: Rod, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        return self._along(key, "M# #L# #", layer.keys, [("", style) for style in layer.strokes], poster, moments)

    def _sheet(self, key: str, layer: Sheet, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        form = f"M{'L'.join(['# #'] * (len(layer.keys[0][1]) // 2))}Z"
        paint = f'fill="{layer.style.fill}" stroke="{layer.style.stroke}" stroke-width="{layer.style.width_mm:.2f}"'
        stills = [f'<path {paint} d="{_filled(form, value_at(layer.keys, moment))}"/>' for moment in moments]
        return f"<path {paint} {self._set('d', form, layer.keys, poster)}/>", stills

    def _along(
        self, key: str, form: str, keys: Keys, strands: Sequence[tuple[str, Style]], poster: float, moments: Sequence[float]
    ) -> tuple[str, list[str]]:
        """A line whose shape changes, drawn once for each strand, moved and coloured."""

        def laid(use: str) -> str:
            each = "".join(f'{use}{moved} stroke="{style.stroke}" stroke-width="{style.width_mm:.2f}"/>' for moved, style in strands)
            return f'<g fill="none" stroke-linecap="round">{each}</g>'

        path = f'<defs><path id="{self.name}{key}d" {self._set("d", form, keys, poster)}/></defs>'
        live = path + laid(f'<use xlink:href="#{self.name}{key}d"')
        stills = []
        for moment in moments:
            begun = moment > keys[0][0]
            stills.append(self.share(laid(self.share(f'<path d="{_filled(form, value_at(keys, moment))}"/>'))) + "/>" if begun else "")
        return live, stills


def _svg(view: View, body: str, name: str = "") -> Markup:
    """One view; with a name its title and its words are told."""
    said = f'role="img" aria-labelledby="{name}t {name}d"' if name else 'aria-hidden="true"'
    told = f'<title id="{name}t">{escape(view.title)}</title><desc id="{name}d">{escape(view.words)}</desc>' if name else ""
    box = f"0 0 {few(view.wide_mm)} {few(view.high_mm)}"
    return Markup(f'<svg viewBox="{box}" {said}>{told}{body}</svg>')


KEYS = (("play", "Play"), ("step", "Next step"), ("slow", "Half speed"), ("again", "Again"))


def markup(film: Film, on_page: set[str] | None = None) -> Markup:
    """Write a film into a page; `on_page` are the names of what its films share, and takes those that this one adds."""
    hand, moments = film.hand, film.moments
    poster = moments[2]
    writer = _Writer(film, set() if on_page is None else on_page)
    views = [writer.view(number, view, poster, moments) for number, view in enumerate(film.views)]
    defs = writer.definitions("".join(stage + "".join(stills) for stage, stills in views))

    def named(text: str) -> Markup:
        return Markup(text.replace(MARK, SHARED))

    panels = [
        element("div", {"class": "pb-moving-view"}, _svg(view, named(stage), f"{writer.name}s{k}"), element("p", {"aria-hidden": "true"}, view.title))
        for k, (view, (stage, _)) in enumerate(zip(film.views, views, strict=True))
    ]
    frames = []
    for k, moment in enumerate(moments):
        at = min(sum(end < moment - 1e-6 for _, end in hand.segments), len(hand.segments) - 1)
        squeeze = round(100 * value_at(hand.squeeze, moment)[0])
        said = f"{k + 1}. {hand.segments[at][0]}: {moment:.1f} s"
        if film.squeezes:
            said += f", {film.force.lower()} {squeeze} %" if squeeze else f", no {film.force.lower()}"
        shown = [_svg(view, named(stills[k])) for view, (_, stills) in zip(film.views, views, strict=True)]
        frames.append(element("li", {}, *shown, element("p", {}, said)))
    squeeze_bar = None
    if film.squeezes:
        bar = f'<rect width="100" height="10" {writer.squeezed("transform", "scale(# 1)", poster)}/>'
        svg = Markup(f'<svg class="pb-moving-bar" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">{bar}</svg>')
        squeeze_bar = element("p", {"class": "pb-moving-squeeze"}, element("span", {}, film.force), svg)
    follows = squeeze_bar or any('data-keys="squeeze"' in stage for stage, _ in views)
    return element(
        "figure",
        {
            "class": "pb-moving pb-drawing",
            "data-search-exclude": True,
            "data-segments": "|".join(f"{_hundredths(end)} {name}" for name, end in hand.segments),
            "data-squeeze": keys_text(thinned(hand.squeeze, 0.004), 100) if follows else None,
            "data-speed": keys_text(tuple((time, (speed / 10,)) for time, (speed,) in hand.speed)),
        },
        element("figcaption", {}, element("strong", {}, "Watch it: "), film.note),
        Markup(f'<svg class="pb-moving-parts" width="0" height="0" aria-hidden="true"><defs>{defs}</defs></svg>'),
        element(
            "div",
            {"class": "pb-moving-stage"},
            element("div", {"class": "pb-moving-views", "data-turns": True}, *panels),
            element(
                "div",
                {"class": "pb-moving-said" if squeeze_bar else "pb-moving-said pb-moving-light"},
                element("p", {"class": "pb-moving-step", "aria-live": "polite"}, f"{len(set(name for name, _ in hand.segments))} steps"),
                squeeze_bar,
                element("p", {"class": "pb-moving-speed"}, ""),
            ),
            element(
                "div",
                {"class": "pb-moving-keys", "role": "group", "aria-label": f"Moving picture: {film.name}"},
                *(
                    element(
                        "button", {"type": "button", "class": "pb-button", "data-do": key, "aria-pressed": "false" if key == "slow" else None}, words
                    )
                    for key, words in KEYS
                ),
            ),
        ),
        element("ol", {"class": "pb-moving-strip", "data-turns": True}, *frames),
    )
