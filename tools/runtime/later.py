"""Stands in the snapshot for modules that no page uses, or that only sheets use: what is asked of one imports the module, which fetches its files."""

from __future__ import annotations

import gc
import importlib
import sys
from types import FunctionType, ModuleType
from typing import Any

# Imported by pint and Pyodide; should a page's request use one, `warm.explore` imports it again and it stays.
UNUSED = (
    "_compat_pickle",
    "email",
    "importlib.metadata",
    "importlib.resources",
    "ipaddress",
    "pickle",
    "platform",
    "platformdirs",
    "shutil",
    "tempfile",
    "zipfile",
)
# Used by nothing but what is drawn on request, a sheet or a look; their code would be a good part of what the snapshot ships.
FOR_SHEETS = (
    "calc.calculators.list_sheets",
    "calc.calculators.order_at_bench",
    "calc.calculators.order_bench",
    "calc.calculators.order_cards",
    "calc.calculators.order_quotation",
    "calc.calculators.order_schemes",
    "calc.calculators.order_shop",
    "calc.calculators.order_tiers",
    "calc.calculators.kitchen_answer",
    "calc.drawing.faces_outlines",
    "calc.drawing.paper",
    "calc.drawing.pdf",
    "calc.drawing.start_plan",
    "calc.page.bench_view",
    "calc.page.shelf_card",
    "calc.schemes",
    "pydyf",
)


class Later:
    """A module that is imported once something is asked of it, or a function or class of such a module."""

    def __init__(self, module: str, name: str = "") -> None:
        self._module, self._name = module, name

    def _found(self) -> Any:
        module = importlib.import_module(self._module)
        return getattr(module, self._name) if self._name else module

    def __getattr__(self, name: str) -> Any:
        return getattr(self._found(), name)

    def __call__(self, *positional: object, **named: object) -> Any:
        return self._found()(*positional, **named)


def is_one_of(names: tuple[str, ...], module: str) -> bool:
    """Whether a module is one of those named or inside one."""
    return module.startswith(tuple(f"{name}." for name in names)) or module in names


def put_off(names: tuple[str, ...] = UNUSED) -> None:
    """Put a `Later` wherever a module mentions one of those named, or a function or class of theirs, and forget these."""
    for holder, module in list(sys.modules.items()):
        if is_one_of(names, holder) or not isinstance(module, ModuleType) or holder.startswith("_"):
            continue
        for name, value in list(vars(module).items()):
            if isinstance(value, ModuleType) and is_one_of(names, value.__name__):
                vars(module)[name] = Later(value.__name__)
            elif isinstance(value, FunctionType | type) and is_one_of(names, value.__module__):
                vars(module)[name] = Later(value.__module__, value.__name__)
    for name in [name for name in sys.modules if is_one_of(names, name)]:
        del sys.modules[name]
    gc.collect()
