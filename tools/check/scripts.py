"""The tests of the pages' scripts that need no browser: tests/js/*.test.mjs under Node's own test runner.

They run in the forms that the build writes, of every calculator, which are put into build/forms.json before.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

from calc.calculators import CALCULATORS, compute
from calc.page.html import element
from tools.build import environment
from tools.build.console import Failed
from tools.build.paths import BUILD, DOCS, NPM, ROOT
from tools.site import pages

FOLDER = ROOT / "tests" / "js"
OLDEST = (20, 19)  # from here on Node sees by itself that our scripts are modules


def command(*options: str) -> list[str | Path]:
    """What runs them; Failed where Node or the page that they run in is lacking."""
    node, _ = environment.node()
    printed = subprocess.run([*node, "--version"], capture_output=True, text=True, check=True).stdout
    version = tuple(int(part) for part in printed.strip().lstrip("v").split(".")[:2])
    if version < OLDEST:
        raise Failed(f"Node {OLDEST[0]}.{OLDEST[1]} or newer is needed to test the scripts; this is {printed.strip()}")
    if not (NPM / "node_modules" / "happy-dom").is_dir():
        raise Failed("npm packages of the tests are lacking: python3 tools/handbook.py test fetches them")
    reporter = [] if any(option.startswith("--test-reporter") for option in options) else ["--test-reporter=tap"]
    files = sorted(FOLDER.glob("*.test.mjs"))
    return [*node, "--disable-warning=MODULE_TYPELESS_PACKAGE_JSON", "--test", *reporter, *options, *files]


def write_forms() -> None:
    """Write the form of each calculator with its own example, and that of a whole order."""
    forms = {slug: _form(slug, {}) for slug in CALCULATORS}
    record = (DOCS / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")
    forms["harvest-supper"] = _form("order", compute("order", {"order": record}).fields or {})
    BUILD.mkdir(exist_ok=True)
    (BUILD / "forms.json").write_text(json.dumps(forms, ensure_ascii=False), encoding="utf-8")


def _form(slug: str, values: dict[str, str]) -> str:
    calculator = CALCULATORS[slug]
    defaults = {declared.name: declared.default for declared in calculator.inputs}
    form = pages.Form(calculator, {**defaults, **values}, "pb-form")
    fields = form.level(pages.form_inputs(calculator), calculator.groups, "")
    summary = element("div", {"class": "pb-summary", "tabindex": "-1", "hidden": True})
    whole = element("fieldset", {"class": "pb-form", "data-flows": form.flows}, *fields, *form.lists())
    return str(element("section", {"class": "pb-calculator", "id": "pb-form", "data-calculator": slug}, summary, whole))


def main() -> int:
    """Run them as a person wants to read it; what is given is passed on to Node."""
    write_forms()
    return subprocess.run(command("--test-reporter=spec", *sys.argv[1:]), cwd=ROOT, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
