"""The whole-cake page as it is used: lines that fold, the way about it, the keys, the drawing that follows, paper, and a phone."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Locator, expect

import calc
from tests.browser.helpers import Bench, edges, field, figure, problem, ready, wait_for_rest

PAGE = "plan/whole-cake/"
DOCS = Path(__file__).parents[2] / "docs"


def items(order: Locator, name: str) -> Locator:
    """The items of a group: of "tiers", of "tiers.0.rows"."""
    return order.locator(f'.pb-items[data-input="{name}"] > .pb-copies > .pb-group')


def summary_line(item: Locator) -> Locator:
    """The line that tells what an item holds."""
    return item.locator(":scope > summary > .pb-item-line")


def settled(order: Locator) -> None:
    """Wait until what stands in the form has been answered without a problem."""
    ready(order)
    expect(order.locator(".pb-answer")).not_to_have_attribute("data-stale", "")


def press(bench: Bench, target: Locator) -> None:
    """Press what is in view as a finger does; Playwright's own click may scroll first."""
    box = target.bounding_box()
    assert box
    bench.page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)


def overlap(order: Locator, one: str, other: str) -> float:
    """How many px two parts of the page have in common, up and down."""
    first, second = (edges(order.page.locator("body"), selector) for selector in (one, other))
    return min(first[3], second[3]) - max(first[1], second[1])


# ---- lines that fold -----------------------------------------------------------------------------------------------------


