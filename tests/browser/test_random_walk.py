"""A long hostile use of the whole cake in two tabs: edits, rows and tiers, undos, redos, reloads, closed tabs, links, files.

After each step the form is what a model says. At the end each order that was ever begun is stored with all its steps, as the model has them.
`PIPING_BENCH_WALK` says how many steps, `PIPING_BENCH_SEED` begins the random ones.
"""

from __future__ import annotations

import os
import random
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import quote

from playwright.sync_api import Page

from tests.browser.helpers import Bench, wait_for_promise
from tests.browser.test_store import STORED

PAGE = "plan/whole-cake/"
STEPS = int(os.environ.get("PIPING_BENCH_WALK", "300"))
SEED = int(os.environ.get("PIPING_BENCH_SEED", "1"))
LOG = os.environ.get("PIPING_BENCH_WALK_LOG", "")
MOST_STEPS = 400  # that are kept with an order
MOST_FIELDS = 330  # a longer form loses a tier or a row before it gets another

Values = dict[str, str]

READ = """async () => {
    const { readForm } = await import(document.querySelector("script[src$='/handbook.js']").src);
    return readForm(document.querySelector(".pb-form"));
}"""
# Steps one after another, as quickly as scripts can, some after a rest; gives what stands in the form after each. It ends where a button is shut.
BURST = """async (steps) => {
    const { readForm } = await import(document.querySelector("script[src$='/handbook.js']").src);
    const form = document.querySelector(".pb-form");
    const button = ({ kind, group, index, direction }) => {
        const items = form.querySelector(`.pb-items[data-input="${group}"]`);
        if (kind === "add") return items.querySelector(":scope > .pb-add");
        const copy = [...items.querySelectorAll(":scope > .pb-copies > .pb-group")][index];
        return copy.querySelector(`:scope > .pb-group-tools > .pb-${kind}${direction ? `[data-direction=${direction}]` : ""}`);
    };
    const found = [];
    let line = null; // what the last removal has left in its place
    for (const step of steps) {
        if (step.rests) await new Promise((done) => setTimeout(done));
        if (step.kind === "type") {
            const control = form.querySelector(`[data-name="${step.name}"]`);
            if (!control) break;
            // so that each is a visit of its own, and a step; a true change of focus takes ten times as long
            for (const visited of [form.querySelector(".pb-undo"), control]) visited.dispatchEvent(new FocusEvent("focusin", { bubbles: true }));
            control.value = step.text;
            control.dispatchEvent(new Event("input", { bubbles: true }));
        } else if (step.kind === "undo" || step.kind === "redo") {
            form.querySelector(`.pb-${step.kind}`).click();
        } else if (step.kind === "put back") {
            line.querySelector(".pb-put-back").click();
        } else {
            const pressed = button(step);
            if (!pressed || pressed.disabled) break;
            const before = new Set(form.querySelectorAll(".pb-removed"));
            pressed.click();
            line = [...form.querySelectorAll(".pb-removed")].find((each) => !before.has(each));
        }
        found.push(readForm(form));
    }
    return found;
}"""
CHOICES = """() => Object.fromEntries([...document.querySelectorAll(".pb-form [data-name]")].map((control) => [control.dataset.name,
    control.matches("select") ? [...control.options].map((option) => option.value) : control.matches("input[type=text], textarea") ? null : []]))"""
SAME = f"async (wanted) => JSON.stringify(Object.entries(await ({READ})()).sort()) === JSON.stringify(Object.entries(wanted).sort())"
# What a file of the order holds: units are written out, whoever opens it may have others.
SPELLED = """async () => {
    const { controls, nameOf, readForm, spelledValue } = await import(document.querySelector("script[src$='/handbook.js']").src);
    const form = document.querySelector(".pb-form");
    const values = readForm(form);
    for (const control of controls(form)) if (control.type === "text") values[nameOf(control)] = spelledValue(control, "metric");
    return values;
}"""
CLICK = "selector => document.querySelector(`.pb-calculator ${selector}`).click()"
BROUGHT = ("place", "tip", "drop", "below", "layers")  # what changes with the kind of a row, where it does not suit the new one
FOLLOWING = """() => [...document.querySelectorAll(".pb-items[data-kitchen], .pb-field[data-kitchen]")]
    .filter(place => !place.parentElement.closest(".pb-items"))
    .flatMap(place => [...place.querySelectorAll("[data-name]")].map(field => field.dataset.name))"""
