"""The server for measurements: the finished site and plain Pyodide.

It answers from memory, compressed, and counts the bytes sent. The site is read once, so that a build during the run changes nothing.
`Line` limits bandwidth and adds latency, alike for every page, script and worker.
"""

from __future__ import annotations

import gzip
import hashlib
import json
import threading
import time
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from tools.build.paths import PYODIDE, SITE, WHEELS
from tools.site import offline, server

BASELINES = Path(__file__).resolve().parent / "baselines"
PROBE = "bench/probe.js"
REPORT = "bench/report"  # requested by a page when its first answer is there, or it has failed
PINT_WHEELS = ("pint", "flexcache", "flexparser", "platformdirs", "typing_extensions")
PLAIN_FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
COMPRESSED = (".html", ".js", ".mjs", ".css", ".json", ".svg", ".wasm", ".webmanifest", ".toml", ".xml", ".zip", ".txt")
CHUNK = 8192  # bytes sent at once over a limited line


@dataclass(frozen=True)
class Kept:
    """A file ready to be sent."""

    kind: str
    data: bytes
    packed: bytes | None
    tag: str

    @property
    def sent(self) -> int:
        """The number of bytes sent."""
        return len(self.data if self.packed is None else self.packed)


def kept(name: str, data: bytes) -> Kept:
    """Prepare a file, compressed where that makes it smaller."""
    suffix = Path(name).suffix
    packed = gzip.compress(data, 9, mtime=0) if suffix in COMPRESSED else None
    if packed is not None and len(packed) >= len(data):
        packed = None
    return Kept(server.Handler.extensions_map.get(suffix, "application/octet-stream"), data, packed, hashlib.sha256(data).hexdigest()[:16])


def files_of_site(site: Path, probed: str) -> dict[str, Kept]:
    """The files of the site, with the probe script in one page and the hash of that page corrected in the offline list."""
    found = {path.relative_to(site).as_posix(): path.read_bytes() for path in sorted(site.rglob("*")) if path.is_file() and path.suffix != ".map"}
    page = f"{probed}index.html"
    if page in found:
        found[page] = found[page].replace(b"</body>", f'<script type="module" src="/{PROBE}"></script></body>'.encode(), 1)
        listing = json.loads(found[offline.LIST])
        listing["files"] = [offline.entry(probed, found[page]) if line[0] == probed else line for line in listing["files"]]
        found[offline.LIST] = json.dumps(listing, separators=(",", ":")).encode()
    return {name: kept(name, data) for name, data in found.items()}


def files_of_plain() -> dict[str, Kept]:
    """The files of plain Pyodide and the wheels of pint, as published."""
    found = {f"plain/{path.name}": path.read_bytes() for path in sorted(BASELINES.glob("plain*"))}
    wheels = sorted(path for path in WHEELS.glob("*.whl") if path.name.split("-")[0] in PINT_WHEELS)
    found |= {f"plain/{path.name}": path.read_bytes() for path in wheels}
    found["plain/wheels.json"] = json.dumps([path.name for path in wheels]).encode()
    found |= {f"plain/pyodide/{name}": (PYODIDE / name).read_bytes() for name in PLAIN_FILES}
    found[PROBE] = (BASELINES / "probe.js").read_bytes()
    return {name: kept(name, data) for name, data in found.items()}


class Line:
    """A line with limited bandwidth, shared by all transfers, and added latency."""

    def __init__(self, bits_per_second: float, latency_s: float) -> None:
        self.bytes_per_second = bits_per_second / 8
        self.latency_s = latency_s
        self._free_at = 0.0
        self._lock = threading.Lock()

    def wait(self, count: int) -> None:
        """Wait until `count` bytes have passed."""
        with self._lock:
            now = time.monotonic()
            self._free_at = max(now, self._free_at) + count / self.bytes_per_second
            until = self._free_at
        time.sleep(max(0.0, until - now))


class Host:
    """The server with its files, its count of bytes sent, and the line in use."""

    def __init__(self, site: Path = SITE, probed: str = "") -> None:
        self.files = files_of_site(site, probed) | files_of_plain()
        self.line: Line | None = None
        self.reported = threading.Event()
        self._sent: list[tuple[str, int]] = []
        self._lock = threading.Lock()
        self._server = server.Server(("127.0.0.1", 0), partial(Handler, self))
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    @property
    def address(self) -> str:
        """The root address, ending in a slash."""
        return f"http://127.0.0.1:{self._server.server_address[1]}/"

    def begin(self) -> None:
        """Reset the count of bytes sent."""
        with self._lock:
            self._sent.clear()

    def note(self, name: str, count: int) -> None:
        """Count a file that was sent."""
        with self._lock:
            self._sent.append((name, count))

    @property
    def sent(self) -> list[tuple[str, int]]:
        """Path and bytes of every file sent since `begin`, without the probe."""
        with self._lock:
            return [(name, count) for name, count in self._sent if name != PROBE]

    @property
    def bytes_sent(self) -> int:
        """Bytes sent since `begin`, without headers."""
        return sum(count for _, count in self.sent)

    def close(self) -> None:
        """Stop the server."""
        self._server.shutdown()
        self._server.server_close()


class Handler(server.Handler):
    """Answers from the host's memory."""

    def __init__(self, host: Host, *given: object) -> None:
        self.host = host
        super().__init__(*given)  # type: ignore[arg-type]

    def setup(self) -> None:
        """A new connection costs one round trip."""
        super().setup()
        if self.host.line:
            time.sleep(self.host.line.latency_s)

    def do_GET(self) -> None:
        """Send a file, or 304 if it has not changed."""
        line = self.host.line
        if line:
            time.sleep(line.latency_s)
        name = self.path.partition("?")[0].lstrip("/")
        if name == "" or name.endswith("/"):
            name += "index.html"
        if name == REPORT:
            self.send_response(204)
            self.end_headers()
            self.host.reported.set()
            return
        file = self.host.files.get(name)
        if file is None:
            self.send_error(404)
            return
        if self.headers.get("If-None-Match") == f'"{file.tag}"':
            self.send_response(304)
            self.send_header("ETag", f'"{file.tag}"')
            self.end_headers()
            return
        is_packed = file.packed is not None and "gzip" in self.headers.get("Accept-Encoding", "")
        data = file.packed if file.packed is not None and is_packed else file.data
        self.send_response(200)
        self.send_header("Content-Type", file.kind)
        self.send_header("Content-Length", str(len(data)))
        self.send_header("ETag", f'"{file.tag}"')
        if is_packed:
            self.send_header("Content-Encoding", "gzip")
        self.end_headers()
        self.host.note(name, len(data))
        if line is None:
            self.wfile.write(data)
            return
        for at in range(0, len(data), CHUNK):
            line.wait(min(CHUNK, len(data) - at))
            self.wfile.write(data[at : at + CHUNK])

    def end_headers(self) -> None:
        """Files of plain Pyodide may be cached for ever, too."""
        if self.path.startswith("/plain/"):
            self.path = f"/assets/runtime{self.path}"
        super().end_headers()
