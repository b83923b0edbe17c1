"""Measures how quickly the handbook answers, beside plain Pyodide on the same machine, in the same run.

    python3 tools/handbook.py bench              five rounds, about a quarter of an hour; writes docs/about/speed.md
    python3 tools/handbook.py bench --quick      one short round, writes nothing

Things that are compared take turns within each round, and ratios are taken within a round, so that a machine that is slower for a while
is slower for all of them. Times depend on the machine, so no test uses them.
"""

from __future__ import annotations

import argparse
import json
import os
import statistics
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from calc.calculators import CALCULATORS
from tools.bench import report
from tools.bench.chromium import Browser, Chromium, ChromiumTab, IdleChromium, TimedOut, wait
from tools.bench.edits import edits
from tools.bench.host import BASELINES, Host, Line
from tools.bench.report import SEVEN_TIERS
from tools.bench.seven_tiers import seven_tiers
from tools.build import fences
from tools.build.console import say
from tools.build.paths import DOCS, PYODIDE_VERSION, SITE
from tools.build.stamps import files_under
from tools.runtime import worker_api

PAGE = "techniques/swags/"
TYPED = f"{PAGE}?typed=side=70 cm"
PINT = "plain/plain.html?pint"
PLAIN = "plain/plain.html"
STARTS = {"page": PAGE, "typed": TYPED, "pint": PINT, "bare": PLAIN}
NARROW = Line(10e6, 0.040)
SETTLE = 3.0  # s that a page stays open so that the browser can cache compiled code; the handbook saves nothing unasked before five
SAVED = "(async () => Boolean((await (await caches.open('piping-bench:/:state')).keys()).length))()"
ORDER_PAGE = "plan/whole-cake/"
PARTS = ("starts", "narrow", "answers", "tiers", "sheets")
PAUSE = 25  # ms between an answer and the next edit

ANSWERED = "window.pbBench && (window.pbBench.answered || window.pbBench.failed) ? window.pbBench : null"


