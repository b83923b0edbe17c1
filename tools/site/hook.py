"""The MkDocs hook: writes calculators and figures into the pages, worked out by calc while the site is built.

Two things are added to Markdown:

- a fenced block opened with ```` ```calculator ````: the calculator's name on the first line, then `name = value` lines for what
  its form starts with, and lines that open with `@`: `@title` (the heading), `@level` (of the heading, 3 by default), `@order`
  (a file beside the page, read as the text of an order), `@only` (the inputs that are asked; the others keep what they begin
  with), `@alone` (nothing in it starts from the kitchen, as in a lesson with fixed sizes);
- in running text, `` `calc: swags.drop side="50 cm" cutter="10 cm"` ``: the figure's text, as the calculator gives it, and in brackets
  the same in US units; with `units="metric"` or `units="us"` in these alone.

A calculation that fails breaks the build. The files of the runtime are added to the site from build/runtime.
"""

from __future__ import annotations

import json
import math
import re
import shlex
import sys
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, cast
from xml.etree.ElementTree import Element, SubElement

ROOT = Path(__file__).resolve().parents[2]
if str(ROOT) not in sys.path:  # MkDocs loads this file by its path
    sys.path.insert(0, str(ROOT))

from markdown import Markdown
from markdown.extensions import Extension
from markdown.inlinepatterns import InlineProcessor
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext
from pymdownx.superfences import SuperFencesException

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, Ranged
from calc.page.html import element
from tools.build.environment import esbuild
from tools.build.fences import CALCULATOR_OPTIONS, Fence
from tools.build.paths import RUNTIME
from tools.site import handbook_pages, offline, sbom
from tools.site.pages import calculator_html, marked

SERVED_UNDER = "assets/runtime"
KEEPING = ("keep_sheets.js",)  # written into the head of every page
EARLY = ("open_forms.js", "early.js")  # written into the head of a page with a calculator, in this order


class Fault(PluginError, SuperFencesException):
    """A page asks for something that calc cannot compute; MkDocs prints it and stops, and SuperFences does not swallow it."""


def work_out(slug: str, values: dict[str, str]) -> Answer:
    """Return the answer of a calculator; problems are faults here."""
    if slug not in CALCULATORS:
        raise Fault(f"there is no calculator called {slug}; there are {', '.join(CALCULATORS)}")
    answer = calc.compute(slug, values)
    if answer.problems:
        raise Fault("; ".join(f"{problem['input']}: {problem['message']}" for problem in answer.problems))
    return answer


class State:
    """The state of the build: the current page, the calculators on it, and the runtime's manifest."""

    def __init__(self) -> None:
        self.page: Page | None = None
        self.seen: dict[str, int] = {}
        self.build: dict[str, Any] = {}

    @property
    def runtime(self) -> str:
        """The manifest of the runtime, as JSON for the pages."""
        return json.dumps(self.build, separators=(",", ":"))

    def where(self) -> str:
        return self.page.file.src_uri if self.page else "?"

    def identity(self, slug: str) -> str:
        """The id of the next calculator of that name on the page: swags, swags-2, swags-3."""
        self.seen[slug] = self.seen.get(slug, 0) + 1
        return slug if self.seen[slug] == 1 else f"{slug}-{self.seen[slug]}"


STATE = State()


def calculator_fence(source: str, language: str, css_class: str, options: dict[str, Any], md: Markdown, **_: Any) -> str:
    """The finished HTML of one calculator fence."""
    try:
        return _calculator(source)
    except Exception as fault:
        name = "".join(source.split()[:1])
        kind = "" if isinstance(fault, Fault) else f"{type(fault).__name__}: "
        raise Fault(f"{STATE.where()}: calculator {name}: {kind}{fault}") from fault


def _calculator(source: str) -> str:
    fence = Fence(source, CALCULATOR_OPTIONS)
    if STATE.page is None or not STATE.page.file.abs_src_path:
        raise Fault("a calculator needs a page to stand in")
    answer = work_out(fence.name, fence.inputs(Path(STATE.page.file.abs_src_path)))
    calculator = CALCULATORS[fence.name]
    markup = calculator_html(
        calculator,
        fence.values,
        answer,
        form=STATE.identity(fence.name),
        title=fence.options.get("title") or calculator.title,
        level=int(fence.options.get("level", "3")),
        build=STATE.runtime,
        only=tuple(fence.options.get("only", "").split()),
        alone="alone" in fence.options,
    )
    return str(markup)


def shelf_fence(source: str, language: str, css_class: str, options: dict[str, Any], md: Markdown, **_: Any) -> str:
    """The place of the shelf of orders, which a script fills: with the runtime's manifest, since calc draws what is missing."""
    told = "The shelf shows what is kept on this device. It needs JavaScript."
    return str(element("section", {"class": "pb-shelf", "data-build": STATE.runtime, "data-order": "../whole-cake/"}, element("p", {}, told)))


class Figure(InlineProcessor):
    """`` `calc: SLUG.FIGURE name="value" ...` `` in running text becomes the figure's text."""

    def handleMatch(self, match: re.Match[str], data: str) -> tuple[Element, int, int]:  # type: ignore[override]
        try:
            head, *pairs = shlex.split(match[1])
            slug, _, name = head.partition(".")
            values = dict(pair.split("=", 1) for pair in pairs)
            figures = work_out(slug, values).figures
            if name not in figures:
                raise Fault(f"{slug} has no figure {name}; it has {', '.join(figures)}")
        except (Fault, ValueError) as fault:
            raise Fault(f"{STATE.where()}: {match[0]}: {fault}") from fault
        return written(figures[name]["text"], "" if "units" in values else in_us_units(slug, values, name)), match.start(0), match.end(0)


