"""Inputs and displayed answers, kept in tests/vectors/: written from native answers, or compared with them.

    python3 tools/handbook.py check vectors                 fails when today's answers differ
    python3 tools/handbook.py check vectors --write         writes them again (say in docs/about/changelog.md what changed, and why)
    python3 tools/handbook.py check vectors --against REV   compares every word of the answers with those of another commit

tests/calc/test_vectors.py holds the native answers to them, tests/browser/test_vectors_in_the_page.py those of the page's worker. They pin
today's displayed answers; that these are right is for the other tests to say.
"""

from __future__ import annotations

import argparse
import io
import json
import subprocess
import sys
import tarfile
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, TypedDict

import calc
from calc.calculators import CALCULATORS
from tools.build.paths import DOCS, ROOT

FILE = ROOT / "tests" / "vectors" / "vectors.json"
ORDER = DOCS / "plan" / "harvest-supper.toml"

# What readers type, a few of each kind: metric and US, fractions and commas, the edges, and mistakes.
ASKED: dict[str, list[dict[str, str]]] = {
    "portions": [
        {"shape": "round", "width": "20 cm", "height": "10 cm", "slice": "25 x 50 mm"},
        {"shape": "heart", "width": "9 in", "height": "4 in", "slice": "1 x 2 in", "units": "us"},
        {"shape": "rectangle", "width": "30 cm", "length": "40 cm", "height": "5 cm", "slice": "5 x 5 cm", "cut": "grid"},
        {"shape": "oval", "width": "20 cm", "length": "28 cm", "height": "10 cm", "slice": "25 x 50 mm", "cut": "strips"},
    ],
    "stack": [{"guests": "80", "slice": "25 x 50 mm"}, {"guests": "250", "slice": "1 x 2 in", "keep_top": "yes", "units": "us"}],
    "supports": [{"tiers": "8x4 in round; 6x4 in round"}, {"tiers": "25x10 cm square; 20x10 cm hexagon; 15x10 cm round", "units": "us"}],
    "coats": [
        {"shape": "round", "width": "15 cm", "height": "10 cm", "layers": "3", "filling": "8 mm", "disc": "16 cm"},
        {"shape": "square", "width": "8 in", "height": "4 in", "layers": "2", "filling": "1/4 in", "final_coat": "1/8 in", "units": "us"},
    ],
    "division": [{"side": "66 cm", "repeats": "8"}, {"side": "19 3/4 in", "target": "3 in", "units": "us"}, {"width": "16 cm", "repeats": "7"}],
    "swags": [
        {"side": "66 cm", "cutter": "7.5 cm"},
        {"side": "66 cm", "cutter": "9 cm"},
        {"side": "66 cm", "cutter": "9 cm", "repeats": "6"},
        {"side": "26 in", "drop": "1 1/4 in", "units": "us"},
        {"side": "15,5 cm", "cutter": "½ in"},
    ],
    "strings": [{"side": "66 cm", "repeats": "9", "drop": "4 cm", "loops": "3"}],
    "shells": [{"side": "66 cm", "tip": "open star 7 mm", "per_swag": "7"}, {"side": "50.3 cm", "tip": "closed star 5 mm"}],
    "rosettes": [{"count": "16", "tip": "closed star 5 mm"}, {"side": "50.3 cm", "spacing": "4 cm", "tip": "open star 9 mm"}],
    "tips": [{"family": "petal", "opening": "11 mm"}, {"family": "open star", "opening": "7 mm", "units": "us"}],
    "batch": [
        {"recipe": "plain", "mass": "1 kg"},
        {"recipe": "swiss_meringue", "mass": "2 lb 4 oz", "units": "us"},
        {"recipe": "flour_cooked", "mass": "600 g"},
    ],
    "tint": [{"test_mass": "50 g", "test_drops": "3", "mass": "840 g"}],
    "colours": [{"rows": "russet, petal 11 mm, 80 g; cream, petal 9 mm, 40 g; cream, round 1.8 mm, 3 g; ivory, 850 g"}],
    "timetable": [{"ready_at": "Saturday 16 October 2027 at 18:00"}],
    "price": [{"ingredients": "38", "hours": "8 h", "rate": "16", "overhead": "15 %", "margin": "20 %"}],
    "lesson": [{"students": "8", "minutes": "150 min"}],
    "practice": [{"exercises": "roses, shells"}],
    "row": [{"side": "66 cm"}, {"side": "50.3 cm", "kind": "leaf", "tip": "leaf 6 mm"}],
    "kitchen": [
        {},
        {
            "cutters": "7.5 cm, 9 cm",
            "tins": "15, 20 cm",
            "boards": "30 cm",
            "hand": "learning",
            "stacked": "home",
            "tips.0.tip": "petal 11 mm",
            "tips.0.note": "bent end",
            "tips.1.tip": "open star 7 mm",
            "measured.0.tip": "petal 11 mm",
            "measured.0.mass": "14 g",
            "recipes.0.name": "House",
            "recipes.0.made": "1.2 kg",
            "recipes.0.parts.0.ingredient": "butter",
            "recipes.0.parts.0.mass": "500 g",
            "recipes.0.parts.1.ingredient": "egg_white",
            "recipes.0.parts.1.mass": "200 g",
        },
        {"kitchen": 'version = "2"'},
        {"currency": "a pound"},
    ],
    "vermicelli": [{"side": "66 cm", "height": "8 cm"}, {"width": "8 in", "ground": "top", "gap": "1/8 in", "units": "us"}],
    "order": [
        {"order": "@"},
        {"order": "@", "units": "us"},
        {"order": "@", "tiers.0.shape": "square", "tiers.0.disc": "", "tiers.0.side": ""},
        {"order": "@", "tiers.0.disc": "22.3 cm"},
        {"order": "@", "tiers.0.height": "4 cm"},
        {"order": "@", "guests": "60"},
    ],
}
MISTAKES = ("", "abc", "-3 cm", "6 in by mistake", "1e9 m", "5 kg", "\N{SHORTCAKE}")


