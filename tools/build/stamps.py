"""Stamps: a step runs again only when its inputs have changed.

A stamp is a file named after the step that holds a hash over everything the step reads. A step whose stamp still
matches, and whose results are still there, is skipped.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from tools.build.paths import BUILD, ROOT, STAMPS

_SKIPPED = {"__pycache__"}


def files_under(*roots: Path) -> list[Path]:
    """Every file at or below the roots, sorted, without compiled Python."""
    found: set[Path] = set()
    for root in roots:
        if root.is_file():
            found.add(root)
        elif root.is_dir():
            found.update(path for path in root.rglob("*") if path.is_file() and not _SKIPPED & set(path.parts) and path.suffix != ".pyc")
    return sorted(found)


def digest(paths: Iterable[Path], *words: str) -> str:
    """One hash over the words and the names and contents of the files."""
    whole = hashlib.sha256()
    for word in words:
        whole.update(word.encode() + b"\0")
    for path in paths:
        name = path.relative_to(ROOT) if path.is_relative_to(ROOT) else path.name
        whole.update(f"{name}\0".encode())
        whole.update(hashlib.sha256(path.read_bytes()).digest())
    return whole.hexdigest()


def is_fresh(step: str, value: str, *results: Path) -> bool:
    """Whether the step last ran with the same inputs and its results still exist."""
    stamp = STAMPS / step
    return stamp.is_file() and stamp.read_text() == value and all(path.exists() for path in results)


def write(step: str, value: str) -> None:
    """Record that the step is done."""
    STAMPS.mkdir(parents=True, exist_ok=True)
    (STAMPS / step).write_text(value)


def forget(step: str) -> None:
    """Remove the stamp before the step starts, so that an interrupted step runs again."""
    (STAMPS / step).unlink(missing_ok=True)


@contextmanager
def alone() -> Iterator[None]:
    """Hold the lock of the build folder; another build waits."""
    BUILD.mkdir(exist_ok=True)
    with (BUILD / "lock").open("w") as lock:
        if os.name == "posix":
            import fcntl

            fcntl.flock(lock, fcntl.LOCK_EX)
        yield
