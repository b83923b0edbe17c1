"""Packs files as small as gzip can hold them, with libdeflate's longest search: what a reader has to fetch is packed once and fetched often."""

from __future__ import annotations

import argparse
from pathlib import Path

import deflate


def main() -> None:
    """Write each file packed, beside itself, with `.packed` after its name."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("files", nargs="+", type=Path)
    for file in parser.parse_args().files:
        file.with_name(file.name + ".packed").write_bytes(deflate.gzip_compress(file.read_bytes(), 12))


if __name__ == "__main__":
    main()
