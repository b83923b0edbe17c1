"""Answers requests with the Python that runs this: JSON in a file, JSON on standard output, as the browser's worker does it."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).resolve().parent.parent), str(Path(__file__).resolve().parent / "runtime")]

import door  # noqa: E402


def main() -> None:
    """Print the answers to a file of requests, each a text of JSON."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("requests", type=Path)
    requests = json.loads(parser.parse_args().requests.read_text())
    print(json.dumps([door.answer(json.dumps(request)) for request in requests]))


if __name__ == "__main__":
    main()
