"""Runs inside the runtime when the snapshot is made: finds out what is imported, then leaves that imported and little else."""

import gc
import importlib
import json
import pkgutil
import sys

# how the tops of usual tins are cut, in every shape, and what is known of each shape for that: many are counted at once when somebody
# changes the shape
KEPT = ("_layout", "_profile", "_fine", "_stretches", "_middle")
LIGHT = 20_000  # characters of an answer; what answers at greater length is not asked before memory is frozen

with open("/tmp/requests.json", encoding="utf-8") as _file:
    _REQUESTS = json.load(_file)


def _import_calc() -> None:
    import calc

    for module in pkgutil.walk_packages(calc.__path__, "calc."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)


def explore() -> str:
    """Answer all that the pages ask and draw all that they offer; gives the names of all modules that this took, as JSON."""
    from worker_api import answer, sheet

    _import_calc()
    light = []
    for request in _REQUESTS:
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


def settle() -> None:
    """Import what was found, answer the short questions once, then forget the answers that calc keeps."""
    from worker_api import answer

    _import_calc()
    with open("/tmp/modules.json", encoding="utf-8") as file:
        found = json.load(file)
    for name in found["modules"]:
        if name not in sys.modules and not name.startswith(("__main__", "warm")):
            importlib.import_module(name)
    _forget()
    for request in found["light"]:
        answer(json.dumps(request))
        _forget()
    _forget(())
    for shape in sys.modules["calc.shapes"].SHAPES:
        answer(json.dumps({"calculator": "stack", "inputs": {"shape": shape}}))
        _forget()
    sys._clear_internal_caches()
    importlib.invalidate_caches()
    gc.collect()


def _forget(kept: tuple[str, ...] = KEPT) -> None:
    """Let go of what calc keeps between answers, so that memory never grows larger than one answer needs: it never shrinks."""
    for module in [module for name, module in sys.modules.items() if name.startswith("calc")]:
        for value in list(vars(module).values()):
            if hasattr(value, "cache_clear") and getattr(value, "__name__", "") not in ("registry", *kept):
                value.cache_clear()
    gc.collect()
