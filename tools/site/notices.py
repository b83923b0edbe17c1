"""Notices: what the site consists of that others made, gathered from what the build really ships, with the texts of the licences.

The files of the runtime come from wheels, whose licences are in them; the theme's and idb's from their packages; the typefaces' stand beside
them. The texts for Pyodide, Python and what is linked into their wasm, whose package has none, are in tools/site/licences.
"""

from __future__ import annotations

import json
import re
import zipfile
from dataclasses import dataclass
from email.parser import Parser
from importlib import metadata
from pathlib import Path

from calc.page.html import element
from tools.build.paths import DOCS, NPM, PYODIDE, PYODIDE_VERSION, WHEELS

TEXTS = Path(__file__).with_name("licences")
FONTS = DOCS / "assets" / "fonts"
LICENCE_FILE = re.compile(r"(^|/)(LICEN[CS]E|COPYING|NOTICE)[^/]*$", re.IGNORECASE)
THEME = "mkdocs-material"
BUNDLED = re.compile(r"node_modules/((?:@[^/]+/)?[^/]+)/")
# What is bundled in the theme's scripts: licence and its text in tools/site/licences. The package of the theme has none of them.
IN_THEME = {
    "clipboard": ("MIT", "clipboard"),
    "escape-html": ("MIT", "escape-html"),
    "focus-visible": ("W3C-20150513", "focus-visible"),
    "lunr": ("MIT", "lunr"),
    "rxjs": ("Apache-2.0", "rxjs"),
    "tslib": ("0BSD", "tslib"),
}


@dataclass(frozen=True)
class Part:
    """Something that others made and the site ships."""

    name: str
    version: str
    licence: str
    purpose: str
    texts: tuple[str, ...]
    registry: str = ""  # the kind of package registry that it comes from


@dataclass(frozen=True)
class Linked:
    """A library that is linked into Pyodide's wasm, or joined with its script."""

    name: str
    licence: str
    purpose: str
    files: tuple[str, ...]  # of tools/site/licences
    mark: str  # what only it brings there, as a pattern; its group is the version
    place: str = "pyodide.asm.wasm"


# After Pyodide's own recipe (cpython/Makefile, Makefile.envs). `mark` finds each in what is shipped, so that none is named that is not there.
LINKED = (
    Linked("zlib", "Zlib", "compression", ("zlib",), r"deflate (1\.[\d.]+) Copyright"),
    Linked("bzip2", "bzip2-1.0.6", "compression", ("bzip2",), r"(1\.0\.\d), \d+-Sept-\d+"),
    Linked("XZ Utils", "LicenseRef-public-domain", "liblzma, for compression", ("xz",), r"\0(5\.2\.\d)\0"),
    Linked("Zstandard", "BSD-3-Clause", "compression", ("zstd",), r"\0(1\.[5-9]\.\d)\0"),
    Linked("Expat", "MIT", "reads XML", ("expat",), r"expat_([\d.]+)"),
    Linked("SQLite", "blessing", "a database", ("sqlite",), r"(3\.39\.\d)"),
    Linked("libffi", "MIT", "calls of functions of other libraries", ("libffi",), r"ffi_prep_cif"),
    Linked("libmpdec", "BSD-2-Clause", "decimal numbers", ("libmpdec",), r"\0(2\.[4-9]\.\d)\0"),
    Linked("HACL*", "MIT", "checksums", ("HACL",), r"_hacl/Hacl_Hash"),
    Linked("mimalloc", "MIT", "memory", ("mimalloc",), r"mimalloc_%s"),
    Linked("hiwire", "MPL-2.0", "what Python and scripts hold of one another", ("MPL-2.0",), r"hiwire_incref"),
    Linked("musl", "MIT", "the C library, by way of Emscripten", ("musl",), r"Result not representable"),
    Linked("LLVM libraries", "Apache-2.0 WITH LLVM-exception", "compiler-rt, libc++ and libc++abi", ("llvm",), r"__cxxabiv1"),
    Linked(
        "Emscripten", "MIT OR NCSA", "joins wasm and script; with MiniLZ4 (MIT) in its script", ("emscripten", "MiniLZ4"), r"MiniLZ4",
        "pyodide.asm.mjs",
    ),
    Linked("error-stack-parser", "MIT", "reads where an error came from", ("stackframe",), r"Cannot parse given Error", "pyodide.asm.mjs"),
)  # fmt: skip


def of_linked(linked: Linked) -> Part:
    """A library in Pyodide's files, with its version where they tell it."""
    found = re.search(linked.mark.encode(), (PYODIDE / linked.place).read_bytes(), re.DOTALL)
    if not found:
        raise ValueError(f"{linked.name} is not in {linked.place}: is it still linked into Pyodide? See LINKED")
    version = next((group.decode() for group in found.groups() if group), "")
    texts = tuple((TEXTS / f"{name}.txt").read_text(encoding="utf-8") for name in linked.files)
    return Part(linked.name, version, linked.licence, f"in Pyodide: {linked.purpose}", texts, "generic")


