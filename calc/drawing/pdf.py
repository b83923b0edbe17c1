"""The pen for paper: scenes as the pages of a PDF, exact in millimetres.

Map
---
`pdf`      scenes, each a page, as one PDF
`About`    what the document says of itself: title, author, subject, language
`Part`     some pages of it that belong together, such as one sheet of a job
`MM`       points to a millimetre

The page's own matrix turns millimetres downwards into points upwards, so the numbers in the file are those of the scene. Printing is asked for
at full size (PrintScaling none). Type is embedded, cut down to the letters used; a character the typefaces lack is drawn as a box, kept in the
text that can be searched, and named at the foot of its page.

The document is tagged: a group of a scene that has a `tag` becomes an element of the structure tree, those inside it its children, and what has
no tag is an artifact, which is not read aloud. Headings are bookmarks, too.
"""

from __future__ import annotations

import io
import math
import unicodedata
import zlib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import islice

import pydyf

from calc.drawing.faces import BOX_EM, POSTSCRIPT, face, shown, text_width_mm
from calc.drawing.scene import Gradient, Group, Item, Matrix, Motif, Parts, Path, Scene, Style, Text, Use
from calc.drawing.svg import _shorter, escape, number

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


@dataclass(frozen=True)
class About:
    """What a document says of itself; an empty title takes that of its first page."""

    title: str = ""
    author: str = "Piping Bench"
    subject: str = ""
    language: str = "en-GB"


@dataclass(frozen=True)
class Part:
    """Pages that belong together: what they are called, how many there are, and the group of parts that they stand in, if any."""

    title: str
    pages: int
    group: str = ""


class _Pen:
    """Writes what a page shows and remembers the pieces, faces and tones it needs."""

    def __init__(self) -> None:
        self.pdf = pydyf.PDF()
        self.tree = _Tree(self.pdf)
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

    def tagged(self, items: Sequence[Item], base: Matrix) -> list[str]:
        """What a page shows, or one element of its structure: items with a tag as elements of their own, the rest as artifacts."""
        out: list[str] = []
        loose: list[str] = []

        def artifact() -> None:
            if loose:
                out.append("/Artifact BMC\n" + "\n".join(loose) + "\nEMC")
                loose.clear()

        for item in items:
            if not (isinstance(item, Group) and _is_read(item)):
                loose.append(self.item(item, base))
                continue
            artifact()
            self.tree.open(item, base)
            if any(isinstance(inner, Group) and _is_read(inner) for inner in item.items):
                out += self.tagged(item.items, base)
            else:
                number = self.tree.mark()
                out.append(f"/{item.tag} <</MCID {number}>> BDC\n{self.group(item, base)}\nEMC")
            self.tree.close()
        artifact()
        return out

    def page(self, scene: Scene) -> None:
        height = scene.height_mm * MM
        base: Matrix = (MM, 0.0, 0.0, -MM, -scene.x_mm * MM, height + scene.y_mm * MM)
        page = pydyf.Dictionary({"Type": "/Page", "Parent": self.pdf.pages.reference, "Tabs": "/S"})
        self.pdf.add_page(page)
        self.tree.turn(page, height)
        self.missing = {}
        body = [f"q\n{base[0]:.9f} 0 0 {base[3]:.9f} {base[4]:.6f} {base[5]:.6f} cm"]
        body += self.tagged(scene.items, base)
        if self.missing:
            note = Text(
                scene.x_mm + scene.width_mm / 2,
                scene.y_mm + scene.height_mm - 5.6,
                _named(tuple(self.missing)),
                2.9,
                "middle",
                "text",
                Style(fill="#000000"),
            )
            body += self.tagged((Group((note,), tag="P"),), base)
        body.append("Q")
        stream = pydyf.Stream(["\n".join(body)], compress=True)
        self.pdf.add_object(stream)
        page.update(
            {"Contents": stream.reference, "Resources": self.resources.reference, "MediaBox": f"[0 0 {scene.width_mm * MM:.4f} {height:.4f}]"}
        )


def _is_read(group: Group) -> bool:
    """Whether a group is an element of the document's structure."""
    return bool(group.tag) and group.tag != "Artifact"


