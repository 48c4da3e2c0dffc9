"""Payback in words: whether it is paid for, or why that is not known and by which product."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    find,
    first_known,
    known,
    lowest,
    place_of,
    plain,
    sentence,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import dryers, loads, products


@products.derived(COUNT)
def row_place(products: Children, key: Expr) -> Expr:
    """Where it stands among the products."""
    return place_of(products.key, key)


@loads.derived(COUNT, label="product that lacks something")
def lacking_place(finished: Expr, saving: Expr, product: Link) -> Expr:
    """The place of its product, where it is not known what the load is worth."""
    return where(finished & ~known(saving), product.row_place, unknown())


@loads.derived(COUNT, label="product not packed")
def unpacked_place(finished: Expr, product: Link) -> Expr:
    """The place of its product, where none of it is packed yet."""
    return where(finished & product.none_packed, product.row_place, unknown())


@dryers.derived(COUNT, label="place of the product that lacks something")
def lacking_first(loads: Children) -> Expr:
    """The place of the first product that keeps its saving unknown."""
    return lowest(loads.lacking_place)


@dryers.derived(COUNT, label="place of the product not packed")
def unpacked_first(loads: Children) -> Expr:
    """The place of the first product of which nothing is packed yet."""
    return lowest(loads.unpacked_place)


@dryers.link(products)
def product_lacking(products: Children, lacking_first: Expr) -> Expr:
    """The first product that keeps its saving unknown."""
    return find(products.row_place, lacking_first)


@dryers.link(products)
def product_not_packed(products: Children, unpacked_first: Expr) -> Expr:
    """The first product of which nothing is packed yet."""
    return find(products.row_place, unpacked_first)


@dryers.derived(TEXT)
def said_of_left(payback_left: Expr) -> Expr:
    """Whether it is paid for, where that is known."""
    return where(payback_left > 0, "on its way", "already paid for")


@dryers.derived(TEXT)
def said_of_nothing(saving_per_run: Expr) -> Expr:
    """That it never is, where that is known."""
    return where(saving_per_run > 0, unknown(), "nothing is saved: it does not pay for itself")


@dryers.derived(TEXT)
def said_of_lacking(product_lacking: Link) -> Expr:
    """Which product keeps the answer from being known, and what it lacks."""
    return sentence(
        "not known: {product} lacks {what}",
        product=product_lacking.called,
        what=product_lacking.worth_lacks,
    )


@dryers.derived(TEXT)
def said_of_idle(runs_this_season: Expr, saved: Expr) -> Expr:
    """Else: no run, no price of the dryer, or no price of what was paid beside."""
    lacks = where(
        known(saved),
        "not known: the dryer's price is not written",
        "not known: an overhead, the stall or paid time lacks its price",
    )
    return where(runs_this_season == 0, "not known: no run is done this season", lacks)


@dryers.derived(TEXT)
def said_of_open(said_of_nothing: Expr, said_of_lacking: Expr, said_of_idle: Expr) -> Expr:
    """Why no run can be told after which it is paid for."""
    return first_known(said_of_nothing, said_of_lacking, said_of_idle)


@dryers.derived(TEXT, label="in words")
def payback_word(said_of_left: Expr, said_of_open: Expr) -> Expr:
    """The answer in a word, or why there is none."""
    return first_known(said_of_left, said_of_open)


@dryers.derived(TEXT)
def payback_ahead(key: Expr, runs_to_go: Expr) -> Expr:
    """How many more runs it takes, where it is on its way."""
    runs = plain(runs_to_go)
    ahead = sentence("{dryer}: paid for after about {runs} more runs", dryer=key, runs=runs)
    return where(runs_to_go > 0, ahead, unknown())


@dryers.derived(TEXT, label="paid for itself?")
def payback_said(price: Expr, key: Expr, payback_ahead: Expr, payback_word: Expr) -> Expr:
    """The answer in a sentence, of a dryer that has a price."""
    answer = sentence("{dryer}: {answer}", dryer=key, answer=payback_word)
    return where(known(price), first_known(payback_ahead, answer), unknown())


@dryers.derived(TEXT, label="not counted yet")
def payback_without(product_not_packed: Link) -> Expr:
    """What counts as nothing yet."""
    return sentence("{product}: none of it is packed yet", product=product_not_packed.called)


@dryers.derived(TEXT, label="earlier runs")
def payback_before(saved_before: Expr, runs_before: Expr) -> Expr:
    """What earlier seasons count for."""
    guessed = where(runs_before > 0, "as if each had saved as much", "none")
    return where(known(saved_before), "at what they saved", guessed)
