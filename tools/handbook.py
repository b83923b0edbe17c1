"""The one door to the handbook's tools: serve, build, test, bench, check. Needs Python 3.11 or newer and nothing else."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

if sys.version_info < (3, 11):  # noqa: UP036 (what is run first must say so itself)
    sys.exit(f"Python 3.11 or newer is needed; this is {sys.version.split()[0]}")

sys.path[0] = str(Path(__file__).resolve().parent.parent)  # the package is `tools`; its rooms are no modules by themselves

from tools.build.console import Failed
from tools.check import checks
from tools.site import build_site, server

CHECKS = {
    "attack": "attack the built handbook: bombs, mangled orders, hosts, links, storage, tabs",
    "mutants": "put small mistakes into a room of calc and see which its tests notice",
    "scripts": "test the scripts of the pages in Node",
    "vectors": "compare what readers see with what is pinned, or with another commit",
}


def main() -> int:
    """Parse the command and do it."""
    parser = argparse.ArgumentParser(prog="handbook.py", description=__doc__)
    commands = parser.add_subparsers(dest="command", required=True)

    serving = commands.add_parser("serve", help="build what has changed and serve the site on this machine")
    serving.add_argument("--port", type=int, default=8000, help="8000 unless told; 0 takes any free one")

    building = commands.add_parser("build", help="build the site into site/")
    building.add_argument("--untrimmed", action="store_true", help="start pages with Pyodide's whole script, not the part they need")

    testing = commands.add_parser("test", help="everything: style, types, tests, the site, the browsers")
    checks.add_arguments(testing)

    commands.add_parser("bench", help="measure how quickly the pages answer", add_help=False)  # what follows is for tools/bench/measure.py

    checking = commands.add_parser("check", help="one of the slower checks").add_subparsers(dest="what", required=True)
    for what, told in CHECKS.items():
        checking.add_parser(what, help=told, add_help=False)  # what follows is for tools/check/WHAT.py

    asked, rest = parser.parse_known_args()
    if rest and asked.command not in ("bench", "check"):
        parser.error(f"unknown: {' '.join(rest)}")
    try:
        if asked.command == "serve":
            build_site.build()
            server.serve(asked.port)
        elif asked.command == "build":
            build_site.build(trim=not asked.untrimmed)
        elif asked.command == "test":
            return checks.test(asked)
        elif asked.command == "bench":
            return checks.bench(rest)
        elif asked.command == "check":
            return checks.check(asked.what, rest)
    except Failed as failed:
        print(f"handbook.py: {failed}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
