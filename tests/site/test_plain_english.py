"""Pages, calculators, messages, docstrings and comments are in plain English: turns of phrase that once slipped in do not come back.

Each pattern is a literal translation, a riddle or a dated form, with what a teacher would say instead. Notes under *Decisions* and the changelog
are records and are left as they were written.
"""

from __future__ import annotations

import ast
import io
import re
import tokenize
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent.parent
RECORDS = ("docs/about/changelog.md", "docs/about/decisions/")

BANNED = {
    r"order of the hours": "running order",
    r"\breckon(s|ed|ing)?\b": "work out, allow, count",
    r"\banew\b": "again",
    r"\bundermost\b": "lowest",
    r"\bmust you\b": "do you have to; if you have to",
    r"\bshall\b": "will, must, should",
    r"\bnought\b": "0, nothing",
    r"\b(the|a) straight way\b": "the straight line, the straight distance",
    r"\btape wins\b": "go by the tape",
    r"\bparts? the side\b": "divide the side",
    r"not by eye\b": "don't guess",
    r"\bstraight at the surface\b": "at right angles to the surface",
    r"\bwhat (do|should) i ask for\b|\bto ask for it\b": "charge for it",
    r"\binto your telephone\b": "to your phone",
    r"\bdoweled\b": "dowelled",
    r"\bno advice on\b": "not advice on",
    r"\bruling row\b": "main row",
    r"\bthrows? a (deep )?shadow\b": "casts a shadow",
    r"\bmakes? the sums theirs\b": "so that the amounts fit their hand",
    r"\bbox down, not\b": "lower the sides of the box",
    r"\bcloses? but for\b": "closes except for",
    r"\bthe bench (would|will)\b": "what the page would choose",
    r"\b(its|their) own ways\b": "separately",
    r"\bfalls into .{0,40}(by itself|wide)\b": "usually makes",
    r"\bover the full\b": "too full",
    r"\bwhole five\b": "a multiple of five",
    r"\bfeeds? nobody\b": "is not counted",
    r"\bno eye sees\b": "too small to see",
    r"\b(quiet|calm) ground\b": "a plain area",
    r"\blead(s|ing)? (it|the (line|string|tip)) (down|in|out)\b": "guide, pipe",
    r"\b(is|are|never) led\b": "guided",
    r"\bcarry the tiers apart\b": "carry the tiers separately",
    r"\bwhose hands\b": "which person",
    r"\bstands as late\b": "is as late",
    r"\bfrom the ready hour|to the ready hour|before the ready hour\b": "when it must be ready",
    r"\bfilled? (by )?half\b": "half full",
    r"\bwants? someone\b": "have someone look at it",
    r"\bsays? of none\b": "does not say that any",
    r"\bno plan can beat\b": "no plan can give more",
    r"\bfinds paper\b": "gets on the paper",
    r"\ba hand spreads\b": "you spread",
    r"\bhas its (size|width)\b": "is big enough, is wide enough",
    r"\bgrown by its thickness\b": "moved out by its thickness",
    r"\bwhere honest\b": "where reliable",
    r"\bfrom other eyes\b": "private",
    r"\bread as ever\b": "work as usual",
    r"\bcould not be had|not to be had\b": "could not be fetched",
    r"\bstay(s)? kept\b": "is kept",
    r"\bis taken up\b": "is the one you carry on with",
    r"\bgoes with the uppermost\b": "has the top colour",
    r"\bover and above\b": "to spare",
    r"\bagainst mishaps\b": "in case of mishaps",
    r"\bin the vintage manner\b": "vintage-style",
}
PATTERNS = [(re.compile(pattern, re.IGNORECASE), instead) for pattern, instead in BANNED.items()]


def slips(text: str) -> list[str]:
    """The turns of phrase in a text that a teacher would not use, each with what is meant."""
    text = " ".join(text.split())
    return [f"“{found[0]}”: {instead}" for pattern, instead in PATTERNS for found in [pattern.search(text)] if found]


