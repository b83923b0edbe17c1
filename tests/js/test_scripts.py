"""The scripts of the pages in Node, without a browser: tests/js/*.test.mjs, all in one run of Node's own test runner."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

from tests.conftest import lacking
from tools.build.console import Failed
from tools.build.paths import DOCS
from tools.check import scripts

FOLDER = Path(__file__).parent
IN_BROWSERS = {
    # what a reader makes lies in IndexedDB, which Node has not; what is decided about it is in journal, records, steps, beside, starts, files
    "store": "test_store",
    "kitchen": "test_kitchen_page",
    "keeping": "test_store",
    "panel": "test_typing",
    "mount": "test_page_changes",
    "bench": "test_at_the_bench",
    "looks": "test_looks",
    "shelf": "test_shelf",
    "shop": "test_to_the_shop",
    "use_cake": "test_kitchen_page",
    # where things lie on the page, and what a finger reaches there
    "picker": "test_accessible",
    "stage": "test_stage",
    "quotation": "test_quotation",
    "waiting": "test_waiting",
    # a service worker; what is decided is in offline_files and offline_words
    "offline": "test_offline",
    # only imports the others
    "handbook": "test_every_page",
}


def test_scripts_do_what_their_tests_say() -> None:
    try:
        command = scripts.command()
        scripts.write_forms()
    except Failed as failed:
        lacking(str(failed))
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    counted = re.search(r"^# tests (\d+)$", done.stdout, re.MULTILINE)
    assert done.returncode == 0, done.stdout + done.stderr
    assert counted and int(counted[1]) >= len(list(FOLDER.glob("*.test.mjs"))), done.stdout


def test_every_script_is_tested_here_or_in_browsers() -> None:
    tests = "".join(path.read_text(encoding="utf-8") for path in FOLDER.glob("*.test.mjs"))
    here = set(re.findall(r'script\("(\w+)"\)', tests)) | set(re.findall(r"docs/assets/js/(\w+)\.js", tests))
    assert {path.stem for path in (DOCS / "assets" / "js").glob("*.js")} == here | set(IN_BROWSERS)
    assert not here & set(IN_BROWSERS)
    for test in IN_BROWSERS.values():
        assert (FOLDER.parent / "browser" / f"{test}.py").is_file(), test
