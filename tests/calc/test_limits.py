"""What no kitchen has is a problem at its field; what is only there to be large is refused before it is read."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tracemalloc
from pathlib import Path

import pytest

import calc
import calc.units
from calc.calculators.declare import LARGEST, LONGEST_NAME, MOST_TEXTS

ROOT = Path(calc.__file__).parent.parent
MOST_MEMORY = 60_000_000  # bytes; a plain order takes a few million


def problems(slug: str, **texts: str) -> dict[str, str]:
    """The messages of a calculator's problems, by input."""
    return {problem["input"]: problem["message"] for problem in calc.compute(slug, texts).problems}


BOMBS = {
    "a name of many parts": "a." * 29_000 + "a = 1",
    "a quoted name with many dots": '"' + "a." * 20_000 + '" = 1',
    "brackets in brackets": "x = " + "[" * 30_000,
    "braces in braces": "x = " + "{x = " * 10_000,
    "a name as long as a book": "a" * 50_000 + " = 1",
    "more names than an order has": "\n".join(f"k{i} = 1" for i in range(6000)),
    "tables in tables": "\n".join(f"[{'.'.join('t' * i)}]" for i in range(1, 200)),
    "a text that never ends": 'x = """' + "\\" * 50_000,
    "a number in hex of more digits than Python writes": "guests = 0x" + "f" * 5000,
    "a number in octal": "guests = 0o" + "7" * 20_000,
    "a number of digits": "guests = " + "9" * 5000,
    "a number that is merely long": "guests = 0x" + "f" * 150,
    "more than an order holds": "x = '" + "y" * 70_000 + "'",
    "more than anything holds": "x = '" + "y" * 3_000_000 + "'",
}


@pytest.mark.parametrize("bomb", BOMBS.values(), ids=BOMBS)
def test_an_order_that_is_only_there_to_be_large_is_refused_cheaply(bomb: str) -> None:
    calc.compute("order", {})  # whatever is made once
    tracemalloc.start()
    try:
        found = problems("order", order=bomb)
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert list(found) == ["order"] and len(found["order"]) < 400
    assert peak < MOST_MEMORY, f"{peak / 1e6:.0f} MB"


def test_dots_and_brackets_in_texts_are_no_nesting() -> None:
    words = "a." * 60 + "[" * 70
    record = f'name = "{words}"  # {"[" * 200}\nguests = 20\n[[tiers]]\nwidth = "20 cm"\n'
    assert problems("order", order=record) == {}


def test_an_order_with_a_byte_order_mark_is_read() -> None:
    record = "\ufeffguests = 12\n[[tiers]]\nwidth = '20 cm'\n"
    answer = calc.compute("order", {"order": record})
    assert not answer.problems and answer.fields and answer.fields["guests"] == "12"


@pytest.mark.parametrize("slug", ["swags", "order"])
def test_inputs_beyond_any_form_are_refused(slug: str) -> None:
    assert "parts" in next(iter(problems(slug, **{"a." * 20_000 + "b": "1"}).values()))
    assert "characters" in next(iter(problems(slug, **{"a" * (LONGEST_NAME + 1): "1"}).values()))
    assert str(MOST_TEXTS) in next(iter(problems(slug, **{f"k{i}": "" for i in range(MOST_TEXTS + 1)}).values()))
    assert str(LARGEST) in problems(slug, name="x" * (LARGEST + 1))["name"]


def test_a_sheet_of_inputs_beyond_any_form_is_refused_too() -> None:
    with pytest.raises(calc.units.Problem, match="parts"):
        calc.sheet("order", {"a." * 20_000 + "b": "1"}, "bench-sheet")


def seven_tiers(width: str, height: str) -> dict[str, str]:
    """An order of seven tiers of one size, coated by nothing, so that each stands on the one below."""
    texts = {"guests": "36"}
    for i in range(7):
        texts |= {f"tiers.{i}.{name}": text for name, text in (("width", width), ("height", height), ("crumb", "0 mm"), ("final", "0 mm"))}
    return texts


UNLIKELY = {
    "a cake of a tonne": ("order", seven_tiers("100 cm", "40 cm"), "tiers.0.width", ("Tin, width across", "150 kg", "smaller")),
    "a stack of half a tonne": ("supports", {"tiers": "100x60 cm round; 100x60 cm round; 100x60 cm round"}, "tiers", ("Tiers", "150 kg", "smaller")),
    "swags 3 mm wide": ("swags", {"side": "60 cm", "cutter": "9 cm", "repeats": "200"}, "repeats", ("Repeats", "1 cm", "60 or fewer")),
    "swags without a drop": ("swags", {"side": "60 cm", "cutter": "40 cm", "repeats": "40"}, "repeats", ("Repeats", "1 mm", "fewer repeats")),
    "shells in a heap": ("shells", {"width": "20.03 mm", "per_swag": "49"}, "per_swag", ("In each swag", "1.1 cm", "about 6 in all")),
    "shells far apart": ("shells", {"side": "60 cm", "repeats": "2", "per_swag": "3"}, "per_swag", ("In each swag", "1.1 cm", "about 54 in all")),
    "numbers without a unit": ("timetable", {"rows": "shells 9999999, swags 1e9"}, "rows", ("Rows", "1e9", "25 min")),
    "a time that is no time": ("timetable", {"rows": "shells 1500"}, "rows", ("Rows", "1500 has no unit", "25 min")),
    "two rows as one": ("timetable", {"rows": "shells 15 min, swags 25 min"}, "rows", ("Rows", "two times", "25 min")),
    "a day long gone": ("timetable", {"ready_at": "2000-10-16 18:00"}, "ready_at", ("Ready at", "2020", "2027-10-16 18:00")),
    "an order for a day long gone": (
        "order",
        {"ready_at": "2000-10-16 18:00", "tiers.0.width": "20 cm"},
        "ready_at",
        ("Ready at", "2020", "2027-10-16 18:00"),
    ),
}


