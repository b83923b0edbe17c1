"""Answers requests natively, through the same functions as the worker: JSON from a file, JSON on standard output."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from tools.runtime import worker_api


def main() -> None:
    """Print the answers to a file of requests, each as a JSON string."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("requests", type=Path)
    requests = json.loads(parser.parse_args().requests.read_text())
    print(json.dumps([worker_api.answer(json.dumps(request)) for request in requests]))


if __name__ == "__main__":
    main()
