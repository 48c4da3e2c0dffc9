"""Dry enough to seal? The dryness of a pack is that of the worst of the loads behind it."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    first_known,
    join,
    known,
    no,
    place_of,
    same,
    total,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import (
    absorber_needs,
    counts,
    draws,
    eat_first,
    market_packs,
    packs,
    plan,
    prices,
    recall,
    trace,
    uses,
)


@draws.derived(TEXT)
def product(pack: Link) -> Expr:
    """The pack's product."""
    return pack.product


@draws.derived(TEXT)
def run_product(run: Link, product: Expr) -> Expr:
    """Run and product, by which the pack finds its loads."""
    return join(run, "/", product)


@draws.derived(COUNT, label="place of the first of them")
def run_place(loads: Children, run_product: Expr) -> Expr:
    """Where the first load of its product in the run stands among the loads."""
    return place_of(loads.run_product, run_product)


@draws.derived(COUNT)
def doubtful_loads(loads: Children, run_place: Expr) -> Expr:
    """Loads of its product in the run that may not be dry."""
    rows = same(loads.run_place, run_place)
    return count(rows, rows.doubtful)


@draws.derived(COUNT)
def unshown_loads(loads: Children, run_place: Expr) -> Expr:
    """Loads of its product in the run that are not shown to be dry."""
    rows = same(loads.run_place, run_place)
    return count(rows, rows.not_shown)


@draws.derived(COUNT)
def dry_loads(loads: Children, run_place: Expr) -> Expr:
    """Loads of its product in the run that are shown to be dry."""
    rows = same(loads.run_place, run_place)
    return count(rows, rows.dry_enough)


@draws.check("caution", "Correct the runs after from, or the pack's product.")
def draws_on_nothing(run_product: Expr, run_place: Expr) -> Expr:
    """The run that a pack names holds nothing of its product: it cannot be traced."""
    return known(run_product) & ~known(run_place)


@packs.derived(COUNT)
def doubtful_origin(draws: Children) -> Expr:
    """Loads behind it that may not be dry."""
    return total(draws.doubtful_loads)


@packs.derived(COUNT)
def unshown_origin(draws: Children) -> Expr:
    """Loads behind it that are not shown to be dry."""
    return total(draws.unshown_loads)


@packs.derived(COUNT)
def dry_origin(draws: Children) -> Expr:
    """Loads behind it that are shown to be dry."""
    return total(draws.dry_loads)


@packs.derived(TEXT)
def dryness_known(unshown_origin: Expr, dry_origin: Expr, runs_named: Expr) -> Expr:
    """The verdict where nothing speaks against it: dry only if every load behind it is."""
    shown = where((unshown_origin <= 0) & (dry_origin > 0), "dry", "not shown")
    return where(runs_named > 0, shown, "origin not named")


@packs.derived(TEXT, label="dry?")
def dryness(carried_dryness: Expr, dryness_of_loads: Expr) -> Expr:
    """Dry, not shown, doubtful, or origin not named: the worst of the loads behind it; of what is
    left from last season, what was shown then."""
    return first_known(carried_dryness, dryness_of_loads)


@packs.derived(TEXT)
def dryness_of_loads(doubtful_origin: Expr, dryness_known: Expr) -> Expr:
    """The worst of this season's loads behind it."""
    return where(doubtful_origin > 0, "doubtful", dryness_known)


@packs.derived(FLAG)
def airless(container: Link) -> Expr:
    """It is sealed with oxygen absorbers."""
    return first_known(container.absorber > 0, no())


@packs.check(
    "error",
    "Do not keep it sealed: open it, dry it again and show that it is dry. Moist food without "
    "oxygen can carry botulism, which no look or smell reveals.",
    source="Utah State University Extension, Buying a Home Freeze-Dryer, 2019",
)
def doubtful_sealed(doubtful: Expr, airless: Expr) -> Expr:
    """Food that may not be dry, sealed with oxygen absorbers."""
    return doubtful & airless


@packs.check("caution", "Dry it again and show that it is dry before it is kept.")
def doubtful_packed(doubtful: Expr, airless: Expr) -> Expr:
    """Food that may not be dry, packed."""
    return doubtful & ~airless


@packs.check(
    "caution",
    "Weigh to constant weight, or measure the water activity: weight alone cannot prove dryness.",
)
def dryness_not_shown(dryness: Expr) -> Expr:
    """Packed on its weight alone: nothing shows that it is dry."""
    return dryness == "not shown"


@absorber_needs.derived(TEXT, label="pack dry?")
@counts.derived(TEXT, label="pack dry?")
@draws.derived(TEXT, label="pack dry?")
@eat_first.derived(TEXT, label="pack dry?")
@market_packs.derived(TEXT, label="pack dry?")
@recall.derived(TEXT, label="pack dry?")
@trace.derived(TEXT, label="pack dry?")
@uses.derived(TEXT, label="pack dry?")
def pack_dryness(pack: Link) -> Expr:
    """The pack's dryness: dry, not shown, doubtful, or origin not named."""
    return pack.dryness


@packs.derived(FLAG)
def doubtful(dryness: Expr) -> Expr:
    """It may not be dry enough to keep."""
    return dryness == "doubtful"


@prices.derived(COUNT, label="of these doubtful")
def doubtful(packs: Children, key: Expr) -> Expr:
    """How many of those on the shelf may not be dry: not to be sold before they are."""
    rows = same(packs.priced_as, key)
    return total(rows.on_hand, rows.doubtful)


@plan.derived(COUNT, label="of these doubtful")
def doubtful(packs: Children, priced_as: Expr) -> Expr:
    """How many of those on the shelf may not be dry: they count, but may have to be made again."""
    rows = same(packs.priced_as, priced_as)
    return total(rows.on_hand, rows.doubtful)
