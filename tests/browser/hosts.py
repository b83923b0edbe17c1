"""Web servers with faults, for the tests: under a sub-path, with wrong types, with files missing, slow, gone and back again."""

from __future__ import annotations

import contextlib
import re
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path

from tools.site import offline, server

STRANGE = b"<!doctype html><title>Welcome</title><h1>Welcome to the network of this cafe</h1><p>Accept the rules to go on.</p>"


PORTS: set[int] = set()  # each port that a host of this run has had


class Host:
    """A server for a folder that can be stopped and started again at the same address."""

    def __init__(self, folder: Path, prefix: str = "") -> None:
        self.folder = folder
        self.prefix = prefix
        self.types: dict[str, str] = {}  # what is said of files with an ending
        self.missing: re.Pattern[str] | None = None
        self.changed: re.Pattern[str] | None = None
        self.stuck: re.Pattern[str] | None = None  # asked for, never answered
        self.halved: re.Pattern[str] | None = None  # comes to its half, and then no byte more until `let_go`
        self.short: re.Pattern[str] | None = None  # cut short, and said to be whole
        self.strange: re.Pattern[str] | None = None  # answered with a stranger's page
        self.answers: dict[re.Pattern[str], int] = {}  # refused, with which status
        self.headers: dict[str, str] = {}
        self.asked: list[str] = []
        self._port = 0
        self._running: server.Server | None = None
        self._free = threading.Event()

    @property
    def address(self) -> str:
        """Where the first page is, ending in a slash."""
        return f"http://127.0.0.1:{self._port}/{self.prefix}"

    def start(self) -> Host:
        """Begin to answer."""
        self._free.clear()
        self._running = self._bound()
        self._port = self._running.server_address[1]
        threading.Thread(target=self._running.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()
        return self

    def _bound(self) -> server.Server:
        """A server at this host's port; for a new host at a port that no other had, since a browser keeps what it has from an address."""
        passed: list[server.Server] = []
        while True:
            made = server.Server(("127.0.0.1", self._port), partial(Faulty, self, directory=str(self.folder)))
            if self._port or made.server_address[1] not in PORTS:
                PORTS.add(made.server_address[1])
                for other in passed:
                    other.server_close()
                return made
            passed.append(made)

    def let_go(self) -> None:
        """Let what is stuck or halved go on, and hold nothing up from now on."""
        self.stuck = self.halved = None
        self._free.set()

    def stop(self) -> None:
        """Answer no more."""
        self._free.set()
        if self._running:
            self._running.shutdown()
            self._running.server_close()
            self._running = None


class Faulty(server.Handler):
    """A handler that does what its host was told to do wrong."""

    protocol_version = "HTTP/1.0"  # no connection outlives the server

    def __init__(self, host: Host, *given: object, **named: object) -> None:
        self.host = host
        super().__init__(*given, **named)  # type: ignore[arg-type]

    @property
    def asked(self) -> str:
        """The path below the prefix, without the first slash."""
        return self.path.partition("?")[0].removeprefix("/").removeprefix(self.host.prefix)

    def do_GET(self) -> None:
        """Answer as the host was told."""
        host = self.host
        if not self.path.startswith(f"/{host.prefix}"):
            self.send_error(404)
            return
        host.asked.append(self.asked)
        if host.stuck and host.stuck.search(self.asked):
            host._free.wait()
            return
        if host.missing and host.missing.search(self.asked):
            self.send_error(404)
            return
        for pattern, status in host.answers.items():
            if pattern.search(self.asked):
                self.send_error(status)
                return
        if host.strange and host.strange.search(self.asked):
            self._send(STRANGE, "text/html; charset=utf-8")
            return
        if host.short and host.short.search(self.asked):
            data = self._bytes()
            self._send(data[: len(data) // 2], self.guess_type(self.path))
            return
        if host.halved and host.halved.search(self.asked):
            data = self._bytes()
            self._send(data, self.guess_type(self.path), pause=len(data) // 2)
            return
        if host.changed and host.changed.search(self.asked):
            spoiled = bytearray(self._bytes())
            spoiled[-1] ^= 1
            self._send(bytes(spoiled), self.guess_type(self.path))
            return
        super().do_GET()

    def _bytes(self) -> bytes:
        """The file that was asked for."""
        path = Path(self.translate_path(self.path))
        return (path / "index.html" if path.is_dir() else path).read_bytes()

    def _send(self, data: bytes, kind: str, pause: int = 0) -> None:
        """Send bytes; with a pause after some of them, until the host lets go."""
        self.send_response(200)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        with contextlib.suppress(ConnectionError):
            self.wfile.write(data[:pause])
            if pause:
                self.wfile.flush()
                self.host._free.wait()
            self.wfile.write(data[pause:])

    def translate_path(self, path: str) -> str:
        """The file of a path below the prefix."""
        return super().translate_path("/" + path.removeprefix("/").removeprefix(self.host.prefix))

    def guess_type(self, path: str) -> str:  # type: ignore[override]
        """The type of a file, or what the host says instead."""
        return self.host.types.get(Path(path).suffix) or super().guess_type(path)

    def end_headers(self) -> None:
        """Add the headers that the host sends with everything."""
        for name, value in self.host.headers.items():
            self.send_header(name, value)
        super().end_headers()


@contextmanager
def host(folder: Path, prefix: str = "") -> Iterator[Host]:
    """A host that runs until the end of the block."""
    made = Host(folder, prefix).start()
    try:
        yield made
    finally:
        made.stop()


def next_build(site: Path, folder: Path, sign: str) -> Path:
    """A copy of the site as the next build would be: a sign on a page, style sheets and scripts at new paths."""
    shutil.copytree(site, folder)
    moved = {}
    for old in (folder / "assets").glob("css-*"):
        new = old.with_name(f"css-{sign}")
        old.rename(new)
        moved[old.name] = new.name
    for page in folder.rglob("*.html"):
        html = page.read_text(encoding="utf-8")
        for before, after in moved.items():
            html = html.replace(before, after)
        html = re.sub(rf'(<meta name="{offline.BUILD_NAME}" content=")[^"]+', rf"\g<1>{sign}", html)
        if page == folder / "techniques" / "coats" / "index.html":
            html = html.replace("</h1>", f"</h1><p id='sign'>{sign}</p>", 1)
        page.write_text(html, encoding="utf-8")
    offline.write_list(folder, sign)
    return folder
