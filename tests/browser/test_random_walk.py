"""A long random use of the whole cake: edits, undos, redos, reloads, links and a second tab. After each the order is what a model says."""

from __future__ import annotations

import os
import random
from dataclasses import dataclass, field
from urllib.parse import quote

from playwright.sync_api import Locator, Page

from tests.browser.helpers import Bench, ready

PAGE = "plan/whole-cake/"
STEPS = int(os.environ.get("PIPING_BENCH_WALK", "120"))
SEED = int(os.environ.get("PIPING_BENCH_SEED", "1"))

READ = """async () => {
    const { readForm } = await import(document.querySelector("script[src$='/handbook.js']").src);
    return readForm(document.querySelector(".pb-form"));
}"""
PUT = """(root, [name, text]) => {
    const control = root.querySelector(`[data-name="${name}"]`);
    control.focus(); // a visit of its own, so that each is a step
    control.value = text;
    control.dispatchEvent(new Event("input", { bubbles: true }));
    control.blur();
}"""
SAME = f"async (wanted) => JSON.stringify(Object.entries(await ({READ})()).sort()) === JSON.stringify(Object.entries(wanted).sort())"


@dataclass
class Model:
    """What stands in the form, and every state that undo and redo lead to."""

    states: list[dict[str, str]]
    at: int = 0
    others: list[tuple[list[dict[str, str]], int]] = field(default_factory=list)

    @property
    def now(self) -> dict[str, str]:
        return self.states[self.at]

    def edit(self, after: dict[str, str]) -> None:
        """A change: what was undone is gone."""
        if after != self.now:
            self.states[self.at + 1 :] = [after]
            self.at += 1

    def begin(self, values: dict[str, str]) -> None:
        """Another record."""
        self.others.append((self.states, self.at))
        self.states, self.at = [values], 0


def same(page: Page, wanted: dict[str, str], what: str) -> None:
    """Wait until the form says what the model says."""
    try:
        page.wait_for_function(SAME, arg=wanted, timeout=15_000)
    except Exception as error:
        found = page.evaluate(READ)
        differing = {name: (found.get(name), wanted.get(name)) for name in {*found, *wanted} if found.get(name) != wanted.get(name)}
        raise AssertionError(f"{what}: {dict(list(differing.items())[:8])}") from error


def press(order: Locator, selector: str) -> None:
    """Press the first button of a selector, seen or folded away."""
    order.locator(selector).first.evaluate("button => button.click()")


def without_tier(values: dict[str, str], gone: int) -> dict[str, str]:
    """The order without one of its tiers: those after it move up."""
    after = {}
    for name, text in values.items():
        parts = name.split(".")
        if parts[0] == "tiers":
            if int(parts[1]) == gone:
                continue
            if int(parts[1]) > gone:
                parts[1] = str(int(parts[1]) - 1)
        after[".".join(parts)] = text
    return after


def test_a_random_walk_ends_where_the_model_does(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    chance = random.Random(SEED)
    example = bench.page.evaluate(READ)
    model = Model([example])
    second = Bench(bench.page.context.new_page(), bench.address)
    for number in range(STEPS):
        kind = chance.choices(["type", "undo", "redo", "tier", "reload", "link", "tab"], [40, 20, 12, 8, 6, 4, 6])[0]
        what = f"step {number}, {kind}, seed {SEED}"
        if kind == "type":
            name = chance.choice(
                [name for name in model.now if not name.startswith(("packs", "colours", "measured")) and model.now[name] not in ("yes", "no")]
            )
            if order.locator(f'[data-name="{name}"]').evaluate("control => control.matches('input[type=text]')"):
                text = f"{chance.randrange(1000)} é<"
                order.evaluate(PUT, [name, text])
                model.edit({**model.now, name: text})
        elif kind in ("undo", "redo"):
            press(order, f".pb-{kind}")
            model.at = max(0, min(len(model.states) - 1, model.at + (1 if kind == "redo" else -1)))
        elif kind == "tier":
            tiers = {name.split(".")[1] for name in model.now if name.startswith("tiers.")}
            if len(tiers) > 1:
                gone = chance.randrange(len(tiers))
                press(
                    order, f'.pb-items[data-group="tiers"] > .pb-copies > .pb-group:nth-child({gone + 1} of .pb-group) > .pb-group-tools > .pb-remove'
                )
                model.edit(without_tier(model.now, gone))
            else:
                press(order, '.pb-items[data-group="tiers"] > .pb-add')
                model.edit(bench.page.evaluate(READ))
        elif kind == "reload":
            bench.page.reload()
            order = bench.calculator("order")
        elif kind == "link":
            title = f"Linked {number}"
            bench.page.goto(f"{bench.address}{PAGE}#order:name={quote(title)}")
            model.begin({**example, "name": title})
        else:
            if second.page.url.startswith("about:"):
                theirs = second.open(PAGE, "order")
            second.page.reload()
            theirs = second.calculator("order")
            ready(theirs)
            shown = second.page.evaluate(READ)
            text = f"from the second tab {number}"
            theirs.evaluate(PUT, ["name", text])
            if shown == model.now:  # the same order: it is followed here
                model.edit({**model.now, "name": text})
        same(bench.page, model.now, what)
    bench.page.reload()
    bench.calculator("order")
    same(bench.page, model.now, "at the end")
