"""Put small mistakes into a room of calc, one at a time, and see whether that room's tests notice.

    python3 tools/handbook.py check mutants ROOM                       # a sample of 200
    python3 tools/handbook.py check mutants ROOM --all
    python3 tools/handbook.py check mutants ROOM --only coats.py:      # the mistakes of one module, function or line
    python3 tools/handbook.py check mutants --table                    # only write the table of scores again

The tests are tests/calc/test_ROOM*.py (and tests/calc/ROOM/; and those named after a module of the room that do not take long), the examples in its
docstrings and what in tests/published imports the room; tests/vectors stays out, since it only pins what was there. A survivor is printed
as the line before and after. Mend it with a test that says what should hold; where the mistake changes nothing that anyone can see, write
why as its `reason` in tests/mutation/ROOM.toml. Reasons are kept from one run to the next. The options --only and --survivors do not write
that file.

How it is quick: everything is imported once. A mistake inside functions is put into a forked child by exchanging the code of those
functions, and only tests that call one of them run, the quickest first. A mistake elsewhere (a constant, a default), and one that no
test noticed that way, gets a child that imports the room again and runs all its tests. A child that uses far more processor time
than the tests need counts as caught.
"""

from __future__ import annotations

import argparse
import ast
import functools
import gc
import importlib
import importlib.abc
import importlib.machinery
import importlib.util
import math
import os
import random
import resource
import signal
import sys
import time
import tomllib
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

import hypothesis
import pytest
import tomli_w
from _pytest.runner import runtestprotocol

from tools.build.paths import CALC, ROOT

FOLDER = ROOT / "tests" / "mutation"
SAMPLE, SEED, EXAMPLES = 200, 11, 20
CAUGHT, MISSED, LOOPED = 1, 0, 2
MEMORY = 3 << 30  # bytes that a child may take
# Tests of a room that have other names: here those of single calculators, of what is typed into them, and of sections of the order's answer.
OWN_TESTS = {
    "calculators": (
        *("bare_numbers", "declare", "fitted", "kitchen", "lesson_class", "limits", "order_places", "row", "row_calculators"),
        *("several_cutters", "shelf_card", "two_colours", "us_figures", "wander", "windfall", "work_in_a_file"),
    )
}
# Tests that say little of a room and take long: those that draw whole sheets or fit whole cakes, whose figures tests/calc/test_calculators_*.py state
# by hand, and those that any text gives an answer.
NOT_OWN = {
    "calculators": ("order_cards", "order_moving", "order_schemes", "order_sheets", "lesson_sheets"),
    # of the forms, answers, sheets and looks that are made of a plan: a second each, and they go by the pages
    "order": tuple(f"order_{of}" for of in ("any", "at_bench", "cards", "cures", "effort", "moving", "quotation", "schemes", "sheets", "shop")),
}
TABLE_BEGINS, TABLE_ENDS = "<!-- scores -->", "<!-- end of scores -->"
Key = tuple[str, int]  # a function: its qualified name and first line


@dataclass(frozen=True)
class Mutant:
    """One mistake in one module."""

    module: str  # dotted name
    path: Path
    source: str = ""  # of the whole module, with the mistake
    line: int = 0
    where: str = ""  # the function, or "module"
    before: str = ""
    after: str = ""

    @property
    def key(self) -> tuple[str, str, str]:
        """What a mistake is known by when lines above it have moved."""
        return f"{self.module}:{self.where}", self.before, self.after


@dataclass
class Room:
    """A room's modules and the tests that are held against it."""

    name: str
    modules: dict[str, Path]
    tests: list[Path]


def rooms() -> list[str]:
    """Every room but drawing."""
    names = {path.stem for path in CALC.glob("*.py")} | {path.parent.name for path in CALC.glob("*/__init__.py")}
    return sorted(name for name in names if not name.startswith("__") and name != "drawing" and not (name.endswith("_data")))


