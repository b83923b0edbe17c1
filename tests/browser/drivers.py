"""Two more engines for the tests: Firefox by WebDriver BiDi, WebKit's MiniBrowser by WebKitWebDriver on a screen of its own.

Both speak through Selenium's own parts and offer the same few things: open an address, work out an expression in the page, type, press,
take a picture. An engine is a program that this module starts and ends; a page of Chromium, which Playwright drives, can be spoken to in
the same way.
"""

from __future__ import annotations

import base64
import copy
import json
import os
import re
import shutil
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Page
from selenium.webdriver.common.options import ArgOptions
from selenium.webdriver.remote.websocket_connection import WebSocketConnection
from selenium.webdriver.webkitgtk.options import Options
from selenium.webdriver.webkitgtk.service import Service
from selenium.webdriver.webkitgtk.webdriver import WebDriver

START = 60  # seconds; the longest that a browser may take to start

PREFERENCES = {
    "app.normandy.enabled": False,
    "app.update.enabled": False,
    "browser.aboutwelcome.enabled": False,
    "browser.safebrowsing.malware.enabled": False,
    "browser.safebrowsing.phishing.enabled": False,
    "browser.shell.checkDefaultBrowser": False,
    "browser.startup.page": 0,
    "datareporting.policy.dataSubmissionEnabled": False,
    "extensions.getAddons.cache.enabled": False,
    "extensions.systemAddon.update.enabled": False,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "services.settings.server": "http://127.0.0.1:9/",
    "toolkit.telemetry.enabled": False,
}


class Engine:
    """What the tests ask of a browser."""

    name = ""

    def open(self, address: str) -> None:
        """Load a page."""
        raise NotImplementedError

    def ask(self, expression: str) -> Any:
        """The value of an expression of the page, awaited where it is a promise, as plain data."""
        raise NotImplementedError

    def type(self, selector: str, text: str) -> None:
        """Put a text into a field by its keys, in place of what stood there, and a press of Tab after it."""
        raise NotImplementedError

    def picture(self, file: Path) -> None:
        """Save what is on the screen."""
        raise NotImplementedError

    def restart(self) -> None:
        """End the browser and start it again with what it kept."""
        raise NotImplementedError

    def close(self) -> None:
        """End the browser."""
        raise NotImplementedError

    def tab(self) -> AbstractContextManager[Engine]:
        """Another tab of the same browser, which is closed at the end of the block."""
        raise NotImplementedError

    def press(self, selector: str) -> None:
        """Press a button."""
        self.ask(f"document.querySelector({json.dumps(selector)}).click()")

    def until(self, expression: str, seconds: float = 2 * START) -> Any:
        """Wait until an expression of the page is true; gives its value."""
        end = time.monotonic() + seconds
        found = None
        while time.monotonic() < end:
            try:
                found = self.ask(expression)
            except Exception as error:  # the page is between two documents
                found = error
            else:
                if found:
                    return found
            time.sleep(0.1)
        raise AssertionError(f"{self.name}: {expression} is {found!r} after {seconds} s")


class Chromium(Engine):
    """A page of a Chromium that runs already, for whoever speaks to all engines alike."""

    name = "Chromium"

    def __init__(self, page: Page) -> None:
        self._page = page

    def open(self, address: str) -> None:
        """Load a page."""
        self._page.goto(address)

    def ask(self, expression: str) -> Any:
        """The value of an expression of the page."""
        return self._page.evaluate(f"(async () => (await ({expression})) ?? null)()")

    def type(self, selector: str, text: str) -> None:
        """Put a text into a field by its keys."""
        self.ask(f"(field => {{ field.focus(); field.select(); }})(document.querySelector({json.dumps(selector)}))")
        self._page.keyboard.type(text)
        self._page.keyboard.press("Tab")

    @contextmanager
    def tab(self) -> Iterator[Engine]:
        """Another tab."""
        page = self._page.context.new_page()
        try:
            yield Chromium(page)
        finally:
            page.close()