SHOWN = "() => sessionStorage.getItem('piping-bench:open:order')"
# Without workers a page has no calculators, but it keeps all the same; most of a long walk goes on so, since a browser can take the more steps.
ALONE = "if (sessionStorage.getItem('alone')) delete window.Worker"
WRITTEN = "() => !Object.keys(localStorage).some((key) => key.includes('journal:'))"


class Order:
    """One order as the model has it: every state that undo and redo lead to."""

    def __init__(self, values: Values, is_kept: bool = True) -> None:
        self.states = [values]
        self.at = 0
        self.is_kept = is_kept  # the page's example is not, before its first change

    @property
    def now(self) -> Values:
        return self.states[self.at]

    def copy(self) -> Order:
        """The same once more."""
        other = Order(self.now)
        other.states, other.at = list(self.states), self.at
        return other

    def edit(self, after: Values) -> None:
        """A change: what was undone is gone."""
        if after == self.now:
            return
        self.is_kept = True
        self.states[self.at + 1 :] = [after]
        del self.states[: -MOST_STEPS - 1]
        self.at = len(self.states) - 1

    def move(self, by: int) -> None:
        """Undo or redo, where there is something to."""
        self.at = max(0, min(len(self.states) - 1, self.at + by))


@dataclass
class Tab:
    """A tab and the order that it shows."""

    page: Page
    order: Order
    is_alone: bool = False  # without calculators


def without(values: Values, group: str, gone: int) -> Values:
    """The order without one of a group: those after it move up."""
    return renumbered(values, group, lambda index: None if index == gone else index - (index > gone))


def swapped(values: Values, group: str, one: int, other: int) -> Values:
    """The order with two of a group in each other's place."""
    return renumbered(values, group, lambda index: {one: other, other: one}.get(index, index))


def renumbered(values: Values, group: str, place: Any) -> Values:
    """The order with each of a group at the place that a function gives it."""
    after = {}
    for name, text in values.items():
        if name.startswith(f"{group}."):
            index, _, rest = name.removeprefix(f"{group}.").partition(".")
            at = place(int(index))
            if at is None:
                continue
            name = f"{group}.{at}.{rest}"
        after[name] = text
    return after


def differing(found: Values, wanted: Values) -> str:
    """What two orders do not agree upon, as a message."""
    names = [name for name in sorted({*found, *wanted}) if found.get(name) != wanted.get(name)]
    return f"{len(names)} differ: " + ", ".join(f"{name} is {found.get(name)!r}, not {wanted.get(name)!r}" for name in names[:6])