def room_of(name: str) -> Room:
    """A room by its name."""
    paths = sorted([*CALC.glob(f"{name}.py"), *CALC.glob(f"{name}_data.py"), *(CALC / name).rglob("*.py")])
    if not paths:
        raise SystemExit(f"there is no room {name!r}; the rooms are {', '.join(rooms())}")
    modules = {}
    for path in paths:
        parts = path.relative_to(ROOT).with_suffix("").parts
        modules[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    stems = {name, *OWN_TESTS.get(name, ()), *(path.stem for path in paths if path.parent != CALC)} - {"__init__"}
    calc_tests = ROOT / "tests" / "calc"
    own = {path for stem in stems for path in calc_tests.glob(f"test_{stem}.py")} | set(calc_tests.glob(f"test_{name}_*.py"))
    own |= set((calc_tests / name).rglob("test_*.py"))
    own -= {calc_tests / f"test_{other}.py" for other in NOT_OWN.get(name, ())}
    published = [path for path in sorted((ROOT / "tests" / "published").glob("test_*.py")) if _imports(path, f"calc.{name}")]
    return Room(name, modules, [*sorted(own), *published])


def _imports(path: Path, module: str) -> bool:
    """Whether a test file imports a module or one below it."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        if isinstance(node, ast.ImportFrom) and node.module:
            names = [node.module, *(f"{node.module}.{alias.name}" for alias in node.names)]
        if any(name == module or name.startswith(f"{module}.") for name in names):
            return True
    return False


# ---- one run of pytest, in a process of its own


class Quiet:
    """Few, always equal examples for properties, and no shrinking: a mutant is caught or not, nobody reads the example."""

    def pytest_collection(self) -> None:
        """Before any test module is imported, so that its own settings build on these."""
        hypothesis.settings.register_profile("mutants", parent=_calm(hypothesis.settings()))
        hypothesis.settings.load_profile("mutants")

    def pytest_itemcollected(self, item: pytest.Item) -> None:
        """Fewer examples also where a test asks for many."""
        function = getattr(item, "obj", None)
        own = getattr(function, "_hypothesis_internal_use_settings", None)
        if own is not None:
            function._hypothesis_internal_use_settings = _calm(own)  # type: ignore[union-attr]


def _calm(own: hypothesis.settings) -> hypothesis.settings:
    kept = (hypothesis.Phase.explicit, hypothesis.Phase.generate)
    few = min(own.max_examples, EXAMPLES)
    quiet = list(hypothesis.HealthCheck)
    return hypothesis.settings(own, max_examples=few, derandomize=True, database=None, deadline=None, phases=kept, suppress_health_check=quiet)


def _pytest(room: Room, *plugins: object, options: Sequence[str] = ()) -> int:
    """Run pytest over the room's docstrings and tests in this process."""
    for name in room.modules:
        importlib.import_module(name)
    paths = [str(path) for path in (*room.modules.values(), *room.tests)]
    fixed = ["-q", "--no-header", "--no-summary", "--capture=no", "-p", "no:cacheprovider", "-p", "no:xdist", "--doctest-modules"]
    return int(pytest.main([*fixed, *options, *paths], plugins=[Quiet(), *plugins]))


def _hush() -> None:
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)


def _fork(work: Callable[[], int], seconds: float) -> int:
    """Do something in a child with a limit of processor time; gives its process id."""
    child = os.fork()
    if child:
        return child
    status = CAUGHT
    try:
        _hush()
        limit = math.ceil(time.process_time() + seconds)
        resource.setrlimit(resource.RLIMIT_CPU, (limit, limit + 5))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        status = work()
    finally:
        os._exit(status)


def _outcome(status: int) -> int:
    """What the end of a child says of its mutant."""
    if os.WIFSIGNALED(status):
        return LOOPED if os.WTERMSIG(status) in (signal.SIGXCPU, signal.SIGKILL) else CAUGHT
    return MISSED if os.WEXITSTATUS(status) == MISSED else CAUGHT