class Firefox(Engine):
    """Firefox, headless, in a profile of its own."""

    name = "Firefox"

    def __init__(self, program: str, more: dict[str, object] | None = None) -> None:
        self._program = program
        self._profile = Path(tempfile.mkdtemp(prefix="firefox-"))
        lines = [f"user_pref({json.dumps(key)}, {json.dumps(value)});" for key, value in {**PREFERENCES, **(more or {})}.items()]
        (self._profile / "user.js").write_text("\n".join(lines))
        self._start()

    def _start(self) -> None:
        told = self._profile / "told.txt"
        command = [self._program, "--headless", "--no-remote", "--profile", str(self._profile), "--remote-debugging-port", "0"]
        with told.open("w") as out:
            env = {**os.environ, "HOME": str(self._profile), "MOZ_HEADLESS_WIDTH": "1280", "MOZ_HEADLESS_HEIGHT": "800"}
            self._process = subprocess.Popen(command, stdout=out, stderr=out, env=env)
        end = time.monotonic() + START
        while not (found := re.search(r"ws://[\d.]+:\d+", told.read_text(errors="replace"))):
            if time.monotonic() > end or self._process.poll() is not None:
                raise AssertionError(f"Firefox did not start: {told.read_text(errors='replace')[-1000:]}")
            time.sleep(0.1)
        self._connection = WebSocketConnection(found[0] + "/session", START, 0.02)
        self._send("session.new", {"capabilities": {}})
        self._context = self._send("browsingContext.getTree", {})["contexts"][0]["context"]

    def _send(self, method: str, given: dict[str, object]) -> Any:
        reply = self._connection.send_cmd(method, given)
        if "error" in reply:
            raise AssertionError(f"{method}: {reply['error']}: {reply.get('message', '')[:500]}")
        return reply["result"]

    def open(self, address: str) -> None:
        """Load a page."""
        self._send("browsingContext.navigate", {"context": self._context, "url": address, "wait": "complete"})
        self.until(f"location.href.startsWith({json.dumps(address.partition('#')[0])})")  # else what is asked next may be asked of the page before

    def ask(self, expression: str) -> Any:
        """The value of an expression of the page."""
        whole = f"(async () => JSON.stringify((await ({expression})) ?? null))()"
        given = {"expression": whole, "target": {"context": self._context}, "awaitPromise": True}
        told = self._send("script.evaluate", given)
        if told["type"] != "success":
            tabs = self._send("browsingContext.getTree", {"maxDepth": 0})["contexts"]
            raise AssertionError(f"{expression}: {told['exceptionDetails']['text']}; open: {[tab['url'] for tab in tabs]}")
        return json.loads(told["result"]["value"])

    def type(self, selector: str, text: str) -> None:
        """Put a text into a field by its keys."""
        self.ask(f"(field => {{ field.focus(); field.select(); }})(document.querySelector({json.dumps(selector)}))")
        keys = [{"type": kind, "value": key} for key in [*text, "\ue004"] for kind in ("keyDown", "keyUp")]
        self._send("input.performActions", {"context": self._context, "actions": [{"type": "key", "id": "keys", "actions": keys}]})

    def picture(self, file: Path) -> None:
        """Save what is on the screen."""
        file.write_bytes(base64.b64decode(self._send("browsingContext.captureScreenshot", {"context": self._context})["data"]))

    def _end(self) -> None:
        try:
            self._connection.send_cmd("browser.close", {})
        except Exception:
            self._process.terminate()
        try:
            self._process.wait(20)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
        self._connection.close()

    @contextmanager
    def tab(self) -> Iterator[Engine]:
        """Another tab."""
        other = copy.copy(self)
        other._context = self._send("browsingContext.create", {"type": "tab"})["context"]
        try:
            yield other
        finally:
            self._send("browsingContext.close", {"context": other._context})

    def restart(self) -> None:
        """End the browser and start it again with what it kept."""
        self._end()
        self._start()

    def close(self) -> None:
        """End the browser."""
        self._end()
        shutil.rmtree(self._profile, ignore_errors=True)


class WebKit(Engine):
    """WebKit's MiniBrowser on a screen that nobody sees. It keeps nothing beyond one run."""

    name = "WebKit"

    def __init__(self, driver: str, browser: str, screen: str) -> None:
        self._home = Path(tempfile.mkdtemp(prefix="webkit-"))
        reading, writing = os.pipe()
        command = [screen, "-displayfd", str(writing), "-screen", "0", "1280x900x24", "-nolisten", "tcp"]
        self._screen = subprocess.Popen(command, pass_fds=[writing], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(writing)
        with os.fdopen(reading) as told:
            number = told.readline().strip()
        if not number:
            raise AssertionError("Xvfb did not start")
        options = Options()
        options.binary_location = browser
        options.add_argument("--automation")
        env = {
            **os.environ,
            "DISPLAY": f":{number}",
            "HOME": str(self._home),
            "XDG_RUNTIME_DIR": str(self._home),
            "WEBKIT_DISABLE_COMPOSITING_MODE": "1",
            "WEBKIT_DISABLE_DMABUF_RENDERER": "1",
            "LIBGL_ALWAYS_SOFTWARE": "1",
        }
        # its sandbox needs rights that a container does not give
        env["WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS"] = "1"
        self._driver: WebDriver = WebDriver(options=_plain(options), service=Service(executable_path=driver, env=env))
        self._driver.set_script_timeout(120)
        self._driver.set_page_load_timeout(120)

    def open(self, address: str) -> None:
        """Load a page."""
        self._driver.get(address)

    def ask(self, expression: str) -> Any:
        """The value of an expression of the page."""
        told = self._driver.execute_async_script(
            "const [done] = [arguments[arguments.length - 1]];"
            f"(async () => JSON.stringify((await ({expression})) ?? null))().then(done, error => done('!' + error));"
        )
        if told.startswith("!"):
            raise AssertionError(f"{expression}: {told[1:]}")
        return json.loads(told)

    def type(self, selector: str, text: str) -> None:
        """Put a text into a field by its keys."""
        field = self._driver.find_element("css selector", selector)
        self.ask(f"(field => {{ field.focus(); field.select(); }})(document.querySelector({json.dumps(selector)}))")
        field.send_keys(text + "\ue004")

    def picture(self, file: Path) -> None:
        """Save what is on the screen."""
        self._driver.save_screenshot(str(file))

    def close(self) -> None:
        """End the browser, its driver and its screen."""
        try:
            self._driver.quit()
        finally:
            self._screen.terminate()
            self._screen.wait()
            shutil.rmtree(self._home, ignore_errors=True)


def _plain(options: ArgOptions) -> ArgOptions:
    """The options as they are; named so that the type is the one that the driver wants."""
    return options


@contextmanager
def running(engine: Engine) -> Iterator[Engine]:
    """An engine that is ended at the end of the block."""
    try:
        yield engine
    finally:
        engine.close()
