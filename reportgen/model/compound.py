"""Readers for the fields that are more than one value: meter readings, dryness, files."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path, PurePosixPath
from typing import Any

from reportgen.algebra.inputs import Input
from reportgen.model import kinds
from reportgen.model.by_container import at_most, price
from reportgen.model.draft import Draft, Gathering, shape_problem
from reportgen.model.fields import Days, Field, LogFile, Several
from reportgen.model.keys import mapping_of
from reportgen.model.readers import Reader, days, of_text, parser, text_
from reportgen.model.season import Value
from reportgen.model.weights import tray_weight, weight
from reportgen.read.grammar import Measure, last_digit, share
from reportgen.read.near import short
from reportgen.read.nodes import Mapping, Node, Scalar, Sequence
from reportgen.read.problem import Refusal

NONE = "none"
"""What an empty list of words reads as."""


def energy(field: kinds.Energy, gathering: Gathering) -> Reader:
    """An amount of energy, or two meter readings."""
    amount, begin, end = field.inputs
    parse = Measure(amount.unit, gathering.slots).read
    readers = {
        "from": of_text(parse, begin, gathering),
        "to": of_text(parse, end, gathering),
    }
    whole = of_text(parse, amount, gathering)

    def read(node: Node, draft: Draft) -> None:
        if isinstance(node, Mapping):
            mapping_of(node, draft, readers, "meter readings", gathering)
        elif isinstance(node, Sequence):
            shape_problem(
                gathering,
                node,
                "an energy, as 21.8 kWh, or two readings",
                "write {from: 1042.3 kWh, to: 1064.1 kWh}",
            )
            draft.broken.update(each.name for each in field.inputs)
        else:
            whole(node, draft)

    return read


def dryness(field: kinds.Dryness, gathering: Gathering) -> Reader:
    """Weighings in their order, and what meters showed."""
    *weighed, activity, moisture = field.inputs
    readers: dict[str, Reader] = {
        "water_activity": of_text(Measure(activity.unit).read, activity, gathering),
        "moisture_meter": of_text(share, moisture, gathering),
    }
    if weighed:
        readers = {"weights": _weighings(weighed, gathering), **readers}

    def read(node: Node, draft: Draft) -> None:
        mapping_of(node, draft, readers, "dryness", gathering)

    return read


def _weighings(inputs: list[Input], gathering: Gathering) -> Reader:
    """The last two weighings, and the coarser last digit of the two."""
    before, last, step = inputs
    weigh = Measure(last.unit, gathering.slots).read
    read_last = of_text(weigh, last, gathering)
    read_before = of_text(weigh, before, gathering)

    def weights(node: Node, draft: Draft) -> None:
        items = node.items if isinstance(node, Sequence) else [node]
        for item in items[:-2]:
            read_before(item, Draft(draft.record, node))
        for item, reader in zip(items[-2:], (read_before, read_last)[-len(items) :], strict=False):
            reader(item, draft)
        steps = [
            weigh(last_digit(item.text))
            for item in items[-2:]
            if isinstance(item, Scalar) and not item.empty
        ]
        if last.name in draft.values and before.name in draft.values and len(steps) == 2:
            draft.values[step.name] = max(steps)
            draft.origins[step.name] = draft.origins[last.name]

    return weights


def several(field: Several, gathering: Gathering) -> Reader:
    """Words in a list, or in one text."""
    one = of_text(text_, field.inputs[0], gathering)

    def read(node: Node, draft: Draft) -> None:
        if isinstance(node, Sequence) and all(isinstance(each, Scalar) for each in node.items):
            words = [each.text for each in node.items if isinstance(each, Scalar)]
            node = Scalar(", ".join(words) or NONE, node.file, node.line, node.column)
        one(node, draft)

    return read


def cost_change(field: kinds.CostChange, gathering: Gathering) -> Reader:
    """A factor in per cent, or a rate that takes the place of the season's."""
    factor = of_text(share, field.inputs[0], gathering)
    if field.rate is None:
        return factor
    rate = of_text(Measure(field.rate, gathering.slots).read, field.inputs[1], gathering)

    def read(node: Node, draft: Draft) -> None:
        percent = isinstance(node, Scalar) and node.text.rstrip().endswith("%")
        (factor if percent else rate)(node, draft)

    return read


