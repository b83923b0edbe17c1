"""The harvest supper from an empty order, made by a person who presses and types: few presses, few keys, and the same cake at the end."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, expect

from tests.browser.helpers import Bench, field

PAGE = "plan/whole-cake/"
SUPPER = Path(__file__).parents[2] / "docs/plan/harvest-supper.toml"
MOST_PRESSES, MOST_KEYS = 30, 60


class Hands:
    """Presses and types as a person does, and counts."""

    def __init__(self, bench: Bench, root: Locator) -> None:
        self.page, self.root = bench.page, root
        self.presses = self.keys = 0

    def press(self, target: Locator) -> None:
        """One press on what can be seen."""
        self.presses += 1
        target.click()

    def type(self, text: str) -> None:
        """Type where the focus is, a key for each character."""
        self.keys += len(text)
        self.page.keyboard.type(text)

    def go_on(self, times: int = 1) -> None:
        """Enter, to the next field."""
        for _ in range(times):
            self.keys += 1
            self.page.keyboard.press("Enter")

    def focused(self) -> str:
        """The name of the field that has the focus."""
        found: str = self.page.evaluate("document.activeElement.dataset.name ?? ''")
        return found

    def fill(self, name: str, text: str) -> None:
        """A press on a field, and what is typed over what stands there."""
        at = field(self.root, name)
        self.press(at)
        if at.input_value():  # two more presses select what is there
            self.presses += 2
            at.select_text()
        self.type(text)


def cake(texts: dict[str, Any]) -> dict[str, Any]:
    """What of an order makes the cake: tiers and rows by their texts, without what is empty."""
    tiers = [
        {
            **{
                name: text
                for name, text in tier.items()
                if name in ("name", "shape", "width", "height", "layers", "filling", "disc", "side", "colour")
            },
            "rows": sorted(
                tuple(sorted((name, text) for name, text in row.items() if text and name in ("kind", "place", "tip", "colour", "per_joint")))
                for row in tier.get("rows", ())
            ),
        }
        for tier in texts["tiers"]
    ]
    return {**{name: texts[name] for name in ("name", "ready_at", "guests", "slice", "cutters")}, "tiers": tiers}


def read(root: Locator) -> dict[str, Any]:
    """What stands in the form, nested as an order is, with units written out as the order has them."""
    script = "fields => Object.fromEntries(fields.map(field => [field.dataset.name, field.value]).filter(([, text]) => text))"
    flat: dict[str, str] = root.locator(".pb-form [data-name]").evaluate_all(script)
    made: dict[str, Any] = {}
    for name, text in flat.items():
        place = made
        *path, last = name.split(".")
        for step in path:
            place = place.setdefault(step, {})
        place[last] = text
    for tier in made["tiers"].values():
        for sized in ("width", "disc", "side"):
            if sized in tier:
                tier[sized] = f"{tier[sized].removesuffix(' cm')} cm"
        tier["rows"] = list(tier.get("rows", {}).values())
    return made | {"tiers": list(made["tiers"].values())}


def test_the_harvest_supper_takes_few_presses_and_keys(bench: Bench) -> None:
    """From an empty order: the day, guests, slice and cutters are those of the kitchen; names, discs and tape are typed; the rows come by a look."""
    root = bench.open(PAGE, "order")
    hands = Hands(bench, root)
    hands.press(root.locator(".pb-kept-orders > summary"))
    hands.press(root.locator(".pb-another"))
    expect(field(root, "name")).to_be_focused()
    expect(root.locator('.pb-items[data-input="tiers"] > .pb-copies > .pb-group')).to_have_count(1)
    hands.type("Orchard harvest supper")
    hands.fill("tiers.0.name", "Lower tier")
    hands.fill("tiers.0.disc", "21")
    hands.go_on()
    assert hands.focused() == "tiers.0.side", "Enter goes on to the tape"
    hands.type("66")
    hands.press(root.locator('.pb-items[data-input="tiers"] > .pb-add'))
    assert hands.focused() == "tiers.1.name", "a new tier is named first"
    hands.type("Upper tier")
    hands.fill("tiers.1.width", "15")
    hands.fill("tiers.1.disc", "16")
    hands.press(root.locator(".pb-begin-look"))
    hands.press(bench.page.locator('.pb-looks [data-look="windfall"] .pb-card'))
    expect(root.locator(".pb-items[data-input='tiers.1.rows'] > .pb-copies > .pb-group")).to_have_count(4)
    expect(root.locator(".pb-answer")).not_to_have_attribute("data-stale", "")
    assert cake(read(root)) == cake(tomllib.loads(SUPPER.read_text(encoding="utf-8")))
    assert hands.presses <= MOST_PRESSES and hands.keys <= MOST_KEYS, (hands.presses, hands.keys)