METRIC = re.compile(r"[\d.]+ (?:mm|cm|m|ml|l|g|kg|g/ml)(?:$| \+)")


def in_us_units(slug: str, values: dict[str, str], name: str) -> str:
    """The figure in US units, without its range; nothing where it has no metric unit, or where the example is another one in US units."""
    metric = work_out(slug, values).figures[name]
    if not METRIC.match(apart(metric["text"])[0]):
        return ""
    us = work_out(slug, {**values, "units": "us"}).figures.get(name)
    if us is None or not isinstance(metric["value"], int | float) or not isinstance(us["value"], int | float):
        return ""
    return apart(us["text"])[0] if math.isclose(metric["value"], us["value"], rel_tol=0.02) else ""


def apart(text: str) -> tuple[str, str]:
    """A figure's value and, where it has one, its range without the brackets."""
    return (text.value, text.range.strip("()")) if isinstance(text, Ranged) else (text, "")


def written(text: str, us: str) -> Element:
    """A figure in the text: it does not break, what stands in brackets after it neither.

    >>> [(part.text, part.tail) for part in written(Ranged("303 ml", "303 ml", "397 ml"), "1 1/4 cups")]
    [('303 ml', ' '), ('(303 ml to 397 ml; 1 1/4 cups)', None)]
    >>> [(part.text, part.tail) for part in written("7.2 cm", "2 13/16 in")]
    [('7.2 cm', ' '), ('(2 13/16 in)', None)]
    """
    middle, spread = apart(text)
    both = "; ".join(part for part in (spread, us) if part)
    whole = Element("span")
    first = SubElement(whole, "span", {"class": "pb-worked"})
    first.text = middle
    if both:
        first.tail = " "
        SubElement(whole, "span", {"class": "pb-worked"}).text = f"({both})"
    return whole


class Figures(Extension):
    """Registers `Figure` before the code spans of Markdown."""

    def extendMarkdown(self, md: Markdown) -> None:
        md.inlinePatterns.register(Figure(r"`calc:\s+([^`]+)`", md), "calc-figure", 195)


DECISIONS = "about/decisions/"


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """Register the fence and the inline figures, and read which files the runtime has."""
    fences = config.mdx_configs.setdefault("pymdownx.superfences", {}).setdefault("custom_fences", [])
    fences[:] = [fence for fence in fences if fence["name"] not in ("calculator", "shelf")]
    fences.append({"name": "shelf", "class": "pb-fence", "format": shelf_fence})
    fences.append({"name": "calculator", "class": "pb-fence", "format": calculator_fence})
    config.markdown_extensions[:] = [ext for ext in config.markdown_extensions if not isinstance(ext, Figures)]
    config.markdown_extensions.append(Figures())  # type: ignore[arg-type]
    handbook_pages.register(config)
    manifest = RUNTIME / "manifest.json"
    if not manifest.is_file():
        raise PluginError("The runtime has not been built. Run: python3 tools/handbook.py build")
    STATE.build = json.loads(manifest.read_text())
    return config


def on_files(files: Files, config: MkDocsConfig) -> Files:
    """Add the runtime's files to the site."""
    for path in sorted(RUNTIME.rglob("*")):
        if path.is_file() and path.name != "manifest.json":
            name = f"{SERVED_UNDER}/{path.relative_to(RUNTIME).as_posix()}"
            files.append(File.generated(config, name, abs_src_path=str(path)))
    files.append(File.generated(config, sbom.FILE, content=sbom.bill_of_materials()))
    return files


def on_page_markdown(markdown: str, page: Page, config: MkDocsConfig, **_: Any) -> str:
    """Record the current page."""
    STATE.page = page
    STATE.seen = {}
    handbook_pages.begin(page)
    if page.file.src_uri.startswith(DECISIONS):
        page.meta["search"] = {"exclude": True}  # for whoever builds the handbook, not for whoever looks something up in it
        return "\n\n".join([markdown, *decisions(Path(config.docs_dir) / DECISIONS)])
    return markdown


def decisions(folder: Path) -> Iterator[str]:
    """The notes on decisions in order, as sections of one page: a page each would be the theme's own HTML for the most part."""
    for note in sorted(folder.glob("0*.md")):
        yield re.sub(r"^#", "##", note.read_text(encoding="utf-8"), flags=re.MULTILINE)


def on_page_content(html: str, page: Page, **_: Any) -> str:
    """Stop the build where a fence was left as text."""
    if re.search(r"<code[^>]*>\s*calc:|```calculator|class=\"language-calculator", html):
        raise PluginError(f"{page.file.src_uri}: a calculator was left as text")
    return handbook_pages.finish(html, page)


@cache
def head_scripts(names: tuple[str, ...]) -> list[str]:
    """Scripts that are written into the head of a page, minified."""
    with tempfile.TemporaryDirectory() as folder:
        esbuild(f"--outdir={folder}", *(Path(__file__).with_name(name) for name in names))
        return [(Path(folder) / name).read_text(encoding="utf-8").strip() for name in names]


def on_page_context(context: TemplateContext, page: Page, **_: Any) -> TemplateContext:
    """Give the template the scripts of the head, and the runtime's manifest on pages with a calculator."""
    values = cast(dict[str, Any], context)
    values["runtime"] = STATE.runtime if 'class="pb-calculator"' in (page.content or "") else ""
    values["keeping"], values["early"] = head_scripts(KEEPING), head_scripts(EARLY)
    return context


def on_post_page(output: str, **_: Any) -> str:
    """Write into the root of a page which large parts it has, for the style sheets."""
    return marked(output)


def on_post_build(config: MkDocsConfig) -> None:
    """Hash the paths, write the policy and list the files for offline use."""
    offline.finish(Path(config.site_dir), handbook_pages.STATE.also)
