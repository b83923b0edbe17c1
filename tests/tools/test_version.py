"""Pyodide's version stands in package.json and nowhere else; a trim that fails falls back to the whole script, and says so."""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path

import pytest

from tools.build.console import Failed
from tools.build.paths import NPM_PINS, PYODIDE_VERSION, ROOT
from tools.runtime import build_runtime

VERSION = re.compile(r"python-?3\d\d\b|\b3\d\d\.\d+\.\d+\b|python-version=3\.\d|\bcp3\d\d\b", re.IGNORECASE)
MADE_BY_TOOLS = {"docs/about/speed.md", "docs/about/speed.json", "docs/about/next-pyodide.md"}


def test_the_version_is_that_of_package_json() -> None:
    assert json.loads((NPM_PINS / "package.json").read_text())["dependencies"]["pyodide"] == PYODIDE_VERSION


def test_no_other_file_names_a_version() -> None:
    listed = subprocess.run(["git", "ls-files", "tools", "docs", "calc"], cwd=ROOT, capture_output=True, text=True, check=True).stdout.split()
    texts = [name for name in listed if name.endswith((".py", ".mjs", ".js", ".md", ".html", ".json", ".toml", ".in"))]
    assert len(texts) > 100
    allowed = MADE_BY_TOOLS | {"tools/build/npm/package.json", "tools/build/npm/package-lock.json"}
    found = {name: VERSION.findall((ROOT / name).read_text(encoding="utf-8")) for name in texts if name not in allowed and (ROOT / name).exists()}
    assert {name: hits for name, hits in found.items() if hits} == {}


def test_a_trim_that_fails_gives_the_whole_script_and_a_warning(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    def fail(*_: object, **__: object) -> None:
        raise Failed("expected once in the runtime's script, found 2 times: updateGOT")

    monkeypatch.setattr(build_runtime.environment, "node", lambda: (["node"], ["npm"]))
    monkeypatch.setattr(build_runtime, "run", fail)
    assert build_runtime._trimmed() == build_runtime.WHOLE
    warned = capsys.readouterr().out
    assert "WARNING" in warned
    assert "updateGOT" in warned


@pytest.fixture
def steps(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """A build of which only the order of steps is real; gives the scripts that snapshots were made with."""
    made: list[Path] = []
    for name in ("RUNTIME", "WORK"):
        monkeypatch.setattr(build_runtime, name, tmp_path / name)
    monkeypatch.setattr(build_runtime, "MANIFEST", tmp_path / "RUNTIME" / "manifest.json")
    monkeypatch.setattr(build_runtime.environment, "npm_packages", lambda: None)
    monkeypatch.setattr(build_runtime.stamps, "digest", lambda *_: "value")
    monkeypatch.setattr(build_runtime.stamps, "is_fresh", lambda *_: False)
    monkeypatch.setattr(build_runtime.stamps, "forget", lambda *_: None)
    monkeypatch.setattr(build_runtime.stamps, "write", lambda *_: None)
    monkeypatch.setattr(build_runtime, "wheels", list)
    monkeypatch.setattr(build_runtime, "_bytecode", lambda _: {})
    monkeypatch.setattr(build_runtime, "_native_answers", list)
    monkeypatch.setattr(build_runtime, "_trimmed", lambda: build_runtime.TRIMMED)
    monkeypatch.setattr(build_runtime, "_copy_pyodide", lambda _: "pyodide/")
    monkeypatch.setattr(build_runtime, "_sizes", lambda _: {})

    def snapshot(script: Path, _: list[str]) -> dict[str, object]:
        made.append(script)
        if script == build_runtime.TRIMMED:
            raise Failed("the trimmed script does not start")
        return {}

    monkeypatch.setattr(build_runtime, "_snapshot", snapshot)
    return made


def test_a_trimmed_script_that_does_not_work_is_replaced_by_the_whole(steps: list[Path], capsys: pytest.CaptureFixture[str]) -> None:
    manifest = json.loads(build_runtime.build().read_text())
    assert steps == [build_runtime.TRIMMED, build_runtime.WHOLE]
    assert manifest["script"] == "pyodide.asm.js"
    assert "WARNING" in capsys.readouterr().out


def test_untrimmed_never_trims(steps: list[Path], capsys: pytest.CaptureFixture[str]) -> None:
    manifest = json.loads(build_runtime.build(trim=False).read_text())
    assert steps == [build_runtime.WHOLE]
    assert manifest["script"] == "pyodide.asm.js"
    assert "WARNING" not in capsys.readouterr().out
