"""The customer's link: made on the page of the order, read on a page of its own, by anybody, offline too."""

from __future__ import annotations

import base64
import re
import zlib
from urllib.parse import parse_qs

import pytest
from playwright.sync_api import expect

from tests.browser.helpers import START, Bench, field

ORDER, PAGE = "plan/whole-cake/", "plan/quotation/"


def made(bench: Bench) -> str:
    """The address of the customer's link of the order on the page."""
    root = bench.calculator()
    root.get_by_role("button", name="Copy the customer’s link").click()
    link = root.get_by_role("link", name="Read it as the customer does")
    expect(link).to_be_visible(timeout=START)
    return link.get_attribute("href") or ""


def unpacked(address: str) -> str:
    """All that a link holds, as text, its picture apart."""
    packed = parse_qs(address.partition("#quotation:")[2])["text"][0]
    return zlib.decompress(base64.urlsafe_b64decode(packed + "=" * (-len(packed) % 4)), -15).decode()


def test_a_customer_reads_the_quotation_and_no_python_starts(bench: Bench) -> None:
    root = bench.open(ORDER)
    for name, text in (("rate", "61.37"), ("margin", "37 %"), ("overhead", "13 %"), ("extras", "91.13")):
        field(root, name).evaluate("(control, text) => { control.value = text; control.dispatchEvent(new Event('input', { bubbles: true })); }", text)
    expect(root).to_have_attribute("data-state", "ready", timeout=START)
    expect(root.locator('[data-table="price"]')).to_contain_text("61.37", timeout=START)
    amounts = root.locator('[data-table="price"] tbody tr td:last-child').all_inner_texts()
    price = amounts.pop()
    address = made(bench)
    assert len(address) < 40_000
    told = unpacked(address)
    assert price in told
    for figure in {*amounts, "61.37", "37 %", "13 %", "91.13", "61,37", "0.37", "0.13"}:
        assert figure not in told, figure
    assert not re.search(r"\brate\b|margin|overhead|an hour|cost|packs", told)
    reader = bench.page.context.browser.new_context()  # type: ignore[union-attr]
    page = reader.new_page()
    page.goto(address)
    article = page.locator(".pb-quotation article")
    expect(article.get_by_role("heading", name="Orchard harvest supper")).to_be_visible(timeout=START)
    expect(article).to_contain_text("To pay")
    expect(article).to_contain_text(price)
    expect(article).to_contain_text("In the sponge")
    picture = article.get_by_role("img")
    assert picture.evaluate("async image => { await image.decode(); return image.naturalWidth; }") == 400
    assert not [worker for worker in page.workers if "worker.js" in worker.url]
    page.evaluate("location.hash = '#quotation:text=AAAA'")
    expect(page.get_by_role("alert")).to_contain_text("incomplete")
    reader.close()


@pytest.mark.parametrize("change", ["cut", "bent", "empty", "other"])
def test_a_damaged_link_says_so(bench: Bench, change: str) -> None:
    bench.open(ORDER)
    address = made(bench).partition("&picture=")[0]
    place, _, held = address.partition("text=")
    bad = {"cut": held[: len(held) // 2], "bent": held[:80] + "zz" + held[82:], "empty": "", "other": "eyJh"}[change]
    bench.page.goto(f"{place}text={bad}")
    expect(bench.page.get_by_role("alert").first).to_contain_text("This link is incomplete", timeout=START)
    assert not bench.page.locator(".pb-quotation article").count()


def test_nothing_of_a_stranger_s_link_becomes_part_of_the_page(bench: Bench) -> None:
    """Markup in every text, a picture that is a script: it is read as it stands, and nothing runs."""
    evil = '<img src=x onerror=\\"window.ran = 1\\"><script>window.ran = 1</script>'
    part = f'{{"h":"{evil}","p":["{evil}"],"rows":[["{evil}","{evil}"]]}}'
    text = f'{{"version":1,"title":"{evil}","parts":[{part},{part}]}}'
    squeezed = zlib.compressobj(9, zlib.DEFLATED, -15)
    packed = base64.urlsafe_b64encode(squeezed.compress(text.encode()) + squeezed.flush()).decode().rstrip("=")
    picture = base64.urlsafe_b64encode(b"<svg xmlns='http://www.w3.org/2000/svg' onload='window.ran = 1'/>").decode().rstrip("=")
    bench.page.goto(f"{bench.address}{PAGE}#quotation:text={packed}&picture={picture}")
    article = bench.page.locator(".pb-quotation article")
    expect(article.locator("h2")).to_contain_text("<img src=x", timeout=START)
    assert article.locator("img, script").count() == 0
    assert bench.page.evaluate("window.ran") is None


def test_the_page_by_itself_says_what_it_is_for(bench: Bench) -> None:
    bench.page.goto(bench.address + PAGE)
    expect(bench.page.get_by_role("heading", level=1)).to_contain_text("A quotation to read")
    assert bench.page.locator(".pb-quotation").inner_text() == ""
