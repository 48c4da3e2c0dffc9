"""A real browser without a window: what it shows, asks for and complains of.

Chromium by way of its driver. Nothing is fetched: the files are opened from the disk. axe-core is
put into the page from a file beside the environment, where ``tools/environment.sh`` leaves it.
"""

from __future__ import annotations

import base64
import json
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from engines.need import missing

AXE = Path(sys.prefix) / "node" / "node_modules" / "axe-core" / "axe.min.js"
WIDTHS = (360, 768, 1280)
PAPERS = {"letter": (8.5, 11.0), "a4": (8.27, 11.69)}
_FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--force-color-profile=srgb",
)  # fmt: skip
_RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}


@dataclass
class Browser:
    """One browser for many pages."""

    driver: Any

    def open(self, page: Path, width: int = 1280, theme: str = "light") -> None:
        """Show a file at a width, by day or by night."""
        self._do(
            "Emulation.setEmulatedMedia",
            media="screen",
            features=[{"name": "prefers-color-scheme", "value": theme}],
        )
        self._do(
            "Emulation.setDeviceMetricsOverride",
            width=width, height=800, deviceScaleFactor=1, mobile=width < 600,
        )  # fmt: skip
        self.complaints()
        self.requests()
        self.driver.get(page.as_uri())

    def _do(self, command: str, **words: Any) -> Any:
        return self.driver.execute_cdp_cmd(command, words)

    def ask(self, script: str) -> Any:
        """What a script gives in the page."""
        return self.driver.execute_script(f"return ({script})")

    def too_wide(self) -> list[str]:
        """What reaches past the right edge of the window, and the page itself where it scrolls."""
        return self.ask(
            """(() => {
              const wide = document.documentElement.clientWidth;
              const found = [...document.body.querySelectorAll('*')].filter(each =>
                !each.closest('.scroll') && !each.closest('.hidden') && !each.closest('.skip')
                && each.getBoundingClientRect().right > wide + 0.5);
              const said = found.map(each => each.tagName + ' ' + each.className);
              return document.documentElement.scrollWidth > wide ? ['page', ...said] : said;
            })()"""
        )

    def complaints(self) -> list[str]:
        """What the console said since the last time."""
        return [each["message"] for each in self.driver.get_log("browser")]

    def requests(self) -> list[str]:
        """Every address asked for since the last time."""
        found = []
        for each in self.driver.get_log("performance"):
            message = json.loads(each["message"])["message"]
            if message["method"] == "Network.requestWillBeSent":
                found.append(message["params"]["request"]["url"])
        return found

    def violations(self) -> list[str]:
        """What axe-core finds wrong: rule, and the first element it is about."""
        if not AXE.is_file():
            missing("axe-core", "With npm installed, run ./test once; it fetches axe-core.")
        self.driver.execute_script(AXE.read_text(encoding="utf-8"))
        done = self.driver.execute_async_script(
            "const end = arguments[arguments.length - 1];"
            "axe.run(document, arguments[0]).then(end, error => end({broken: String(error)}))",
            _RULES,
        )
        assert "broken" not in done, done
        looked = len(done["passes"])
        assert looked > 2, f"axe-core looked at {looked} rules, {list(done)}"
        return [f"{each['id']}: {each['nodes'][0]['html'][:200]}" for each in done["violations"]]

    def unfold(self) -> None:
        """Open everything that folds."""
        self.driver.execute_script(
            "document.querySelectorAll('details').forEach(each => each.open = true)"
        )

    def printed(self, paper: str) -> bytes:
        """The page as the browser prints it, as PDF."""
        self._do("Emulation.setEmulatedMedia", media="", features=[])
        self._do("Emulation.clearDeviceMetricsOverride")
        width, height = PAPERS[paper]
        made = self._do(
            "Page.printToPDF",
            printBackground=True, preferCSSPageSize=False, paperWidth=width, paperHeight=height,
        )  # fmt: skip
        return base64.b64decode(made["data"])


@contextmanager
def browser() -> Iterator[Browser]:
    """A browser, with a profile of its own."""
    if not (shutil.which("chromium") and shutil.which("chromedriver")):
        missing("Chromium", "Install it: apt-get install chromium chromium-driver")
    from selenium import webdriver
    from selenium.webdriver.chrome.options import Options
    from selenium.webdriver.chrome.service import Service

    with TemporaryDirectory() as profile:
        options = Options()
        for flag in (*_FLAGS, f"--user-data-dir={profile}"):
            options.add_argument(flag)
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        options.binary_location = shutil.which("chromium") or ""
        driver = webdriver.Chrome(options, Service(shutil.which("chromedriver")))
        try:
            driver.set_page_load_timeout(60)
            yield Browser(driver)
        finally:
            driver.quit()