class Bench:
    """One run: the host, the browser, and the measurements so far."""

    def __init__(self, asked: argparse.Namespace) -> None:
        self.asked = asked
        self.host = Host(SITE, PAGE)
        self.engine = ""
        self.starts: dict[str, dict[str, list[float]]] = {}
        self.bytes: dict[str, int] = {}
        self.memory: dict[str, list[int]] = {}
        self.narrow: dict[str, list[float]] = {}
        self.answers: dict[str, dict[str, list[float]]] = {}
        self.lengths: dict[str, int] = {}
        self.sheets: dict[str, list[float]] = {}
        self.sheet_times: dict[str, list[float]] = {}
        self.refused: list[str] = []
        self.load: list[float] = []

    def browser(self) -> Browser:
        """A browser with a fresh profile."""
        made = Chromium(os.environ.get("CHROMIUM", "chromium"))
        self.engine = made.name
        return made

    # ---- starts ------------------------------------------------------------------------------------------------------------

    def alone(self) -> IdleChromium:
        """An idle browser with a fresh profile."""
        return IdleChromium(os.environ.get("CHROMIUM", "chromium"))

    def visit(self, browser: IdleChromium, path: str) -> tuple[Any, dict[str, Any]]:
        """Open a page and wait for its first live answer; returns the open tab and the times that the page recorded."""
        tab = browser.open(self.host.address + path, self.host.reported)
        noted = wait(tab, ANSWERED)
        if "failed" in noted:
            raise TimedOut(f"{path}: {noted['failed']}")
        if noted.get("way") == "plain":
            raise TimedOut(f"{path}: the snapshot was not restored: {noted.get('why')}")
        return tab, noted

    def note(self, table: dict[str, list[float]], name: str, value: float) -> None:
        """Add one measurement."""
        table.setdefault(name, []).append(round(value, 1))

    def start(self, name: str) -> None:
        """One cold and one warm visit with a fresh profile; for the handbook's page a third, with everything saved for offline use."""
        browser = self.alone()
        cold, warm, saved = (self.starts.setdefault(state, {}) for state in ("cold", "warm", "saved"))
        try:
            self.host.begin()
            tab, noted = self.visit(browser, STARTS[name])
            self.note(cold, name, noted["answered"])
            self.bytes[name] = self.host.bytes_sent
            time.sleep(SETTLE)
            tab.close()
            tab, noted = self.visit(browser, STARTS[name])
            self.note(warm, name, noted["answered"])
            if name == "page":
                wait(tab, SAVED)
                time.sleep(1.0)
                self.bytes["offline"] = self.host.bytes_sent
                tab.close()
                tab, noted = self.visit(browser, STARTS[name])
                self.note(saved, name, noted["answered"])
            tab.close()
        finally:
            browser.close()

    def note_memory(self, name: str) -> None:
        """Record the memory of a page's worker after one more answer."""
        browser = self.browser()
        try:
            tab = browser.open(self.host.address + STARTS[name])
            wait(tab, ANSWERED)
            if isinstance(tab, ChromiumTab):
                tab.watch_memory()
                tab.ask(ONE_EDIT)
                self.memory.setdefault(name, []).append(sum(tab.memory().values()))
            tab.close()
        finally:
            browser.close()

    def start_narrow(self, name: str) -> None:
        """One cold visit over the narrow line."""
        browser = self.alone()
        self.host.line = NARROW
        try:
            tab, noted = self.visit(browser, STARTS[name])
            self.note(self.narrow, name, noted["answered"])
            if "first-contentful-paint" in noted:
                self.note(self.narrow, f"{name} paint", noted["first-contentful-paint"])
            tab.close()
        finally:
            self.host.line = None
            browser.close()

    # ---- answers -----------------------------------------------------------------------------------------------------------

    def answer(self, browser: Browser, slug: str, page: str, count: int, seed: int) -> None:
        """Edits on a calculator's page, then the same requests natively."""
        self.answer_as(slug, browser, slug, page, count, seed)

    def answer_as(self, name: str, browser: Browser, slug: str, page: str, count: int, seed: int) -> None:
        """`answer`, noted under a name of its own."""
        tab = browser.open(self.host.address + page)
        wait(tab, f"document.querySelector('.pb-calculator[data-calculator=\"{slug}\"]')?.dataset.state === 'ready'")
        if name == SEVEN_TIERS:
            tab.ask(evaluated("fill.js", {"slug": slug, "record": seven_tiers()}))
        texts = tab.ask(FORM.replace("SLUG", slug))
        texts.pop("units", None)
        time.sleep(0.5)
        asked = {"slug": slug, "edits": edits(CALCULATORS[slug], texts, count, seed), "pause": PAUSE}
        made = tab.ask(evaluated("edits.js", asked))
        tab.close()
        times = self.answers.setdefault(name, {"page": [], "picture": [], "worker": [], "native": []})
        for each in made["times"]:
            times["page"].append(round(each["page"], 2))
            times["picture"].append(round(each["picture"], 2))
            times["worker"].append(round(each["worker"], 2))
            request = json.dumps({"calculator": slug, "inputs": each["inputs"], "place": each["place"]})
            start = time.perf_counter()
            text = worker_api.answer(request)
            times["native"].append(round((time.perf_counter() - start) * 1000, 2))
            self.lengths[name] = max(self.lengths.get(name, 0), len(text))
        self.refused += [f"{name}: {field} = {text}: {why}" for field, text, why in made["refused"]]

    def seven(self, number: int) -> None:
        """Edits of an order of seven tiers of full rows, on the page of the whole cake."""
        browser = self.browser()
        try:
            self.answer_as(SEVEN_TIERS, browser, "order", ORDER_PAGE, self.asked.edits, seed=100 * number + 7)
        finally:
            browser.close()

    # ---- sheets ------------------------------------------------------------------------------------------------------------

    def draw_sheets(self, number: int) -> None:
        """All sheets of two orders of seven tiers, the first in a new worker; then natively."""
        browser = self.browser()
        try:
            tab = browser.open(self.host.address + ORDER_PAGE)
            wait(tab, "document.querySelector('.pb-calculator')?.dataset.state === 'ready'")
            time.sleep(0.5)
            for at, kind in enumerate(("first", "next")):
                asked = {"slug": "order", "inputs": {"order": seven_tiers(8 + 2 * number + at)}, "paper": "A4"}
                made = tab.ask(evaluated("sheets.js", asked))
                if made["failed"]:
                    raise TimedOut(f"sheets: {made['failed'][0]}")
                self.note(self.sheets, kind, sum(each for _, each, _ in made["times"]))
                for name, each, _ in made["times"]:
                    self.note(self.sheet_times, f"{kind} {name}", each)
                start = time.perf_counter()
                for name, _, size in made["times"]:
                    drawn = worker_api.sheet(json.dumps({"calculator": "order", "inputs": asked["inputs"], "name": name, "paper": "A4"}))
                    if abs(len(drawn) - size) > size / 10:
                        raise TimedOut(f"sheets: {name} differs from the native one")
                if at:
                    self.note(self.sheets, "native", (time.perf_counter() - start) * 1000)
            self.lengths["sheets"] = len(made["times"])
            tab.close()
        finally:
            browser.close()

    # ---- the run -----------------------------------------------------------------------------------------------------------

    def run(self) -> None:
        """Measure everything, round by round."""
        wanted = self.asked.only or PARTS
        for number in range(self.asked.rounds):
            say(f"-- round {number + 1} of {self.asked.rounds}")
            self.load.append(os.getloadavg()[0] if hasattr(os, "getloadavg") else 0.0)
            names = list(STARTS)
            turned = names[number % len(names) :] + names[: number % len(names)]
            if "starts" in wanted:
                for name in turned:
                    self.tried(partial(self.start, name))
                    self.tried(partial(self.note_memory, name))
                say("   " + ", ".join(f"{state} {name} {times[-1]:.0f}" for state, by in self.starts.items() for name, times in by.items()))
            if "narrow" in wanted:
                for name in turned:
                    self.tried(partial(self.start_narrow, name))
                say("   narrow line: " + ", ".join(f"{name} {times[-1]:.0f}" for name, times in self.narrow.items()))
            if "answers" in wanted:
                self.tried(partial(self.all_answers, number))
            if "tiers" in wanted:
                self.tried(partial(self.seven, number))
            if "sheets" in wanted:
                self.tried(partial(self.draw_sheets, number))
                say("   sheets: " + ", ".join(f"{kind} {times[-1]:.0f}" for kind, times in self.sheets.items()))

    def all_answers(self, number: int) -> None:
        """Every calculator in one browser."""
        browser = self.browser()
        try:
            for slug, page in calculator_pages().items():
                if self.asked.calculators and slug not in self.asked.calculators:
                    continue
                count = self.asked.edits * (3 if slug == "order" else 1)
                self.answer(browser, slug, page, count, seed=100 * number + len(slug))
        finally:
            browser.close()

    def tried(self, act: Callable[[], None]) -> None:
        """Run one measurement; one that times out is reported and left out."""
        try:
            act()
        except TimedOut as slow:
            say(f"   left out: {slow}")

    def results(self) -> dict[str, Any]:
        """All measurements, as stored in speed.json."""
        return {
            "engine": self.engine,
            "pyodide": PYODIDE_VERSION,
            "processors": os.cpu_count(),
            "load": round(statistics.median(self.load), 1),
            "rounds": self.asked.rounds,
            "starts_ms": self.starts,
            "narrow_ms": self.narrow,
            "bytes": self.bytes,
            "memory_bytes": self.memory,
            "answers_ms": report.summary(self.answers),
            "sheets_ms": self.sheets,
            "characters": self.lengths,
        }