class Pool:
    """So many children at a time."""

    def __init__(self, jobs: int) -> None:
        self.jobs, self.running = jobs, {}  # type: int, dict[int, Mutant]

    def run(self, work: Iterable[tuple[Mutant, Callable[[], int], float]]) -> Iterator[tuple[Mutant, int]]:
        """Outcomes as they come."""
        for mutant, act, seconds in work:
            if len(self.running) >= self.jobs:
                yield self._next()
            self.running[_fork(act, seconds)] = mutant
        while self.running:
            yield self._next()

    def _next(self) -> tuple[Mutant, int]:
        child, status = os.wait()
        return self.running.pop(child), _outcome(status)


# ---- mistakes inside functions: the code of a function is exchanged


def _codes(code: CodeType) -> dict[Key, CodeType]:
    """The functions of a module and of its classes, by name and line; `code` is the module's or the class's."""
    found = {}
    for const in code.co_consts:
        if isinstance(const, CodeType):
            if const.co_flags & 0x2:  # CO_NEWLOCALS: a function and no class body
                found[const.co_qualname, const.co_firstlineno] = const
            else:
                found.update(_codes(const))
    return found


def _frame(code: CodeType) -> tuple[Any, ...]:
    """Everything of a module or a class body outside its functions."""
    inner = [
        (const.co_qualname, const.co_firstlineno) if const.co_flags & 0x2 else _frame(const)
        for const in code.co_consts
        if isinstance(const, CodeType)
    ]
    plain = [(type(const), repr(const)) for const in code.co_consts if not isinstance(const, CodeType)]
    return code.co_code, code.co_names, plain, inner


def exchanged(source: str, mutated: str, path: Path) -> dict[Key, CodeType] | None:
    """The code of each function that differs, or None where something outside functions does."""
    before, after = (compile(text, str(path), "exec", dont_inherit=True) for text in (source, mutated))
    if _frame(before) != _frame(after):
        return None
    old, new = _codes(before), _codes(after)
    changed = {key: code for key, code in new.items() if code != old[key]}
    return changed if all(code.co_freevars == old[key].co_freevars for key, code in changed.items()) else None


@dataclass
class Driver:
    """A pytest plugin that runs the tests once as they are, noting which call what, and then mutants in forked children."""

    room: Room
    mutants: list[Mutant]
    jobs: int
    report: Callable[[Mutant, int], None]
    failed: list[str] = field(default_factory=list)
    seconds: dict[str, float] = field(default_factory=dict)
    calls: dict[str, set[tuple[str, Key]]] = field(default_factory=dict)

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Instead of pytest's own loop."""
        items = session.items
        caches = [found for found in gc.get_objects() if isinstance(found, functools._lru_cache_wrapper)]
        self.caches = [found for found in caches if (getattr(found, "__module__", None) or "").startswith("calc")]
        self._functions()
        if session.testsfailed:
            self.failed.append("collection")
        for item in items:
            self._measure(item)
        self.whole = sum(self.seconds.values())
        if not self.failed:
            gc.freeze()
            for mutant, outcome in Pool(self.jobs).run(self._work(items)):
                self.report(mutant, outcome)
        return True

    def _functions(self) -> None:
        paths = {str(path) for path in self.room.modules.values()}
        self.functions: dict[tuple[str, Key], list[FunctionType]] = {}
        for found in gc.get_objects():
            if isinstance(found, FunctionType) and found.__code__.co_filename in paths:
                code = found.__code__
                self.functions.setdefault((code.co_filename, (code.co_qualname, code.co_firstlineno)), []).append(found)

    def _run(self, item: pytest.Item) -> bool:
        """Run one test alone; whether it passed."""
        reports = runtestprotocol(item, log=False, nextitem=None)
        return not any(report.failed for report in reports)

    def _clear(self) -> None:
        for cache in self.caches:
            cache.cache_clear()

    def _measure(self, item: pytest.Item) -> None:
        seen: set[tuple[str, Key]] = set()
        known = self.functions

        def note(frame: Any, event: str, argument: object) -> None:
            if event == "call":
                code = frame.f_code
                key = (code.co_filename, (code.co_qualname, code.co_firstlineno))
                if key in known:
                    seen.add(key)

        self._clear()
        begun = time.process_time()
        sys.setprofile(note)
        try:
            passed = self._run(item)
        finally:
            sys.setprofile(None)
        self.seconds[item.nodeid], self.calls[item.nodeid] = time.process_time() - begun, seen
        if not passed:
            self.failed.append(item.nodeid)

    def _work(self, items: list[pytest.Item]) -> Iterator[tuple[Mutant, Callable[[], int], float]]:
        sources = {path: path.read_text(encoding="utf-8") for path in self.room.modules.values()}
        quickest = sorted(items, key=lambda item: self.seconds[item.nodeid])
        for mutant in self.mutants:
            changed = exchanged(sources[mutant.path], mutant.source, mutant.path)
            if changed is None or any((str(mutant.path), key) not in self.functions for key in changed):
                continue
            places = {(str(mutant.path), key) for key in changed}
            touched = [item for item in quickest if self.calls[item.nodeid] & places]
            if touched:
                yield mutant, functools.partial(self._try, mutant, changed, touched), _allowed(sum(self.seconds[i.nodeid] for i in touched))

    def _try(self, mutant: Mutant, changed: dict[Key, CodeType], items: list[pytest.Item]) -> int:
        for key, code in changed.items():
            for function in self.functions[str(mutant.path), key]:
                function.__code__ = code
        self._clear()
        return MISSED if all(self._run(item) for item in items) else CAUGHT


