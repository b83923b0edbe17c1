"""The pen for paper: scenes as the pages of a PDF, exact in millimetres.

Map
---
`pdf`      scenes, each a page, as one PDF
`MM`       points to a millimetre

The page's own matrix turns millimetres downwards into points upwards, so the numbers in the file are those of the scene. Printing is asked for
at full size (PrintScaling none). Type is embedded, cut down to the letters used; a character the typefaces lack is drawn as a box, kept in the
text that can be searched, and named at the foot of its page.
"""

from __future__ import annotations

import io
import math
import unicodedata
import zlib
from collections.abc import Sequence

import pydyf

from calc.drawing.faces import BOX_EM, POSTSCRIPT, face, shown, text_width_mm
from calc.drawing.scene import Gradient, Group, Item, Matrix, Motif, Parts, Path, Scene, Style, Text, Use
from calc.drawing.svg import _shorter, number

MM = 72 / 25.4
_PARTS = {"M": "%.2f %.2f m", "L": "%.2f %.2f l", "C": "%.2f %.2f %.2f %.2f %.2f %.2f c", "Z": "h"}
_IDENTITY: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def _times(m: Matrix, n: Matrix) -> Matrix:
    """First m, then n."""
    a, b, c, d, e, f = m
    g, h, i, j, k, l = n
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + l)


def _six(matrix: Matrix) -> str:
    return " ".join(f"{v:.6f}".rstrip("0").rstrip(".") or "0" for v in matrix)


def _rgb(colour: str) -> str:
    return " ".join(f"{int(colour[i : i + 2], 16) / 255:.4g}" for i in (1, 3, 5))


def _data(parts: Parts) -> str:
    out = []
    handle: tuple[float, ...] = ()
    for part in parts:
        if part[0] == "S":  # PDF has no such curve: its first handle is written out
            x2, y2, x, y = handle
            part = ("C", 2 * x - x2, 2 * y - y2, *part[1:])
        out.append(_PARTS[part[0]] % part[1:])  # type: ignore[index]
        if part[0] == "C":
            handle = part[3:]  # type: ignore[assignment]
    return _shorter("\n".join(out))


def _reach(parts: Parts) -> tuple[float, float, float, float]:
    xs = [float(v) for part in parts for v in part[1::2]]
    ys = [float(v) for part in parts for v in part[2::2]]
    return min(xs), min(ys), max(xs), max(ys)


