"""Gzips files as small as possible with libdeflate at its highest level: compressed once, fetched often."""

from __future__ import annotations

import argparse
from pathlib import Path

import deflate


def main() -> None:
    """Write each file gzipped beside itself, with `.packed` appended to its name."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("files", nargs="+", type=Path)
    for file in parser.parse_args().files:
        file.with_name(file.name + ".packed").write_bytes(deflate.gzip_compress(file.read_bytes(), 12))


if __name__ == "__main__":
    main()