def of_idb() -> Part:
    """The library by which the pages keep what a reader makes."""
    folder = NPM / "node_modules" / "idb"
    told = json.loads((folder / "package.json").read_text(encoding="utf-8"))
    return Part("idb", told["version"], told["license"], "in the script of the pages", ((folder / "LICENSE").read_text(encoding="utf-8"),), "npm")


def _licence(fields: metadata.PackageMetadata) -> str:
    """The licence that a package declares, in the newest form that it uses."""
    if fields["License-Expression"]:
        return str(fields["License-Expression"])
    classifiers = [value.rpartition(" :: ")[2] for value in fields.get_all("Classifier") or [] if value.startswith("License ::")]
    return ", ".join(classifiers) or str(fields["License"] or "").splitlines()[0]


def of_wheel(path: Path) -> Part:
    """A wheel whose modules are in the runtime."""
    with zipfile.ZipFile(path) as wheel:
        inside = sorted(wheel.namelist())
        (described,) = (name for name in inside if name.endswith(".dist-info/METADATA"))
        fields = Parser().parsestr(wheel.read(described).decode())
        texts = tuple(wheel.read(name).decode() for name in inside if ".dist-info/" in name and LICENCE_FILE.search(name))
    return Part(fields["Name"], fields["Version"], _licence(fields), "runs in the page, in Python", texts, "pypi")  # type: ignore[arg-type]


def of_theme() -> list[Part]:
    """The theme, whose package has a licence, and what is bundled in its scripts, by their source maps."""
    theme = metadata.distribution(THEME)
    texts = tuple(file.read_text() for file in theme.files or () if ".dist-info/" in str(file) and LICENCE_FILE.search(str(file)))
    maps = [
        Path(str(theme.locate_file(file))) for file in theme.files or () if re.search(r"assets/javascripts/.*(bundle|search)\..*\.map$", str(file))
    ]
    bundled = sorted({name for path in maps for source in json.loads(path.read_text())["sources"] for name in BUNDLED.findall(source)})
    apache = (TEXTS / "Apache-2.0.txt").read_text(encoding="utf-8")
    parts = [
        Part(theme.metadata["Name"], theme.version, _licence(theme.metadata), "the theme of the pages", texts, "pypi"),
        Part("Material Design Icons", "", "Apache-2.0", "the signs on the theme's own buttons", (apache,), "generic"),
    ]
    for name in bundled:
        if name not in IN_THEME:
            raise ValueError(f"{name} is bundled in the theme's scripts and has no licence here: see IN_THEME")
        licence, file = IN_THEME[name]
        parts.append(Part(name, "", licence, "bundled in the scripts of the theme", ((TEXTS / f"{file}.txt").read_text(encoding="utf-8"),), "npm"))
    return parts


def parts() -> list[Part]:
    """Everything that others made."""
    wheels = sorted(WHEELS.glob("*.whl"))
    if not wheels:
        raise ValueError("the wheels of the runtime are not here")
    python = json.loads((PYODIDE / "pyodide-lock.json").read_text(encoding="utf-8"))["info"]["python"]
    mozilla, *psf = ((TEXTS / f"{name}.txt").read_text(encoding="utf-8") for name in ("MPL-2.0", "Python", "Python-incorporated"))
    return [
        Part("Pyodide", PYODIDE_VERSION, "MPL-2.0", "Python for browsers; of its script also a trimmed part", (mozilla,), "npm"),
        Part("Python", python, "PSF-2.0", "in Pyodide, with its standard library compiled and in part left out", tuple(psf)),
        *(of_linked(linked) for linked in LINKED),
        of_idb(),
        *(of_wheel(path) for path in wheels),
        *of_theme(),
        Part(
            "Atkinson Hyperlegible Next", "", "OFL-1.1", "a typeface", ((FONTS / "atkinson-hyperlegible-next-OFL.txt").read_text(encoding="utf-8"),)
        ),
        Part("Besley", "", "OFL-1.1", "a typeface", ((FONTS / "besley-OFL.txt").read_text(encoding="utf-8"),)),
    ]


def notices() -> str:
    """The HTML of a notices fence."""
    pieces = []
    told: dict[str, str] = {}  # whose licence a text is: each stands once
    for part in parts():
        if not part.texts:
            raise ValueError(f"{part.name} is shipped without the text of its licence")
        pieces.append(element("h2", {"id": re.sub(r"\W+", "-", part.name.lower())}, f"{part.name} {part.version}".strip()))
        pieces.append(element("p", {}, f"{part.licence}: {part.purpose}."))
        folded = []
        for text in part.texts:
            whose = told.setdefault(text, part.name)
            known = f"The text is that of {whose}, above."
            folded.append(element("pre", {"class": "pb-licence", "tabindex": "0"}, text) if whose == part.name else element("p", {}, known))
        pieces.append(element("details", {}, element("summary", {}, f"Licence of {part.name}"), *folded))
    return "".join(pieces)
