"""The kinds of row, one file each: whatever is true of a kind alone stands in its file, and each file registers its own.

It may import `kind` and `forms` beside it, and `sources`, `curves` and `tips`.

A new kind is a new file here and one in `calc.drawing.motifs`; nobody else names it.
"""

from __future__ import annotations

import importlib
import pkgutil

for _module in pkgutil.iter_modules(__path__):
    importlib.import_module(f"{__name__}.{_module.name}")
