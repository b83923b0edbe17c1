"""Runs inside Pyodide during the build: compiles zips of Python source into zips of optimised bytecode.

Docstrings and assertions go (as with `python -OO`), and so do the column positions of tracebacks. The bytecode stands
where the source stood, so that no source is needed, and is marked never to be checked against it.
"""

from __future__ import annotations

import importlib.util
import io
import re
import zipfile
from importlib._bootstrap_external import _code_to_hash_pyc  # type: ignore[attr-defined]  # the way py_compile writes such files
from types import CodeType

# Left out: modules that neither a browser nor calc can use, and ssl, whose initialisation would add to every snapshot; asyncio, which Pyodide
# imports, works without it. The standard library is fetched for a plain start and for offline use, where its size counts.
FOLDERS = (
    "_pyrepl|concurrent/interpreters|ctypes|curses|dbm|email/mime|ensurepip|html|http|idlelib|lib2to3|multiprocessing|profiling|pydoc_data|pyodide/http|sqlite3|test|tkinter|turtledemo|"
    "unittest|venv|wsgiref|xml|xmlrpc"
)
MODULES = (
    "_pydatetime|_pyio|antigravity|argparse|asyncio/(__main__|proactor_events|tools|windows_events|windows_utils)|bdb|bz2|cProfile|cmd|code|colorsys|compileall|configparser|csv|difflib|doctest|"
    "email/(_header_value_parser|contentmanager|generator|headerregistry|policy)|filecmp|fileinput|ftplib|getopt|getpass|gettext|graphlib|gzip|imaplib|json/tool|lzma|"
    "mailbox|mimetypes|modulefinder|netrc|nturl2path|optparse|pdb|pickletools|plistlib|poplib|pprint|profile|pstats|pty|py_compile|pyclbr|pydoc|pyodide/(console|_nodesock_transport)|rlcompleter|"
    "_ssl|sched|shelve|smtplib|socketserver|ssl|statistics|stringprep|symtable|sysconfig/__main__|tabnanny|tarfile|this|timeit|trace|tracemalloc|tty|turtle|urllib/(error|request|response|robotparser)|wave|webbrowser|zipapp"
)
ENCODINGS = (  # those that are kept
    "__init__|aliases|ascii|base64_codec|charmap|cp1252|cp437|hex_codec|iso8859_1|latin_1|mac_roman|raw_unicode_escape|undefined|"
    "unicode_escape|utf_[0-9a-z_]+"
)
PYTHON_STDLIB_LEFT_OUT = re.compile(
    rf"({FOLDERS})/|({MODULES})\.py$|encodings/(?!({ENCODINGS})\.py$)|logging/(handlers|config)|concurrent/futures/(process|interpreter)"
)


NO_COLUMNS = 13  # the kind of a location entry that has a line and no columns: CPython, InternalDocs/code_objects.md
UNITS = 8  # code units that one entry covers at most


def first_lines_only(code: CodeType) -> CodeType:
    """The same code with one line number for each function: a traceback names the function, and a twentieth less is shipped."""
    units = len(code.co_code) // 2
    lengths = [UNITS] * (units // UNITS) + ([units % UNITS] if units % UNITS else [])
    table = b"".join(bytes((0x80 | NO_COLUMNS << 3 | length - 1, 0)) for length in lengths)
    consts = tuple(first_lines_only(const) if isinstance(const, CodeType) else const for const in code.co_consts)
    return code.replace(co_linetable=table, co_consts=consts)


def compiled(source: bytes, name: str) -> bytes:
    """The .pyc of one module; `name` is its file name in tracebacks."""
    code = compile(source, name, "exec", dont_inherit=True, optimize=2)
    return bytes(_code_to_hash_pyc(first_lines_only(code), importlib.util.source_hash(source), False))


def compiled_zip(archive: bytes, prefix: str, left_out: re.Pattern[str] | None = None) -> bytes:
    """The same zip with every module compiled, in a fixed order and with fixed dates; stored, since it is compressed as a whole."""
    result = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(archive)) as old, zipfile.ZipFile(result, "w", zipfile.ZIP_STORED) as new:
        for name in sorted(old.namelist()):
            if name.endswith("/") or (left_out and left_out.match(name)):
                continue
            data = old.read(name)
            if name.endswith(".py"):
                data, name = compiled(data, prefix + name), name + "c"
            entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            entry.external_attr = 0o644 << 16
            new.writestr(entry, data)
    return result.getvalue()
