"""What axe has to say of a page that stands still."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from playwright.sync_api import Page

from tests.browser.helpers import wait_for_idle, wait_for_rest
from tests.conftest import ROOT, lacking

AXE = ROOT / "build" / "npm" / "node_modules" / "axe-core" / "axe.min.js"
RULES = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
LEAST = "color-contrast"  # 4.5:1
CONTRAST = ("color-contrast-enhanced",)  # 7:1
BY_COLOUR = (*CONTRAST, "link-in-text-block")  # what another colour scheme can change
TRIES = 20

# As axe has it, 7:1 passes what 4.5:1 refuses, and both have to be worked out, which is most of what axe does. Here it refuses that, too.
WHOLE_CONTRAST = """() => axe.configure({ checks: [{ id: "color-contrast-enhanced", options: {
    ignoreUnicode: true, ignoreLength: false, ignorePseudo: false, boldValue: 700, boldTextPt: 14, largeTextPt: 18, pseudoSizeThreshold: 0.25,
    shadowOutlineEmMax: 0.1, textStrokeEmMin: 0.03, contrastRatio: { normal: { expected: 7 }, large: { expected: 4.5 } },
} }] })"""

# Reads the page and gives what is wrong, or nothing if the page changed meanwhile: axe notes all elements when it begins, and throws when it
# comes upon another. A drawing is one picture with a title and a description; the thousand strokes in it are nothing to axe, but would take
# it minutes, so they are out of the page for as long as it reads.
READ = """async ({ within, ...options }) => {
    const drawings = [...document.querySelectorAll("svg[role=img]")].map((svg) => [svg, [...svg.childNodes]]);
    for (const [svg, parts] of drawings) svg.replaceChildren(...parts.filter((part) => ["title", "desc"].includes(part.nodeName)));
    const watch = new MutationObserver(() => {});
    watch.observe(document, { childList: true, subtree: true });
    let found, thrown;
    try {
        found = await axe.run(within ? document.querySelector(within) : document, { ...options, resultTypes: ["violations"] });
    } catch (error) {
        thrown = error;
    }
    const changed = watch.takeRecords().length || drawings.some(([svg]) => !svg.isConnected);
    watch.disconnect();
    for (const [svg, parts] of drawings) svg.replaceChildren(...parts);
    if (changed) return null;
    if (thrown) throw thrown;
    return found.violations.flatMap(({ id, nodes }) => nodes.map(({ target, failureSummary }) => [id, target.flat().join(" "), failureSummary]));
}"""


@dataclass(frozen=True)
class Complaint:
    """One element that breaks one rule of axe's."""

    rule: str
    element: str
    why: str

    def __str__(self) -> str:
        return f"{self.rule}: {self.element} {self.why[:220]}"


@cache
def _script() -> str:
    """The text of axe."""
    if not AXE.is_file():
        lacking("axe-core is not installed: python3 tools/handbook.py test")
    return AXE.read_text(encoding="utf-8")


def complaints(page: Page, rules: Iterable[str] = RULES, also: Iterable[str] = (), within: str = "") -> list[Complaint]:
    """What breaks the rules with these tags, and those named in `also`; only the latter if no tag is given. The page is as it was afterwards.

    `within` is a selector: what is outside that element is not read.
    """
    tags, named = list(rules), list(also)
    options = {
        "within": within,
        "runOnly": {"type": "tag", "values": tags} if tags else {"type": "rule", "values": named},
        "rules": {name: {"enabled": True} for name in named} | ({LEAST: {"enabled": False}} if {*CONTRAST} <= {*named} else {}),
    }
    if not page.evaluate("() => 'axe' in window"):
        page.evaluate(_script())
        page.evaluate(WHOLE_CONTRAST)
    for _ in range(TRIES):
        wait_for_rest(page)
        wait_for_idle(page)
        found = page.evaluate(READ, options)
        if found is not None:
            return [Complaint(*each) for each in found]
    raise AssertionError("the page changes again and again while axe reads it")
