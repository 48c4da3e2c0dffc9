"""Readers for what is said by the container: a lot's price, how much is to be had."""

from __future__ import annotations

import re

from reportgen.model import kinds
from reportgen.model.draft import Draft, Gathering
from reportgen.model.fields import Word
from reportgen.model.readers import Reader, of_text, parser
from reportgen.read.grammar import Measure, per
from reportgen.read.near import short
from reportgen.read.nodes import Mapping, Node, Scalar
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
