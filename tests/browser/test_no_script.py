"""With JavaScript off the page is right: the built answer is there, and nothing is offered that would not work."""

from __future__ import annotations

from playwright.sync_api import Browser, expect

import calc


def test_built_answer_is_on_the_page(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + "techniques/swags/")
    swags = page.locator("#pb-swags")
    values = {control.get_attribute("data-name"): control.input_value() for control in swags.locator(".pb-field [data-name]").all()}
    answer = calc.compute("swags", {str(name): text for name, text in values.items()})
    assert not answer.problems
    for name, wanted in answer.figures.items():
        if wanted.get("quiet"):  # told to whoever asks for it, not shown
            expect(swags.locator(f'[data-figure="{name}"]')).to_have_count(0)
            continue
        expect(swags.locator(f'[data-figure="{name}"] dd')).to_have_text(wanted["text"])
    assert swags.get_attribute("data-state") == "static"
    for useless in (".pb-tools", ".pb-submit", ".pb-sheets"):
        for part in swags.locator(useless).all():
            assert not part.is_visible(), useless
    expect(swags.locator(".pb-shut")).to_contain_text("Turn on JavaScript")
    context.close()
