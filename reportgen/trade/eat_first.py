"""Eat first: what is on the shelf, by its best-by day; each place finds its pack by its rank."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, find, greatest, known, rank, unknown, where
from reportgen.algebra.tables import COUNT, DATE, FLAG, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.tables import eat_first, packs, season
from reportgen.units import DRIED, Unit

DAY = Unit.of("d")


@packs.derived(FLAG)
def on_shelf(on_hand: Expr) -> Expr:
    """Some of it is on the shelf."""
    return on_hand > 0


@packs.derived(DAY, label="days left")
def days_left(on_shelf: Expr, best_by: Expr, season: SingleRow) -> Expr:
    """Days until its best-by day, of what is on the shelf; below 0: past it."""
    return where(on_shelf, best_by - season.as_of, unknown())


@packs.derived(TEXT)
def shelf(on_shelf: Expr) -> Expr:
    """The shelf, on which packs are ranked."""
    return where(on_shelf, "on the shelf", unknown())


@packs.derived(COUNT, label="its turn to be eaten")
def eat_turn(days_left: Expr, shelf: Expr) -> Expr:
    """Its place on the shelf by best-by day, 1 for what is to be eaten first."""
    return rank(days_left, shelf)


@packs.derived(FLAG, label="on the shelf without a best-by day")
def no_best_by(on_shelf: Expr, best_by: Expr) -> Expr:
    """On the shelf, and its best-by day is not known."""
    return on_shelf & ~known(best_by)


@packs.derived(TEXT, label="product's name")
def product_called(product: Link) -> Expr:
    """The product's name."""
    return product.called


@eat_first.link(packs)
def pack(packs: Children, place: Expr) -> Expr:
    """The pack in this place."""
    return find(packs.eat_turn, place)


@eat_first.derived(TEXT, label="what")
def what(pack: Link) -> Expr:
    """What is in it."""
    return pack.product_called


@eat_first.derived(TEXT)
def container(pack: Link) -> Expr:
    """The container it is in."""
    return pack.container


@eat_first.derived(DRIED, label="net weight")
def net(pack: Link) -> Expr:
    """Net weight of one."""
    return pack.net


@eat_first.derived(COUNT)
def on_hand(pack: Link) -> Expr:
    """How many are on the shelf."""
    return pack.on_hand


@eat_first.derived(DATE, label="best-by day")
def best_by(pack: Link) -> Expr:
    """Its best-by day; it presumes that the food is dry and stays sealed, so that food which may
    not be dry has none."""
    return where(pack.doubtful, unknown(), pack.best_by)


@eat_first.derived(DAY)
def days_left(pack: Link) -> Expr:
    """Days until then; below 0: past it."""
    return where(pack.doubtful, unknown(), pack.days_left)


@eat_first.derived(TEXT, label="best-by day, whose figure")
def best_by_basis(pack: Link) -> Expr:
    """Whose figure the best-by day is."""
    return where(pack.doubtful, unknown(), pack.best_by_basis)


@season.derived(COUNT, label="packs on the shelf")
def shelf_packs(packs: Children) -> Expr:
    """Kinds of packs of which some are on the shelf."""
    return count(packs, packs.on_shelf)


@season.derived(COUNT, label="of these without a best-by day")
def shelf_without_day(packs: Children) -> Expr:
    """Of these, those whose best-by day is not known: in no list of what to eat first."""
    return count(packs, packs.no_best_by)


@season.derived(COUNT, label="places of the list")
def shelf_places(eat_first: Children) -> Expr:
    """How many places the list of what to eat first has."""
    return count(eat_first)


@season.derived(COUNT, label="of these further down")
def shelf_not_listed(shelf_packs: Expr, shelf_without_day: Expr, shelf_places: Expr) -> Expr:
    """Of these, those for which the list of what to eat first has no place."""
    return greatest(shelf_packs - shelf_without_day - shelf_places, 0)