def test_each_item_is_a_line_that_tells_what_it_holds(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    assert summary_line(items(order, "tiers").first).inner_text() == "Lower tier · round 20 cm · 10 cm high · 4 rows"
    rows = items(order, "tiers.0.rows")
    assert summary_line(rows.first).inner_text() == "Swag · hung on the side · petal 11 mm · russet"
    assert [item.get_attribute("open") for item in items(order, "tiers").all()] == ["", ""]
    assert {item.get_attribute("open") for item in [*rows.all(), *items(order, "packs").all()]} == {None}
    rows.first.locator("summary").first.click()
    field(order, "tiers.0.rows.0.kind").select_option("zigzag")
    field(order, "tiers.0.rows.0.colour").fill("claret")
    expect(summary_line(rows.first)).to_have_text("Zigzag · hung on the side · petal 11 mm · claret")
    expect(rows.first.locator(":scope > summary > .pb-dot")).to_have_attribute("data-look", "#7f2237")
    field(order, "tiers.0.width").fill("21 cm")
    expect(summary_line(items(order, "tiers").first)).to_contain_text("round 21 cm")


def test_the_build_and_the_browser_tell_the_same(bench: Bench) -> None:
    """The lines that the build wrote are those that the script makes of the same texts."""
    order = bench.open(PAGE, "order")
    differing = order.evaluate(
        """async (root) => {
            const built = new DOMParser().parseFromString(await (await fetch(location.pathname)).text(), "text/html");
            const lines = (place) => [...place.querySelectorAll(".pb-form .pb-item-line")].map((line) => line.textContent);
            const dots = (place) => [...place.querySelectorAll(".pb-form .pb-dot")].map((dot) => dot.outerHTML);
            const all = (place) => [...lines(place), ...dots(place)];
            const [ours, theirs] = [all(root), all(built.getElementById(root.id))];
            return ours.length > 20 && ours.length === theirs.length ? ours.filter((text, i) => text !== theirs[i]) : [ours.length, theirs.length];
        }"""
    )
    assert differing == []


def test_without_scripts_the_lines_fold_and_tell(bench: Bench) -> None:
    context = bench.page.context.browser.new_context(java_script_enabled=False)  # type: ignore[union-attr]
    page = context.new_page()
    page.goto(bench.address + PAGE)
    row = page.locator('.pb-items[data-input="tiers.0.rows"] .pb-group').first
    assert row.locator(".pb-item-line").inner_text() == "Swag · hung on the side · petal 11 mm · russet"
    assert not row.locator("[data-name]").first.is_visible()
    row.locator("summary").first.click()
    assert row.locator("[data-name]").first.is_visible()
    assert page.locator(".pb-jump a[data-part]").first.is_visible()
    context.close()


def test_a_folded_item_with_a_problem_opens_and_says_so(bench: Bench, tmp_path: Path) -> None:
    """An order file with three mistakes: all are kept as they are, said at their fields, and none is hidden in a fold."""
    order = bench.open(PAGE, "order")
    text = (Path(__file__).parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")
    for right, wrong in (('guests = "36"', 'guests = "a few"'), ('tip = "leaf 6 mm"', 'tip = "spoon"'), ('mass = "60 g"', 'mass = "60 cm"')):
        assert right in text
        text = text.replace(right, wrong)
    file = tmp_path / "mistakes.toml"
    file.write_text(text, encoding="utf-8")
    order.locator(".pb-file").set_input_files(file)
    expect(order.locator(".pb-summary")).to_be_focused()
    expect(order.locator(".pb-summary")).to_contain_text("3 things to put right")
    expect(order.locator(".pb-summary li").nth(1)).to_contain_text("Tier 2, Row 4: Tip names none of the families")
    expect(order.locator(".pb-tools > .pb-status")).to_contain_text("Opened mistakes.toml. 3 things in it are still to be put right.")
    for name, typed in (("guests", "a few"), ("tiers.1.rows.3.tip", "spoon"), ("packs.3.mass", "60 cm")):
        assert field(order, name).input_value() == typed
        expect(problem(order, name)).to_be_visible()
        assert field(order, name).is_visible()
    row = items(order, "tiers.1.rows").nth(3)
    assert row.get_attribute("open") == ""
    assert "1 to put right" in row.locator(":scope > summary").inner_text()
    expect(order.locator(".pb-jump-wrong")).to_have_text("3 to put right")
    row.locator(":scope > summary").click()
    order.locator(".pb-summary a", has_text="Tip").click()
    expect(field(order, "tiers.1.rows.3.tip")).to_be_focused()
    field(order, "tiers.1.rows.3.tip").fill("leaf 6 mm")
    field(order, "packs.3.mass").fill("60 g")
    field(order, "guests").fill("36")
    settled(order)
    assert "to put right" not in row.locator(":scope > summary").inner_text()
    expect(order.locator(".pb-jump-wrong")).to_be_hidden()
    expect(order.locator(".pb-summary")).to_be_hidden()


def test_an_order_with_mistakes_can_be_kept_and_comes_back_with_them(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    field(order, "guests").fill("a few")
    order.locator(".pb-kept-orders > summary").click()
    order.get_by_role("button", name="Keep a copy").click()
    expect(order.locator(".pb-tools > .pb-status")).to_contain_text("is kept on this device")
    field(order, "guests").fill("40")
    settled(order)
    expect(order.get_by_label("Kept here").locator("option")).to_have_count(2)
    kept = order.get_by_label("Kept here").locator("option").all_inner_texts()
    order.get_by_label("Kept here").select_option(index=next(i for i, text in enumerate(kept) if "(copy)" in text))
    expect(field(order, "guests")).to_have_value("a few")
    expect(problem(order, "guests")).not_to_be_empty()


# ---- tiers and rows that come, move and go -------------------------------------------------------------------------------


def test_a_new_tier_follows_the_last_one_and_stands_on_it(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    height = figure(order, "height").inner_text()
    order.get_by_role("button", name="Add a tier").click()
    tier = items(order, "tiers").nth(2)
    expect(field(order, "tiers.2.name")).to_be_focused()
    expect(summary_line(tier)).to_have_text("Tier 3 · round 15 cm · 10 cm high · no rows")
    assert field(order, "tiers.2.disc").input_value() == "16 cm"
    settled(order)
    expect(figure(order, "height")).not_to_have_text(height)
    field(order, "tiers.2.width").fill("10 cm")
    field(order, "tiers.2.disc").fill("11 cm")
    tier.get_by_role("button", name="Add a row").click()
    row = items(order, "tiers.2.rows").first
    assert row.get_attribute("open") == ""
    expect(field(order, "tiers.2.rows.0.kind")).to_be_focused()
    expect(summary_line(tier)).to_contain_text("1 row")
    row.get_by_role("button", name="Row 1 once more").click()
    expect(items(order, "tiers.2.rows")).to_have_count(2)
    assert row.get_attribute("open") is None
    assert field(order, "tiers.2.rows.1.tip").input_value() == field(order, "tiers.2.rows.0.tip").input_value()
    settled(order)


def test_the_drawing_and_the_figures_follow(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    side = order.locator('.pb-drawing[data-drawing="side"] > svg')
    before, mass = side.evaluate("svg => svg.outerHTML"), figure(order, "buttercream").inner_text()
    items(order, "tiers.0.rows").first.locator("summary").first.click()
    field(order, "tiers.0.rows.0.tip").fill("petal 14 mm")
    expect(figure(order, "buttercream")).not_to_have_text(mass)
    again = order.locator('.pb-section[data-section="cake"] [data-again="buttercream"] dd')
    assert again.inner_text() == figure(order, "buttercream").inner_text()
    expect(order).not_to_have_attribute("data-undrawn", "")
    assert side.evaluate("svg => svg.outerHTML") != before


def test_rows_move_and_go_by_their_buttons(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    rows = items(order, "tiers.0.rows")
    rows.nth(1).locator("summary").first.click()
    rows.nth(1).get_by_role("button", name="Move Row 2 up").click()
    expect(summary_line(rows.nth(0))).to_contain_text("Swag · over the row before · petal 9 mm")
    rows.nth(0).get_by_role("button", name="Remove Row 1").click()
    expect(rows).to_have_count(3)
    expect(order.get_by_role("button", name="Undo: bring Row 1 back")).to_be_focused()
    expect(summary_line(items(order, "tiers").first)).to_contain_text("3 rows")
    settled(order)


def test_a_length_is_asked_only_of_what_has_one(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    expect(field(order, "tiers.0.length")).to_be_hidden()
    field(order, "tiers.0.shape").select_option("oval")
    expect(field(order, "tiers.0.length")).to_be_visible()
    expect(problem(order, "tiers.0.length")).not_to_be_empty()
    field(order, "tiers.0.shape").select_option("round")
    expect(field(order, "tiers.0.length")).to_be_hidden()


# ---- keys ------------------------------------------------------------------------------------------------------------------


def test_enter_goes_on_and_control_enter_sums_up(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    field(order, "guests").focus()
    bench.page.keyboard.press("Control+A")
    bench.page.keyboard.type("40")
    bench.page.keyboard.press("Enter")
    expect(field(order, "slice")).to_be_focused()
    bench.page.keyboard.press("Shift+Enter")
    bench.page.keyboard.type("forty")
    expect(field(order, "guests")).to_have_attribute("aria-invalid", "true")
    bench.page.keyboard.press("Enter")
    expect(problem(order, "guests")).not_to_be_empty()
    expect(field(order, "guests")).to_be_focused()
    field(order, "slice").focus()
    bench.page.keyboard.press("Control+A")
    bench.page.keyboard.type("30 x 40 mm")
    assert field(order, "slice").input_value() == "30 x 40 mm"
    bench.page.keyboard.press("Shift+Enter")
    expect(field(order, "guests")).to_be_focused()
    bench.page.keyboard.press("Control+Enter")
    expect(order.locator(".pb-summary")).to_be_focused()
    expect(order.locator(".pb-summary")).to_contain_text("One thing to put right")
    field(order, "recipe").focus()
    bench.page.keyboard.press("Enter")
    expect(field(order, "tiers.0.name")).to_be_focused()  # past what is folded under More


def test_an_order_is_changed_with_the_keyboard_alone(bench: Bench) -> None:
    """Open a row, give it another colour, move it down, go to the bench sheet and find the colour there."""
    order = bench.open(PAGE, "order")
    items(order, "tiers.0.rows").nth(2).locator("summary").first.focus()
    bench.page.keyboard.press("Enter")
    for _ in range(6):  # kind, place, tip and colour, and the pictures of kinds and tips
        bench.page.keyboard.press("Tab")
    expect(field(order, "tiers.0.rows.2.colour")).to_be_focused()
    bench.page.keyboard.press("Control+A")
    bench.page.keyboard.type("moss")
    bench.page.keyboard.press("Tab")
    settled(order)
    order.locator(".pb-jump a", has_text="Bench sheet").focus()
    bench.page.keyboard.press("Enter")
    expect(order.locator(".pb-jump a", has_text="Bench sheet")).to_have_attribute("aria-current", "true")
    assert bench.page.evaluate("() => document.activeElement.dataset.section") == "bench"
    bench_table = order.locator('[data-table="bench"]')
    expect(bench_table).to_contain_text("moss")
    expect(order.locator('[data-section="bench"] h3')).to_be_in_viewport(ratio=1)


def test_what_is_typed_is_offered_again(bench: Bench) -> None:
    """The lists hold the palette and the tips, first those of the order; anything else is taken all the same."""
    order = bench.open(PAGE, "order")
    colours, tips = order.locator('datalist[id$="--colours"] option'), order.locator('datalist[id$="--tips"] option')
    assert {"russet", "cream", "verdigris"} <= {option.get_attribute("value") for option in colours.all()}
    items(order, "tiers.0.rows").first.locator("summary").first.click()
    field(order, "tiers.0.rows.0.tip").fill("petal 10.4 mm")
    field(order, "tiers.0.rows.0.colour").fill("granny's green")
    field(order, "tiers.0.rows.0.colour").press("Tab")
    settled(order)
    assert "petal 10.4 mm" in {option.get_attribute("value") for option in tips.all()}
    assert "granny's green" in {option.get_attribute("value") for option in colours.all()}
    expect(items(order, "tiers.0.rows").first.locator('[data-local="colour"] .pb-entry > .pb-dot')).not_to_have_attribute("data-look", "")
    order.get_by_role("button", name="Add a colour").click()
    field(order, "colours.0.name").fill("Granny's Green")
    order.locator(".pb-look").last.fill("#77aa33")
    assert field(order, "colours.0.look").input_value() == "#77aa33"
    expect(items(order, "tiers.0.rows").first.locator('[data-local="colour"] .pb-entry > .pb-dot')).to_have_attribute("data-look", "#77aa33")
    settled(order)
    expect(order.locator('[data-table="colours"] .pb-dot[data-look="#77aa33"]')).to_have_count(1)


def test_the_day_can_be_chosen_from_a_calendar(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    order.locator(".pb-when").fill("2027-11-02T14:30")
    assert field(order, "ready_at").input_value() == "2027-11-02 14:30"
    settled(order)
    expect(order.locator('[data-table="marking"] caption')).to_contain_text("Tue 2 November 2027, 14:30")


def test_the_right_keyboard_comes_up(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    kinds = order.evaluate("root => [...root.querySelectorAll('.pb-field input[type=text]')].map(e => [e.dataset.name, e.inputMode, e.enterKeyHint])")
    modes = {name: mode for name, mode, _ in kinds}
    assert (modes["guests"], modes["margin"], modes["tiers.0.layers"], modes["packs.0.price"]) == ("numeric", "decimal", "numeric", "decimal")
    assert modes["tiers.0.width"] == modes["name"] == ""  # a length may be written in inches, so letters must be at hand
    assert {hint for *_, hint in kinds} == {"next"}


# ---- finding one's way ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("size", [(1280, 800), (1024, 768)])
def test_the_drawing_stays_in_view_while_the_last_row_is_changed(bench: Bench, size: tuple[int, int]) -> None:
    bench.page.set_viewport_size({"width": size[0], "height": size[1]})
    order = bench.open(PAGE, "order")
    order.locator(".pb-jump a", has_text="The cake").click()
    items(order, "tiers.1.rows").last.locator("summary").first.click()
    field(order, "tiers.1.rows.3.colour").click()
    expect(order.locator('.pb-drawing[data-drawing="tilted"] > svg')).to_be_in_viewport(ratio=1)
    expect(field(order, "tiers.1.rows.3.colour")).to_be_in_viewport(ratio=1)


@pytest.mark.parametrize("size", [(1280, 800), (1024, 768), (390, 844)])
def test_every_part_is_reached_and_nothing_covers_its_heading(bench: Bench, size: tuple[int, int]) -> None:
    bench.page.set_viewport_size({"width": size[0], "height": size[1]})
    order = bench.open(PAGE, "order")
    links = order.locator(".pb-jump a[data-part]")
    assert links.count() == order.locator(".pb-section").count() >= 9
    for link in links.all():
        link.click()
        part = link.get_attribute("data-part")
        heading = f'.pb-section[data-section="{part}"] > h3'
        expect(order.locator(heading)).to_be_in_viewport(ratio=1)
        expect(link).to_have_attribute("aria-current", "true")
        assert overlap(order, ".pb-jump", heading) <= 0, part
        assert overlap(order, ".md-header", ".pb-jump") <= 0.5


def test_the_strip_of_parts_follows_but_not_under_a_pointer(bench: Bench) -> None:
    bench.page.set_viewport_size({"width": 390, "height": 844})
    order = bench.open(PAGE, "order")
    strip = order.locator(".pb-jump")
    current = 'name => document.querySelector(`.pb-jump a[data-part="${name}"]`).hasAttribute("aria-current")'
    go = "part => document.getElementById(part.hash.slice(1)).scrollIntoView()"
    price, first = strip.locator('a[data-part="price"]'), strip.locator("a[data-part]").first
    price.evaluate(go)
    bench.page.wait_for_function(current, arg="price")
    expect(price).to_be_in_viewport(ratio=0.9)
    strip.hover()
    bench.page.wait_for_function("() => document.querySelector('.pb-jump').matches(':hover')")
    before = strip.locator("ul").evaluate("list => list.scrollLeft")
    assert before > 0
    first.evaluate(go)
    expect(first).to_have_attribute("aria-current", "true")
    assert strip.locator("ul").evaluate("list => list.scrollLeft") == before
    bench.page.mouse.move(200, 400)
    price.evaluate(go)
    expect(price).to_have_attribute("aria-current", "true")
    first.evaluate(go)
    bench.page.wait_for_function("() => document.querySelector('.pb-jump ul').scrollLeft === 0")


def test_a_field_with_the_focus_is_not_covered(bench: Bench) -> None:
    """Tab through the whole form on a phone: neither the header nor the bar below lies over what has the focus."""
    bench.page.set_viewport_size({"width": 390, "height": 844})
    order = bench.open(PAGE, "order")
    field(order, "name").focus()
    for _ in range(60):
        bench.page.keyboard.press("Tab")
        covered = bench.page.evaluate(
            """() => { const e = document.activeElement, box = e.getBoundingClientRect();
                const top = document.querySelector(".md-header").getBoundingClientRect().bottom;
                const low = document.querySelector(".pb-pair").getBoundingClientRect().top;
                const isCovered = e.closest(".pb-form") && (box.top < top - 1 || box.bottom > low + 1);
                return isCovered ? `${e.name || e.className} ${box.top} ${box.bottom}` : "" }"""
        )
        assert covered == ""


def test_on_a_phone_one_goes_over_to_the_answer_and_back_to_where_one_was(bench: Bench) -> None:
    bench.page.set_viewport_size({"width": 390, "height": 844})
    order = bench.open(PAGE, "order")
    field(order, "tiers.1.width").scroll_into_view_if_needed()
    bench.page.evaluate("() => scrollBy(0, 150)")
    bench.page.wait_for_function("() => document.querySelector('.pb-pair a[data-half=form]').hasAttribute('aria-current')")
    before = bench.page.evaluate("() => scrollY")
    press(bench, order.locator(".pb-pair a", has_text="Answer"))
    expect(order.locator('.pb-drawing[data-drawing="side"] > svg')).to_be_in_viewport()
    expect(order.locator(".pb-pair a", has_text="Answer")).to_have_attribute("aria-current", "true")
    press(bench, order.locator(".pb-pair a", has_text="Order"))
    assert bench.page.evaluate("() => scrollY") == before


def test_no_sideways_scroll_and_targets_a_finger_wide(bench: Bench) -> None:
    bench.page.set_viewport_size({"width": 320, "height": 844})
    order = bench.open(PAGE, "order")
    for width in (320, 390, 768, 1024, 1280):
        bench.page.set_viewport_size({"width": width, "height": 844})
        wait_for_rest(bench.page)
        order.evaluate("root => root.querySelectorAll('details').forEach(each => { each.open = true })")
        assert bench.page.evaluate("() => document.documentElement.scrollWidth - innerWidth") <= 0, width
        small = order.evaluate(
            """root => [...root.querySelectorAll("button, input, select, textarea, summary, .pb-jump a, .pb-pair a, .pb-tools label")]
                .filter(e => e.offsetParent && !["radio", "checkbox"].includes(e.type))
                .map(e => [e.className || e.name || e.tagName, e.getBoundingClientRect()])
                .filter(([, box]) => box.width < 43.5 || box.height < 43.5)
                .map(([name, box]) => `${name}: ${box.width} x ${box.height}`)"""
        )
        assert small == [], width


# ---- paper --------------------------------------------------------------------------------------------------------------------


def test_the_page_prints_whole(bench: Bench) -> None:
    import io

    import pypdf

    bench.open(PAGE, "order")
    whole = pypdf.PdfReader(io.BytesIO(bench.page.pdf(format="A4", prefer_css_page_size=True)))
    words = " ".join(page.extract_text() for page in whole.pages)
    assert "Piping order" in words and "What it is for" in words and "To buy" in words
    assert "Swag · hung on the side · petal 11 mm · russet" in words


# ---- a calendar file --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("path, name, file", [(PAGE, "order", "timetable.ics"), ("plan/timetable/", "timetable", "cake-timetable.ics")])
def test_the_calendar_file_is_the_one_written_natively_and_its_library_waits_until_then(
    bench: Bench, site: Path, path: str, name: str, file: str
) -> None:
    asked: list[str] = []
    bench.page.context.on("request", lambda request: asked.append(request.url))
    calculator = bench.open(path, name)
    library = [f"/{made.name}" for made in (site / "assets" / "runtime").glob("calendar-*.bin")]
    assert len(library) == 1 and not [url for url in asked if url.endswith(library[0])], "fetched before anybody saved a calendar file"
    for _ in range(2):
        with bench.page.expect_download() as saved:
            calculator.locator(f'button[data-file="{file}"]').click()
        assert saved.value.suggested_filename == ("orchard-harvest-supper-timetable.ics" if name == "order" else file)
        order = (DOCS / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")
        inputs = {"order": order} if name == "order" else {}
        assert Path(saved.value.path()).read_bytes() == calc.sheet(name, inputs, file)
    assert len([url for url in asked if url.endswith(library[0])]) == 1
    ready(calculator)


def test_the_calendar_file_is_written_where_no_snapshot_was_restored(bench: Bench) -> None:
    bench.page.context.route("**/snapshot-*.bin", lambda route: route.abort())
    calculator = bench.open("plan/timetable/", "timetable")
    assert calculator.get_attribute("data-way") == "plain"
    with bench.page.expect_download() as saved:
        calculator.locator('button[data-file="cake-timetable.ics"]').click()
    assert Path(saved.value.path()).read_bytes() == calc.sheet("timetable", {}, "cake-timetable.ics")


# ---- another order ---------------------------------------------------------------------------------------------------------------


def test_another_order_begins_with_one_tier_and_keeps_what_is_in_the_drawer(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    cutters = field(order, "cutters").input_value()
    order.locator(".pb-kept-orders > summary").click()
    order.get_by_role("button", name="Begin another order").click()
    expect(field(order, "name")).to_be_focused()
    expect(field(order, "name")).to_have_value("A cake")
    expect(items(order, "tiers")).to_have_count(1)
    expect(summary_line(items(order, "tiers").first)).to_have_text("Tier 1 · round 20 cm · 10 cm high · no rows")
    assert field(order, "cutters").input_value() == cutters
    assert items(order, "packs").count() == 5
    settled(order)
    expect(order.get_by_role("button", name="Undo", exact=True)).to_have_attribute("aria-disabled", "true")
    assert order.get_by_label("Kept here").locator("option").count() >= 1


def test_three_tiers_of_three_shapes_from_the_beginning(bench: Bench) -> None:
    """A square, a hexagon and a round, typed in as it comes, with Enter from field to field; the repeats meet the corners."""
    order = bench.open(PAGE, "order")
    order.locator(".pb-kept-orders > summary").click()
    order.get_by_role("button", name="Begin another order").click()
    expect(field(order, "name")).to_be_focused()
    keys = bench.page.keyboard

    def on(*texts: str) -> None:
        for text in texts:
            keys.press("Control+A")
            keys.type(text)
            keys.press("Enter")

    on("Harbour wedding", "2028-06-03 15:00", "90", "25 x 50 mm", "8 cm, 6 cm")
    keys.press("Enter")  # past the kind of buttercream
    for number, (name, shape, width, disc) in enumerate(
        (("Bottom", "square", "28 cm", "29 cm"), ("Middle", "hexagon", "20 cm", "21 cm"), ("Top", "round", "12 cm", "13 cm"))
    ):
        if number:
            order.get_by_role("button", name="Add a tier").click()
        expect(field(order, f"tiers.{number}.name")).to_be_focused()
        on(name)
        keys.type(shape[0])
        keys.press("Enter")
        on(width, "10 cm", "3", "6 mm", disc)
        order.locator(f'.pb-items[data-input="tiers.{number}.rows"] > .pb-add').click()
        expect(field(order, f"tiers.{number}.rows.0.kind")).to_be_focused()
        settled(order)
        expect(summary_line(items(order, "tiers").nth(number))).to_have_text(f"{name} · {shape} {width} · 10 cm high · 1 row")
    marking = order.locator('[data-table="marking"] tbody tr')
    repeats = [int(marking.nth(i).locator("td").nth(1).inner_text()) for i in range(3)]
    assert repeats[0] % 4 == 0 and repeats[1] % 6 == 0, repeats
    assert order.locator(".pb-failure").count() == 0
