"""Every folder that the tools read from or write to."""

from __future__ import annotations

import json
import os
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
TOOLS = ROOT / "tools"
REQUIREMENTS = TOOLS / "build" / "requirements"  # Python packages, pinned with hashes
NPM_PINS = TOOLS / "build" / "npm"  # npm packages, pinned with hashes
DOCS = ROOT / "docs"
CALC = ROOT / "calc"

VENV = ROOT / ".venv"
VENV_PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")

BUILD = ROOT / "build"  # made by the tools, never committed
STAMPS = BUILD / "stamps"
NPM = BUILD / "npm"  # npm packages, hashes checked by npm against tools/build/npm/package-lock.json
WHEELS = BUILD / "wheels"  # wheels that run in the browser beside calc
RUNTIME = BUILD / "runtime"  # served under assets/runtime
SITE = ROOT / "site"  # the finished site, ready to host

PYODIDE = NPM / "node_modules" / "pyodide"
PYODIDE_VERSION = str(json.loads((NPM_PINS / "package.json").read_text(encoding="utf-8"))["dependencies"]["pyodide"])
