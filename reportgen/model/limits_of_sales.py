"""What cannot be of channels and market days; ``limits.py`` looks at everything else."""

from __future__ import annotations

from reportgen.model.batches import PURPOSES
from reportgen.model.draft import Draft, Gathering

_NO_CHANNELS = (*PURPOSES, "member")


def check_sales(gathering: Gathering) -> None:
    """Note every contradiction in what is sold, and where."""
    for channel in gathering.of("channels"):
        _channel(gathering, channel)
    for row in gathering.of("market_packs"):
        _at_market(gathering, row)


def _channel(gathering: Gathering, channel: Draft) -> None:
    if channel.key in _NO_CHANNELS:
        gathering.problem(
            channel.place,
            f"'{channel.key}' is what packs are used for without being sold",
            "a name of your own for each channel",
            f"choose another name, as {channel.key}-sales",
        )
    fees, tax = channel.number("fees"), channel.number("tax") or 0
    margin = 0.0
    if channel.key == "stall":
        for pricing in gathering.of("pricing"):
            fees = pricing.number("fees") if fees is None else fees
            margin = pricing.number("margin") or 0
    if channel.values and (1 - margin) / (1 + tax) <= (fees or 0):
        gathering.problem(
            channel.place_of("fees" if channel.has("fees") else "tax"),
            "fees, tax and margin together take the whole price"
            if margin
            else "fees and tax together take the whole price",
            "some of the price to be left",
            "lower one of them",
        )


def _at_market(gathering: Gathering, row: Draft) -> None:
    """What came back or was tasted of a pack had been taken there."""
    pack, took = row.text("pack"), row.number("took")
    gone = [name for name in ("back", "samples") if row.number(name)]
    if not row.has("took"):
        named = next((n for n in ("back", "samples", "price_written") if row.has(n)), "pack")
        gathering.problem(
            row.place_of(named),
            f"{pack or 'this pack'} is not among the packs that were taken there",
            "each pack of a market day under took:",
            f"add {pack}: to took, or delete it here",
        )
    elif took is not None and sum(row.number(name) or 0 for name in gone) > took:
        both = len(gone) > 1
        what = {"back": "came back", "samples": "were opened to taste"}
        said = " or ".join(what[name] for name in gone)
        gathering.problem(
            row.place_of(gone[-1]),
            f"more of {pack} {said} than were taken there",
            f"at most {took:.0f}" + (" in all" if both else ""),
            "check took, back and samples",
        )
