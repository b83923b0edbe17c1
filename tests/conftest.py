"""What all tests share: the finished site, a server for it and a browser.

`python3 tools/handbook.py test` builds the site, names a Chromium in CHROMIUM and sets PIPING_BENCH_WHOLE, so that nothing can be left
out unnoticed. With plain pytest the tests that need the site or a browser are skipped where there is none.
"""

from __future__ import annotations

import gc
import os
import shutil
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType
from typing import Any

import pytest
from hypothesis import settings

# A laptop with other work to do is no fault of the code: speed is measured by tools/handbook.py bench, not by a deadline for each example.
settings.register_profile("calm", deadline=None)
settings.load_profile("calm")

ROOT = Path(__file__).resolve().parent.parent
WHOLE = bool(os.environ.get("PIPING_BENCH_WHOLE"))


# The longest files, which begin first where several workers share the files, so that they end together; then the other browser tests.
LONGEST = (
    *("test_every_page", "test_order_page", "test_offline", "test_soak", "test_security", "test_store", "test_engines", "test_saved_copy"),
    *("test_reading_well", "test_whole_cake", "test_order_any", "test_random_walk", "test_nothing_sent", "test_mistakes", "test_same_bytes"),
    *("test_any_text", "test_waiting", "test_accessible"),
)


def _place(item: pytest.Item) -> int:
    """When the file of a test has its turn."""
    if item.path.stem in LONGEST:
        return LONGEST.index(item.path.stem)
    return len(LONGEST) + ("browser" not in item.path.parts)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Let the longest files begin, and mark the tests of the site and of the browser by the folder that they are in."""
    items.sort(key=_place)
    for item in items:
        folders = set(item.path.relative_to(ROOT).parts)
        if "browser" in folders:
            item.add_marker("browser")
        elif "site" in folders:
            item.add_marker("site")


def lacking(what: str) -> None:
    """Skip, or fail where everything was asked for."""
    if WHOLE:
        pytest.fail(what)
    pytest.skip(what)


@pytest.fixture
def counting_calls() -> Callable[[Callable[[], Any]], tuple[Any, int]]:
    """A function that runs another and gives its result and the number of Python calls it took: a measure of work without a clock."""

    def run(function: Callable[[], Any]) -> tuple[Any, int]:
        calls = 0

        def count(frame: FrameType, event: str, arg: Any) -> None:
            nonlocal calls
            calls += event == "call"

        before, collects = sys.getprofile(), gc.isenabled()
        gc.disable()  # what runs after a collection is not the function's doing
        sys.setprofile(count)
        try:
            result = function()
        finally:
            sys.setprofile(before)
            if collects:
                gc.enable()
        return result, calls

    return run


@pytest.fixture(scope="session")
def site() -> Path:
    """The folder of the finished site."""
    folder = ROOT / "site"
    if not (folder / "index.html").is_file():
        lacking("the site has not been built: python3 tools/handbook.py build")
    return folder


@pytest.fixture(scope="session")
def address(site: Path) -> Iterator[str]:
    """The address of a server for the finished site, ending in a slash."""
    from tools.site import server

    running = server.make_server(site)
    thread = threading.Thread(target=running.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{running.server_address[1]}/"
    running.shutdown()
    running.server_close()


@pytest.fixture(scope="session")
def chromium() -> str:
    """The path of a Chromium."""
    path = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
    if not path:
        lacking("there is no Chromium: python3 tools/handbook.py test finds or installs one")
    return str(path)


@pytest.fixture(scope="session")
def shell(chromium: str) -> str:
    """The path of a Chromium without windows, or of the whole one where there is none."""
    return os.environ.get("CHROMIUM_SHELL") or shutil.which("chromium-headless-shell") or chromium
