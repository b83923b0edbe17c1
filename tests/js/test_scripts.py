"""The scripts of the pages in Node, without a browser: tests/js/*.test.mjs, all in one run of Node's own test runner."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

from tests.conftest import lacking
from tools.build.console import Failed
from tools.check import scripts


def test_scripts_do_what_their_tests_say() -> None:
    try:
        command = scripts.command()
        scripts.write_forms()
    except Failed as failed:
        lacking(str(failed))
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    counted = re.search(r"^# tests (\d+)$", done.stdout, re.MULTILINE)
    assert done.returncode == 0, done.stdout + done.stderr
    assert counted and int(counted[1]) >= len(list(Path(__file__).parent.glob("*.test.mjs"))), done.stdout
