"""The typefaces on paper: how wide words are, where lines break, and the outlines a PDF must hold.

Map
---
`text_width_mm`    how wide words are
`broken`           words broken into lines of a width
`Face`, `face`     a typeface: glyphs by character, advances, and its font file cut down to what is used
`missing`          the characters of a text that the typefaces lack

Faces are "text" and "bold" (Atkinson Hyperlegible Next) and "display" (Besley); they hold Latin-1, Latin Extended-A and typographic marks.
"""

from __future__ import annotations

import base64
import struct
import unicodedata
import zlib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property, lru_cache

from calc.drawing.faces_data import FACES
from calc.sources import constant

BOX_EM = constant(0.62, "-", "common-practice", "width of the box that stands for a character the typefaces lack, over the size")
POSTSCRIPT = {"text": "AtkinsonHyperlegibleNext-Regular", "bold": "AtkinsonHyperlegibleNext-Bold", "display": "Besley-SemiBold"}


@dataclass(frozen=True)
class Face:
    """A typeface by name."""

    name: str

    @cached_property
    def glyphs(self) -> dict[str, int]:
        """The glyph of every character it holds."""
        characters, numbers, _ = FACES[self.name]
        return dict(zip(characters, numbers, strict=True))

    @cached_property
    def advances(self) -> tuple[int, ...]:
        """The advance of every glyph in thousandths of the size."""
        return FACES[self.name][2]

    @cached_property
    def _tables(self) -> dict[str, bytes]:
        from calc.drawing.faces_outlines import OUTLINES  # only sheets need them, and they are large

        data = zlib.decompress(base64.b85decode(OUTLINES[self.name]))
        count = struct.unpack(">H", data[4:6])[0]
        tables = {}
        for i in range(count):
            tag, _, offset, length = struct.unpack(">4sIII", data[12 + 16 * i : 28 + 16 * i])
            tables[tag.decode()] = data[offset : offset + length]
        return tables

    @cached_property
    def _outlines(self) -> tuple[bytes, ...]:
        tables = self._tables
        long = struct.unpack(">h", tables["head"][50:52])[0]
        loca = tables["loca"]
        count = len(loca) // (4 if long else 2)
        places = struct.unpack(f">{count}{'I' if long else 'H'}", loca)
        times = 1 if long else 2
        glyf = tables["glyf"]
        return tuple(glyf[a * times : b * times] for a, b in zip(places, places[1:], strict=False))

    @cached_property
    def box(self) -> tuple[int, int, int, int, int, int]:
        """Bounding box, ascent and descent in thousandths."""
        head, hhea = self._tables["head"], self._tables["hhea"]
        scale = 1000 / struct.unpack(">H", head[18:20])[0]
        numbers = (*struct.unpack(">4h", head[36:44]), *struct.unpack(">2h", hhea[4:8]))
        x0, y0, x1, y1, up, down = (round(n * scale) for n in numbers)
        return x0, y0, x1, y1, up, down

    def cut(self, used: Iterable[int]) -> bytes:
        """Its font file with the outlines of these glyphs only, and of those they are made of; glyphs keep their numbers."""
        kept: set[int] = set()
        todo = [0, *used]
        while todo:
            glyph = todo.pop()
            if glyph in kept:
                continue
            kept.add(glyph)
            todo += _parts_of(self._outlines[glyph])
        glyf = bytearray()
        places = []
        for number, outline in enumerate(self._outlines):
            places.append(len(glyf))
            if number in kept:
                glyf += outline + b"\0" * (-len(outline) % 4)
        places.append(len(glyf))
        tables = {tag: data for tag, data in self._tables.items() if tag in ("head", "hhea", "hmtx", "maxp")}
        tables["head"] = tables["head"][:50] + struct.pack(">h", 1) + tables["head"][52:]
        tables["glyf"], tables["loca"] = bytes(glyf), struct.pack(f">{len(places)}I", *places)
        return _font_file(tables)


