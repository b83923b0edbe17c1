"""The modules as they are shipped: compiled, with every line number of our own and one a function of others."""

from __future__ import annotations

import io
import marshal
import traceback
import zipfile
from types import CodeType

import pytest

from tools.runtime import compile_zip

SOURCE = b'''"""A docstring that is not shipped."""


def outer(count):
    numbers = [1 / each for each in range(count)]
    assert numbers


    def inner():
        return numbers[count]

    return inner()
'''
LONG = b"def long(x):\n" + b"".join(b"    x = x + %d\n" % number for number in range(300)) + b"    raise ValueError(x)\n"


def shipped(source: bytes, name: str) -> dict[str, bytes]:
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w") as archive:
        archive.writestr(name, source)
    with zipfile.ZipFile(io.BytesIO(compile_zip.compiled_zip(whole.getvalue(), ""))) as made:
        return {entry: made.read(entry) for entry in made.namelist()}


def run(source: bytes, name: str, call: str) -> list[traceback.FrameSummary]:
    """The frames of the exception that a call of the shipped module raises."""
    import marshal

    (pyc,) = shipped(source, name).values()
    code = marshal.loads(pyc[16:])
    assert isinstance(code, CodeType)
    values: dict[str, object] = {}
    exec(code, values)
    try:
        exec(call, values)
    except Exception as error:
        traceback.format_exc()
        return traceback.extract_tb(error.__traceback__)[2:]
    raise AssertionError("nothing was raised")


@pytest.mark.parametrize("name", ["calc/rooms.py", "pint/unit.py"])
def test_a_traceback_names_the_function_and_its_first_line(name: str) -> None:
    frame = run(SOURCE, name, "outer(3)")[0]
    assert (frame.name, frame.lineno) == ("outer", 4)


def test_functions_within_functions_have_their_own_line() -> None:
    frames = run(SOURCE.replace(b"range(count)", b"range(1, count)"), "pint/unit.py", "outer(3)")
    assert [(frame.name, frame.lineno) for frame in frames] == [("outer", 4), ("inner", 9)]


def test_a_long_function_has_its_line_to_the_end() -> None:
    assert [(frame.name, frame.lineno) for frame in run(LONG, "pint/long.py", "long(0)")] == [("long", 1)]


def test_less_is_shipped_and_no_docstring() -> None:
    (short,) = shipped(LONG, "pint/long.py").values()
    assert len(short) < 0.9 * len(marshal.dumps(compile(LONG, "pint/long.py", "exec", dont_inherit=True, optimize=2)))
    assert b"docstring" not in next(iter(shipped(SOURCE, "calc/rooms.py").values()))
