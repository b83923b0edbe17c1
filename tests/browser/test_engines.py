"""The same few things in three engines: a page loads, computes, says what is to be put right, draws a sheet, restores the snapshot, is shut
to strangers and works when the server is gone. Chromium has all the other tests of this folder beside these."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.browser.drivers import Engine, Firefox, WebKit, running
from tests.browser.helpers import CHANGES
from tests.browser.hosts import Host, host
from tests.conftest import lacking
from tools.check import engines as places

SWAGS = "techniques/swags/"
COATS = "techniques/coats/"
FIRST = 'document.querySelector(".pb-calculator")'
OFFLINE = 'document.querySelector(".pb-offline")'
LENGTH = '(document.querySelector(".pb-figure[data-figure=length_total] dd") || {}).textContent'
SETTLED = f'{FIRST}.dataset.state === "ready" && !document.querySelector(".pb-answer").hasAttribute("data-stale")'


def started(name: str) -> Engine:
    """A fresh engine, or a word that it is not here."""
    if name == "firefox":
        program = places.firefox()
        if not program:
            lacking("Firefox is not here (Debian: firefox-esr)")
        return Firefox(str(program))
    found = places.webkit()
    if not found:
        lacking("WebKit is not here (Debian: webkit2gtk-driver and xvfb)")
        raise AssertionError
    return WebKit(*found)


@pytest.fixture(scope="module", params=["firefox", "webkit"])
def engine(request: pytest.FixtureRequest) -> Iterator[Engine]:
    """Each engine in turn, one run of it for all tests of this module."""
    with running(started(request.param)) as made:
        yield made


@pytest.fixture
def here(site: Path) -> Iterator[Host]:
    """A host of its own for each test, so that nothing kept is carried over."""
    with host(site) as made:
        yield made


def ready(engine: Engine, address: str = "") -> dict[str, Any]:
    """Wait until the first calculator is alive, on the page of that address where one is given; gives what it says of itself."""
    is_here = f"location.href.startsWith({json.dumps(address)})"  # looked at in the same breath: no page before can answer
    told: dict[str, Any] = engine.until(f'{is_here} && {FIRST} && {FIRST}.dataset.state === "ready" && ({{ ...{FIRST}.dataset }})')
    return told


def save(engine: Engine) -> None:
    """Save for offline use, by its button unless the page has begun by itself, and wait until it is done."""
    engine.until(f'["unsaved", "saving", "saved"].includes({OFFLINE}.dataset.state)')
    engine.ask(f"""{OFFLINE}.querySelector('.pb-offline-panel button[data-act="save"]')?.click()""")
    state = engine.until(f'["saved", "failed", "impossible"].includes({OFFLINE}.dataset.state) && {OFFLINE}.dataset.state', 180)
    assert state == "saved", engine.ask(f'{OFFLINE}.querySelector(".pb-offline-text").textContent')


def sheet(engine: Engine) -> str:
    """Have the first sheet of the page drawn; gives how the file begins that would be handed to the reader."""
    engine.ask(
        """(() => {
            window.made = [];
            const old = URL.createObjectURL;
            URL.createObjectURL = (blob) => { window.made.push(blob); return old.call(URL, blob); };
            HTMLAnchorElement.prototype.click = () => {};
        })()"""
    )
    engine.press("button.pb-sheet")
    assert engine.until("window.made.length && window.made[0].size") > 2000
    begins: str = engine.ask("window.made[0].slice(0, 5).text()")
    return begins


def test_it_computes_from_the_restored_snapshot(engine: Engine, here: Host) -> None:
    engine.open(here.address + SWAGS)
    told = ready(engine)
    assert told["way"] == "snapshot", told.get("why")
    built = engine.ask(LENGTH)
    engine.type('[data-name="side"]', "58 cm")
    engine.until(f"{SETTLED} && {LENGTH} !== {built!r}")
    shown = engine.ask(LENGTH)
    engine.type('[data-name="side"]', "580 mm")
    engine.until(SETTLED)
    assert engine.ask(LENGTH) == shown


def test_it_says_what_is_to_be_put_right(engine: Engine, here: Host) -> None:
    engine.open(here.address + SWAGS)
    ready(engine)
    engine.type('[data-name="side"]', "abc")
    message = engine.until("""document.querySelector('.pb-field[data-input="side"] > .pb-problem').textContent""")
    assert message.startswith("Round the side")
    assert engine.ask("""document.querySelector('[data-name="side"]').value""") == "abc"
    engine.type('[data-name="side"]', "58 cm")
    engine.until("""!document.querySelector('.pb-field[data-input="side"] > .pb-problem').textContent""")


def test_it_draws_a_sheet(engine: Engine, here: Host) -> None:
    engine.open(here.address + "plan/whole-cake/")
    ready(engine)
    assert sheet(engine) == "%PDF-"


def test_nothing_is_refused_by_the_policy(engine: Engine, here: Host) -> None:
    """A page with a calculator and a change of page break no rule; a script written into the page does, and does not run."""
    for _ in range(5):  # the theme asks for the list of pages, and reloads each page until it has read it
        engine.open(here.address + SWAGS)
        engine.ask(
            "document.addEventListener('securitypolicyviolation', e => (window.refused ??= []).push(e.violatedDirective + ' ' + e.blockedURI))"
        )
        engine.ask("window.same = true")
        ready(engine)
        engine.until(CHANGES)
        engine.ask(f"{FIRST}.classList.add('left-behind')")  # the address changes before the page does
        engine.press('.md-sidebar--primary a[href$="ruched-swag/"]')
        engine.until("location.pathname.endsWith('ruched-swag/') && !document.querySelector('.left-behind')")
        ready(engine)
        if engine.ask("Boolean(window.same)"):
            break
    assert engine.ask("window.same"), "the page was reloaded"
    assert engine.ask("window.refused") is None
    engine.ask(
        """(() => {
            const script = document.createElement("script");
            script.textContent = "window.ran = true";
            document.body.append(script);
            const holder = document.createElement("div");
            holder.innerHTML = '<img src="data:," onerror="window.ran = true">';
            document.body.append(holder);
        })()"""
    )
    engine.until("window.refused && window.refused.length >= 2")
    assert engine.ask("window.ran") is None


def test_what_is_saved_works_when_the_host_refuses_and_when_it_is_gone(engine: Engine, here: Host) -> None:
    engine.open(here.address + SWAGS)
    ready(engine)
    save(engine)
    here.answers[re.compile("")] = 403
    engine.open(here.address + COATS)
    assert ready(engine, here.address + COATS)["way"] == "snapshot"
    engine.until(f"""{OFFLINE}.querySelector(".pb-offline-text").textContent.includes("it answered 403")""")
    here.stop()
    if isinstance(engine, Firefox):  # the other engine keeps nothing over a restart when it is driven
        engine.restart()
    engine.open(here.address + COATS)
    assert ready(engine, here.address + COATS)["way"] == "snapshot"
    engine.until(f'{OFFLINE}.dataset.state === "saved"')
    engine.open(here.address + "look-up/")
    engine.until("document.querySelector('h1')?.textContent")
    engine.open(here.address + SWAGS)
    ready(engine, here.address + SWAGS)
    built = engine.ask(LENGTH)
    engine.type('[data-name="side"]', "71 cm")
    engine.until(f"{LENGTH} !== {built!r}")
    engine.open(here.address + "plan/whole-cake/")
    ready(engine, here.address + "plan/whole-cake/")
    assert sheet(engine) == "%PDF-"


def test_a_wasm_of_the_wrong_type(engine: Engine, here: Host) -> None:
    here.types[".wasm"] = "application/octet-stream"
    engine.open(here.address + COATS)
    assert ready(engine)["way"] == "snapshot"


@pytest.mark.parametrize("name", ["firefox", "webkit"])
def test_without_a_snapshot_it_starts_plainly(name: str, site: Path) -> None:
    """An engine of its own, with nothing in any cache, and a host that has said of its snapshot that it is not there."""
    with running(started(name)) as engine, host(site) as made:
        made.missing = re.compile(r"snapshot-")
        engine.open(made.address + COATS)
        told = ready(engine, made.address + COATS)
        refused = [path for path in made.asked if "snapshot-" in path]
        assert refused and told["way"] == "plain", (engine.ask("location.href"), made.asked)


def test_firefox_in_a_private_window(site: Path) -> None:
    """A private window of a real browser: the page works, and the control says how it stands with keeping."""
    program = places.firefox()
    if not program:
        lacking("Firefox is not here (Debian: firefox-esr)")
    with running(Firefox(str(program), {"browser.privatebrowsing.autostart": True})) as engine, host(site) as made:
        engine.open(made.address + COATS)
        ready(engine)
        state = engine.until(f'!["checking"].includes({OFFLINE}.dataset.state) && {OFFLINE}.dataset.state')
        assert state in ("unsaved", "saving", "saved", "impossible")
        if state == "impossible":
            assert "private" in engine.ask(f'{OFFLINE}.querySelector(".pb-offline-text").textContent')
        else:
            final = engine.until(f'["saved", "failed", "impossible"].includes({OFFLINE}.dataset.state) && {OFFLINE}.dataset.state', 120)
            assert final == "saved" or "private" in engine.ask(f'{OFFLINE}.querySelector(".pb-offline-text").textContent')
