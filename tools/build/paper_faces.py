"""Writes calc/drawing/faces_data.py and faces_outlines.py: the handbook's typefaces, subset for PDF sheets.

    python -m tools.build.paper_faces FOLDER

FOLDER holds the files of the npm packages @fontsource-variable/atkinson-hyperlegible-next 5.3.0 and @fontsource-variable/besley 5.3.0
(the "latin" and "latin-ext" woff2 files, upright). It needs fontTools and brotli, which nothing else here does. Kept are the letters of
Latin-1 and Latin Extended-A, typographic marks, fractions; hinting, kerning and ligatures go.
A PDF holds only the outlines it uses (calc/drawing/faces.py cuts them out).
"""

from __future__ import annotations

import base64
import io
import sys
import zlib
from pathlib import Path

FACES = {"text": ("atkinson-hyperlegible-next", 400), "bold": ("atkinson-hyperlegible-next", 700), "display": ("besley", 600)}
WANTED = [
    *range(0x20, 0x7F),
    *range(0xA0, 0x180),
    0x218,
    0x219,
    0x21A,
    0x21B,
    *range(0x2010, 0x2016),
    *range(0x2018, 0x2023),
    0x2026,
    0x2032,
    0x2033,
    0x2044,
    0x20AC,
    0x2122,
    0x2150,
    0x2151,
    *range(0x2153, 0x215F),
    0x2190,
    0x2191,
    0x2192,
    0x2193,
    0x2212,
    0x2248,
    0x2264,
    0x2265,
]


def face(folder: Path, family: str, weight: int) -> tuple[bytes, dict[int, int], list[int]]:
    """One face: its font file, its characters' glyphs and the advance of every glyph in thousandths."""
    from fontTools import subset
    from fontTools.merge import Merger
    from fontTools.ttLib import TTFont
    from fontTools.varLib import instancer

    parts = []
    for number, part in enumerate(("latin", "latin-ext")):
        font = TTFont(next(folder.rglob(f"{family}-{part}-wght-normal.woff2")))
        font = instancer.instantiateVariableFont(font, {"wght": weight})
        options = subset.Options(hinting=False, layout_features=[], notdef_outline=True, name_IDs=[], drop_tables=["GSUB", "GPOS", "GDEF", "STAT"])
        cutter = subset.Subsetter(options)
        cutter.populate(unicodes=WANTED)
        cutter.subset(font)
        font.flavor = None
        path = folder / f"paper-face-{number}.ttf"
        font.save(path)
        parts.append(str(path))
    font = Merger().merge(parts)
    for part in parts:
        Path(part).unlink()
    scale = 1000 / font["head"].unitsPerEm
    order = font.getGlyphOrder()
    glyphs = {code: font.getGlyphID(name) for code, name in font.getBestCmap().items()}
    advances = [round(font["hmtx"][name][0] * scale) for name in order]
    for table in ("name", "OS/2", "post", "cmap", "gasp", "DSIG", "meta"):
        if table in font:
            del font[table]
    out = io.BytesIO()
    font.save(out)
    return out.getvalue(), glyphs, advances


def _opening(what: str, listed: str) -> list[str]:
    """The first lines of a module that is written here."""
    return [
        f'"""The {what} of paper, made by tools/build/paper_faces.py; Atkinson Hyperlegible Next and Besley, SIL Open Font License 1.1.',
        "",
        "Map",
        "---",
        listed,
        '"""',
        "",
        "from __future__ import annotations",
        "",
        "# ruff: noqa: E501",
    ]


def main(arguments: list[str]) -> int:
    """Write the module."""
    if len(arguments) != 1 or arguments[0] in ("-h", "--help"):
        print(__doc__)
        return 0 if arguments else 2
    lines = [
        *_opening("typefaces", "`FACES`   by name: characters, their glyphs, advances in thousandths; the font files stand in `faces_outlines`"),
        "FACES: dict[str, tuple[str, tuple[int, ...], tuple[int, ...]]] = {",
    ]
    outlines = [*_opening("font files", "`OUTLINES`   by name: the font file, deflated, in base 85"), "OUTLINES: dict[str, str] = {"]
    for name, (family, weight) in FACES.items():
        data, glyphs, advances = face(Path(arguments[0]), family, weight)
        codes = sorted(glyphs)
        packed = base64.b85encode(zlib.compress(data, 9)).decode()
        print(name, len(codes), "characters,", len(data), "bytes,", len(packed), "packed")
        lines += [
            f"    {name!r}: (",
            f"        {''.join(chr(c) for c in codes)!r},",
            f"        {tuple(glyphs[c] for c in codes)!r},",
            f"        {tuple(advances)!r},",
            "    ),",
        ]
        outlines.append(f"    {name!r}: {packed!r},")
    folder = Path(__file__).resolve().parents[2] / "calc" / "drawing"
    for module, text in (("faces_data", lines), ("faces_outlines", outlines)):
        (folder / f"{module}.py").write_text("\n".join([*text, "}", ""]), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