class Vector(TypedDict):
    """A calculator and its inputs."""

    calculator: str
    inputs: dict[str, str]


class Shown(TypedDict):
    """The visible part of an answer."""

    figures: dict[str, str]
    problems: list[str]
    notes: list[str]
    cautions: list[str]
    tables: dict[str, list[list[str]]]


class Kept(Vector):
    """A vector with the answer that is pinned."""

    shown: Shown


def vectors() -> list[Vector]:
    """Every vector's calculator and inputs, mistakes included."""
    order = ORDER.read_text(encoding="utf-8")
    found: list[Vector] = [
        {"calculator": slug, "inputs": {name: order if text == "@" else text for name, text in inputs.items()}}
        for slug, many in ASKED.items()
        for inputs in many
    ]
    for slug, calculator in CALCULATORS.items():
        start = next(vector["inputs"] for vector in found if vector["calculator"] == slug)
        name = next((i.name for i in calculator.inputs if i.kind == "length"), None)
        found += [{"calculator": slug, "inputs": {**start, name: text}} for text in MISTAKES if name is not None]
    return found


def shown(answer: dict[str, Any]) -> Shown:
    """The visible part of an answer: texts, without the floats behind them."""
    tables = {table["name"]: table["rows"] for table in answer["tables"]}
    return {
        "figures": {name: figure["text"] for name, figure in answer["figures"].items()},
        "problems": [f"{p['input']}: {p['message']}" for p in answer["problems"]],
        "notes": [note["text"] for note in answer["notes"]],
        "cautions": [caution["text"] for caution in answer["cautions"]],
        "tables": tables,
    }


def natively(vector: Vector) -> Shown:
    """The visible part of the native answer."""
    return shown(json.loads(calc.compute(vector["calculator"], vector["inputs"]).to_json()))


def kept() -> list[Kept]:
    """The vectors as they stand in the repository."""
    found: list[Kept] = json.loads(FILE.read_text(encoding="utf-8"))
    return found


# ---- another commit


# Run in a folder that holds the other commit's calc: whole answers to what is asked, or the exception.
PROGRAM = """
import json, sys
import calc
assert calc.__file__.startswith(sys.argv[1]), calc.__file__
answers = []
for slug, inputs in json.load(sys.stdin):
    try:
        answers.append(json.loads(calc.compute(slug, inputs).to_json()))
    except Exception as wrong:
        answers.append({"exception": f"{type(wrong).__name__}: {wrong}"})
json.dump(answers, sys.stdout)
"""


