"""python -m calc SLUG name=value ... prints the answer as JSON; exit status 0 with an answer, 2 with problems,
1 where it could not be written.

A value that starts with @ is read from that file: python -m calc order order=@FILE.
python -m calc sheets order=@FILE paper=A4 out=FOLDER writes every sheet of an order as PDF; with calculator=SLUG those of
another calculator.
"""

from __future__ import annotations

import contextlib
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import calc
from calc.calculators import CALCULATORS

LARGEST_FILE = 4_000_000  # bytes; what is larger holds no value of any input


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
        if not _is_text(pair):
            return _problem(slug, name, f"{name} holds bytes that are no text. Write it in UTF-8")
        if value.startswith("@"):
            try:
                value = _read_file(value[1:])
            except (OSError, ValueError) as error:
                return _problem(slug, name, f"{name}: {value[1:]} cannot be read ({error.__class__.__name__})")
        inputs[name] = value
    if slug == "sheets":
        return _sheets(inputs)
    if slug not in CALCULATORS:
        return _problem(slug, "", f"There is no calculator called {slug}. There are {', '.join(CALCULATORS)}")
    answer = calc.compute(slug, inputs)
    for file in answer.files:
        file["text"] = calc.sheet(slug, inputs, file["name"]).decode()
    _write(answer.to_dict())
    return 2 if answer.problems else 0


def _is_text(typed: str) -> bool:
    """Whether an argument is text: bytes that are not valid text reach Python as lone surrogates."""
    return not any("\ud800" <= letter <= "\udfff" for letter in typed)


def _read_file(name: str) -> str:
    """The text of a file, without the byte order mark that some editors begin it with."""
    with Path(name).open("rb") as file:
        data = file.read(LARGEST_FILE + 1)
    if len(data) > LARGEST_FILE:
        raise ValueError(f"it is larger than {LARGEST_FILE} bytes")
    return data.decode("utf-8-sig")


def _write(data: dict[str, Any]) -> None:
    """Print an answer as JSON; where the terminal cannot write a letter, all that are not ASCII are escaped, as JSON allows."""
    text = json.dumps(data, ensure_ascii=False, indent=1)
    try:
        text.encode(sys.stdout.encoding or "utf-8")
    except UnicodeError:
        text = json.dumps(data, indent=1)
    print(text)


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
        _write(answer.to_dict())
        return 2
    written = []
    for offered in answer.sheets:
        path = out / f"{offered['name']}.pdf"
        data = calc.sheet(slug, inputs, offered["name"], paper)
        try:
            out.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        except OSError as error:
            with contextlib.suppress(OSError):
                path.unlink(missing_ok=True)  # no half a sheet
            return _problem("sheets", "out", f"{out} cannot be written to ({error.__class__.__name__})")
        written.append({"name": offered["name"], "title": offered["title"], "file": str(path)})
    _write({"calculator": "sheets", "problems": [], "sheets": written})
    return 0


def _problem(slug: str, name: str, message: str) -> int:
    _write({"calculator": slug, "figures": {}, "problems": [{"input": name, "message": message}]})
    return 2


def run() -> int:
    """Run the command and see that the answer reached whatever reads it: 1 where it could not be written."""
    try:
        status = main(sys.argv[1:])
        sys.stdout.flush()
        return status
    except BrokenPipeError:
        pass  # whoever read it has seen enough
    except OSError as error:
        print(f"python -m calc: the answer could not be written ({error.strerror})", file=sys.stderr)
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # what is left is not tried again at the end
    return 1


if __name__ == "__main__":
    sys.exit(run())
