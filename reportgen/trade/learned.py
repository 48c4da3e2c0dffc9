"""What a season's own measurements say of a product: they become product data of the next."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, total, unknown, where
from reportgen.algebra.tables import FLAG, SHARE
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import loads, lots
from reportgen.units import AREA, DRIED, FRESH, KG


@lots.derived(SHARE, label="prep yield, weighed")
def yield_weighed(both_weighed: Expr, prep_yield: Expr) -> Expr:
    """Prepped from purchased, where both were weighed."""
    return where(both_weighed, prep_yield, unknown())


@lots.derived(FRESH, label="one container held")
def container_held(container_weighed: Expr, weighed: Expr, containers_weighed: Expr) -> Expr:
    """What one of its containers held, where they were weighed."""
    return where(container_weighed, weighed / containers_weighed, unknown())


@loads.derived(KG / AREA, label="tray loading of its run")
def run_loading(run: Link) -> Expr:
    """Wet weight by tray area of its run."""
    return run.tray_loading


@loads.derived(FLAG)
def tells_water(finished: Expr, first_pass: Expr, dry_enough: Expr, weights_tell: Expr) -> Expr:
    """Dried once, weighed, and shown to be dry: it tells how much water was in it."""
    return finished & first_pass & dry_enough & weights_tell


@loads.derived(DRIED)
def solids_out(weight_out: Expr, product: Link) -> Expr:
    """Solids in what came out, at the moisture that is aimed for."""
    return weight_out * (1 - product.target_moisture)


@lots.derived(FRESH)
def wet_told(loads: Children) -> Expr:
    """Wet weight of its loads that tell how much water was in it."""
    return total(loads.weight_in, loads.tells_water)


@lots.derived(SHARE, label="water by its loads")
def water_by_loads(loads: Children, wet_told: Expr) -> Expr:
    """Water before drying, by the solids that were left of it."""
    return 1 - total(loads.solids_out, loads.tells_water) / wet_told


@lots.derived(SHARE, label="water, as found")
def water_found(water: Expr, water_by_loads: Expr) -> Expr:
    """Water before drying: measured, else by its loads."""
    return first_known(water, water_by_loads)
