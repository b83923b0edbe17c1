"""An attack on the handbook as it is built: bombs, mangled orders, hosts that misbehave, storage that fills, tabs that compete.

Each trial is a few lines that say what must hold; a seed begins the random ones, so that a finding can be had again. It is bounded: the whole
takes minutes, and `--seconds` says for how long the random part goes on. What it finds is a test of its own before it is mended.
"""

from __future__ import annotations

import argparse
import base64
import json
import os
import random
import re
import resource
import string
import subprocess
import sys
import tempfile
import time
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from tools.build.console import say
from tools.build.paths import ROOT, SITE
from tools.check import browser, engines

MEMORY = 1_500_000_000  # bytes that Python may take natively; a bomb wants more
ORDER = ROOT / "docs" / "plan" / "harvest-supper.toml"
FIRST = "document.querySelector('.pb-calculator')"
READY = f"{FIRST}?.dataset.state === 'ready'"
CALM = f"{READY} && !{FIRST}.hasAttribute('data-unanswered')"
HOW_IT_STANDS = f"({{ ...{FIRST}.dataset, build: '', said: {FIRST}.querySelector('.pb-failure, .pb-wait')?.textContent, thrown: window.thrown }})"
SIDE = "document.querySelector('[data-name=side]')"
OFFLINE = "document.querySelector('.pb-offline')"
WATCH = "window.thrown = []; addEventListener('error', (event) => thrown.push(String(event.message)));"
WATCH += " addEventListener('unhandledrejection', (event) => thrown.push(String(event.reason)));"

Trial = Callable[["Attack"], None]
TRIALS: dict[str, Trial] = {}


def trial(run: Trial) -> Trial:
    """Enter a trial under its name."""
    TRIALS[run.__name__] = run
    return run


class Attack:
    """What the trials share: a seed, an end, and a browser once one is asked for."""

    def __init__(self, seed: int, seconds: float, site: Path, name: str = "chromium") -> None:
        self.random = random.Random(seed)
        self.until = time.monotonic() + seconds
        self.site = site
        self.name = name  # of the browser

    @contextmanager
    def browser(self) -> Iterator[Any]:
        """A Chromium with nothing kept in it."""
        from playwright.sync_api import sync_playwright

        program = os.environ.get("CHROMIUM") or browser.find()
        with sync_playwright() as playwright:
            running = playwright.chromium.launch(executable_path=program, args=["--no-sandbox", "--disable-gpu"])
            try:
                yield running
            finally:
                running.close()

    @contextmanager
    def engine(self) -> Iterator[Any]:
        """The browser that was asked for, with nothing kept in it, as tests/browser/drivers.py speaks to it."""
        from tests.browser import drivers

        if self.name == "firefox":
            program = engines.firefox()
            if not program:
                raise AssertionError("Firefox is not here (Debian: firefox-esr)")
            with drivers.running(drivers.Firefox(str(program))) as found:
                yield found
        else:
            with self.browser() as chromium:
                yield drivers.Chromium(chromium.new_context().new_page())


def wait_for_calm(engine: Any, seconds: float = 120) -> None:
    """Wait until the calculator has answered what stands in its form; says how it stands where it does not."""
    try:
        engine.until(CALM, seconds)
    except AssertionError as error:
        raise AssertionError(f"{error}; {engine.ask(HOW_IT_STANDS)}") from error


def mangled(text: str, chance: random.Random) -> str:
    """A text with a few pieces cut, doubled, swapped or replaced."""
    for _ in range(chance.randint(1, 8)):
        at, to = sorted((chance.randrange(len(text) + 1), chance.randrange(len(text) + 1)))
        to = min(to, at + chance.choice((1, 5, 40)))
        repeated = chance.choice(string.printable) * 9
        cut, doubled = "", text[at:to] * 2
        piece = chance.choice((cut, doubled, repeated, "[[tiers]]\n", '"', "\x00", "\ufeff", "= 0x" + "f" * 50, "." * 9))
        text = text[:at] + piece + text[to:]
    return text[:200_000]


# ---- natively ---------------------------------------------------------------------------------------------------------------

