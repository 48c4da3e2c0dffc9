"""The trace, both ways: from a pack to its runs, lots and sources, and from a lot to its packs."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, join, where
from reportgen.algebra.tables import COUNT, DATE, TEXT
from reportgen.algebra.views import Link
from reportgen.trade.tables import lots, mix_parts, mixes, recall, runs, trace


@trace.link(lots)
def lot(load: Link) -> Expr:
    """The lot."""
    return load.lot


@trace.link(runs)
def run(load: Link) -> Expr:
    """The run."""
    return load.run


@recall.derived(TEXT)
def source(lot: Link) -> Expr:
    """Where the lot came from."""
    return lot.source


@trace.derived(TEXT)
def source(lot: Link, part: Link, pack: Link) -> Expr:
    """Where the lot came from; of a pack left from last season, its runs and lots then."""
    return first_known(lot.source, part.carried_from, pack.carried_from)


@mix_parts.derived(TEXT)
def carried_from(pack: Link) -> Expr:
    """Where an opened pack came from that was left from last season."""
    return pack.carried_from


@trace.link(mixes)
def mix(part: Link, item: Link) -> Expr:
    """The mix that it went into first."""
    return where(item == "", part.into, item.into)


@mix_parts.derived(TEXT, label="part")
def called(of_product: Link) -> Expr:
    """The name of the product that went in."""
    return of_product.called


@trace.derived(TEXT, label="part of the mix")
def part_called(part: Link, item: Link) -> Expr:
    """What went into the mix: a product, or what was bought."""
    return where(item == "", part.called, item.item)


@recall.derived(DATE)
@trace.derived(DATE)
def bought(lot: Link) -> Expr:
    """When it was bought or picked."""
    return lot.date


@recall.derived(DATE)
@trace.derived(DATE)
def packed(pack: Link) -> Expr:
    """When it was packed."""
    return pack.date


@recall.derived(COUNT)
@trace.derived(COUNT)
def on_hand(pack: Link) -> Expr:
    """How many of the pack are left."""
    return pack.on_hand


@recall.derived(TEXT)
def key(lot: Link, pack: Link) -> Expr:
    """Lot and pack."""
    return join(lot, "/", pack)


@recall.derived(COUNT)
def filled(pack: Link) -> Expr:
    """How many of the pack were filled."""
    return pack.filled


@recall.derived(COUNT)
def taken(pack: Link) -> Expr:
    """How many have left the shelf: the stock says when, and to whom."""
    return pack.taken


@recall.derived(COUNT, label="of these at markets")
def gone_at_markets(pack: Link) -> Expr:
    """How many of those did not come back from markets: the markets say when."""
    return pack.gone_at_markets


@recall.derived(COUNT, label="opened for mixes")
def opened(pack: Link) -> Expr:
    """How many were opened for mixes, the packs of which are listed, too."""
    return pack.opened


@recall.derived(COUNT)
def missing(pack: Link) -> Expr:
    """How many went missing, by the counts: nobody knows where they are."""
    return pack.missing
