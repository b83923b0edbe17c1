"""Runs inside the runtime while the site is built: turns zips of Python source into zips of optimised bytecode.

Docstrings and assertions go (as with `python -OO`), and so do the column positions of tracebacks. The bytecode stands
where the source stood, so that no source is needed, and is marked never to be checked against it.
"""

from __future__ import annotations

import importlib.util
import io
import zipfile
from importlib._bootstrap_external import _code_to_hash_pyc  # the way py_compile writes such files

# Whole parts that nothing in a browser can use, and ssl, whose set-up takes memory that would be shipped in every snapshot; asyncio, which
# Pyodide imports, does without it.
PYTHON_STDLIB_LEFT_OUT = (
    "ssl.py", "ensurepip/", "idlelib/", "lib2to3/", "pydoc_data/", "test/", "tkinter/", "turtledemo/", "venv/",
)


def compiled(source: bytes, name: str) -> bytes:
    """The bytecode file of one module, named in tracebacks as given."""
    code = compile(source, name, "exec", dont_inherit=True, optimize=2)
    return bytes(_code_to_hash_pyc(code, importlib.util.source_hash(source), False))


def compiled_zip(archive: bytes, prefix: str, left_out: tuple[str, ...] = ()) -> bytes:
    """The same zip with every module compiled, in one fixed order and with fixed dates."""
    result = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(archive)) as old, zipfile.ZipFile(result, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as new:
        for name in sorted(old.namelist()):
            if name.endswith("/") or name.startswith(left_out):
                continue
            data = old.read(name)
            if name.endswith(".py"):
                data, name = compiled(data, prefix + name), name + "c"
            entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o644 << 16
            new.writestr(entry, data)
    return result.getvalue()