def answers_of(folder: Path, asked: Sequence[Vector]) -> list[dict[str, Any]]:
    """Whole answers of the calc that is in a folder."""
    questions = json.dumps([(vector["calculator"], vector["inputs"]) for vector in asked])
    command = [sys.executable, "-c", PROGRAM, str(folder)]
    done = subprocess.run(command, cwd=folder, input=questions, capture_output=True, text=True, check=True)
    found: list[dict[str, Any]] = json.loads(done.stdout)
    return found


def unpack(revision: str, folder: Path) -> list[Kept]:
    """Put a commit's calc into a folder; gives its vectors."""
    packed = subprocess.run(["git", "archive", revision, "calc", "tests/vectors"], cwd=ROOT, capture_output=True, check=True).stdout
    with tarfile.open(fileobj=io.BytesIO(packed)) as archive:
        archive.extractall(folder, filter="data")
    found: list[Kept] = json.loads((folder / FILE.relative_to(ROOT)).read_text(encoding="utf-8"))
    return found


def words(answer: Any, drawings: bool, path: str = "") -> Iterator[tuple[str, str]]:
    """Every text of an answer, with where it stands; numbers behind texts are left out, and drawings unless asked for."""
    if isinstance(answer, str):
        yield path, answer
    elif isinstance(answer, dict):
        for name, part in answer.items():
            if name != "svg" or drawings:
                yield from words(part, drawings, f"{path}.{name}" if path else name)
    elif isinstance(answer, list):
        for i, part in enumerate(answer):
            yield from words(part, drawings, f"{path}.{part['name'] if isinstance(part, dict) and 'name' in part else i}")


def compare(revision: str, drawings: bool) -> int:
    """Print every text that differs from another commit's; 1 where any does."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name).resolve()
        asked: list[Vector] = []
        for vector in [*unpack(revision, folder), *vectors()]:
            plain: Vector = {"calculator": vector["calculator"], "inputs": vector["inputs"]}
            if plain not in asked:
                asked.append(plain)
        before, after = answers_of(folder, asked), answers_of(ROOT, asked)
    texts = differing = 0
    for vector, one, other in zip(asked, before, after, strict=True):
        old, new = dict(words(one, drawings)), dict(words(other, drawings))
        texts += len(new)
        changed = [place for place in dict.fromkeys([*old, *new]) if old.get(place) != new.get(place)]
        if changed:
            differing += 1
            print(f"{vector['calculator']} {_short(json.dumps(vector['inputs'], ensure_ascii=False))}")
        for place in changed:
            print(f"  {place}\n    - {_short(old.get(place, '(nothing)'))}\n    + {_short(new.get(place, '(nothing)'))}")
    print(f"{len(asked)} vectors, {texts} texts: {differing or 'none'} of the vectors differ from {revision}")
    return 1 if differing else 0


def _short(text: str) -> str:
    return text if len(text) <= 200 else f"{text[:200]}…"


def main() -> int:
    """Write the vectors, or compare them."""
    parser = argparse.ArgumentParser(prog="handbook.py check vectors", description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--write", action="store_true", help="write instead of comparing")
    parser.add_argument("--against", metavar="REV", help="compare with the answers of another commit")
    parser.add_argument("--drawings", action="store_true", help="with --against: the drawings, too")
    asked = parser.parse_args()
    if asked.against:
        return compare(asked.against, asked.drawings)
    today: list[Kept] = [{**vector, "shown": natively(vector)} for vector in vectors()]
    if asked.write:
        FILE.parent.mkdir(parents=True, exist_ok=True)
        FILE.write_text(json.dumps(today, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
        print(f"{len(today)} vectors written")
        return 0
    different = [new["calculator"] for new, old in zip(today, kept(), strict=False) if new != old]
    if different or len(today) != len(kept()):
        print(f"answers differ from the kept vectors: {', '.join(sorted(set(different))) or 'other numbers of them'}")
        return 1
    print(f"{len(today)} vectors as kept")
    return 0


if __name__ == "__main__":
    sys.exit(main())