BOMBS = [
    "a." * 29_000 + "a = 1", '"' + "a." * 20_000 + '" = 1', "x = " + "[" * 30_000, "x = " + "{x = " * 10_000, "a" * 50_000 + " = 1",
    "\n".join(f"k{i} = 1" for i in range(6000)), "guests = 0x" + "f" * 5000, "guests = " + "9" * 5000, "x = '" + "y" * 3_000_000 + "'",
]  # fmt: skip


@trial
def bombs(attack: Attack) -> None:
    """An order that is only there to be large is a problem, within little memory."""
    for bomb in BOMBS:
        with tempfile.NamedTemporaryFile("w", suffix=".toml", encoding="utf-8") as file:
            file.write(bomb)
            file.flush()
            limit = lambda: resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))  # noqa: E731
            command = [sys.executable, "-m", "calc", "order", f"order=@{file.name}"]
            done = subprocess.run(command, cwd=ROOT, capture_output=True, timeout=60, check=False, preexec_fn=limit)
        assert done.returncode == 2 and not done.stderr, f"{bomb[:40]}: {done.stderr[-300:]!r}"
        assert json.loads(done.stdout)["problems"][0]["input"] == "order"


@trial
def mangled_orders(attack: Attack) -> None:
    """A mangled order is an answer or problems, never an exception."""
    import calc

    whole, tried = ORDER.read_text(encoding="utf-8"), 0
    while time.monotonic() < attack.until or tried < 20:
        text = mangled(whole, attack.random)
        try:
            json.loads(calc.compute("order", {"order": text}).to_json())
        except Exception as error:
            raise AssertionError(f"{type(error).__name__}: {error}; of the order {text!r}") from error
        tried += 1
    say(f"   {tried} orders")


# ---- in the browser -----------------------------------------------------------------------------------------------------------


@trial
def hosts_that_misbehave(attack: Attack) -> None:
    """Where a copy is saved, whatever the host answers, the page is the handbook's and works."""
    from tests.browser.hosts import host

    with attack.engine() as engine, host(attack.site) as made:
        engine.open(made.address + "about/")
        engine.until(f"['unsaved', 'saving', 'saved'].includes({OFFLINE}.dataset.state)")
        engine.ask(f"{OFFLINE}.querySelector('[data-act=save]')?.click()")  # else it saves itself by now
        engine.until(f"{OFFLINE}.dataset.state === 'saved'", 240)
        everything = re.compile("")
        for status in (403, 404, 410, 418, 500, 503):
            made.answers = {everything: status}
            engine.open(made.address + attack.random.choice(("techniques/coats/", "techniques/swags/")))
            engine.until(READY)
        made.answers, made.strange = {}, everything
        engine.open(made.address + "techniques/coats/")
        engine.until(READY)
        made.strange, made.stuck = None, everything
        engine.open(made.address + "techniques/swags/")
        engine.until(READY)
        made.let_go()


def packed_bombs() -> Iterator[str]:
    """Links of a few kilobytes that are very large once unpacked, or deep, or no order; and one that is cut short."""
    for text in (*BOMBS, "a." * 20_000_000, "[" * 50_000_000, "\x00" * 100_000_000, ORDER.read_text(encoding="utf-8") * 500):
        packed = zlib.compressobj(9, zlib.DEFLATED, -15)
        data = base64.urlsafe_b64encode(packed.compress(text.encode()) + packed.flush()).decode().rstrip("=")
        yield f"#order:order={data}"
        yield f"#order:order={data[: len(data) // 2]}"


@trial
def links(attack: Attack) -> None:
    """A link of any letters, and one with a bomb packed into it, leaves a page that works, its order as it was, and the tab alive."""
    from tests.browser.hosts import host

    hashes = ["#" + "a." * 3000 + "=1", "#swags=" + "%" * 500, "#swags=side=" + "9" * 5000, "#order=" + "A" * 100_000]
    hashes += ["#swags:side=<img src=x onerror=alert(1)>", *("#" + "".join(attack.random.choices(string.printable, k=200)) for _ in range(5))]
    with attack.engine() as engine, host(attack.site) as made:
        for path, more in (("techniques/swags/", []), ("plan/whole-cake/", list(packed_bombs()))):
            engine.open(made.address + path)
            engine.ask(f"(() => {{ {WATCH} }})()")
            engine.until(READY)
            name = "guests" if more else "side"
            engine.ask(
                f"((field) => {{ field.value = '31'; field.dispatchEvent(new Event('input', {{ bubbles: true }})) }})"
                f"(document.querySelector('[data-name={name}]'))"
            )
            for each in more:
                engine.ask(f"(() => {{ document.querySelector('.pb-tools > .pb-status').textContent = ''; location.hash = {json.dumps(each)} }})()")
                said = engine.until("document.querySelector('.pb-tools > .pb-status').textContent.match(/not (whole|opened)/)", 120)
                assert said, each[:60]
                assert engine.ask("document.querySelector('[data-name=guests]').value") == "31", each[:60]
            for each in hashes:
                engine.ask(f"(() => {{ location.hash = {json.dumps(each)} }})()")
            wait_for_calm(engine)
            thrown = engine.ask("thrown")
            assert not thrown, thrown[:3]


