"""The changes: a value put in another's place, a key added or taken away, a record likewise."""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Mapping as Keys
from contextlib import contextmanager

from reportgen.pen.scalars import Written, flow, quoted, scalar
from reportgen.read.spans import Listing, Mapping, Marked, Scalar, Span

_DEEPEST = 1000
"""More columns than any line begins behind."""


class Pen:
    """Gathers changes of one file; :meth:`text` is the file with all of them.

    Places are those of the file as it was read, so the order of the calls does not matter, but that
    what is added in one place stands in the order it was added, the keys of an inner record before
    those of the one around it. A change inside another raises ``ValueError``.
    """

    def __init__(self, text: str) -> None:
        self.marked = Marked(text)
        self._splices: list[tuple[int, int, int, str, object]] = []
        self._of: object = None

    @property
    def root(self) -> Span | None:
        """The file's document."""
        return self.marked.root

    def text(self) -> str:
        """The file with all changes; every other character is where it was."""
        pieces, at = [], 0
        for start, end, _, new, _ in self._in_order():
            if start < at:
                raise ValueError("a change stands inside another one")
            pieces += [self.marked.text[at:start], new]
            at = end
        return "".join([*pieces, self.marked.text[at:]])

    @contextmanager
    def writing(self, of: object) -> Iterator[None]:
        """What the changes are of that are made within, for :meth:`written`."""
        before, self._of = self._of, of
        try:
            yield
        finally:
            self._of = before

    def written(self) -> Iterator[tuple[int, int, object]]:
        """Where each change stands in the new text, from which character to which, and of what."""
        moved = 0
        for start, end, _, new, of in self._in_order():
            yield start + moved, start + moved + len(new), of
            moved += len(new) - (end - start)

    def _in_order(self) -> list[tuple[int, int, int, str, object]]:
        return sorted(self._splices, key=lambda each: each[:3])

    def changes(self, span: Span) -> bool:
        """Whether a change begins where a value does."""
        return any(start == span.start for start, *_ in self._splices)

    # --- values -----------------------------------------------------------------------

    def put(self, key: Scalar | None, old: Span, new: Written, note: str = "") -> None:
        """A value in place of another; ``key`` is the one it stands under, if it does.

        ``note`` is kept as a comment at the end of the line. Comments that stood among the lines
        of the old value stay, a line each.
        """
        start, end, text = old.start, old.end, self._as(old, new)
        if key is not None and not _is_flow(old) and old.start > self.marked.line_end(key.start):
            # A block below its key: the value goes up beside the key.
            start = self._after_colon(key)
            text = f" {text}"
        elif key is not None and old.start == old.end:
            start = end = self._after_colon(key)
            text = f" {text}"
        inside = [each for _, each in self.marked.comments(start, end)]
        self._splice(start, end, text)
        self._note(end, [note] if note else [])
        if inside:
            indent = " " * self.marked.column(key.start if key is not None else old.start)
            line = self.marked.line_end(end)
            self._splice(line, line, "".join(f"{self._newline}{indent}{c}" for c in inside))

    def cut(self, start: int, end: int, new: str) -> None:
        """Part of a scalar in place of another part, as it stands in the file."""
        self._splice(start, end, new)

    def add(self, mapping: Mapping, key: str, value: Written) -> None:
        """A key that was not there, behind the others."""
        entry = f"{scalar(key)}: {flow(value)}"
        if not mapping.flow:
            self._below(mapping.end, " " * self.marked.column(mapping.start) + entry)
            return
        if not mapping.entries:
            self._into_empty(mapping, entry)
            return
        last = mapping.entries[-1]
        self._into_flow(max(last[1].end, self._after_colon(last[0])), mapping.end, entry)

    def drop(self, mapping: Mapping, key: str) -> None:
        """A key taken away; its comment stays, as a line of its own. KeyError without one."""
        at = [name.text for name, _ in mapping.entries].index(key)
        name, value = mapping.entries[at]
        if mapping.flow:
            self._out_of_flow(
                [(k.start, max(v.end, self._after_colon(k))) for k, v in mapping.entries],
                at,
                mapping.end,
            )
            return
        last = max(value.end, self._after_colon(name))
        stop = self.marked.line_end(last)
        comments = [each for _, each in self.marked.comments(name.start, stop)]
        indent = " " * self.marked.column(name.start)
        first = self.marked.line_start(name.start)
        if self.marked.text[first : name.start].strip():
            # It stands behind the dash of its record, which stays.
            kept = f"{self._newline}{indent}".join(comments)
            self._splice(name.start, stop, kept)
            return
        kept = "".join(f"{indent}{each}{self._newline}" for each in comments)
        self._splice(first, self.marked.next_line(last), kept)

    def several(self, mapping: Mapping, changed: Keys[str, Written | None]) -> None:
        """Several keys of a flow, taken away where they have no value, changed or added: between
        what goes and what comes no comma would be left in its place. Comments go behind it."""
        text, left = self.marked.text, dict(changed)
        entries = []
        for key, value in mapping.entries:
            if key.text not in left:
                entries.append(text[key.start : max(value.end, self._after_colon(key))])
            elif (new := left.pop(key.text)) is not None:
                entries.append(f"{text[key.start : key.end]}: {self._as(value, new)}")
        entries += [f"{scalar(k)}: {flow(v)}" for k, v in left.items() if v is not None]
        notes = [each for _, each in self.marked.comments(mapping.start, mapping.end)]
        self._splice(mapping.start, mapping.end, "{" + ", ".join(entries) + "}")
        self._note(mapping.end, [each.lstrip("# ") for each in notes])

    # --- records ----------------------------------------------------------------------

    def append(self, listing: Listing, record: Written) -> None:
        """A record at the end of a list, written as the last one there is."""
        if listing.flow:
            if listing.items:
                self._into_flow(listing.items[-1].end, listing.end, flow(record))
            else:
                self._into_empty(listing, flow(record))
            return
        last = listing.items[-1]
        dash = " " * self.marked.column(self._dash(last))
        if isinstance(record, Keys) and isinstance(last, Mapping) and not last.flow:
            inner = " " * self.marked.column(last.start)
            entries = [f"{scalar(k)}: {flow(v)}" for k, v in record.items()]
            lead = f"{dash}-".ljust(len(inner))
            text = f"{self._newline}{inner}".join([f"{lead}{entries[0]}", *entries[1:]])
        else:
            text = f"{dash}- {flow(record)}"
        self._below(listing.end, text)

    def remove(self, listing: Listing, item: Span) -> None:
        """A record taken away, with the comments on its lines."""
        if listing.flow:
            spans = [(each.start, each.end) for each in listing.items]
            self._out_of_flow(spans, listing.items.index(item), listing.end)
            return
        first = self.marked.line_start(self._dash(item))
        self._splice(first, self.marked.next_line(item.end), "")

    def begin(self, key: str, records: Written) -> None:
        """A key with its list at the end of the file, for a file that has no such list."""
        listed = records if not isinstance(records, str) else [records]
        lines = (f"{scalar(key)}:", *(f"  - {flow(each)}" for each in listed))
        self._below(len(self.marked.text), self._newline.join(lines))

    # --- how it is done -----------------------------------------------------------------

    def _as(self, old: Span, new: Written) -> str:
        """A value, in the quotes of the one whose place it takes."""
        quote = self.marked.text[old.start : old.start + 1]
        if isinstance(old, Scalar) and isinstance(new, str) and quote in ("'", '"') and new:
            return quoted(new, quote)
        return flow(new)

    @property
    def _newline(self) -> str:
        return self.marked.newline

    def _splice(self, start: int, end: int, new: str, rank: int = 0) -> None:
        self._splices.append((start, end, rank, new, self._of))

    def _below(self, at: int, lines: str) -> None:
        """Lines of their own, below the one that holds a character."""
        start, text = self.marked.next_line(at), self.marked.text
        ended = not text or text[start - 1] in "\r\n"
        # An item of a list may stand as far left as the key it is below, and belongs to it.
        outward = _DEEPEST - (len(lines) - len(lines.lstrip(" -")))
        text = lines + self._newline if ended else self._newline + lines
        self._splice(start, start, text, outward)

    def _into_flow(self, last: int, close: int, new: str) -> None:
        """One more item behind the last of a flow, which may have a comma behind it."""
        comma = self._comma(last, close)
        self._splice(comma or last, comma or last, f" {new}," if comma else f", {new}")

    def _into_empty(self, holder: Listing | Mapping, new: str) -> None:
        """The first items of a flow that has none."""
        at = holder.start + 1
        begun = any(start == at for start, *_ in self._splices)
        self._splice(at, at, f", {new}" if begun else new)

    def _note(self, at: int, notes: list[str]) -> None:
        """Notes behind a line's last character, or behind the comment that it has."""
        for note in notes:
            line = self.marked.line_end(at)
            commented = any(True for _ in self.marked.comments(at, line))
            self._splice(line, line, f"; {note}" if commented else f"  # {note}")

    def _after_colon(self, key: Scalar) -> int:
        return self.marked.text.index(":", key.end) + 1

    def _comma(self, start: int, end: int) -> int | None:
        """The character after a comma that closes the last item of a flow, comments passed over."""
        comments = {at: len(text) for at, text in self.marked.comments(start, end)}
        at = start
        while at < end:
            if at in comments:
                at += comments[at]
            elif self.marked.text[at] == ",":
                return at + 1
            else:
                at += 1
        return None

    def _dash(self, item: Span) -> int:
        return self.marked.text.rindex("-", 0, item.start)

    def _out_of_flow(self, spans: list[tuple[int, int]], at: int, close: int) -> None:
        """One of the items of a flow taken out, with the comma that goes with it."""
        start, end = spans[at]
        if at + 1 < len(spans):
            end = spans[at + 1][0]
        elif at:
            start = spans[at - 1][1]
        else:
            end = self._comma(end, close) or end
        kept = "".join(f"  {text}{self._newline}" for _, text in self.marked.comments(start, end))
        self._splice(start, end, kept)


def _is_flow(span: Span) -> bool:
    return isinstance(span, Scalar) or (isinstance(span, Listing | Mapping) and span.flow)
