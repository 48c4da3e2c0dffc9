"""Chromium, headless: a page as it prints, and what it measures of itself."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from html import unescape
from pathlib import Path
from typing import Any

import numpy as np
from engines.need import missing

_SECONDS = 60


def _program(*names: str) -> str:
    found = next(filter(None, map(shutil.which, names)), None)
    return found or missing(names[0], f"On Debian: apt-get install {names[0]}")


def _chromium(folder: Path, *words: str) -> str:
    line = [
        _program("chromium", "chromium-browser", "google-chrome"),
        "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder / 'profile'}",
        *words,
    ]  # fmt: skip
    done = subprocess.run(line, capture_output=True, timeout=_SECONDS, check=True, text=True)
    return done.stdout


def faces(*names: str) -> tuple[str, ...]:
    """Those of the faces that are installed; all where nobody can tell."""
    program = shutil.which("fc-list")
    if program is None:
        return names
    known = subprocess.run([program, ":", "family"], capture_output=True, check=True, text=True)
    return tuple(name for name in names if name in known.stdout)


def printed(page: Path) -> Path:
    """The page as a PDF, as the browser prints it."""
    target = page.with_suffix(".pdf")
    _chromium(page.parent, "--no-pdf-header-footer", f"--print-to-pdf={target}", page.as_uri())
    return target


def measured(page: Path, script: str, width: int = 1280) -> Any:
    """What a script run in the page returns; it sees only the page, and no network."""
    html = page.read_text("utf-8")
    code = (
        "<script>addEventListener('load', () => { const found = (() => {" + script + "})();"
        "const out = document.createElement('pre'); out.id = 'found';"
        "out.textContent = JSON.stringify(found); document.body.append(out) })</script></body>"
    )
    probe = page.with_name(f"probe-{page.name}")
    probe.write_text(html.replace("</body>", code), "utf-8")
    return dumped(probe, width)


def dumped(page: Path, width: int = 1280) -> Any:
    """What the page itself has written into its element ``found``."""
    dom = _chromium(page.parent, f"--window-size={width},1000", "--virtual-time-budget=2000",
                    "--dump-dom", page.as_uri())  # fmt: skip
    found = re.search(r'<pre id="found">(.*?)</pre>', dom, re.DOTALL)
    assert found is not None, dom[-500:]
    return json.loads(unescape(found[1]))


def info(pdf: Path) -> dict[str, str]:
    """Pages and their size."""
    said = _run("pdfinfo", str(pdf))
    return dict(re.findall(r"^(.*?):\s+(.*)$", said, re.MULTILINE))


def text(pdf: Path) -> str:
    """The text in the PDF, page by page."""
    return _run("pdftotext", "-layout", str(pdf), "-")


def words(pdf: Path, page: int, box: tuple[float, float, float, float]) -> list[str]:
    """The words inside a box of a page: left, top, width, height in millimetres."""
    left, top, wide, high = (f"{round(each / 25.4 * 288)}" for each in box)
    return _run(
        "pdftotext", "-f", str(page), "-l", str(page), "-r", "288", "-x", left, "-y", top,
        "-W", wide, "-H", high, str(pdf), "-",
    ).split()  # fmt: skip


def picture(pdf: Path, page: int, dots: int = 300) -> np.ndarray[Any, Any]:
    """A page in grey, at so many dots an inch."""
    stem = pdf.with_suffix("")
    _run("pdftoppm", "-gray", "-r", str(dots), "-f", str(page), "-l", str(page), "-singlefile",
         str(pdf), str(stem))  # fmt: skip
    data = stem.with_suffix(".pgm").read_bytes()
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data)
    assert head is not None
    return np.frombuffer(data[head.end() :], np.uint8).reshape(int(head[2]), int(head[1]))


def _run(program: str, *more: str) -> str:
    line = [shutil.which(program) or missing("poppler-utils", "apt-get install poppler-utils")]
    return subprocess.run([*line, *more], capture_output=True, check=True, text=True).stdout
