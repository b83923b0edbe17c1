"""A restored memory has no files: when something has to be imported after all, the worker fetches the standard library and calc, and goes on."""

from __future__ import annotations

from playwright.sync_api import Route, expect

from tests.browser.helpers import Bench, field, figure

# Pyodide's loader, with the runtime it gives kept where a test can reach it.
LOADER = """import * as whole from "./pyodide.js?whole";
export const { version } = whole;
export const loadPyodide = async (settings) => (self.pbPython = await whole.loadPyodide(settings));"""
FORGET = """import sys
for name in [name for name in sys.modules if name.startswith("calc") or name == "dataclasses"]:
    del sys.modules[name]
sys.path_importer_cache.clear()"""


def test_modules_are_found_again_where_the_runtime_looks_for_them(bench: Bench) -> None:
    def keeping(route: Route) -> None:
        route.fulfill(response=route.fetch(), body=LOADER)

    bench.page.context.route("**/pyodide.js", keeping)
    swags = bench.open("techniques/swags/", "swags")
    assert swags.get_attribute("data-way") == "snapshot"
    (worker,) = bench.workers
    run = "code => self.pbPython.runPython(code)"
    worker.evaluate(run, FORGET)
    built = figure(swags, "length_total").inner_text()
    field(swags, "side").fill("52 cm")
    expect(figure(swags, "length_total")).not_to_have_text(built)
    origin = worker.evaluate(run, "import sys; sys.modules['dataclasses'].__spec__.origin")
    standard = worker.evaluate(run, "f'/lib/python{sys.version_info.major}{sys.version_info.minor}.zip/'")
    assert origin.startswith(standard)