def _allowed(seconds: float) -> float:
    """Processor time that a child may take for tests that take so long unchanged (and traced, which is slower)."""
    return 3.0 + 4.0 * seconds


# ---- mistakes elsewhere: the room is imported again


class MutantFinder(importlib.abc.MetaPathFinder):
    """Gives one module its mutated source."""

    def __init__(self, mutant: Mutant) -> None:
        self.mutant = mutant

    def find_spec(self, fullname: str, path: object = None, target: object = None) -> importlib.machinery.ModuleSpec | None:
        """The mutated module, and nothing else."""
        mutant = self.mutant
        if fullname != mutant.module:
            return None

        class Loader(importlib.machinery.SourceFileLoader):
            def get_code(self, fullname: str) -> CodeType:
                return compile(mutant.source, str(mutant.path), "exec", dont_inherit=True)

        loader = Loader(fullname, str(mutant.path))
        package = [str(mutant.path.parent)] if mutant.path.name == "__init__.py" else None
        return importlib.util.spec_from_file_location(fullname, mutant.path, loader=loader, submodule_search_locations=package)


class Quickest:
    """Runs tests in the order of the time that they took."""

    def __init__(self, seconds: dict[str, float]) -> None:
        self.seconds = seconds

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Those that nobody measured come last."""
        items.sort(key=lambda item: self.seconds.get(item.nodeid, math.inf))


def _try_reimported(room: Room, mutant: Mutant, seconds: dict[str, float]) -> int:
    sys.meta_path.insert(0, MutantFinder(mutant))
    try:
        return MISSED if _pytest(room, Quickest(seconds), options=["-x"]) == 0 else CAUGHT
    except BaseException:  # a room that cannot even be imported
        return CAUGHT


# ---- the whole


def run(room: Room, mutants: list[Mutant], jobs: int) -> dict[Mutant, int]:
    """Try each mutant; gives what became of it."""
    import calc

    assert Path(calc.__file__).parent == CALC
    for name in [name for name in sys.modules if name == "calc" or name.startswith("calc.")]:
        del sys.modules[name]
    quick, measured = _run_exchanged(room, mutants, jobs)
    outcomes = {mutant: outcome for mutant, outcome in quick.items() if outcome != MISSED}
    rest = [mutant for mutant in mutants if mutant not in outcomes]
    print(f"   {len(outcomes)} caught by exchanging functions; {len(rest)} to be tried in a room imported again", flush=True)
    whole = _allowed(sum(measured.values())) + 5
    work = ((mutant, functools.partial(_try_reimported, room, mutant, measured), whole) for mutant in rest)
    for mutant, outcome in Pool(jobs).run(work):
        outcomes[mutant] = outcome
        if outcome == MISSED:
            _show(mutant)
    return {mutant: outcomes[mutant] for mutant in mutants}


def _run_exchanged(room: Room, mutants: list[Mutant], jobs: int) -> tuple[dict[Mutant, int], dict[str, float]]:
    """In a child, so that this process stays without calc: results come back over a pipe."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        status = 1
        try:
            os.close(reading)
            keep = os.dup(2)
            _hush()
            places = {mutant: i for i, mutant in enumerate(mutants)}
            with os.fdopen(writing, "w", encoding="utf-8") as told:
                driver = Driver(room, mutants, jobs, lambda mutant, outcome: print(places[mutant], outcome, file=told, flush=True))
                _pytest(room, driver)
                print("failed", *driver.failed, sep="\t", file=told)
                for nodeid, seconds in driver.seconds.items():
                    print("took", f"{seconds:.4f}", nodeid, sep="\t", file=told)
            status = 0
        except BaseException as wrong:
            os.write(keep, f"{type(wrong).__name__}: {wrong}\n".encode())
        finally:
            os._exit(status)
    os.close(writing)
    outcomes: dict[Mutant, int] = {}
    measured: dict[str, float] = {}
    with os.fdopen(reading, encoding="utf-8") as heard:
        for line in heard:
            words = line.rstrip("\n").split("\t")
            if words[0] == "took":
                measured[words[2]] = float(words[1])
            elif words[0] == "failed":
                if words[1:]:
                    raise SystemExit("these tests fail without any mistake put in:\n" + "\n".join(words[1:]))
            else:
                place, outcome = line.split()
                outcomes[mutants[int(place)]] = int(outcome)
    if os.waitpid(child, 0)[1] or not measured:
        raise SystemExit("the room's tests could not be run")
    return outcomes, measured


