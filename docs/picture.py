"""Make docs/summary.png: the first sheet of the sample workbook, as a spreadsheet prints it.

Run ``./sample`` first, then ``.venv/bin/python docs/picture.py``; needs LibreOffice Calc and
poppler-utils. Look at the outcome: the strips below are shares of a page's height, chosen by eye.
"""

from __future__ import annotations

import struct
import subprocess
import sys
import tempfile
import zlib
from pathlib import Path

ROOT = Path(__file__).parent.parent
STRIPS = ((1, 0.03, 0.92), (2, 0.11, 0.7))
"""Page, top and bottom of what is shown of it."""
DPI = 96


def main() -> None:
    """Build, print, cut, stack."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        command = [sys.executable, "-m", "reportgen", "build", "samples/windrow-lane", "-o"]
        run(*command, str(place / "season.xlsx"))
        run("soffice", "--headless", f"-env:UserInstallation={place.as_uri()}/profile",
            "--convert-to", "pdf", "--outdir", folder, str(place / "season.xlsx"))  # fmt: skip
        run("pdftoppm", "-r", str(DPI), "-l", "2", str(place / "season.pdf"), str(place / "page"))
        pages = sorted(place.glob("page*.ppm"))
        width, rows = 0, list[bytes]()
        for number, top, bottom in STRIPS:
            width, height, pixels = ppm(pages[number - 1].read_bytes())
            first, last = int(top * height), int(bottom * height)
            rows += [pixels[3 * width * y : 3 * width * (y + 1)] for y in range(first, last)]
    (ROOT / "docs" / "summary.png").write_bytes(png(width, rows))


def run(*command: str) -> None:
    """Run a command; its own words only where it fails."""
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
    if done.returncode:
        sys.exit(done.stderr)


def ppm(data: bytes) -> tuple[int, int, bytes]:
    """Width, height and pixels of a binary PPM."""
    width, height = map(int, data.split(maxsplit=3)[1:3])
    return width, height, data[-3 * width * height :]


def png(width: int, rows: list[bytes]) -> bytes:
    """Rows of RGB as a PNG (W3C, Portable Network Graphics, third edition, section 11)."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return (
            struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        )

    header = struct.pack(">IIBBBBB", width, len(rows), 8, 2, 0, 0, 0)
    body = zlib.compress(b"".join(b"\0" + row for row in rows), 9)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", body) + chunk(b"IEND", b"")
    )


if __name__ == "__main__":
    main()