@pytest.mark.parametrize("slug, texts, name, words", UNLIKELY.values(), ids=UNLIKELY)
def test_what_no_kitchen_has_is_a_problem_at_its_field(slug: str, texts: dict[str, str], name: str, words: tuple[str, ...]) -> None:
    """The message says the label, the limit and the way out."""
    found = problems(slug, **texts)
    assert list(found) == [name]
    assert all(word in found[name] for word in words), found[name]


@pytest.mark.parametrize(
    "slug, texts",
    [
        ("order", {"tiers.0.width": "40 cm", "tiers.0.height": "15 cm", "tiers.1.width": "30 cm"}),
        ("swags", {"side": "60 cm", "cutter": "3 cm", "repeats": "40"}),
        ("shells", {"side": "60 cm", "per_swag": "50"}),
        ("timetable", {"rows": "swags 25 min; shells 15 min on tier 2; row 3; rope 20"}),
        ("timetable", {"ready_at": "2020-01-01 18:00"}),
    ],
)
def test_what_a_kitchen_does_have_is_answered(slug: str, texts: dict[str, str]) -> None:
    assert problems(slug, **texts) == {}


def test_a_board_that_nobody_lifts_alone_is_not_about_0_g() -> None:
    answer = calc.compute("supports", {"tiers": "90x10 cm round"})
    said = " ".join(caution["text"] for caution in answer.cautions) + str(answer.figures) + str(answer.tables)
    assert not answer.problems and "about 0 g" not in said
    assert "too wide for one" in said


# ---- the command line -------------------------------------------------------------------------------------------------------

SWAGS = ("swags", "side=½ é 🎂", "cutter=9 cm")


def command(*words: str | bytes, encoding: str = "utf-8", stdout: object = subprocess.PIPE) -> subprocess.CompletedProcess[bytes]:
    """Run the command line with a terminal of some encoding."""
    env = {"PATH": "", "PYTHONIOENCODING": encoding, "PYTHONUTF8": "1"}
    return subprocess.run(
        [sys.executable.encode(), b"-m", b"calc", *(word if isinstance(word, bytes) else word.encode() for word in words)],
        cwd=ROOT, env=env, stdout=stdout, stderr=subprocess.PIPE, timeout=60, check=False,
    )  # fmt: skip


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252", "utf-8"])
def test_a_terminal_of_any_encoding_gets_an_answer(encoding: str) -> None:
    done = command(*SWAGS, encoding=encoding)
    assert (done.returncode, done.stderr) == (2, b"")
    assert "½ é 🎂" in json.loads(done.stdout.decode(encoding))["problems"][0]["message"]


@pytest.mark.parametrize("words", [(b"swags", b"side=\xff"), (b"swags", b"\xff"), (b"\xff",), (b"sheets", b"out=\xff")])
def test_bytes_that_are_no_text_are_a_problem(words: tuple[bytes, ...]) -> None:
    done = command(*words)
    assert (done.returncode, done.stderr) == (2, b"")


def test_a_pipe_that_is_closed_ends_it_quietly() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = command("swags", "side=60 cm", "cutter=9 cm", stdout=writing)
    os.close(writing)
    assert (done.returncode, done.stderr) == (1, b"")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no device that is always full")
def test_a_full_disk_is_said_in_a_sentence() -> None:
    with open("/dev/full", "wb") as full:
        done = command("swags", "side=60 cm", "cutter=9 cm", stdout=full)
    assert done.returncode == 1
    assert done.stderr.count(b"\n") == 1 and b"could not be written (No space left on device)" in done.stderr


def test_a_file_with_a_byte_order_mark_is_read(tmp_path: Path) -> None:
    (tmp_path / "side.txt").write_text("66 cm", encoding="utf-8-sig")
    assert command("division", f"side=@{tmp_path / 'side.txt'}", "repeats=6").returncode == 0


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="this system has no device that never ends")
def test_a_file_that_never_ends_is_not_read_to_its_end() -> None:
    done = command("order", "order=@/dev/zero")
    assert done.returncode == 2 and b"cannot be read" in done.stdout
