"""Runs inside Pyodide when the snapshot is made: `explore` finds out which modules are imported, `settle` leaves those imported and little else,
`forget_declarations` takes out what only importing needs.

The caches that stay filled are named here as what they are, not by their names, so that a renamed function stops the type check, the tests and
the build; one that `settle` leaves empty stops the build, too.
"""

from __future__ import annotations

import contextlib
import gc
import importlib
import json
import pkgutil
import sys
from collections.abc import Callable
from types import FunctionType, ModuleType
from typing import Any

import calc
from calc import shapes, units
from calc.portions import plan, top

Request = dict[str, Any]

PLACE = {"level": 4, "id": "pb"}  # an answer for a page is what most requests ask for

# How tops of usual sizes are cut, for every shape, and what is known of each shape for that: a change of shape counts many cuts at once.
KEPT: tuple[Callable[..., object], ...] = (
    units.registry,
    plan.counted,
    top.top_profile,
    top.fine_polygon,
    top.top_stretches,
    top.centre,
)
LIGHT = 8_000  # characters; a longer answer is not computed before memory is frozen, which would make the snapshot larger


def _import_calc() -> None:
    for module in pkgutil.walk_packages(calc.__path__, "calc."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)


def explore(requests: list[Request], answer: Callable[[str], str], sheet: Callable[[str], bytes | str]) -> str:
    """Answer every request of the pages and draw every sheet they offer; returns the modules this took and the light requests, as JSON."""
    _import_calc()
    light = []
    for request in requests:
        text = answer(json.dumps(request))
        answered = json.loads(text)
        if "bug" in answered:
            raise RuntimeError(f"{request['calculator']} met a fault:\n{answered['bug']['details']}")
        if len(text) <= LIGHT:
            light.append(request)
        for offered in answered["sheets"]:
            for paper in ("A4", "Letter"):
                drawn = sheet(json.dumps({**request, "name": offered["name"], "paper": paper}))
                if isinstance(drawn, str):
                    raise RuntimeError(f"{request['calculator']}, sheet {offered['name']}: {drawn}")
    return json.dumps({"modules": sorted(sys.modules), "light": light})


def load(modules: list[str]) -> None:
    """Import the modules that `explore` found."""
    _import_calc()
    for name in modules:
        if name not in sys.modules and not name.startswith(("__main__", "warm")):
            importlib.import_module(name)


def settle(light: list[Request], answer: Callable[[str], str], put_off: tuple[str, ...] = ()) -> None:
    """Answer the light requests once, then clear every cache of calc but those of `KEPT`; no answer may take a module that was put off."""
    clear_caches(KEPT)
    for request in light:
        answer(json.dumps({**request, "place": PLACE}))
        clear_caches(KEPT)
    clear_caches((units.registry,))
    for shape in shapes.SHAPES:
        answer(json.dumps({"calculator": "stack", "inputs": {"shape": shape}, "place": PLACE}))
        clear_caches(KEPT)
    empty = [function.__name__ for function in KEPT if not function.cache_info().currsize]  # type: ignore[attr-defined]
    if empty:
        raise RuntimeError(f"nothing fills what the snapshot keeps: {', '.join(empty)}")
    back = [name for name in sys.modules if name in put_off]
    if back:
        raise RuntimeError(f"an answer takes what only sheets should: {', '.join(back)}")
    if sys.version_info >= (3, 13):
        sys._clear_internal_caches()
    for finder in sys.path_importer_cache.values():  # importlib.invalidate_caches() would import mail and archives again
        if finder is not None:
            finder.invalidate_caches()  # type: ignore[attr-defined]  # zip archives and folders have it
    gc.collect()


def clear_caches(kept: tuple[Callable[..., object], ...]) -> None:
    """Clear what calc caches between answers, so that memory, which never shrinks, grows no larger than one answer needs."""
    for module in [module for name, module in sys.modules.items() if name.startswith("calc")]:
        for value in list(vars(module).values()):
            if hasattr(type(value), "cache_clear") and value not in kept:  # asked of its type: a `Later` would import its module
                value.cache_clear()
    gc.collect()


def forget_declarations() -> None:
    """Drop what only imports and the making of classes look at: annotations and where each module came from."""
    for found in gc.get_objects():
        if isinstance(found, FunctionType):
            del found.__annotations__
        elif isinstance(found, type):
            with contextlib.suppress(AttributeError, TypeError):  # built in, or without annotations
                found.__annotate__ = None  # type: ignore[attr-defined]  # known to Python from 3.14
    for module in [module for module in sys.modules.values() if isinstance(module, ModuleType)]:
        vars(module).update(__spec__=None, __loader__=None)
        for name in ("__annotations__", "__annotate__", "__conditional_annotations__", "__cached__"):
            vars(module).pop(name, None)