def _show(mutant: Mutant, reason: str = "") -> None:
    print(f"\n{mutant.path.relative_to(ROOT)}:{mutant.line} {mutant.where}\n  - {mutant.before}\n  + {mutant.after}", flush=True)
    if reason:
        print(f"    {reason}")


def _reasons(path: Path) -> dict[tuple[str, str, str], str]:
    """Why survivors are left, by mistake."""
    if not path.exists():
        return {}
    kept = tomllib.loads(path.read_text(encoding="utf-8")).get("survivor", [])
    return {(one["where"], one["before"], one["after"]): one.get("reason", "") for one in kept}


def _survivors(outcomes: dict[Mutant, int], reasons: dict[tuple[str, str, str], str]) -> list[dict[str, str]]:
    keys = sorted({mutant.key for mutant, outcome in outcomes.items() if outcome == MISSED})
    return [{"where": key[0], "before": key[1], "after": key[2], "reason": reasons.get(key, "")} for key in keys]


def write(room: Room, possible: int, seed: int | None, outcomes: dict[Mutant, int], folder: Path = FOLDER) -> None:
    """Keep the result of a room, and the reasons that are there."""
    path = folder / f"{room.name}.toml"
    caught = sum(outcome != MISSED for outcome in outcomes.values())
    head: dict[str, Any] = {"possible": possible, "tried": len(outcomes), "caught": caught}
    head["never_ended"] = sum(outcome == LOOPED for outcome in outcomes.values())
    if seed is not None:
        head["seed"] = seed
    reasons = _reasons(path)
    folder.mkdir(parents=True, exist_ok=True)
    path.write_text(tomli_w.dumps({**head, "survivor": _survivors(outcomes, reasons)}), encoding="utf-8")


