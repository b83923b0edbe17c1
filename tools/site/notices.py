"""Notices: what the site consists of that others made, gathered from what the build really ships, with the texts of the licences.

The files of the runtime come from wheels, whose licences are in them; the theme's from its package; the typefaces' stand beside them. The
texts for Pyodide and Python, whose packages have none, are in tools/site/licences.
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
from tools.build.paths import DOCS, PYODIDE, PYODIDE_VERSION, WHEELS

TEXTS = Path(__file__).with_name("licences")
FONTS = DOCS / "assets" / "fonts"
LICENCE_FILE = re.compile(r"(^|/)(LICEN[CS]E|COPYING|NOTICE)[^/]*$", re.IGNORECASE)
THEME = "mkdocs-material"
BUNDLED = re.compile(r"node_modules/((?:@[^/]+/)?[^/]+)/")


@dataclass(frozen=True)
class Part:
    """Something that others made and the site ships."""

    name: str
    version: str
    licence: str
    purpose: str
    texts: tuple[str, ...]
    registry: str = ""  # the kind of package registry that it comes from


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


def of_theme() -> Part:
    """The theme, whose package has a licence; the scripts that are bundled in its own are named in its source maps."""
    theme = metadata.distribution(THEME)
    texts = tuple(file.read_text() for file in theme.files or () if ".dist-info/" in str(file) and LICENCE_FILE.search(str(file)))
    maps = [
        Path(str(theme.locate_file(file))) for file in theme.files or () if re.search(r"assets/javascripts/.*(bundle|search)\..*\.map$", str(file))
    ]
    bundled = sorted({name for path in maps for source in json.loads(path.read_text())["sources"] for name in BUNDLED.findall(source)})
    purpose = f"the theme of the pages; bundled in its scripts: {', '.join(bundled)}"
    return Part(theme.metadata["Name"], theme.version, _licence(theme.metadata), purpose, (*texts, (TEXTS / "Apache-2.0.txt").read_text()), "pypi")


def parts() -> list[Part]:
    """Everything that others made."""
    wheels = sorted(WHEELS.glob("*.whl"))
    if not wheels:
        raise ValueError("the wheels of the runtime are not here")
    python = json.loads((PYODIDE / "pyodide-lock.json").read_text(encoding="utf-8"))["info"]["python"]
    mozilla, psf = ((TEXTS / f"{name}.txt").read_text(encoding="utf-8") for name in ("MPL-2.0", "Python"))
    return [
        Part("Pyodide", PYODIDE_VERSION, "MPL-2.0", "Python for browsers; of its script also a trimmed part", (mozilla,), "npm"),
        Part("Python", python, "PSF-2.0", "in Pyodide, with its standard library compiled and in part left out", (psf,)),
        *(of_wheel(path) for path in wheels),
        of_theme(),
        Part(
            "Atkinson Hyperlegible Next", "", "OFL-1.1", "a typeface", ((FONTS / "atkinson-hyperlegible-next-OFL.txt").read_text(encoding="utf-8"),)
        ),
        Part("Besley", "", "OFL-1.1", "a typeface", ((FONTS / "besley-OFL.txt").read_text(encoding="utf-8"),)),
    ]


def notices() -> str:
    """The HTML of a notices fence."""
    pieces = []
    for part in parts():
        if not part.texts:
            raise ValueError(f"{part.name} is shipped without the text of its licence")
        pieces.append(element("h2", {"id": re.sub(r"\W+", "-", part.name.lower())}, f"{part.name} {part.version}".strip()))
        pieces.append(element("p", {}, f"{part.licence}: {part.purpose}."))
        folded = [element("pre", {"class": "pb-licence", "tabindex": "0"}, text) for text in part.texts]
        pieces.append(element("details", {}, element("summary", {}, f"Licence of {part.name}"), *folded))
    return "".join(pieces)
