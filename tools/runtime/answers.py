"""Answers requests with the Python that runs this: JSON in a file, JSON on standard output, as the browser's worker does it."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from tools.runtime import worker_api


def main() -> None:
    """Print the answers to a file of requests, each a text of JSON."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("requests", type=Path)
    requests = json.loads(parser.parse_args().requests.read_text())
    print(json.dumps([worker_api.answer(json.dumps(request)) for request in requests]))


if __name__ == "__main__":
    main()
