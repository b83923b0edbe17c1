"""Inputs and the answers a reader sees, kept in tests/vectors/: written from calc as it runs natively, and compared with --check.

    .venv/bin/python -m tools.check.vectors           writes them anew (say in docs/about/changelog.md what changed, and why)
    .venv/bin/python -m tools.check.vectors --check   fails when today's answers differ

tests/calc/test_vectors.py holds the native answers to them, tests/browser/test_vectors.py those of the page's worker. They pin
today's displayed answers; that these are right is for the other tests to say.
"""

from __future__ import annotations

import argparse
import json
import sys
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
        {"side": "50 cm", "cutter": "10 cm"},
        {"side": "66 cm", "cutter": "9 cm"},
        {"side": "66 cm", "cutter": "9 cm", "repeats": "6"},
        {"side": "26 in", "drop": "1 1/4 in", "units": "us"},
        {"side": "15,5 cm", "cutter": "½ in"},
    ],
    "strings": [{"side": "66 cm", "repeats": "9", "drop": "4 cm", "loops": "3"}],
    "shells": [{"side": "66 cm", "tip": "open star 7 mm", "per_swag": "7"}, {"side": "50 cm", "tip": "closed star 5 mm"}],
    "rosettes": [{"count": "16", "tip": "closed star 5 mm"}, {"side": "50 cm", "spacing": "4 cm", "tip": "open star 9 mm"}],
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
    "row": [{"side": "66 cm"}, {"side": "50 cm", "kind": "leaf", "tip": "leaf 6 mm"}],
    "vermicelli": [{"side": "50 cm", "height": "8 cm"}, {"width": "8 in", "ground": "top", "gap": "1/8 in", "units": "us"}],
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
    """A calculator and what it is asked."""

    calculator: str
    inputs: dict[str, str]


class Shown(TypedDict):
    """What a reader sees of an answer."""

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
    """What a reader sees of an answer: texts, not the digits behind them."""
    tables = {table["name"]: table["rows"] for table in answer["tables"]}
    return {
        "figures": {name: figure["text"] for name, figure in answer["figures"].items()},
        "problems": [f"{p['input']}: {p['message']}" for p in answer["problems"]],
        "notes": [note["text"] for note in answer["notes"]],
        "cautions": [caution["text"] for caution in answer["cautions"]],
        "tables": tables,
    }


def natively(vector: Vector) -> Shown:
    """What calc answers here, as a reader sees it."""
    return shown(json.loads(calc.compute(vector["calculator"], vector["inputs"]).to_json()))


def kept() -> list[Kept]:
    """The vectors as they stand in the repository."""
    found: list[Kept] = json.loads(FILE.read_text(encoding="utf-8"))
    return found


def main() -> int:
    """Write the vectors, or compare them."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true", help="compare instead of writing")
    asked = parser.parse_args()
    today: list[Kept] = [{**vector, "shown": natively(vector)} for vector in vectors()]
    if not asked.check:
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
