"""A step is done again when, and only when, what it is made from has changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tools.build import stamps


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Stamps of this test only."""
    monkeypatch.setattr(stamps, "STAMPS", tmp_path / "stamps")
    return tmp_path


def test_a_step_is_fresh_only_while_nothing_changes(folder: Path) -> None:
    source, result = folder / "in.txt", folder / "out.txt"
    source.write_text("one")
    assert not stamps.is_fresh("step", stamps.digest([source]), result)
    result.write_text("made")
    stamps.write("step", stamps.digest([source]))
    assert stamps.is_fresh("step", stamps.digest([source]), result)
    source.write_text("two")
    assert not stamps.is_fresh("step", stamps.digest([source]), result)
    source.write_text("one")
    assert stamps.is_fresh("step", stamps.digest([source]), result)
    result.unlink()
    assert not stamps.is_fresh("step", stamps.digest([source]), result)


def test_a_step_broken_off_is_done_again(folder: Path) -> None:
    stamps.write("step", "x")
    stamps.forget("step")
    stamps.forget("step")
    assert not stamps.is_fresh("step", "x")


def test_names_words_and_bytes_all_count(folder: Path) -> None:
    one, other = folder / "a", folder / "b"
    one.write_bytes(b"same")
    other.write_bytes(b"same")
    digests = {stamps.digest([one]), stamps.digest([other]), stamps.digest([one], "word"), stamps.digest([one, other]), stamps.digest([])}
    assert len(digests) == 5


def test_compiled_python_does_not_count(folder: Path) -> None:
    (folder / "__pycache__").mkdir()
    (folder / "__pycache__" / "a.pyc").write_bytes(b"")
    (folder / "a.py").write_text("")
    assert [path.name for path in stamps.files_under(folder)] == ["a.py"]
