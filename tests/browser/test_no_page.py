"""Where there is no page the handbook's own is shown, with its looks and links, at any depth and under any sub-path."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.browser import hosts


@pytest.mark.parametrize("prefix", ["", "classes/autumn/"])
@pytest.mark.parametrize("path", ["nothing", "techniques/swagz/", "techniques/swags/deeper/still/x.html"])
def test_shown_whole(browser: Browser, site: Path, prefix: str, path: str) -> None:
    with hosts.host(site, prefix) as host:
        context = browser.new_context(service_workers="block")
        page = context.new_page()
        answered = page.goto(host.address + path)
        assert answered is not None and answered.status == 404
        expect(page.get_by_role("heading", level=1)).to_have_text("There is no page here")
        # the style sheets hold: the header has the tokens' colour, not the browser's own
        page.wait_for_function("getComputedStyle(document.querySelector('.md-header')).position === 'sticky'")
        assert page.evaluate("[...document.styleSheets].every((sheet) => sheet.cssRules.length > 0)")
        page.get_by_role("link", name="The whole cake", exact=True).last.click()
        expect(page).to_have_url(host.address + "plan/whole-cake/")
        context.close()