@trial
def storage_that_fills(attack: Attack) -> None:
    """With no room left the calculators go on, and what is typed stands in the form."""
    from tests.browser.hosts import host

    with attack.engine() as engine, host(attack.site) as made:
        engine.open(made.address + "techniques/swags/")
        engine.until(READY)
        engine.ask("(() => { try { for (let i = 0; ; i += 1) localStorage.setItem(`full ${i}`, 'x'.repeat(100_000)); } catch {} })()")
        engine.ask("(() => { IDBObjectStore.prototype.put = () => { throw new DOMException('no room', 'QuotaExceededError') } })()")
        engine.type("[data-name=side]", "71 cm")
        wait_for_calm(engine)
        engine.until("document.querySelector('.pb-trouble')?.textContent.includes('no room')")
        assert engine.ask(f"{SIDE}.value") == "71 cm"


@trial
def tabs_that_compete(attack: Attack) -> None:
    """Two tabs of a page typed in at random both answer, say the same in the end, and neither throws."""
    from tests.browser.hosts import host

    with attack.engine() as engine, host(attack.site) as made, engine.tab() as other:
        tabs = [engine, other]
        for each in tabs:
            each.open(made.address + "techniques/swags/")
            each.ask(f"(() => {{ {WATCH} }})()")
            each.until(READY)
            if each is engine:  # what is only the example would be another's in each tab
                each.type("[data-name=side]", "299 mm")
                each.until(f"!Object.keys(localStorage).some((key) => key.includes('journal:')) && {CALM}")
        for _ in range(30):
            text = json.dumps(f"{attack.random.randint(300, 1500)} mm")
            attack.random.choice(tabs).ask(f"(() => {{ {SIDE}.value = {text}; {SIDE}.dispatchEvent(new Event('input', {{ bubbles: true }})) }})()")
        for each in tabs:
            wait_for_calm(each)
        for _ in range(300):
            said = [each.ask(f"{SIDE}.value") for each in tabs]
            if said[0] == said[1]:
                break
            time.sleep(0.1)
        assert said[0] == said[1], said
        for each in tabs:
            thrown = each.ask("thrown")
            assert not thrown, thrown[:3]


def main() -> int:
    """Run the trials; 1 where one did not hold."""
    parser = argparse.ArgumentParser(prog="handbook.py check attack", description=__doc__)
    parser.add_argument("--only", nargs="+", choices=sorted(TRIALS), help="these trials; all unless told")
    parser.add_argument("--browser", choices=("chromium", "firefox"), default="chromium", help="for the trials that need one; chromium unless told")
    parser.add_argument("--seed", type=int, default=None, help="begins what is random; another each time unless told")
    parser.add_argument("--seconds", type=float, default=60, help="how long mangled orders go on; 60 unless told")
    asked = parser.parse_args()
    seed = asked.seed if asked.seed is not None else random.SystemRandom().randrange(10**6)
    say(f"seed {seed}")
    failed = []
    for name in asked.only or TRIALS:
        begun = time.monotonic()
        try:
            TRIALS[name](Attack(seed, asked.seconds, SITE, asked.browser))
        except Exception as error:
            failed.append(name)
            say(f"-- {name}: DID NOT HOLD ({time.monotonic() - begun:.0f} s)\n   {type(error).__name__}: {str(error)[:2000]}")
        else:
            say(f"-- {name}: held ({time.monotonic() - begun:.0f} s)")
    if failed:
        say(f"Did not hold: {', '.join(failed)}. The same again: --browser {asked.browser} --seed {seed} --only {' '.join(failed)}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