class Walk:
    """Two tabs, the orders that were begun in them, and a chance that decides what is done next."""

    def __init__(self, bench: Bench, folder: Path) -> None:
        self.chance = random.Random(SEED)
        self.bench = bench
        self.folder = folder
        self.files: list[tuple[Path, Values]] = []
        self.orders: dict[str, Order] = {}
        bench.page.add_init_script(ALONE)
        bench.rehearse_all()
        bench.open(PAGE, "order")
        self.example: Values = bench.page.evaluate(READ)
        self.tabs = [Tab(bench.page, self.shown(bench.page)), self.opened()]
        self.last = self.tabs[0]
        self.number = 0
        self.what = ""
        self.removed_from: Values = {}

    # ---- what the model is held against ---------------------------------------------------------------------------------------

    def shown(self, page: Page) -> Order:
        """The order that a tab shows; one that nobody knew is the example, just begun."""
        return self.orders.setdefault(str(page.evaluate(SHOWN)), Order(dict(self.example), is_kept=False))

    def opened(self) -> Tab:
        """Another tab, without calculators."""
        page = self.bench.page.context.new_page()
        page.add_init_script("delete window.Worker")
        page.on("pageerror", lambda error: self.bench.errors.append(str(error)))
        page.goto(self.bench.address + PAGE)
        page.wait_for_function(f"() => ({SHOWN})()")
        return Tab(page, self.shown(page), is_alone=True)

    def same(self, tab: Tab) -> None:
        """Wait until the form says what the model says."""
        try:
            wait_for_promise(tab.page, SAME, tab.order.now)
        except AssertionError as error:
            raise AssertionError(f"{self.what}: {differing(tab.page.evaluate(READ), tab.order.now)}") from error

    def follow_name(self, tab: Tab) -> None:
        """What was never changed is not kept, so that it has another name after a reload."""
        shown = str(tab.page.evaluate(SHOWN))
        if shown not in self.orders and not tab.order.is_kept:
            self.orders = {name: order for name, order in self.orders.items() if order is not tab.order}
            self.orders[shown] = tab.order

    def arrive(self, tab: Tab, values: Values) -> None:
        """Wait until a tab shows these values, and see which order that is: a new one, or one that says the same already."""
        tab.order = Order(values)
        self.same(tab)
        tab.order = self.orders.setdefault(str(tab.page.evaluate(SHOWN)), tab.order)
        assert tab.order.now == values, f"{self.what}: the order that came in has taken the place of another"
        tab.order.is_kept = True

    def hand_over(self, tab: Tab) -> None:
        """Before one tab goes on with what the other did last: let it have heard of it, which a text shows that stood nowhere before."""
        if tab is not self.last and tab.order is self.last.order:
            self.put(self.last, "name", f"handed over before step {self.number}")
        self.same(tab)
        self.last = tab

    # ---- the steps -----------------------------------------------------------------------------------------------------------

    def put(self, tab: Tab, name: str, text: str) -> None:
        """Type into a field."""
        tab.page.evaluate(BURST, [{"kind": "type", "name": name, "text": text}])
        tab.order.edit({**tab.order.now, name: text})

    def some_text(self, choices: list[str] | None) -> str | None:
        """What a field may be made to say; nothing for one that is ticked."""
        if choices is not None:
            return self.chance.choice(choices) if choices else None
        size = self.chance.randrange(1000)
        return self.chance.choice((f"{size} é<", f"{size} mm", f"{size / 8} in", str(size), "", f"{size}\u202e&amp;'\"\\"))

    def group(self, order: Order) -> tuple[dict[str, Any], Values | None]:
        """A press of a button of a tier, a row or another that there are several of, and what it should make of the order, where that is known."""
        groups: dict[str, set[int]] = {}
        for name in order.now:
            parts = name.split(".")
            for at in range(1, len(parts), 2):
                groups.setdefault(".".join(parts[:at]), set()).add(int(parts[at]))
        kind = "remove" if len(order.now) > MOST_FIELDS else self.chance.choice(("add", "again", "move", "remove"))
        group = self.chance.choice(sorted(groups))
        index = self.chance.randrange(len(groups[group]))
        step = {"kind": kind, "group": group, "index": index, "direction": self.chance.choice(("up", "down")) if kind == "move" else ""}
        if kind == "remove":
            return step, without(order.now, group, index)
        if kind == "move":
            return step, swapped(order.now, group, index, index + (-1 if step["direction"] == "up" else 1))
        return step, None

    def burst(self, tab: Tab) -> int:
        """Many steps at once, each of them compared; gives how many."""
        choices = tab.page.evaluate(CHOICES)
        steps: list[dict[str, Any]] = []
        order = tab.order.copy()  # roughly how it goes on, to know which fields and buttons there are
        for _ in range(self.chance.choice((1, 20, 60, 200))):
            kind = self.chance.choices(("type", "undo", "redo", "group"), (50, 20, 12, 10))[0]
            step: dict[str, Any] = {"kind": kind}
            if kind == "type":
                name = self.chance.choice([each for each in order.now if each in choices])
                text = self.some_text(choices[name])
                if text is None:
                    continue
                step |= {"name": name, "text": text}
                order.edit({**order.now, name: text})
            elif kind == "group":
                before = order.now
                step, after = self.group(order)
                if after is None:
                    steps.append(step)
                    break  # what a new one holds is for the form to say
                order.edit(after)
                if step["kind"] == "remove" and self.chance.random() < 0.3:
                    steps.append(step)
                    step = {"kind": "put back"}
                    order.edit(before)
            else:
                order.move(-1 if kind == "undo" else +1)
            steps.append({**step, "rests": self.chance.random() < 0.2})
        found = tab.page.evaluate(BURST, steps)
        for step, is_so in zip(steps, found, strict=False):
            self.check_step(tab.order, step, is_so)
        return len(found)

    def check_step(self, order: Order, step: dict[str, Any], is_so: Values) -> None:
        """Compare what the form says after a step with what the model makes of it."""
        now, kind = order.now, step["kind"]
        if kind in ("undo", "redo"):
            order.move(-1 if kind == "undo" else +1)
            should_be = order.now
        elif kind == "type":
            should_be = {**now, step["name"]: step["text"]}
            row, _, local = step["name"].rpartition(".")
            if local == "kind" and now[step["name"]] != step["text"]:  # a kind of row brings what suits it, and nothing else changes
                should_be |= {name: is_so[name] for name in (f"{row}.{each}" for each in BROUGHT) if name in now}
        elif kind == "remove":
            self.removed_from = now
            should_be = without(now, step["group"], step["index"])
        elif kind == "put back":
            should_be = self.removed_from
        elif kind == "move":
            should_be = swapped(now, step["group"], step["index"], step["index"] + (-1 if step["direction"] == "up" else 1))
        else:
            should_be = is_so  # what a new one holds is for the form to say
        assert is_so == should_be, f"{self.what}: {step}: {differing(is_so, should_be)}"
        if kind not in ("undo", "redo"):
            order.edit(is_so)

    def reload(self, tab: Tab) -> None:
        """Load the page again, with calculators or without."""
        if tab is self.tabs[0]:
            tab.is_alone = self.chance.random() < 0.85
            tab.page.evaluate("isAlone => sessionStorage.setItem('alone', isAlone ? 'yes' : '')", tab.is_alone)
        before = tab.page.evaluate(SHOWN)
        tab.page.reload()
        if tab.order.is_kept:
            return
        tab.page.wait_for_function(
            f"before => ![null, before].includes(({SHOWN})())", arg=before
        )  # what was never changed has no name to come back by
        tab.order = self.orders.get(str(tab.page.evaluate(SHOWN)), tab.order)  # it shows what the other tab has made, if there is something

    def link(self, tab: Tab) -> None:
        """Open a link, in this page or after another."""
        values = {**self.example, "name": f"Linked {self.number}"}
        if self.chance.random() < 0.3:
            tab.page.goto(self.bench.address + "about/")
        tab.page.goto(f"{self.bench.address}{PAGE}#order:name={quote(values['name'])}")
        self.arrive(tab, values)
        tab.page.wait_for_function("() => location.hash === ''")

    def kept(self, tab: Tab) -> None:
        """Go back to another order."""
        there = tab.page.evaluate("() => [...document.querySelector('.pb-kept').options].map((option) => option.value)")
        chosen = self.chance.choice([each for each in there if each in self.orders] or [""])
        if chosen:
            tab.page.evaluate(
                "id => { const kept = document.querySelector('.pb-kept'); kept.value = id; kept.dispatchEvent(new Event('change')); }", chosen
            )
            tab.order = self.orders[chosen]

    def close(self, _: Tab) -> None:
        """Close the second tab, without a word, and open another."""
        self.tabs[1].page.close()
        if self.last is self.tabs[1]:
            self.last = self.tabs[0]
        self.tabs[1] = self.opened()
        self.same(self.tabs[1])

    def both(self, tab: Tab) -> None:
        """Type into two fields of one order, in both tabs at once."""
        other = next(each for each in self.tabs if each is not tab)
        if other.order is not tab.order:
            return
        self.hand_over(other)
        texts = {"name": f"here {self.number}", "guests": f"{self.number}"}
        for each, (name, text) in zip((tab, other), texts.items(), strict=True):
            each.page.evaluate(BURST, [{"kind": "type", "name": name, "text": text}])
        after = Order({**tab.order.now, **texts})
        for each in (tab, other):
            self.same(Tab(each.page, after))
        tab.page.wait_for_function(WRITTEN)
        shown = str(tab.page.evaluate(SHOWN))
        stored = tab.page.evaluate(STORED)
        (steps,) = (each["steps"] for each in stored["histories"] if each["id"] == shown)
        for step in steps[-2:]:
            tab.order.edit({**tab.order.now, **step["after"]})
        assert tab.order.now == after.now, f"{self.what}: {differing(tab.order.now, after.now)}"

    def take_away(self, tab: Tab) -> None:
        """Remove the order from the device, and bring it back."""
        if not tab.order.is_kept:
            return
        shown = tab.page.evaluate(SHOWN)
        tab.page.evaluate(CLICK, ".pb-forget")
        tab.page.wait_for_function(f"id => ({SHOWN})() !== id", arg=shown)
        tab.page.evaluate(CLICK, ".pb-back")

    def save_file(self, tab: Tab) -> None:
        """Save the order as a file."""
        if tab.is_alone:
            return
        with tab.page.expect_download() as waiting:
            tab.page.evaluate(CLICK, ".pb-export")
        file = self.folder / f"{self.number}.toml"
        waiting.value.save_as(file)
        self.files.append((file, tab.page.evaluate(SPELLED)))

    def open_file(self, tab: Tab) -> None:
        """Open a file that was saved."""
        if self.files and not tab.is_alone:
            file, values = self.chance.choice(self.files)
            tab.page.locator(".pb-file").set_input_files(file)
            self.arrive(tab, values)

    # ---- the walk ------------------------------------------------------------------------------------------------------------

    def go(self) -> None:
        """All steps; then nothing is lost."""
        weights = {
            self.burst: 50, self.reload: 12, self.link: 8, self.kept: 8, self.close: 4, self.both: 4, self.take_away: 4, self.save_file: 5,
            self.open_file: 5,
        }  # fmt: skip
        counted: dict[str, int] = {}
        spent: dict[str, float] = {}
        begun, said = time.monotonic(), 0
        while self.number < STEPS:
            step = self.chance.choices(list(weights), list(weights.values()))[0]
            is_here = step in (self.save_file, self.open_file, self.close) or self.chance.random() < 0.8
            tab = self.tabs[0 if is_here else 1]
            name = step.__name__
            at = time.monotonic()
            self.what = f"seed {SEED}, step {self.number}, {name} in tab {self.tabs.index(tab) + 1}"
            self.hand_over(tab)
            steps = step(tab) or 1
            self.same(tab)
            self.follow_name(tab)
            self.number += steps
            counted[name] = counted.get(name, 0) + steps
            spent[name] = round(spent.get(name, 0) + time.monotonic() - at, 1)
            if LOG and self.number // 100 > said:
                said = self.number // 100
                told = f"{self.number} steps in {time.monotonic() - begun:.0f} s, {len(self.orders)} orders, {counted}, seconds {spent}"
                with Path(LOG).open("a", encoding="utf-8") as log:
                    log.write(f"seed {SEED}: {told}\n")
        self.what = f"seed {SEED}, at the end"
        for tab in self.tabs:
            tab.page.reload()
            self.same(tab)
        self.all_is_stored()

    def all_is_stored(self) -> None:
        """Each order is in the database with each of its steps, and no other is."""
        page = self.tabs[0].page
        page.wait_for_function(WRITTEN)
        stored = page.evaluate(STORED)
        histories = {each["id"]: each for each in stored["histories"]}
        wanted = {name: order for name, order in self.orders.items() if order.is_kept}
        assert {record["id"] for record in stored["records"]} == set(wanted)
        open_fields = {name: self.example[name] for name in page.evaluate(FOLLOWING) if name in self.example}  # no text of their own is kept
        for record in stored["records"]:
            order = wanted[record["id"]]
            kept = open_fields | {name: text for name, text in record["values"].items() if name != "units"}
            assert kept == order.now, f"{self.what}: {differing(kept, order.now)}"
            steps, at = histories[record["id"]]["steps"], histories[record["id"]]["at"]
            assert (len(steps), at) == (len(order.states) - 1, order.at), self.what
            for side, numbers in (("before", range(at - 1, -1, -1)), ("after", range(at, len(steps)))):
                values = dict(order.now)
                for number in numbers:
                    for name, text in steps[number][side].items():
                        if text is None and name in open_fields:
                            values[name] = open_fields[name]
                        elif text is None:
                            values.pop(name, None)
                        else:
                            values[name] = text
                    assert values == order.states[number + (side == "after")], f"{self.what}: step {number} of {record['id']}"


def test_a_random_walk_ends_where_the_model_does(bench: Bench, tmp_path: Path) -> None:
    Walk(bench, tmp_path).go()
