"""A small server for the finished site, to look at it and to test it; any other web server will do as well."""

from __future__ import annotations

import argparse
import os
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from tools.build.console import Failed, say
from tools.build.paths import SITE

TYPES = {
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".mjs": "text/javascript; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".json": "application/json",
    ".wasm": "application/wasm",
    ".bin": "application/octet-stream",
    ".svg": "image/svg+xml",
    ".woff2": "font/woff2",
    ".webmanifest": "application/manifest+json",
    ".toml": "text/plain; charset=utf-8",
}


class Handler(SimpleHTTPRequestHandler):
    """Serves files with their media types; names with a hash may be cached for ever, others are revalidated."""

    extensions_map = {**SimpleHTTPRequestHandler.extensions_map, **TYPES}
    protocol_version = "HTTP/1.1"
    logs_requests = False

    def end_headers(self) -> None:
        """Add the Cache-Control header."""
        for_ever = any(part in self.path for part in ("/assets/runtime/", "/assets/js-", "/assets/css-"))
        self.send_header("Cache-Control", "public, max-age=31536000, immutable" if for_ever else "no-cache")
        super().end_headers()

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """Show the handbook's own 404 page."""
        page = Path(self.directory) / "404.html"
        if code != HTTPStatus.NOT_FOUND or not page.is_file():
            super().send_error(code, message, explain)
            return
        data = page.read_bytes()
        self.send_response(code)
        self.send_header("Content-Type", TYPES[".html"])
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(data)

    def log_message(self, format: str, *args: object) -> None:
        """Log requests only if `logs_requests` is set."""
        if self.logs_requests:
            super().log_message(format, *args)


class Server(ThreadingHTTPServer):
    """A threaded server that ends with the program and ignores dropped connections."""

    daemon_threads = True

    def handle_error(self, request: object, client_address: object) -> None:
        """Ignore dropped connections."""


def make_server(folder: Path = SITE, port: int = 0) -> Server:
    """A server for the folder on the loopback address, not yet running; port 0 takes any free port."""
    return Server(("127.0.0.1", port), partial(Handler, directory=os.fspath(folder)))


def serve(port: int) -> None:
    """Serve the finished site until interrupted."""
    try:
        server = make_server(SITE, port)
    except OSError as error:
        raise Failed(f"Port {port} cannot be used ({error.strerror}). Choose another with --port") from error
    say(f"Serving http://127.0.0.1:{server.server_address[1]}/   (Ctrl+C ends it)")
    try:
        server.serve_forever()
    except KeyboardInterrupt:
        say("")


def main() -> None:
    """Serve the finished site without building it."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("--port", type=int, default=8000)
    serve(parser.parse_args().port)


if __name__ == "__main__":
    main()