class _Pen:
    """Writes what a page shows and remembers the pieces, faces and tones it needs."""

    def __init__(self) -> None:
        self.pdf = pydyf.PDF()
        self.resources = pydyf.Dictionary(
            {"Font": pydyf.Dictionary(), "XObject": pydyf.Dictionary(), "ExtGState": pydyf.Dictionary(), "Pattern": pydyf.Dictionary()}
        )
        self.pdf.add_object(self.resources)
        self.motifs: dict[str, str] = {}
        self.faint: dict[str, str] = {}
        self.patterns: dict[tuple[Gradient, Matrix], str] = {}
        self.used: dict[str, dict[int, str]] = {}
        self.missing: dict[str, None] = {}
        self.groups = 0

    # --- what is shared

    def opacity(self, value: float) -> str:
        key = f"{value:.3g}"
        if key not in self.faint:
            self.faint[key] = f"o{len(self.faint)}"
            self.resources["ExtGState"][self.faint[key]] = pydyf.Dictionary({"ca": key, "CA": key})
        return f"/{self.faint[key]} gs"

    def pattern(self, gradient: Gradient, base: Matrix) -> str:
        key = (gradient, base)
        if key not in self.patterns:
            self.patterns[key] = f"p{len(self.patterns)}"
            stops = gradient.stops
            pieces = [
                pydyf.Dictionary({"FunctionType": 2, "Domain": pydyf.Array([0, 1]), "N": 1, "C0": f"[{_rgb(a[1])}]", "C1": f"[{_rgb(b[1])}]"})
                for a, b in zip(stops, stops[1:], strict=False)
            ]
            bounds = " ".join(f"{place:.4g}" for place, _ in stops[1:-1])
            function = pydyf.Dictionary(
                {
                    "FunctionType": 3,
                    "Domain": pydyf.Array([0, 1]),
                    "Functions": pydyf.Array(pieces),
                    "Bounds": f"[{bounds}]",
                    "Encode": "[" + "0 1 " * len(pieces) + "]",
                }
            )
            shading = pydyf.Dictionary(
                {
                    "ShadingType": 2,
                    "ColorSpace": "/DeviceRGB",
                    "Extend": "[true true]",
                    "Function": function,
                    "Coords": f"[{number(gradient.x1)} {number(gradient.y1)} {number(gradient.x2)} {number(gradient.y2)}]",
                }
            )
            self.resources["Pattern"][self.patterns[key]] = pydyf.Dictionary(
                {"Type": "/Pattern", "PatternType": 2, "Shading": shading, "Matrix": f"[{_six(base)}]"}
            )
        return f"/Pattern cs /{self.patterns[key]} scn"

    def form(self, name: str, content: str, box: tuple[float, float, float, float], together: bool) -> None:
        extra = {"Type": "/XObject", "Subtype": "/Form", "BBox": pydyf.Array(list(box)), "Resources": self.resources.reference}
        if together:
            extra["Group"] = pydyf.Dictionary({"S": "/Transparency", "CS": "/DeviceRGB"})
        stream = pydyf.Stream([content], extra, compress=True)
        self.pdf.add_object(stream)
        self.resources["XObject"][name] = stream.reference

    def motif(self, motif: Motif) -> str:
        if motif.key not in self.motifs:
            name = self.motifs[motif.key] = f"m{len(self.motifs)}"
            boxes = [_reach(path.parts) for path in motif.items]
            edge = max([path.style.width_mm for path in motif.items] + [1.0])
            box = (min(b[0] for b in boxes) - edge, min(b[1] for b in boxes) - edge, max(b[2] for b in boxes) + edge, max(b[3] for b in boxes) + edge)
            self.form(name, "\n".join(self.path(path, _IDENTITY) for path in motif.items), box, together=True)
        return self.motifs[motif.key]

    # --- items

    def item(self, item: Item, base: Matrix) -> str:
        if isinstance(item, Path):
            return self.path(item, base)
        if isinstance(item, Use):
            name = self.motif(item.motif)
            faint = self.opacity(item.opacity) + "\n" if item.opacity != 1.0 else ""
            return f"q\n{faint}{_six(item.matrix)} cm\n/{name} Do\nQ"
        if isinstance(item, Text):
            return self.text(item)
        return self.group(item, base)

    def path(self, path: Path, base: Matrix) -> str:
        style = path.style
        if not style.fill and not style.stroke:
            return ""
        out = ["q"]
        if style.opacity != 1.0:
            out.append(self.opacity(style.opacity))
        if isinstance(style.fill, Gradient):
            out.append(self.pattern(style.fill, base))
        elif style.fill:
            out.append(_rgb(style.fill) + " rg")
        if style.stroke:
            out.append(f"{_rgb(style.stroke)} RG\n{number(style.width_mm)} w")
            if style.cap == "round":
                out.append("1 J 1 j")
            if style.dash:
                out.append(f"[{' '.join(number(d) for d in style.dash)}] 0 d")
        out.append(_data(path.parts))
        out.append("B" if style.fill and style.stroke else "f" if style.fill else "S")
        out.append("Q")
        return "\n".join(out)

    def group(self, group: Group, base: Matrix) -> str:
        out = ["q"]
        if group.matrix is not None:
            out.append(_six(group.matrix) + " cm")
            base = _times(group.matrix, base)
        if group.clip is not None:
            out.append(" ".join(number(v) for v in group.clip) + " re W n")
        if group.opacity != 1.0:
            name = f"g{self.groups}"
            self.groups += 1
            self.form(name, "\n".join(self.item(item, _IDENTITY) for item in group.items), (-20000, -20000, 20000, 20000), together=True)
            out += [self.opacity(group.opacity), f"/{name} Do"]
        else:
            out += [self.item(item, base) for item in group.items]
        out.append("Q")
        return "\n".join(out)

    def text(self, text: Text) -> str:
        words = shown(text.words)
        if not words:
            return ""
        known = face(text.face)
        used = self.used.setdefault(text.face, {})
        width = text_width_mm(text.words, text.size_mm, text.face)
        start = {"start": 0.0, "middle": -width / 2, "end": -width}[text.anchor]
        style = text.style
        fill = style.fill if isinstance(style.fill, str) and style.fill else "#000000"
        matrix: Matrix = (1.0, 0.0, 0.0, -1.0, start, 0.0)
        if text.turn_deg:
            turn = math.radians(text.turn_deg)
            cosine, sine = math.cos(turn), math.sin(turn)
            matrix = _times(matrix, (cosine, sine, -sine, cosine, text.x, text.y))
        else:
            matrix = _times(matrix, (1.0, 0.0, 0.0, 1.0, text.x, text.y))
        runs: list[str] = []
        boxes: list[float] = []
        at = 0.0
        glyphs: list[str] = []
        for c in words:
            glyph = known.glyphs.get(c)
            if glyph is not None:
                used[glyph] = c
                glyphs.append(f"{glyph:04x}")
                at += known.advances[glyph]
                continue
            self.missing[c] = None
            if glyphs:
                runs.append(f"<{''.join(glyphs)}> Tj")
                glyphs = []
            kept = c.encode("utf-16-be").hex()
            space = known.glyphs[" "]
            used[space] = " "
            runs.append(f"/Span <</ActualText <feff{kept}>>> BDC <{space:04x}> Tj EMC")
            boxes.append(at)
            at += 1000 * BOX_EM
            runs.append(f"[{number(known.advances[space] - 1000 * BOX_EM)}] TJ")
        if glyphs:
            runs.append(f"<{''.join(glyphs)}> Tj")
        opacity = self.opacity(style.opacity) + "\n" if style.opacity != 1.0 else ""
        body = "\n".join(runs)
        out = f"q\n{opacity}{_rgb(fill)} rg {_rgb(fill)} RG\nBT\n/{text.face} {number(text.size_mm)} Tf\n{_six(matrix)} Tm\n{body}\nET"
        if boxes:
            size = text.size_mm
            out += f"\n{_six(matrix)} cm {number(size * 0.05)} w\n" + "\n".join(
                f"{number((x / 1000 + 0.07) * size)} 0 {number((BOX_EM - 0.14) * size)} {number(size * 0.66)} re S" for x in boxes
            )
        return out + "\nQ"

    # --- the whole

    def fonts(self) -> None:
        for name, used in self.used.items():
            known = face(name)
            data = known.cut(used)
            file = pydyf.Stream([zlib.compress(data)], {"Length1": len(data), "Filter": "/FlateDecode"})
            self.pdf.add_object(file)
            x0, y0, x1, y1, up, down = known.box
            called = f"/PBPAGE+{POSTSCRIPT[name]}"
            descriptor = pydyf.Dictionary(
                {
                    "Type": "/FontDescriptor",
                    "FontName": called,
                    "Flags": 4,
                    "ItalicAngle": 0,
                    "Ascent": up,
                    "Descent": down,
                    "CapHeight": 670,
                    "StemV": 80,
                    "FontBBox": pydyf.Array([x0, y0, x1, y1]),
                    "FontFile2": file.reference,
                }
            )
            self.pdf.add_object(descriptor)
            widths = " ".join(f"{glyph} [{known.advances[glyph]}]" for glyph in sorted(used))
            inner = pydyf.Dictionary(
                {
                    "Type": "/Font",
                    "Subtype": "/CIDFontType2",
                    "BaseFont": called,
                    "CIDToGIDMap": "/Identity",
                    "DW": 500,
                    "CIDSystemInfo": pydyf.Dictionary({"Registry": pydyf.String("Adobe"), "Ordering": pydyf.String("Identity"), "Supplement": 0}),
                    "W": f"[{widths}]",
                    "FontDescriptor": descriptor.reference,
                }
            )
            self.pdf.add_object(inner)
            rows = [f"<{glyph:04x}> <{c.encode('utf-16-be').hex()}>" for glyph, c in sorted(used.items())]
            blocks = "\n".join(
                f"{len(rows[i : i + 100])} beginbfchar\n" + "\n".join(rows[i : i + 100]) + "\nendbfchar" for i in range(0, len(rows), 100)
            )
            unicode = pydyf.Stream(
                [
                    "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) "
                    "/Supplement 0 >> def\n/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n1 begincodespacerange\n<0000> <ffff>\n"
                    f"endcodespacerange\n{blocks}\nendcmap\nCMapName currentdict /CMap defineresource pop\nend\nend"
                ],
                compress=True,
            )
            self.pdf.add_object(unicode)
            font = pydyf.Dictionary(
                {
                    "Type": "/Font",
                    "Subtype": "/Type0",
                    "BaseFont": called,
                    "Encoding": "/Identity-H",
                    "DescendantFonts": pydyf.Array([inner.reference]),
                    "ToUnicode": unicode.reference,
                }
            )
            self.pdf.add_object(font)
            self.resources["Font"][name] = font.reference

    def page(self, scene: Scene) -> None:
        height = scene.height_mm * MM
        base: Matrix = (MM, 0.0, 0.0, -MM, -scene.x_mm * MM, height + scene.y_mm * MM)
        self.missing = {}
        body = [f"q\n{base[0]:.9f} 0 0 {base[3]:.9f} {base[4]:.6f} {base[5]:.6f} cm"]
        body += [self.item(item, base) for item in scene.items]
        if self.missing:
            note = Text(
                scene.x_mm + scene.width_mm / 2,
                scene.y_mm + scene.height_mm - 5.6,
                _named(tuple(self.missing)),
                2.4,
                "middle",
                "text",
                Style(fill="#000000"),
            )
            body.append(self.text(note))
        body.append("Q")
        stream = pydyf.Stream(["\n".join(body)], compress=True)
        self.pdf.add_object(stream)
        self.pdf.add_page(
            pydyf.Dictionary(
                {
                    "Type": "/Page",
                    "Parent": self.pdf.pages.reference,
                    "Contents": stream.reference,
                    "Resources": self.resources.reference,
                    "MediaBox": f"[0 0 {scene.width_mm * MM:.4f} {height:.4f}]",
                }
            )
        )


