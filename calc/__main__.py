"""python -m calc SLUG name=value ... prints the answer as JSON; exit status 0 with an answer, 2 with problems.

A value that starts with @ is read from that file: python -m calc order order=@FILE.
python -m calc sheets order=@FILE paper=A4 out=FOLDER writes every sheet of an order as PDF; with calculator=SLUG those of
another calculator.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path

import calc
from calc.calculators import CALCULATORS


def main(arguments: Sequence[str]) -> int:
    """Run one calculator from the command line."""
    if not arguments or arguments[0] in ("-h", "--help"):
        print((__doc__ or "").strip())
        print("Calculators: " + ", ".join(CALCULATORS) + "; sheets order=@FILE paper=A4 out=FOLDER writes the PDFs")
        return 0 if arguments else 2
    slug, *pairs = arguments
    inputs: dict[str, str] = {}
    for pair in pairs:
        name, equals, value = pair.partition("=")
        if not equals:
            return _problem(slug, pair, f"{pair} is not name=value")
        if value.startswith("@"):
            try:
                value = Path(value[1:]).read_text(encoding="utf-8")
            except (OSError, UnicodeDecodeError) as error:
                return _problem(slug, name, f"{name}: {value[1:]} cannot be read ({error.__class__.__name__})")
        inputs[name] = value
    if slug == "sheets":
        return _sheets(inputs)
    if slug not in CALCULATORS:
        return _problem(slug, "", f"There is no calculator called {slug}. There are {', '.join(CALCULATORS)}")
    answer = calc.compute(slug, inputs)
    for file in answer.files:
        file["text"] = calc.sheet(slug, inputs, file["name"]).decode()
    print(json.dumps(answer.to_dict(), ensure_ascii=False, indent=1))
    return 2 if answer.problems else 0


def _sheets(inputs: dict[str, str]) -> int:
    """Write every sheet that an order offers (or another calculator, named by calculator=SLUG) as PDF into a folder."""
    paper, out = inputs.pop("paper", "A4"), Path(inputs.pop("out", "."))
    slug = inputs.pop("calculator", "order")
    if paper not in ("A4", "Letter"):
        return _problem("sheets", "paper", f"Paper is A4 or Letter, not {paper[:30]}")
    if slug not in CALCULATORS:
        return _problem("sheets", "calculator", f"There is no calculator called {slug[:30]}. There are {', '.join(CALCULATORS)}")
    answer = calc.compute(slug, inputs)
    if answer.problems:
        print(json.dumps(answer.to_dict(), ensure_ascii=False, indent=1))
        return 2
    written = []
    for offered in answer.sheets:
        path = out / f"{offered['name']}.pdf"
        data = calc.sheet(slug, inputs, offered["name"], paper)
        try:
            out.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        except OSError as error:
            return _problem("sheets", "out", f"{out} cannot be written to ({error.__class__.__name__})")
        written.append({"name": offered["name"], "title": offered["title"], "file": str(path)})
    print(json.dumps({"calculator": "sheets", "problems": [], "sheets": written}, ensure_ascii=False, indent=1))
    return 0


def _problem(slug: str, name: str, message: str) -> int:
    print(json.dumps({"calculator": slug, "figures": {}, "problems": [{"input": name, "message": message}]}, ensure_ascii=False, indent=1))
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