def purpose(field: kinds.Purpose, gathering: Gathering) -> Reader:
    """One of a few words, or a channel by its name."""
    column, channel = field.inputs
    word = of_text(text_, column, gathering)
    name = of_text(text_, channel, gathering)

    def read(node: Node, draft: Draft) -> None:
        (word if isinstance(node, Scalar) and node.text in field.words else name)(node, draft)

    return read


def sourced(field: kinds.Sourced, gathering: Gathering) -> Reader:
    """A recipe's value with its source, and the lowest and highest to expect."""
    parse = parser(field.of, gathering.slots)
    columns = dict(zip(("value", "low", "high"), field.inputs, strict=True))
    known = {key: of_text(parse, column, gathering) for key, column in columns.items()}
    words: dict[str, Reader] = {
        key: lambda node, draft: None for key in ("source", "note", "basis")
    }

    def read(node: Node, draft: Draft) -> None:
        if not isinstance(node, Mapping):
            known["value"](node, draft)
            return
        trial = Draft(draft.record, node)
        mapping_of(node, trial, {**known, **words}, "a recipe's value", gathering)
        source = node.get("source")
        text = source.text if isinstance(source, Scalar) else ""
        note = node.get("note")
        noted = note.text if isinstance(note, Scalar) else ""
        order = [trial.number(columns[key].name) for key in ("low", "value", "high")]
        given = [each for each in order if each is not None]
        if given != sorted(given):
            gathering.problem(
                trial.place_of(columns["value"].name),
                "the value is not between its low and its high",
                "low, value, high in rising order",
                "check the three numbers",
            )
        for name, value in trial.values.items():
            draft.values[name] = value
            draft.origins[name] = trial.origins[name]._replace(source=text, note=noted)
        draft.broken |= trial.broken

    return read


def log_file(field: LogFile, gathering: Gathering) -> Reader:
    """The path of a file, from the season's folder; it is looked for beside the batch first."""

    def parse_in(file: str) -> Callable[[str], Value]:
        def parse(text: str) -> str:
            expected = "a file in the season's folder, as logs/run-07.csv"
            path = PurePosixPath(text.strip())
            if path.is_absolute() or ".." in path.parts or "\\" in text or ":" in text:
                raise Refusal(
                    f"'{short(text)}' leads out of the season's folder",
                    expected,
                    "move the file beside the batch, and write its path from there",
                )
            root = os.path.realpath(gathering.folder)
            for base in (PurePosixPath(file).parent, PurePosixPath()):
                found = gathering.folder / base / path
                if os.path.isfile(found) and Path(os.path.realpath(found)).is_relative_to(root):
                    return (base / path).as_posix()
            raise Refusal(f"there is no file '{short(text)}'", expected, "check its name")

        return parse

    def read(node: Node, draft: Draft) -> None:
        of_text(parse_in(node.file), field.inputs[0], gathering)(node, draft)

    return read


def day_names(field: Days, gathering: Gathering) -> Reader:
    """Days of the week in a text or a list."""
    one = of_text(days, field.inputs[0], gathering)

    def read(node: Node, draft: Draft) -> None:
        if isinstance(node, Sequence) and all(isinstance(each, Scalar) for each in node.items):
            text = " ".join(each.text for each in node.items if isinstance(each, Scalar))
            node = Scalar(text, node.file, node.line, node.column)
        one(node, draft)

    return read


MAKERS: dict[type[Field], Callable[[Any, Gathering], Reader]] = {
    kinds.LotPrice: price,
    kinds.AtMost: at_most,
    kinds.Energy: energy,
    kinds.Dryness: dryness,
    kinds.CostChange: cost_change,
    kinds.Purpose: purpose,
    kinds.Sourced: sourced,
    LogFile: log_file,
    kinds.Weight: weight,
    kinds.TrayWeight: tray_weight,
    Days: day_names,
    Several: several,
}
"""The kinds of field that have a reader of their own; all others are one value, or records."""
