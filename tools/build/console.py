"""What the tools print: a line for each step, with the time it took."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from tools.build.paths import ROOT


class Failed(Exception):
    """A step failed; the message says what to do."""


def say(text: str) -> None:
    """Print a line without buffering."""
    print(text, flush=True)


@contextmanager
def step(title: str) -> Iterator[None]:
    """Print the title, then how long the block took."""
    start = time.monotonic()
    say(f"-- {title}")
    yield
    say(f"   {time.monotonic() - start:.1f} s")


def run(
    command: Sequence[str | Path],
    *,
    cwd: Path = ROOT,
    env: Mapping[str, str] | None = None,
    quiet: bool = False,
) -> None:
    """Run a command; when it fails, show its output and raise `Failed`."""
    words = [str(word) for word in command]
    done = subprocess.run(
        words,
        cwd=cwd,
        env=dict(env) if env is not None else None,
        check=False,
        stdout=subprocess.PIPE if quiet else None,
        stderr=subprocess.STDOUT if quiet else None,
        text=True,
    )
    if done.returncode:
        if quiet and done.stdout:
            sys.stderr.write(done.stdout)
        raise Failed(f"{Path(words[0]).name} ended with status {done.returncode}: {' '.join(words)}")
