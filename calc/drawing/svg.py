"""The pen for the screen: a scene as SVG with a title and a description, every word escaped.

Map
---
`svg`      a scene as one text that can stand in a page
`number`   a number as both pens write it
`Pen`      writes items one by one, for a picture that is put together elsewhere; its names begin with `MARK`

Roles become the classes pb-line, pb-guide, pb-cake, pb-text and pb-text-guide, which the site's colours follow in both schemes.
Names inside begin with a word made from the drawing itself, so that several drawings can stand in one page.
"""

from __future__ import annotations

import re
import zlib
from functools import lru_cache

from calc.drawing.scene import Gradient, Group, Item, Matrix, Motif, Parts, Path, Scene, Style, Text, Use

_FACES = {"text": "", "bold": ' font-weight="700"', "display": ' font-weight="600"'}
_CLASSES = {"text-guide": "pb-text pb-text-guide"}
_DROPPED = re.compile("[\x00-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
MARK = "\x00"
_USE = '<use xlink:href="#%s" transform="matrix(%.4g %.4g %.4g %.4g %.2f %.2f)"%s/>'


def escape(words: str) -> str:
    """Give words so that they are text in SVG and nothing else; control characters are dropped.

    >>> escape('a <b> & "c"')
    'a &lt;b&gt; &amp; &quot;c&quot;'
    """
    return _DROPPED.sub("", words).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;").replace("'", "&#39;")


def number(value: float) -> str:
    """Give a length as it is written in drawings, to a hundredth of a millimetre and never as -0.

    >>> number(12.5), number(-0.001), number(3.14159)
    ('12.5', '0', '3.14')
    """
    text = f"{value:.2f}"
    if text[-1] == "0":
        text = text[:-3] if text[-2] == "0" else text[:-1]
        if text == "-0":
            return "0"
    return text


_PARTS = {"M": "M%.2f %.2f", "L": "L%.2f %.2f", "C": "C%.2f %.2f %.2f %.2f %.2f %.2f", "S": "S%.2f %.2f %.2f %.2f", "Z": "Z"}
_LAST_NOUGHT = re.compile(r"(\.\d)0")
_LESS_NOUGHT = re.compile(r"-0(?![.\d])")


def _shorter(text: str) -> str:
    """Numbers of two places, each as `number` writes it; all at once, because a drawing has thousands."""
    return _LESS_NOUGHT.sub("0", _LAST_NOUGHT.sub(r"\1", text.replace(".00", "")))


_COARSE_PARTS = {letter: form.replace(".2f", ".1f") for letter, form in _PARTS.items()}
_FAR_MM = 20.0  # a path that begins further from the origin is large, and a twentieth of a millimetre more or less on it is not to be seen


def _data(parts: Parts, coarse: bool) -> str:
    """The parts of a path to a tenth of a millimetre, or to a hundredth where it is small. A single zero costs less than taking it away."""
    if coarse and len(parts[0]) > 2 and abs(parts[0][1]) + abs(parts[0][2]) > _FAR_MM:  # type: ignore[arg-type]
        return "".join([_COARSE_PARTS[part[0]] % part[1:] for part in parts]).replace(".0", "")  # type: ignore[index]
    return "".join([_PARTS[part[0]] % part[1:] for part in parts]).replace(".00", "")  # type: ignore[index]


def _matrix(matrix: Matrix) -> str:
    a, b, c, d, e, f = matrix
    return f"matrix({a:.4g} {b:.4g} {c:.4g} {d:.4g} {number(e)} {number(f)})"


@lru_cache(maxsize=128)
def _inside(motif: Motif) -> str:
    """What a motif is made of."""
    pen = Pen(coarse=False)  # it may be drawn at any size
    text = "".join([pen.item(item) for item in motif.items])
    if pen.defs:
        raise ValueError(f"the motif {motif.key} has colours along a line, which would need a name in every drawing")
    return text


# A group of few items, such as one that only moves another, is not cached: it would take the place of one whose writing takes long. Seven
# tiers have some two hundred others, and with room for fewer each edit wrote them all again, three times the work.
FEW = 4


@lru_cache(maxsize=256)
def _written(group: Group, coarse: bool) -> tuple[str, dict[str, str]]:
    """A group as text, and the definitions it rests on; kept, because an edit leaves most groups of a drawing as they are."""
    pen = Pen(coarse)
    return pen.group(group), pen.defs


def _name(kind: str, what: object) -> str:
    """A name for what a drawing defines: the same thing has the same name in every drawing, apart from the drawing's own prefix."""
    return f"{MARK}{kind}{zlib.crc32(repr(what).encode()):x}"


class Pen:
    """Writes items, and keeps in `defs` what they rest on."""

    def __init__(self, coarse: bool = True) -> None:
        self.coarse = coarse  # nothing around what is written makes it larger
        self.motifs: dict[str, str] = {}
        self.defs: dict[str, str] = {}
        self.styles: dict[Style, str] = {}

    def style(self, style: Style) -> str:
        """The attributes of a style."""
        known = self.styles.get(style)
        if known is None:
            known = self.styles[style] = self._style(style)
        return known

    def _style(self, style: Style) -> str:
        text = f' class="{_CLASSES.get(style.role, f"pb-{style.role}")}"' if style.role else ""
        if isinstance(style.fill, Gradient):
            text += f' fill="url(#{self.gradient(style.fill)})"'
        elif style.fill:
            text += f' fill="{escape(style.fill)}"'
        else:
            text += ' fill="none"'
        if style.stroke:
            text += f' stroke="{escape(style.stroke)}" stroke-width="{number(style.width_mm)}"'
            if style.cap == "round":
                text += ' stroke-linecap="round" stroke-linejoin="round"'
            if style.dash:
                text += f' stroke-dasharray="{" ".join(number(d) for d in style.dash)}"'
        if style.opacity != 1.0:
            text += f' opacity="{style.opacity:.3g}"'
        return text

    def gradient(self, gradient: Gradient) -> str:
        """The name of a gradient, which is defined once."""
        name = _name("g", gradient)
        if name not in self.defs:
            stops = "".join(f'<stop offset="{place:.3g}" stop-color="{escape(colour)}"/>' for place, colour in gradient.stops)
            self.defs[name] = (
                f'<linearGradient id="{name}" gradientUnits="userSpaceOnUse" x1="{number(gradient.x1)}" '
                f'y1="{number(gradient.y1)}" x2="{number(gradient.x2)}" y2="{number(gradient.y2)}">{stops}</linearGradient>'
            )
        return name

    def motif(self, motif: Motif) -> str:
        """The name of a motif, which is defined once."""
        name = self.motifs[motif.key] = _name("m", motif.key)
        self.defs[name] = f'<g id="{name}">{_inside(motif)}</g>'
        return name

    def item(self, item: Item) -> str:
        """One item."""
        if isinstance(item, Use):
            motif, matrix, opacity = item
            faint = f' opacity="{opacity:.3g}"' if opacity != 1.0 else ""
            return _USE % (self.motifs.get(motif.key) or self.motif(motif), *matrix, faint)
        if isinstance(item, Path):
            return f'<path{self.style(item.style)} d="{_data(item.parts, self.coarse)}"/>'
        if isinstance(item, Text):
            return self.text(item)
        if len(item.items) < FEW:
            return self.group(item)
        text, defs = _written(item, self.coarse)
        self.defs.update(defs)
        return text

    def text(self, text: Text) -> str:
        """Words at a point."""
        turned = f' transform="rotate({number(text.turn_deg)} {number(text.x)} {number(text.y)})"' if text.turn_deg else ""
        anchor = f' text-anchor="{text.anchor}"' if text.anchor != "start" else ""
        return (
            f'<text{self.style(text.style)} x="{number(text.x)}" y="{number(text.y)}" font-size="{number(text.size_mm)}"'
            f"{_FACES[text.face]}{anchor}{turned}>{escape(text.words)}</text>"
        )

    def group(self, group: Group) -> str:
        """A group with what it holds."""
        text = "<g"
        if group.matrix is not None:
            text += f' transform="{_matrix(group.matrix)}"'
        if group.opacity != 1.0:
            text += f' opacity="{group.opacity:.3g}"'
        if group.clip is not None:
            name = _name("c", group.clip)
            x, y, width, height = (number(v) for v in group.clip)
            self.defs[name] = f'<clipPath id="{name}"><rect x="{x}" y="{y}" width="{width}" height="{height}"/></clipPath>'
            text += f' clip-path="url(#{name})"'
        if group.part:
            text += f' data-part="{escape(group.part)}"'
        text += ">"
        if group.title:
            text += f"<title>{escape(group.title)}</title>"
        coarse = self.coarse
        if group.matrix is not None and max(map(abs, group.matrix[:4])) > 1.0:
            self.coarse = False
        text += "".join([self.item(item) for item in group.items])
        self.coarse = coarse
        return text + "</g>"


def svg(scene: Scene) -> str:
    """Write a scene as SVG.

    Millimetres are the units of its viewBox.

    >>> svg(Scene("A <line>", "Nothing else", 0, 0, 20, 10, ()))[:61]
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10" r'
    """
    pen = Pen()
    body = [pen.item(item) for item in scene.items]
    defs = [f"<defs>{one}</defs>" for one in pen.defs.values()]
    box = " ".join(number(v) for v in (scene.x_mm, scene.y_mm, scene.width_mm, scene.height_mm))
    # a line for each part of it, so that a page can tell which of them have changed; no part has a line break inside
    whole = "\n".join(
        (f'<title id="{MARK}t">{escape(scene.title)}</title>', f'<desc id="{MARK}d">{escape(scene.description)}</desc>', *defs, *body, "</svg>")
    )
    name = f"d{zlib.crc32(whole.encode()):08x}"
    whole = whole.replace(MARK, name)
    # The theme's page changes write to the plain `href` of every element, which SVG does not allow; the older spelling is left alone.
    linked = ' xmlns:xlink="http://www.w3.org/1999/xlink"' if "<use " in whole else ""
    return f'<svg xmlns="http://www.w3.org/2000/svg"{linked} viewBox="{box}" role="img" aria-labelledby="{name}t {name}d">\n' + whole