def _named(characters: tuple[str, ...]) -> str:
    """Which characters were drawn as boxes, by their standard names."""
    named = [f"{unicodedata.name(c, 'a character').capitalize()} (U+{ord(c):04X})" for c in characters[:4]]
    more = f" and {len(characters) - 4} more" if len(characters) > 4 else ""
    return "Drawn as a box, because the typeface lacks it: " + "; ".join(named) + more


def pdf(pages: Sequence[Scene], title: str = "") -> bytes:
    """Write scenes as the pages of a PDF.

    Formula: 72 / 25.4 points to a millimetre.

    Parameters
    ----------
    pages : sequence of Scene
        One scene to a page; its rectangle is the sheet of paper [mm]
    title : str
        What the document is called; the first scene's title when empty [-]

    Returns
    -------
    bytes
        The PDF, the same for the same scenes [-]

    Raises
    ------
    ValueError
        There is no page.

    Range: any scenes. Leaves out: links and forms.

    Example
    -------
    >>> pdf([Scene("A sheet", "", 0, 0, 210, 297, ())])[:8]
    b'%PDF-1.7'

    Source: iso-32000 (sections 7 to 9), iso-216 (table 1)
    """
    if not pages:
        raise ValueError("a document has at least one page")
    pen = _Pen()
    for scene in pages:
        pen.page(scene)
    pen.fonts()
    pen.pdf.info["Title"] = pydyf.String(title or pages[0].title)
    pen.pdf.info["Producer"] = pydyf.String("Piping Bench")
    pen.pdf.catalog["ViewerPreferences"] = pydyf.Dictionary({"PrintScaling": "/None", "DisplayDocTitle": "true"})
    pen.pdf.catalog["Lang"] = pydyf.String("en-GB")
    out = io.BytesIO()
    pen.pdf.write(out)
    return out.getvalue()
