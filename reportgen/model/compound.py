"""Readers for the fields that are more than one value: prices, meter readings, dryness."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path, PurePosixPath
from typing import Any

from reportgen.model import kinds
from reportgen.model.draft import Draft, Gathering, shape_problem
from reportgen.model.fields import Days, Field, LogFile, Word
from reportgen.model.keys import mapping_of
from reportgen.model.readers import Reader, days, of_text, parser, text_
from reportgen.model.season import Value
from reportgen.model.weights import tray_weight, weight
from reportgen.read.grammar import Measure, last_digit, per, share
from reportgen.read.near import short
from reportgen.read.nodes import Mapping, Node, Scalar, Sequence
from reportgen.read.numbers import NUMBER
from reportgen.read.problem import Refusal
from reportgen.units import FRESH, MONEY, ONE, SPELLINGS


def price(field: kinds.LotPrice, gathering: Gathering) -> Reader:
    """A lot's price: by its container, by weight, or in all."""
    each, by_weight, total = field.inputs
    money = Measure(MONEY, gathering.slots)
    weight = Measure(MONEY / FRESH, gathering.slots)

    def of_one(amount: str, word: str) -> float:
        try:
            return money.read(amount)
        except Refusal as refusal:
            # What is to be written in its place is the price of one, too.
            do = re.sub(r"^(write \S+ \S+)$", rf"\1/{word}", refusal.do)
            raise Refusal(refusal.what, refusal.expected, do) from None

    def read(node: Node, draft: Draft) -> None:
        if not isinstance(node, Scalar) or node.empty:
            of_text(money.read, total, gathering)(node, draft)
            return
        holder = draft.node.get("container") if isinstance(draft.node, Mapping) else None
        container = holder.text if isinstance(holder, Scalar) else ""
        text = per(node.text)
        if container:
            text = _EACH.sub(f"/{container}", text)
        amount, slash, word = text.rpartition("/")
        word = word.strip()
        if not slash:
            if more := _MORE.fullmatch(text):
                draft.broken.update((each.name, by_weight.name, total.name))
                gathering.problem(
                    node.place,
                    f"'{short(text)}' does not say plainly what the price is for",
                    "a price by the container or by weight, or of the whole lot",
                    f"write {more.group(1)}/{container or 'lug'} for the price of one, or "
                    f"{more.group(1)} for all",
                )
                return
            of_text(money.read, total, gathering)(node, draft)
        elif word.removesuffix("s") == container.removesuffix("s") or (
            not container and word not in SPELLINGS
        ):
            of_text(lambda text: of_one(amount.strip(), word), each, gathering)(node, draft)
            if not container and word:
                of_text(parser(Word("container", ""), {}), _WORD, gathering)(
                    Scalar(word, node.file, node.line, node.column, node.length), draft
                )
        elif _is_weight(word):
            of_text(weight.read, by_weight, gathering)(node, draft)
        else:
            draft.broken.update((each.name, by_weight.name, total.name))
            gathering.problem(
                node.place,
                f"the price is by the {short(word)}, the lot was bought by the {container}",
                f"a price by the {container} or by weight, or of the whole lot",
                f"write {amount.strip()}/{container}, if that is meant",
            )

    return read


def _is_weight(word: str) -> bool:
    return word in SPELLINGS and SPELLINGS[word].dimension == FRESH.dimension


_WORD = Word("container", "").inputs[0]
_EACH = re.compile(r"\s+(?:each|apiece|ea\.?)\s*$")
_MORE = re.compile(rf"({NUMBER}\s*[A-Z]{{3}})\s+\D+")


def at_most(field: kinds.AtMost, gathering: Gathering) -> Reader:
    """So many containers, by their name, or a weight."""
    number, container, by_weight = field.inputs
    count = of_text(Measure(ONE).read, number, gathering)
    word = of_text(parser(Word("container", ""), {}), container, gathering)
    measure = Measure(FRESH, gathering.slots)

    def weight_of(text: str) -> float:
        try:
            return measure.read(text)
        except Refusal as refusal:
            expected = "so many containers, as 6 lug, or a weight, as 120 lb"
            raise Refusal(refusal.what, expected, "write it in digits, as 6 lug") from None

    weigh = of_text(weight_of, by_weight, gathering)

    def read(node: Node, draft: Draft) -> None:
        if not isinstance(node, Scalar) or node.empty:
            count(node, draft)
            return
        found = _CONTAINERS.fullmatch(node.text)
        if found is None or _is_weight(found[2]):
            weigh(node, draft)
            return
        at = (node.file, node.line, node.column, node.length)
        count(Scalar(found[1], *at), draft)
        if found[2]:
            word(Scalar(found[2], *at), draft)

    return read


_CONTAINERS = re.compile(rf"\s*({NUMBER})\s*([A-Za-z][A-Za-z0-9-]*|)\s*")


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
    before, last, step, activity, moisture = field.inputs
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

    readers = {
        "weights": weights,
        "water_activity": of_text(Measure(activity.unit).read, activity, gathering),
        "moisture_meter": of_text(share, moisture, gathering),
    }

    def read(node: Node, draft: Draft) -> None:
        mapping_of(node, draft, readers, "dryness", gathering)

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
    words: dict[str, Reader] = {key: lambda node, draft: None for key in
                                ("source", "note", "basis")}  # fmt: skip

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
}
"""The kinds of field that have a reader of their own; all others are one value, or records."""