def table(folder: Path = FOLDER) -> str:
    """The scores of all rooms, as Markdown."""
    lines = ["| room | possible | tried | caught | score | survivors with a reason |", "|---|---:|---:|---:|---:|---:|"]
    for path in sorted(folder.glob("*.toml")):
        kept = tomllib.loads(path.read_text(encoding="utf-8"))
        survivors = kept.get("survivor", [])
        explained = sum(bool(one["reason"]) for one in survivors)
        score = f"{100 * kept['caught'] / kept['tried']:.1f} %"
        lines.append(f"| `{path.stem}` | {kept['possible']} | {kept['tried']} | {kept['caught']} | {score} | {explained} of {len(survivors)} |")
    return "\n".join(lines)


def write_table(folder: Path = FOLDER) -> None:
    """Put the scores into tests/mutation/README.md."""
    path = folder / "README.md"
    before, rest = path.read_text(encoding="utf-8").split(TABLE_BEGINS)
    after = rest.split(TABLE_ENDS)[1]
    path.write_text(f"{before}{TABLE_BEGINS}\n{table(folder)}\n{TABLE_ENDS}{after}", encoding="utf-8")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The options of `check mutants`."""
    parser.add_argument("room", nargs="?", choices=rooms(), metavar="ROOM", help=f"one of {', '.join(rooms())}")
    parser.add_argument("--sample", type=int, default=SAMPLE, metavar="N", help=f"so many mistakes, picked at random ({SAMPLE} unless told)")
    parser.add_argument("--seed", type=int, default=SEED, metavar="S", help=f"what the pick depends on ({SEED} unless told)")
    parser.add_argument("--all", action="store_true", help="every mistake, no sample")
    parser.add_argument("--only", metavar="TEXT", help="only mistakes whose `path:line function` holds this text; writes no file")
    parser.add_argument("--survivors", action="store_true", help="only the survivors of the last run again; writes no file")
    parser.add_argument("--jobs", type=int, default=1, metavar="J", help="mistakes tried at the same time (1 unless told)")
    parser.add_argument("--table", action="store_true", help="only write the table of scores again, from the files that are there")


def main(words: Sequence[str] | None = None) -> int:
    """Try the mistakes of one room."""
    parser = argparse.ArgumentParser(prog="handbook.py check mutants", description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    add_arguments(parser)
    asked = parser.parse_args(words)
    if asked.table:
        write_table()
        return 0
    if not asked.room:
        parser.error("which room?")
    from tools.check.mutations import mutants_of  # needs packages that are installed for this command only

    begun = time.monotonic()
    room = room_of(asked.room)
    every = [mutant for name, path in room.modules.items() for mutant in mutants_of(name, path)]
    reasons = _reasons(FOLDER / f"{room.name}.toml")
    partial = bool(asked.only or asked.survivors)
    chosen = every
    if asked.only:
        chosen = [m for m in every if asked.only in f"{m.path.relative_to(ROOT)}:{m.line} {m.where}"]
    elif asked.survivors:
        chosen = [m for m in every if m.key in reasons]
    elif not asked.all and asked.sample < len(every):
        chosen = sorted(random.Random(asked.seed).sample(every, asked.sample), key=every.index)
    print(f"-- {room.name}: {len(chosen)} of {len(every)} mistakes against {', '.join(path.name for path in room.tests)}", flush=True)
    if not chosen:
        return 0
    outcomes = run(room, chosen, asked.jobs)
    caught = sum(outcome != MISSED for outcome in outcomes.values())
    if not partial:
        write(room, len(every), None if len(chosen) == len(every) else asked.seed, outcomes)
        write_table()
    print(f"\n{room.name}: {caught} of {len(chosen)} caught, {100 * caught / len(chosen):.1f} % ({time.monotonic() - begun:.0f} s)")
    return 0


if __name__ == "__main__":
    sys.exit(main())
