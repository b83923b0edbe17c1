"""The bench types into the forms as they stand on the pages: it finds every field of a calculator, and its edits bring answers."""

from __future__ import annotations

import pytest

from calc.calculators import CALCULATORS
from tests.browser.helpers import Bench, ready
from tools.bench.edits import edits
from tools.bench.measure import FORM, calculator_pages, evaluated


@pytest.mark.parametrize("slug", ["swags", "order"])
def test_it_finds_the_fields_and_gets_answers(bench: Bench, slug: str) -> None:
    bench.open(calculator_pages()[slug])
    root = bench.page.locator(f'.pb-calculator[data-calculator="{slug}"]').first
    ready(root)
    texts = bench.page.evaluate(FORM.replace("SLUG", slug))
    wanted = {field.get_attribute("data-name") for field in root.locator(".pb-form .pb-field [data-name]").all()}
    assert wanted and set(texts) == wanted
    texts.pop("units", None)
    asked = {"slug": slug, "edits": edits(CALCULATORS[slug], texts, 4, 1), "pause": 0}
    made = bench.page.evaluate(evaluated("edits.js", asked))
    assert made["times"], made["refused"]
