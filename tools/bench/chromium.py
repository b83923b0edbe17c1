"""The browsers that are measured, each in a profile of its own: open an address, ask the page, go.

A page that starts is left alone. A browser that has just been begun loads its own surfaces for a while, and one that is watched by a
debugger notes where each error came from, which costs a large script dear: neither is what a reader has. So `Alone` lets the browser come to
rest first, and attaches nothing to a page before the page has told the host that it is there.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import tempfile
import threading
import time
import urllib.request
from pathlib import Path
from typing import Any, Protocol

ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync"]
LONGEST = 180.0  # s
REST = 2.0  # s from the begin of a browser until it has come to rest
BLANK = 0.5  # s the same for a new tab
WINDOW = "--window-size=1280,887"  # 1280 x 800 for the page
PYTHON_WORKERS = ("worker.js", "plain_worker.js")
WATCH = """(() => {
  const subarray = Uint8Array.prototype.subarray;
  Uint8Array.prototype.subarray = function (...given) {
    if (this.byteOffset === 0) self.pbMemory = Math.max(self.pbMemory ?? 0, this.buffer.byteLength);
    return subarray.apply(this, given);
  };
})()"""
LOOK = 0.25  # s between two looks at a page; it notes its times by itself, and looking takes time from what is measured


class Tab(Protocol):
    """An open page."""

    def ask(self, expression: str) -> Any:
        """The value of a JavaScript expression, waited for."""

    def close(self) -> None:
        """Go."""


class Browser(Protocol):
    """A browser with a profile that lasts as long as it does."""

    name: str

    def open(self, address: str) -> Tab:
        """Open a page in a new tab, without waiting for anything."""

    def close(self) -> None:
        """End the browser and forget its profile."""


class Slow(Exception):
    """A page did not come to the point."""


def wait(tab: Tab, expression: str, longest: float = LONGEST) -> Any:
    """The value of an expression once it is true."""
    end = time.monotonic() + longest
    while time.monotonic() < end:
        value = tab.ask(expression)
        if value:
            return value
        time.sleep(LOOK)
    raise Slow(f"after {longest:.0f} s still not: {expression}")


class ChromiumTab:
    """A page in Chromium."""

    def __init__(self, page: Any, context: Any) -> None:
        self.page = page
        self.context = context

    def ask(self, expression: str) -> Any:
        """The value of a JavaScript expression, waited for."""
        return self.page.evaluate(expression)

    def close(self) -> None:
        """Go."""
        self.page.close()

    def memory(self) -> dict[str, int]:
        """What the worker that runs Python holds, in bytes: JavaScript's own heap, other buffers, and Python's memory when it is known."""
        (worker,) = (worker for worker in self.page.workers if worker.url.endswith(PYTHON_WORKERS))
        session = self.context.new_cdp_session(self.page)
        identities: list[str] = []
        usage: dict[str, int] = {}

        def greet(event: dict[str, Any]) -> None:
            if event["targetInfo"]["url"] == worker.url:
                identities.append(event["sessionId"])

        def hear(event: dict[str, Any]) -> None:
            message = json.loads(event["message"])
            if message.get("id") == 2:
                usage.update(message["result"])

        session.on("Target.attachedToTarget", greet)
        session.on("Target.receivedMessageFromTarget", hear)
        session.send("Target.setAutoAttach", {"autoAttach": True, "waitForDebuggerOnStart": False, "flatten": False})
        end = time.monotonic() + 60
        while not identities and time.monotonic() < end:
            self.page.wait_for_timeout(20)
        for number, method in ((1, "HeapProfiler.collectGarbage"), (2, "Runtime.getHeapUsage")):
            session.send("Target.sendMessageToTarget", {"sessionId": identities[0], "message": json.dumps({"id": number, "method": method})})
        while not usage and time.monotonic() < end:
            self.page.wait_for_timeout(20)
        session.detach()
        heap = int(usage["usedSize"] + usage.get("embedderHeapUsedSize", 0))
        return {"heap": heap, "buffers": int(usage.get("backingStorageSize", 0)), "python": int(worker.evaluate("self.pbMemory ?? 0"))}

    def watch_memory(self) -> None:
        """Have the size of Python's memory noted from now on, whenever a text goes in or comes out."""
        (worker,) = (worker for worker in self.page.workers if worker.url.endswith(PYTHON_WORKERS))
        worker.evaluate(WATCH)