def _parts_of(outline: bytes) -> list[int]:
    """The glyphs a compound glyph is made of."""
    if len(outline) < 10 or struct.unpack(">h", outline[:2])[0] >= 0:
        return []
    parts, at = [], 10
    while True:
        flags, glyph = struct.unpack(">HH", outline[at : at + 4])
        parts.append(glyph)
        at += 4 + (4 if flags & 1 else 2) + (2 if flags & 8 else 4 if flags & 0x40 else 8 if flags & 0x80 else 0)
        if not flags & 0x20:
            return parts


def _font_file(tables: dict[str, bytes]) -> bytes:
    count = len(tables)
    power = 1 << (count.bit_length() - 1)
    head = struct.pack(">IHHHH", 0x00010000, count, power * 16, power.bit_length() - 1, count * 16 - power * 16)
    offset = 12 + 16 * count
    entries, body = b"", b""
    for tag in sorted(tables):
        data = tables[tag]
        padded = data + b"\0" * (-len(data) % 4)
        total = sum(struct.unpack(f">{len(padded) // 4}I", padded)) & 0xFFFFFFFF
        entries += struct.pack(">4sIII", tag.encode(), total, offset + len(body), len(data))
        body += padded
    return head + entries + body


@lru_cache(maxsize=8)
def face(name: str) -> Face:
    """Give a typeface."""
    if name not in FACES:
        raise KeyError(name)
    return Face(name)


@lru_cache(maxsize=4096)
def shown(words: str) -> str:
    """Give words as they are set: composed (Unicode's form C), without control characters; what is joined to a missing character goes with it.

    >>> shown("cafe\\u0301")
    'café'
    """
    kept = []
    for c in unicodedata.normalize("NFC", words):
        kind = unicodedata.category(c)
        if kind in ("Cc", "Cs", "Cf", "Mn", "Me"):
            continue
        kept.append(" " if kind in ("Zs", "Zl", "Zp") else c)
    return "".join(kept)


def missing(words: str, name: str = "text") -> tuple[str, ...]:
    """Give the characters of a text that a typeface lacks; paper shows a box for each and names it below."""
    glyphs = face(name).glyphs
    return tuple(dict.fromkeys(c for c in shown(words) if c not in glyphs))


@lru_cache(maxsize=8192)
def text_width_mm(words: str, size_mm: float, name: str = "text") -> float:
    """Give how wide words are on paper.

    Formula: the sum of the advances times the size.

    Parameters
    ----------
    words : str
        The words [-]
    size_mm : float
        Size of the type [mm]
    name : str
        The face [-]

    Returns
    -------
    float
        Width [mm]

    Range: any text. Leaves out: kerning.

    Example
    -------
    >>> text_width_mm("", 4.0)
    0.0

    Source: common-practice
    """
    known = face(name)
    advances, glyphs = known.advances, known.glyphs
    return sum(advances[glyphs[c]] if c in glyphs else 1000 * BOX_EM for c in shown(words)) * size_mm / 1000


@lru_cache(maxsize=2048)
def broken(words: str, width_mm: float, size_mm: float, name: str = "text") -> tuple[str, ...]:
    """Break words into lines no wider than a width."""
    lines = []
    for paragraph in words.split("\n"):
        line = ""
        for word in paragraph.split():
            while text_width_mm(word, size_mm, name) > width_mm and len(word) > 1:
                fits = max(1, next((i for i in range(len(word), 0, -1) if text_width_mm(word[:i], size_mm, name) <= width_mm), 1))
                if line:
                    lines.append(line)
                    line = ""
                lines.append(word[:fits])
                word = word[fits:]
            longer = f"{line} {word}" if line else word
            if line and text_width_mm(longer, size_mm, name) > width_mm:
                lines.append(line)
                line = word
            else:
                line = longer
        lines.append(line)
    return tuple(lines)
