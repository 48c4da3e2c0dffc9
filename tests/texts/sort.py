"""``python tests/texts/sort.py``: puts what a language says by the English text in its order.

In order, so that two who add entries seldom add them in one place, and none stands twice unseen.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

FOLDER = Path(__file__).resolve().parents[2] / "templates" / "texts"
START = "said:\n"


def in_order(text: str) -> str:
    """A catalogue with its entries below ``said`` sorted, each once; all else as it stands."""
    head, start, body = text.partition(START)
    # An entry begins two in, with its key, and goes on deeper in.
    entries = re.split(r"^(?=  \S)", body, flags=re.MULTILINE)
    assert not entries[0].strip(), entries[0]
    return head + start + "".join(sorted(set(entries[1:]), key=_key))


def _key(entry: str) -> tuple[str, str]:
    found = re.match(r'  "((?:[^"\\]|\\.)*)":|  ([^":]+):', entry)
    assert found, f"not an entry: {entry}"
    key = found[1] or found[2]
    return key.casefold(), entry


if __name__ == "__main__":
    for path in sorted(FOLDER.glob("*.yaml")):
        before = path.read_text(encoding="utf-8")
        if START in before and (after := in_order(before)) != before:
            path.write_text(after, encoding="utf-8")
            sys.stdout.write(f"{path.name}: sorted\n")