ONE_EDIT = """new Promise((done) => {
  const field = document.querySelector('.pb-calculator [data-name="side"]');
  if (!field) return done();
  document.addEventListener("pb-answer", () => done(), { once: true });
  field.value = "71.5 cm";
  field.dispatchEvent(new Event("input", { bubbles: true }));
})"""

FORM = """(() => Object.fromEntries([...document.querySelectorAll(
  '.pb-calculator[data-calculator="SLUG"] .pb-form .pb-field :is(input, select, textarea)[data-name]')]
  .map((field) => [field.dataset.name, field.type === "checkbox" ? (field.checked ? "yes" : "no") : field.value])))()"""


def evaluated(script: str, asked: dict[str, Any]) -> str:
    """An expression that calls the function of one of the bench's scripts."""
    _, begin, rest = (BASELINES / script).read_text(encoding="utf-8").partition("async ")
    return f"({begin}{rest.rstrip().rstrip(';')})({json.dumps(asked)})"


def calculator_pages() -> dict[str, str]:
    """The address of the first page with each calculator."""
    found: dict[str, str] = {}
    pages = [path for path in files_under(DOCS) if path.suffix == ".md"]
    for page, fence in fences.calculators_in(pages):
        name = page.relative_to(DOCS).with_suffix("").as_posix()
        found.setdefault(fence.name, f"{name.removesuffix('index')}".rstrip("/") + "/")
    return found


def main() -> int:
    """Measure, print, and write the page."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--rounds", type=int, help="how often each thing is measured; 5 by default")
    parser.add_argument("--quick", action="store_true", help="one round with few edits; the page is not written")
    parser.add_argument("--edits", type=int, help="edits of each calculator in a round; 20 by default, three times as many of the whole order")
    parser.add_argument("--only", nargs="+", choices=PARTS, help="measure part of it; the page is not written")
    parser.add_argument("--calculators", nargs="+", metavar="NAME", help="only these in `answers`; the page is not written")
    parser.add_argument("--page", action="store_true", help="measure nothing: write the page again from docs/about/speed.json")
    parser.add_argument("--results", type=Path, metavar="FILE", help="write the measurements here too, as JSON")
    asked = parser.parse_args()
    if asked.page:
        report.write(json.loads(report.DATA.read_text(encoding="utf-8")))
        return 0
    asked.rounds = asked.rounds or (1 if asked.quick else 5)
    asked.edits = asked.edits or (6 if asked.quick else 20)
    bench = Bench(asked)
    try:
        bench.run()
    finally:
        bench.host.close()
    results = bench.results()
    if asked.results:
        asked.results.write_text(json.dumps(results, indent=1))
    say(report.printed(results))
    slow = sorted(bench.sheet_times.items(), key=lambda item: -statistics.median(item[1]))[:8]
    for name, times in slow:
        say(f"   sheet {name}: {statistics.median(times):.0f} ms")
    for line in sorted(set(bench.refused))[:20]:
        say(f"   not counted: {line}")
    if not (asked.quick or asked.only or asked.calculators):
        report.write(results)
        say("-- docs/about/speed.md and speed.json are written")
    return 0


if __name__ == "__main__":
    sys.exit(main())