class _Tree:
    """The structure tree of a document, with the bookmarks that its headings make.

    Written as ISO 32000 says: elements with their marked content, and for each page the elements its marks belong to (14.7), bookmarks (12.3.3).
    """

    def __init__(self, pdf: pydyf.PDF) -> None:
        self.pdf = pdf
        self.root = pydyf.Dictionary({"Type": "/StructTreeRoot"})
        pdf.add_object(self.root)
        self.document = self._element("Document", self.root)
        self.root["K"] = pydyf.Array([self.document.reference])
        self.path = [self.document]
        self.page = pydyf.Dictionary()
        self.marks: list[pydyf.Array] = []
        self.bookmarks: list[tuple[int, str, bytes, float]] = []  # depth, title, page, height on it [pt]
        self.depth = 0
        self.next_group = ""  # a bookmark of its own at the top of the page that comes next

    def _element(self, role: str, parent: pydyf.Dictionary) -> pydyf.Dictionary:
        element = pydyf.Dictionary({"Type": "/StructElem", "S": f"/{role}", "P": parent.reference, "K": pydyf.Array()})
        self.pdf.add_object(element)
        return element

    def turn(self, page: pydyf.Dictionary, top: float) -> None:
        """Begin a page of this height [pt]."""
        self.page = page
        page["StructParents"] = len(self.marks)
        self.marks.append(pydyf.Array())
        if self.next_group:
            self.bookmarks.append((0, self.next_group, page.reference, top))
            self.next_group = ""

    def part(self, title: str) -> None:
        """Begin a part of the document."""
        section = self._element("Sect", self.document)
        section["T"] = pydyf.String(title)
        self.document["K"].append(section.reference)
        self.path = [section]

    def open(self, group: Group, base: Matrix) -> None:
        """Begin an element inside the one that is open."""
        element = self._element(group.tag, self.path[-1])
        self.path[-1]["K"].append(element.reference)
        self.path.append(element)
        if group.alt:
            element["Alt"] = pydyf.String(group.alt)
        if group.tag == "TH":
            element["A"] = "<</O /Table /Scope /Column>>"
        if group.tag == "Figure" and group.clip is not None:
            x, y, width, height = group.clip
            (x0, y1), (x1, y0) = _placed(base, x, y), _placed(base, x + width, y + height)
            element["A"] = f"<</O /Layout /Placement /Block /BBox [{x0:.2f} {y0:.2f} {x1:.2f} {y1:.2f}]>>"
        if group.tag in ("H1", "H2"):
            words = [item for item in group.items if isinstance(item, Text)]
            depth = self.depth + int(group.tag[1]) - 1
            if words and depth < 2:
                title = " ".join(shown(text.words).strip() for text in words)
                top = _placed(base, words[0].x, words[0].y - 1.2 * words[0].size_mm)[1]
                self.bookmarks.append((depth, title, self.page.reference, top))

    def mark(self) -> int:
        """Number the marked content of the open element on this page."""
        element, here = self.path[-1], self.marks[-1]
        element["Pg"] = self.page.reference
        element["K"].append(len(here) // 3)
        here.extend(element.reference.split())
        return len(here) // 3 - 1

    def close(self) -> None:
        """End the open element."""
        self.path.pop()

    def write(self) -> None:
        """Tie tree and bookmarks to the document."""
        numbers: list[object] = []
        for i, here in enumerate(self.marks):
            self.pdf.add_object(here)
            numbers += [i, here.reference]
        self.root["ParentTree"] = pydyf.Dictionary({"Nums": pydyf.Array(numbers)})
        self.root["ParentTreeNextKey"] = len(self.marks)
        self.pdf.catalog["StructTreeRoot"] = self.root.reference
        self.pdf.catalog["MarkInfo"] = "<</Marked true>>"
        if self.bookmarks:
            self.pdf.catalog["Outlines"] = self._outlines().reference

    def _outlines(self) -> pydyf.Dictionary:
        root = pydyf.Dictionary({"Type": "/Outlines"})
        self.pdf.add_object(root)
        open_at: list[tuple[int, pydyf.Dictionary]] = [(-1, root)]
        last: dict[int, pydyf.Dictionary] = {}
        for depth, title, page, top in self.bookmarks:
            while open_at[-1][0] >= depth:
                open_at.pop()
            parent = open_at[-1][1]
            item = pydyf.Dictionary({"Title": pydyf.String(title), "Parent": parent.reference})
            item["Dest"] = pydyf.Array([page, "/XYZ", "null", f"{top:.2f}", "null"])
            self.pdf.add_object(item)
            before = last.get(parent.number)
            if before is None:
                parent["First"] = item.reference
            else:
                before["Next"], item["Prev"] = item.reference, before.reference
            parent["Last"] = item.reference
            last[parent.number] = item
            for _, above in open_at:
                above["Count"] = above.get("Count", 0) + 1
            open_at.append((depth, item))
        return root


def _placed(base: Matrix, x: float, y: float) -> tuple[float, float]:
    """A place of a scene [mm] on its page [pt]."""
    a, b, c, d, e, f = base
    return a * x + c * y + e, b * x + d * y + f


def _description(about: About) -> str:
    """What a document says of itself as XMP (ISO 16684-1), without a date, so that the same sheet is the same file."""
    title, author, subject = (escape(shown(words)) for words in (about.title, about.author, about.subject))
    return (
        '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>\n<x:xmpmeta xmlns:x="adobe:ns:meta/">'
        '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" '
        'xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">'
        "<dc:format>application/pdf</dc:format>"
        f'<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>'
        f"<dc:creator><rdf:Seq><rdf:li>{author}</rdf:li></rdf:Seq></dc:creator>"
        f'<dc:description><rdf:Alt><rdf:li xml:lang="x-default">{subject}</rdf:li></rdf:Alt></dc:description>'
        f"<dc:language><rdf:Bag><rdf:li>{about.language}</rdf:li></rdf:Bag></dc:language>"
        "<xmp:CreatorTool>Piping Bench</xmp:CreatorTool><pdf:Producer>Piping Bench</pdf:Producer>"
        '</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end="r"?>'
    )


def _named(characters: tuple[str, ...]) -> str:
    """Which characters were drawn as boxes, by their standard names."""
    named = [f"{unicodedata.name(c, 'a character').capitalize()} (U+{ord(c):04X})" for c in characters[:4]]
    more = f" and {len(characters) - 4} more" if len(characters) > 4 else ""
    return "Drawn as a box, because the typeface lacks it: " + "; ".join(named) + more


def pdf(pages: Sequence[Scene], about: About = About(), parts: Sequence[Part] = ()) -> bytes:
    """Write scenes as the pages of a PDF.

    Formula: 72 / 25.4 points to a millimetre.

    Parameters
    ----------
    pages : sequence of Scene
        One scene to a page; its rectangle is the sheet of paper [mm]
    about : About
        What the document says of itself [-]
    parts : sequence of Part
        How the pages belong together; all of them make one part when empty [-]

    Returns
    -------
    bytes
        The PDF, the same for the same scenes [-]

    Raises
    ------
    ValueError
        There is no page, or the parts have not as many pages as there are.

    Range: any scenes. Leaves out: links and forms.

    Example
    -------
    >>> pdf([Scene("A sheet", "", 0, 0, 210, 297, ())])[:8]
    b'%PDF-1.7'

    Source: iso-32000 (sections 7 to 9, 12.3, 12.4 and 14.6 to 14.9), iso-216 (table 1)
    """
    if not pages:
        raise ValueError("a document has at least one page")
    about = about if about.title else replace(about, title=pages[0].title)
    parts = parts or (Part(about.title, len(pages)),)
    if sum(part.pages for part in parts) != len(pages):
        raise ValueError("the parts of a document have all its pages")
    pen = _Pen()
    tree, catalog, group, labels = pen.tree, pen.pdf.catalog, "", pydyf.Array()
    rest = iter(pages)
    for part in parts:
        labels += [len(tree.marks), pydyf.Dictionary({"S": "/D", "P": pydyf.String(f"{part.title}, ")})]
        tree.part(part.title)
        tree.depth = 1 if part.group else 0
        for at, scene in enumerate(islice(rest, part.pages)):
            if at == 0 and part.group != group:
                group = part.group
                tree.next_group = group
            pen.page(scene)
    pen.fonts()
    tree.write()
    xmp = pydyf.Stream([_description(about).encode()], {"Type": "/Metadata", "Subtype": "/XML"})
    pen.pdf.add_object(xmp)
    for name, words in (("Title", about.title), ("Author", about.author), ("Subject", about.subject), ("Producer", "Piping Bench")):
        if words:
            pen.pdf.info[name] = pydyf.String(words)
    catalog["Metadata"] = xmp.reference
    catalog["PageLabels"] = pydyf.Dictionary({"Nums": labels})
    catalog["ViewerPreferences"] = pydyf.Dictionary({"PrintScaling": "/None", "DisplayDocTitle": "true"})
    catalog["PageMode"] = "/UseOutlines" if len(parts) > 1 else "/UseNone"
    catalog["Lang"] = pydyf.String(about.language)
    out = io.BytesIO()
    pen.pdf.write(out, compress=True)
    return out.getvalue()
