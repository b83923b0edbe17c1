"""Looks to begin with on the order page: chosen by touch and by keyboard, undone, told, and one's own kept."""

from __future__ import annotations

from playwright.sync_api import Browser, Locator, expect

from tests.browser.helpers import START, Bench, ready, wait_for_promise, wait_for_rest

PAGE = "plan/whole-cake/"
CARDS = ".pb-looks .pb-card"


def kinds(root: Locator) -> list[str]:
    """The kinds of all rows, in order."""
    found: list[str] = root.locator('.pb-form [data-name$=".kind"][data-name^="tiers."]').evaluate_all("all => all.map(each => each.value)")
    return found


def open_gallery(root: Locator) -> Locator:
    """The gallery, with a picture in each card."""
    root.locator(".pb-begin-look").click()
    gallery = root.locator(".pb-looks")
    expect(gallery).to_be_visible()
    cards = root.locator(CARDS)
    expect(gallery.locator(".pb-card-picture > img")).to_have_count(cards.count(), timeout=START)
    return gallery


def test_a_look_is_chosen_by_keyboard_told_and_undone(bench: Bench) -> None:
    root = bench.open(PAGE)
    keys = bench.page.keyboard
    before = kinds(root)
    root.locator(".pb-begin-look").focus()
    keys.press("Enter")
    gallery = root.locator(".pb-looks")
    expect(gallery).to_be_visible()
    expect(gallery).to_have_accessible_name("Begin with a look")
    card = root.locator('.pb-looks [data-look="june-hedge"] .pb-card')
    assert "June hedge" in (card.text_content() or "")
    keys.press("Tab")
    for _ in range(20):
        if card.evaluate("card => card === document.activeElement"):
            break
        keys.press("Tab")
    keys.press("Enter")
    expect(gallery).to_be_hidden(timeout=START)
    expect(root.locator(".pb-begin-look")).to_be_focused()
    ready(root)
    assert kinds(root) != before and "small rose" in kinds(root) and "leaf" in kinds(root)
    told = root.locator(".pb-begin-told")
    expect(told).to_contain_text("June hedge, on your tiers")
    expect(told).to_contain_text("Lower tier:")
    expect(root.locator(".pb-status").first).to_contain_text("June hedge is on your tiers.", timeout=START)
    assert not root.locator('.pb-notes li:has-text("collide")').count()
    assert root.locator('[data-name="guests"]').input_value() == "36"
    keys.press("Control+z")
    ready(root)
    assert kinds(root) == before
    expect(told).to_be_hidden()
    keys.press("Control+y")
    ready(root)
    assert "small rose" in kinds(root)


def test_each_look_is_drawn_on_the_tiers_as_they_are(bench: Bench) -> None:
    """Looked at again after a change of shape each has another picture, and none is kept from before."""
    root = bench.open(PAGE)
    gallery = open_gallery(root)
    picture = "() => fetch(document.querySelector('.pb-looks [data-look=one-hem] img').src).then(answer => answer.text())"
    assert gallery.locator(".pb-card-picture > img").first.evaluate("img => img.decode().then(() => img.naturalWidth)") > 0
    before = bench.page.evaluate(picture)
    bench.page.keyboard.press("Escape")
    expect(gallery).to_be_hidden()
    root.locator('[data-name="tiers.0.colour"]').evaluate(
        "field => { for (let place = field.closest('details'); place; place = place.parentElement.closest('details')) place.open = true; }"
    )
    root.locator('[data-name="tiers.0.colour"]').fill("claret")
    ready(root)
    open_gallery(root)
    redrawn = f"before => ({picture})().then(now => now !== before)"
    wait_for_promise(bench.page, redrawn, before, "the pictures were not redrawn")


def test_rows_of_ones_own_are_kept_as_a_look(browser: Browser, address: str) -> None:
    """Kept, there after a reload, chosen by touch on a telephone, removed and brought back."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    bench = Bench(context.new_page(), address)
    bench.watch()
    root = bench.open(PAGE)
    mine = kinds(root)
    root.locator(".pb-begin-look").tap()
    gallery = root.locator(".pb-looks")
    gallery.locator(".pb-looks-name").fill("Gran’s swags")
    gallery.locator(".pb-looks-keep button").tap()
    expect(gallery.locator(".pb-looks-said")).to_contain_text("Gran’s swags is kept on this device")
    expect(root.locator(CARDS).first).to_contain_text("Gran’s swags")
    root.locator('.pb-looks [data-look="one-hem"] .pb-card').tap()
    expect(gallery).to_be_hidden(timeout=START)
    ready(root)
    assert set(kinds(root)) == {"shell"}
    bench.page.reload()
    root = bench.calculator()
    assert set(kinds(root)) == {"shell"}
    root.locator(".pb-begin-look").tap()
    own = root.locator(CARDS).first
    expect(own).to_contain_text("Gran’s swags")
    own.tap()
    gallery = root.locator(".pb-looks")
    expect(gallery).to_be_hidden(timeout=START)
    ready(root)
    assert kinds(root) == mine
    root.locator(".pb-begin-look").tap()
    root.get_by_role("button", name="Remove your look Gran’s swags").tap()
    expect(root.get_by_role("button", name="Undo: bring Gran’s swags back")).to_be_focused()
    root.get_by_role("button", name="Undo: bring Gran’s swags back").tap()
    expect(root.locator(CARDS).first).to_contain_text("Gran’s swags")
    expect(root.locator(CARDS).first).to_be_focused()
    wide = gallery.evaluate("gallery => gallery.scrollWidth - gallery.clientWidth")
    assert wide <= 0 and not bench.errors and not bench.foreign
    context.close()


def test_every_card_is_large_enough_to_press(bench: Bench) -> None:
    bench.page.set_viewport_size({"width": 390, "height": 800})
    root = bench.open(PAGE)
    root.locator(".pb-begin-look").click()
    for wide in (390, 1024, 1280):
        bench.page.set_viewport_size({"width": wide, "height": 800})
        wait_for_rest(bench.page)
        small = root.locator(".pb-looks").evaluate(
            "gallery => [...gallery.querySelectorAll('button, input')].map(each => [each.textContent, each.getBoundingClientRect()])"
            ".filter(([, box]) => box.height < 44 || box.left < 0 || box.right > innerWidth).map(([text]) => text)"
        )
        assert small == [], wide