class Chromium:
    """Chromium, driven by Playwright."""

    def __init__(self, path: str) -> None:
        from playwright.sync_api import sync_playwright

        self._profile = tempfile.mkdtemp(prefix="bench-")
        self._playwright = sync_playwright().start()
        self._context = self._playwright.chromium.launch_persistent_context(
            self._profile, executable_path=path, args=ARGUMENTS, headless=True, viewport={"width": 1280, "height": 800}
        )
        self._context.pages[0].goto("about:blank")
        agent = str(self._context.pages[0].evaluate("navigator.userAgent"))
        self.name = f"Chromium {agent.partition('Chrome/')[2].partition('.')[0]}"

    def open(self, address: str) -> ChromiumTab:
        """Open a page in a new tab, without waiting for anything."""
        page = self._context.new_page()
        page.goto(address, wait_until="commit")
        return ChromiumTab(page, self._context)

    def close(self) -> None:
        """End the browser and forget its profile."""
        self._context.close()
        self._playwright.stop()
        shutil.rmtree(self._profile, ignore_errors=True)


class AloneTab:
    """A page that nobody looks at until it is asked something."""

    def __init__(self, door: str, told: dict[str, Any]) -> None:
        self._door = door
        self._told = told

    def send(self, method: str, **given: object) -> dict[str, Any]:
        """Attach to the page for one command; gives its result."""
        from websocket import create_connection

        connection = create_connection(self._told["webSocketDebuggerUrl"], LONGEST)
        try:
            connection.send(json.dumps({"id": 1, "method": method, "params": given}))
            while (reply := json.loads(connection.recv())).get("id") != 1:
                pass
        finally:
            connection.close()
        result: dict[str, Any] = reply["result"]
        return result

    def ask(self, expression: str) -> Any:
        """The value of a JavaScript expression, waited for."""
        told = self.send("Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in told:
            raise Slow(f"{expression}: {told['exceptionDetails']}")
        return told["result"].get("value")

    def close(self) -> None:
        """Go."""
        with urllib.request.urlopen(f"{self._door}/json/close/{self._told['id']}", timeout=LONGEST):
            pass


class Alone:
    """Chromium with a door for debuggers that nobody goes through while a page starts."""

    def __init__(self, path: str) -> None:
        self._profile = Path(tempfile.mkdtemp(prefix="bench-"))
        own = ["--headless", "--no-first-run", "--remote-debugging-port=0", "--remote-allow-origins=*", f"--user-data-dir={self._profile}", WINDOW]
        self._process = subprocess.Popen([path, *own, *ARGUMENTS, "about:blank"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self._door = f"http://127.0.0.1:{self._port()}"
        time.sleep(REST)

    def _port(self) -> str:
        told = self._profile / "DevToolsActivePort"
        end = time.monotonic() + LONGEST
        while not (told.is_file() and "\n" in told.read_text()):
            if time.monotonic() > end or self._process.poll() is not None:
                raise Slow("the browser did not begin")
            time.sleep(0.05)
        return told.read_text().partition("\n")[0]

    def open(self, address: str, told: threading.Event) -> AloneTab:
        """Open a page in a new tab and leave it alone until it has told the host that it is there."""
        with urllib.request.urlopen(urllib.request.Request(f"{self._door}/json/new?about:blank", method="PUT"), timeout=LONGEST) as answer:
            tab = AloneTab(self._door, json.load(answer))
        time.sleep(BLANK)
        told.clear()
        tab.send("Page.navigate", url=address)
        if not told.wait(LONGEST):
            raise Slow(f"{address}: nothing was told within {LONGEST:.0f} s")
        return tab

    def close(self) -> None:
        """End the browser and forget its profile."""
        self._process.terminate()
        self._process.wait()
        shutil.rmtree(self._profile, ignore_errors=True)