def spoken(path: Path) -> Iterator[tuple[int, str]]:
    """Each text of a Python module that a reader may see, with its line: string constants without docstrings."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    docstrings = {id(constant) for constant in docstrings_of(tree)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docstrings:
            yield node.lineno, node.value


def docstrings_of(tree: ast.Module) -> Iterator[ast.Constant]:
    """The docstrings of a module."""
    for node in ast.walk(tree):
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)) and node.body:
            first = node.body[0]
            if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant) and isinstance(first.value.value, str):
                yield first.value


def explained(text: str) -> Iterator[tuple[int, str]]:
    """Each docstring of a Python module and each run of its comments, with its line."""
    for docstring in docstrings_of(ast.parse(text)):
        yield docstring.lineno, str(docstring.value)
    runs: list[list[tokenize.TokenInfo]] = []
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type == tokenize.COMMENT:
            if runs and runs[-1][-1].start == (token.start[0] - 1, token.start[1]):
                runs[-1].append(token)
            else:
                runs.append([token])
    for run in runs:
        yield run[0].start[0], " ".join(token.string.lstrip("# ") for token in run)


COMMENT = re.compile(r"/\*.*?\*/|(?:(?:^|(?<=\s))//[^\n]*\n\s*)+", re.DOTALL | re.MULTILINE)


def remarks(text: str) -> Iterator[tuple[int, str]]:
    """Each comment of a script or a style sheet, with its line; comments on neighbouring lines are one."""
    for found in COMMENT.finditer(text + "\n"):
        yield text.count("\n", 0, found.start()) + 1, re.sub(r"\s+(//|\*+)\s*", " ", found[0])


def messages(path: Path) -> Iterator[tuple[int, str]]:
    """Each string of a script, with its line; comments are left out."""
    text = re.sub(r"/\*.*?\*/", lambda m: "\n" * m[0].count("\n"), path.read_text(encoding="utf-8"), flags=re.DOTALL)
    for number, line in enumerate(text.splitlines(), 1):
        for found in re.finditer(r'"((?:[^"\\]|\\.)*)"|`([^`]*)`', re.sub(r"(^|\s)//.*$", "", line)):
            yield number, found[1] or found[2] or ""


def test_slips_are_found() -> None:
    assert slips("The tape\n  wins.") == ["“tape wins”: go by the tape"]
    assert slips("Go by the tape, and divide the side again.") == []


PAGES = sorted(path for path in (ROOT / "docs").rglob("*.md") if not path.relative_to(ROOT).as_posix().startswith(RECORDS))


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT / "docs").as_posix())
def test_a_page_speaks_plainly(page: Path) -> None:
    assert slips(page.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    "room", sorted(path for path in (ROOT / "calc").iterdir() if path.is_dir() and path.name != "__pycache__"), ids=lambda path: path.name
)
def test_calculators_speak_plainly(room: Path) -> None:
    found = [f"{path.relative_to(ROOT)}:{line} {slip}" for path in sorted(room.rglob("*.py")) for line, text in spoken(path) for slip in slips(text)]
    assert found == []


def test_single_modules_and_drawings_speak_plainly() -> None:
    files = [path for folder in ("calc", "tools/films", "tools/site") for path in sorted((ROOT / folder).glob("*.py"))]
    found = [f"{path.relative_to(ROOT)}:{line} {slip}" for path in files for line, text in spoken(path) for slip in slips(text)]
    assert found == []


def test_messages_of_scripts_speak_plainly() -> None:
    files = sorted((ROOT / "docs/assets/js").rglob("*.js")) + sorted((ROOT / "tools/site").glob("*.toml"))
    found = [f"{path.relative_to(ROOT)}:{line} {slip}" for path in files for line, text in messages(path) for slip in slips(text)]
    assert found == []


def test_docstrings_and_comments_are_found() -> None:
    python = 'def f():\n    """Must\n    you?"""\n    g()  # a tape\n    h()\n    # the tape\n    # wins here\n'
    assert [(line, slip) for line, text in explained(python) for slip in slips(text)] == [
        (2, "“Must you”: do you have to; if you have to"),
        (6, "“tape wins”: go by the tape"),
    ]
    script = '/**\n * Must\n * you.\n */\nf("tape"); // wins\n// the tape\n// wins\nconst a = "https://tape wins";\n'
    assert [(line, slip) for line, text in remarks(script) for slip in slips(text)] == [
        (1, "“Must you”: do you have to; if you have to"),
        (5, "“tape wins”: go by the tape"),
    ]


@pytest.mark.parametrize("folder", ["calc", "tools", "tests"])
def test_docstrings_and_comments_speak_plainly(folder: str) -> None:
    found = []
    for path in sorted((ROOT / folder).rglob("*.py")):
        found += [f"{path.relative_to(ROOT)}:{line} {slip}" for line, text in explained(path.read_text(encoding="utf-8")) for slip in slips(text)]
    assert found == []


def test_comments_of_scripts_and_style_sheets_speak_plainly() -> None:
    files = [*(ROOT / "docs/assets/js").rglob("*.js"), *(ROOT / "docs/assets/css").rglob("*.css"), ROOT / "docs/sw.js"]
    files += [path for ending in ("js", "mjs") for path in (ROOT / "tools").rglob(f"*.{ending}")]
    found = [f"{path.relative_to(ROOT)}:{line} {slip}" for path in sorted(files) for line, text in remarks(path.read_text()) for slip in slips(text)]
    assert found == []


def test_notes_for_developers_speak_plainly() -> None:
    assert slips((ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")) == []


def test_built_pages_speak_plainly(site: Path) -> None:
    """What is worked out while the site is built as well: tables, answers, sources, the glossary."""
    found = []
    for page in sorted(site.rglob("*.html")):
        path = page.relative_to(site).as_posix()
        if not path.startswith(("about/changelog", "about/decisions")):
            html = re.sub(r"<(script|style|pre|svg)\b.*?</\1>", " ", page.read_text(encoding="utf-8"), flags=re.DOTALL)
            found += [f"{path}: {slip}" for slip in slips(re.sub(r"<[^>]*>", " ", html))]
    assert found == []


def uses(text: str) -> tuple[int, int]:
    """Where a page first speaks of a nozzle as a tip, and where it first says that it means a nozzle; -1 where it does not."""
    blank = lambda found: " " * len(found[0])  # noqa: E731
    for hidden in (
        r"\A---\n.*?\n---\n",
        r"^```.*?^```$",
        r"^(#|!!!).*?$",
        r"`[^`\n]*`",
        r"(at|from) its tip\b|\bIt tips\b|tip of (the|a) (palette knife|knife|cocktail stick)",
    ):
        text = re.sub(hidden, blank, text, flags=re.DOTALL | re.MULTILINE)
    tip, nozzle = re.search(r"\btips?\b", text, re.IGNORECASE), re.search(r"\bnozzles?[ ,(]+tips?\b", text, re.IGNORECASE)
    return (tip.start() if tip else -1), (nozzle.start() if nozzle else -1)


@pytest.mark.parametrize("page", [page for page in PAGES if "about" not in page.parts], ids=lambda page: page.relative_to(ROOT / "docs").as_posix())
def test_a_tip_is_called_a_nozzle_where_a_page_first_names_it(page: Path) -> None:
    """British readers know it as a nozzle."""
    tip, nozzle = uses(page.read_text(encoding="utf-8"))
    assert tip == -1 or 0 <= nozzle < tip
