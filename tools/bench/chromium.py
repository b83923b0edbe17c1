"""The browsers that are measured, each with a fresh profile: open an address, evaluate expressions, close.

A starting page is left alone. A browser that has just been launched is busy with itself for a while, and an attached debugger makes it
record where each error came from, which is expensive for a large script; a reader has neither. So `IdleChromium` lets the browser come to
rest first, and attaches nothing to a page before the page has reported to the host.
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
REST = 2.0  # s from the launch of a browser until it is idle
BLANK = 0.5  # s, the same for a new tab
WINDOW = "--window-size=1280,887"  # 1280 x 800 for the page
PYTHON_WORKERS = ("worker.js", "plain_worker.js")
WATCH = """(() => {
  const subarray = Uint8Array.prototype.subarray;
  Uint8Array.prototype.subarray = function (...given) {
    if (this.byteOffset === 0) self.pbMemory = Math.max(self.pbMemory ?? 0, this.buffer.byteLength);
    return subarray.apply(this, given);
  };
})()"""
LOOK = 0.25  # s between two polls of a page; it records its times by itself, and polling disturbs them


class Tab(Protocol):
    """An open page."""

    def ask(self, expression: str) -> Any:
        """Evaluate a JavaScript expression and await its value."""

    def close(self) -> None:
        """Close the tab."""


class Browser(Protocol):
    """A browser with a temporary profile."""

    name: str

    def open(self, address: str) -> Tab:
        """Open a page in a new tab without waiting for it to load."""

    def close(self) -> None:
        """Close the browser and delete its profile."""


class TimedOut(Exception):
    """A page timed out."""


def wait(tab: Tab, expression: str, longest: float = LONGEST) -> Any:
    """Poll an expression until it is true; returns its value."""
    end = time.monotonic() + longest
    while time.monotonic() < end:
        value = tab.ask(expression)
        if value:
            return value
        time.sleep(LOOK)
    raise TimedOut(f"timed out after {longest:.0f} s: {expression}")


class ChromiumTab:
    """A page in Chromium."""

    def __init__(self, page: Any, context: Any) -> None:
        self.page = page
        self.context = context

    def ask(self, expression: str) -> Any:
        """Evaluate a JavaScript expression and await its value."""
        return self.page.evaluate(expression)

    def close(self) -> None:
        """Close the tab."""
        self.page.close()

    def memory(self) -> dict[str, int]:
        """Memory of the Python worker in bytes: the JavaScript heap, other buffers, and Python's memory where it is known."""
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
        """Record the size of Python's memory from now on, whenever a string is passed in or out."""
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
        """Open a page in a new tab without waiting for it to load."""
        page = self._context.new_page()
        page.goto(address, wait_until="commit")
        return ChromiumTab(page, self._context)

    def close(self) -> None:
        """Close the browser and delete its profile."""
        self._context.close()
        self._playwright.stop()
        shutil.rmtree(self._profile, ignore_errors=True)


class IdleTab:
    """A page with no debugger attached between commands."""

    def __init__(self, debugger: str, target: dict[str, Any]) -> None:
        self._debugger = debugger
        self._target = target

    def send(self, method: str, **given: object) -> dict[str, Any]:
        """Attach to the page for one command; returns its result."""
        from websocket import create_connection

        connection = create_connection(self._target["webSocketDebuggerUrl"], LONGEST)
        try:
            connection.send(json.dumps({"id": 1, "method": method, "params": given}))
            while (reply := json.loads(connection.recv())).get("id") != 1:
                pass
        finally:
            connection.close()
        result: dict[str, Any] = reply["result"]
        return result

    def ask(self, expression: str) -> Any:
        """Evaluate a JavaScript expression and await its value."""
        reply = self.send("Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in reply:
            raise TimedOut(f"{expression}: {reply['exceptionDetails']}")
        return reply["result"].get("value")

    def close(self) -> None:
        """Close the tab."""
        with urllib.request.urlopen(f"{self._debugger}/json/close/{self._target['id']}", timeout=LONGEST):
            pass


class IdleChromium:
    """Chromium with a debugging port that is not used while a page starts."""

    def __init__(self, path: str) -> None:
        self._profile = Path(tempfile.mkdtemp(prefix="bench-"))
        own = ["--headless", "--no-first-run", "--remote-debugging-port=0", "--remote-allow-origins=*", f"--user-data-dir={self._profile}", WINDOW]
        self._process = subprocess.Popen([path, *own, *ARGUMENTS, "about:blank"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self._debugger = f"http://127.0.0.1:{self._port()}"
        time.sleep(REST)

    def _port(self) -> str:
        port_file = self._profile / "DevToolsActivePort"
        end = time.monotonic() + LONGEST
        while not (port_file.is_file() and "\n" in port_file.read_text()):
            if time.monotonic() > end or self._process.poll() is not None:
                raise TimedOut("the browser did not start")
            time.sleep(0.05)
        return port_file.read_text().partition("\n")[0]

    def open(self, address: str, reported: threading.Event) -> IdleTab:
        """Open a page in a new tab and attach nothing until it has reported to the host."""
        with urllib.request.urlopen(urllib.request.Request(f"{self._debugger}/json/new?about:blank", method="PUT"), timeout=LONGEST) as answer:
            tab = IdleTab(self._debugger, json.load(answer))
        time.sleep(BLANK)
        reported.clear()
        tab.send("Page.navigate", url=address)
        if not reported.wait(LONGEST):
            raise TimedOut(f"{address}: did not report within {LONGEST:.0f} s")
        return tab

    def close(self) -> None:
        """Close the browser and delete its profile."""
        self._process.terminate()
        self._process.wait()
        shutil.rmtree(self._profile, ignore_errors=True)
