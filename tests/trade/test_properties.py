"""What must hold on any season, with all that real ones lack: nothing is lost or made up.

The seasons are made at random (``tests/seasons``) and read as a user's files are.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from seasons import Season, sample_seasons
from seasons.as_written import as_people_write
from thorough import some

from reportgen.algebra.numbers import Numbers, Value
from reportgen.model.season import slots_of
from reportgen.program import read
from reportgen.trade import BOOK
from reportgen.units import ONE, factor

pytestmark = pytest.mark.slow

SEASONS = some(of=60, at_every_change=30)
ROW_KEYS = {"lots", "runs", "packs", "offers", "dryers", "containers", "products", "loads"}
"""Tables whose rows go by an id, so that they can be found again in another order."""


def numbers_of(season: Season) -> Numbers:
    with TemporaryDirectory() as folder:
        done = read(season.write(Path(folder)))
    assert done.numbers is not None, done.problems
    return done.numbers


@cache
def made() -> list[tuple[Season, Numbers]]:
    small = sample_seasons(SEASONS, 11)
    medium = sample_seasons(SEASONS // 3, 12, "medium")
    told = [
        as_people_write(Random(n), season, about=True)
        for n, season in enumerate(sample_seasons(SEASONS // 3, 13, "medium"))
    ]
    return [(season, numbers_of(season)) for season in (*small, *medium, *told)]


def column(numbers: Numbers, table: str, name: str) -> list[Any]:
    return numbers.cells[table][name]


def rows(numbers: Numbers, table: str) -> Iterator[dict[str, Any]]:
    cells = numbers.cells[table]
    for row in range(len(cells["key"])):
        yield {name: values[row] for name, values in cells.items()}


def as_lb(numbers: Numbers, amount: float, slot: str) -> float:
    """A weight in pounds, so that fresh and dried ones can be added by hand."""
    return (
        amount
        * {"lb": 1, "oz": 1 / 16, "kg": 1 / 0.45359237, "g": 0.001 / 0.45359237}[
            numbers.slots[slot]
        ]
    )


def same(one: Value, other: Value, scale: float = 1.0, least: float = 1e-11) -> bool:
    if one is None or other is None or isinstance(one, str | bool) or isinstance(other, str | bool):
        return one == other
    return math.isclose(one * scale, other, rel_tol=1e-12, abs_tol=least)


def test_the_seasons_hold_what_they_are_to_prove() -> None:
    """So that no property below is true of nothing."""
    seen = dict.fromkeys(
        ("again", "open run", "done run", "waiting", "set aside", "estimated", "carried pack",
         "carried bulk", "crumbs", "spoiled", "running_per_packed"), 0,
    )  # fmt: skip
    for _, numbers in made():
        seen["again"] += sum(map(bool, column(numbers, "loads", "again")))
        seen["open run"] += column(numbers, "runs", "done").count(False)
        seen["done run"] += column(numbers, "runs", "done").count(True)
        seen["waiting"] += column(numbers, "lots", "some_waiting").count(True)
        seen["set aside"] += sum(map(bool, column(numbers, "lots", "set_aside")))
        seen["estimated"] += column(numbers, "lots", "prepped_estimated").count(True)
        seen["carried pack"] += column(numbers, "packs", "of_season").count(False)
        seen["carried bulk"] += len(column(numbers, "carried_over", "key"))
        seen["crumbs"] += column(numbers, "uses", "crumbs").count(True)
        seen["spoiled"] += column(numbers, "uses", "spoiled").count(True)
        known = column(numbers, "products", "running_per_packed")
        seen["running_per_packed"] += len(known) - known.count(None)
    assert all(count >= 5 for count in seen.values()), seen


def test_what_lots_cost_is_carried_set_aside_waiting_or_in_process() -> None:
    tried = 0
    for _, numbers in made():
        by_lot: dict[str, list[Any]] = {}
        for load in rows(numbers, "loads"):
            if not load["again"]:
                by_lot.setdefault(load["lot"].casefold(), []).append(load["cost_ingredients"])
        for lot in rows(numbers, "lots"):
            loads = by_lot.get(lot["key"].casefold(), [])
            parts = [*loads, lot["waiting_cost"], lot["set_aside_cost"]]
            bought = (lot["purchase_cost"], lot["travel_cost"])
            paid = bought if lot["of_season"] else (lot["carried_running"],)
            if None in (*parts, *paid):
                continue
            tried += 1
            assert same(sum(parts), sum(paid), least=1e-9), (lot, loads)
    assert tried > 50


def bought(numbers: Numbers) -> list[Any]:
    """What this season's lots cost, and fetching them; what was bought for mixes."""
    lots = [lot for lot in rows(numbers, "lots") if lot["of_season"]]
    paid = [lot[name] for lot in lots for name in ("purchase_cost", "travel_cost")]
    return [*paid, *column(numbers, "bought_parts", "price")]


def test_what_was_spent_is_what_was_paid() -> None:
    tried = 0
    for _, numbers in made():
        (season,) = rows(numbers, "season")
        over = [run for run in rows(numbers, "runs") if run["done"] or run["given_up"]]
        packs = [pack["packaging_cost"] for pack in rows(numbers, "packs") if pack["of_season"]]
        paid = [
            *bought(numbers),
            *(run["energy_cost"] for run in over),
            *(run["upkeep_cost"] for run in over),
            *packs,
        ]
        if None in paid or season["spent"] is None:
            continue
        tried += 1
        assert same(season["spent"], sum(paid), least=1e-9)
    assert tried > 15


def test_money_out_is_what_was_paid_by_kind() -> None:
    """Added up from the records; what no money leaves for and unpaid time are not in it."""
    tried = paid_time = 0
    for _, numbers in made():
        (season,), (rates,) = rows(numbers, "season"), rows(numbers, "rates")
        worked = ("lots", "runs", "mixes")
        time = [each for table in worked for each in column(numbers, table, "labor_cost")]
        time += [pack["labor_cost"] for pack in rows(numbers, "packs") if pack["of_season"]]
        days = list(rows(numbers, "markets"))
        time += [day["labor_cost"] for day in days]
        sold = [use["paid"] for use in rows(numbers, "uses") if use["sold"]]
        sold += [day["taken_in"] for day in days]
        (pricing,) = rows(numbers, "pricing")
        channels = {each["key"]: each for each in rows(numbers, "channels")}
        by_sale = [
            (use["paid"], channels[use["channel"]]) for use in rows(numbers, "uses") if use["sold"]
        ]
        by_sale += [(day["taken_in"], channels[day["channel"]]) for day in days]
        stall = (pricing["stall"] or 0) * (pricing["days"] or 0)
        paid = [
            *bought(numbers),
            *(run["energy_cost"] for run in rows(numbers, "runs") if run["counted"]),
            *column(numbers, "runs", "upkeep_cost"),
            *(pack["packaging_cost"] for pack in rows(numbers, "packs") if pack["of_season"]),
            *(each["cost"] for each in rows(numbers, "overheads") if each["paid"] is not False),
            sum(day["fee"] or 0 for day in days) if days else stall,
            -season["stall_ahead"],
            *(day["travel_cost"] for day in days),
            *(each * taken(channel, pricing) for each, channel in by_sale if each is not None),
            *(time if rates["labor_paid"] else ()),
        ]
        if None in paid or None in sold:
            assert season["money_out"] is None
            continue
        tried += 1
        paid_time += bool(rates["labor_paid"])
        assert same(season["money_out"], sum(paid), least=1e-9)
        assert same(season["money_left"], sum(sold) - sum(paid), least=1e-9)
        if season["spent"] is None:
            continue
        beside = (
            "money_fees",
            "money_tax",
            "money_overheads",
            "money_stall",
            "money_to_market",
            "money_labor",
            "paid_for_going",
        )
        difference = sum(season[each] for each in beside)
        assert same(season["money_out"], season["spent"] + difference, least=1e-9)
        assert same(season["paid_beyond_spent"], difference, least=1e-9)
        going = [run for run in rows(numbers, "runs") if not run["done"] and not run["given_up"]]
        unspent = sum(run["upkeep_cost"] for run in going)
        unspent += sum(run["energy_cost"] for run in going if run["counted"])
        assert same(season["paid_for_going"], unspent, least=1e-9)
    assert tried > 15 and paid_time > 3


def taken(channel: dict[str, Any], pricing: dict[str, Any]) -> float:
    """Fees and the tax that is in a price, as shares of it."""
    fees = channel["fees"]
    if fees is None:
        fees = (pricing["fees"] or 0) if channel["key"] == "stall" else 0
    tax = channel["tax"] or 0
    return float(fees + tax / (1 + tax))


def test_each_weight_is_sold_or_kept_or_spoiled_and_never_two_of_these() -> None:
    """Sold, kept, spoiled, tasted, opened for mixes and missing are what was packed, and what
    households took from bulk."""
    tried = lost = opened = 0
    for _, numbers in made():
        uses = list(rows(numbers, "uses"))
        products = column(numbers, "uses", "of_product")
        for product in rows(numbers, "products"):
            own = [use for use, of in zip(uses, products, strict=True) if of == product["key"]]
            from_bulk = [u["content"] for u in own if u["of_bulk"] and u["purpose"] == "household"]
            packed, spoiled = product["packed"], product["spoiled"]
            packs = [p for p in rows(numbers, "packs") if p["product"] == product["key"]]
            counted = [p for p in packs if p["of_runs"] and p["missing"] != 0]
            if any(None in (p["missing"], p["net"]) for p in counted):
                continue
            missing = [p["missing"] * p["net"] for p in counted]
            nets = {p["key"]: p["net"] for p in packs if p["of_runs"]}
            there = [row for row in rows(numbers, "market_packs") if nets.get(row["pack"])]
            tasted = [(row["samples"] or 0) * nets[row["pack"]] for row in there]
            if None in (packed, spoiled, product["kept_weight"], product["sold_weight"]):
                continue
            tried += bool(product["sold_weight"])
            lost += any(missing)
            opened += any(tasted)
            gone = product["sold_weight"] + product["kept_weight"] + spoiled + sum(missing)
            gone += product["opened"] + sum(tasted)
            assert same(gone, packed + sum(from_bulk), least=1e-9)
    assert tried > 10 and lost > 5 and opened > 3


def test_counts_move_no_cost() -> None:
    """Without the counts, each cost by weight is the same; what they found is a loss by itself."""
    tried = 0
    for season, numbers in made():
        if not season.table("counts"):
            continue
        without = season.copied()
        for content in without.files.values():
            content.pop("counts", None)
        before = {p["key"]: p for p in rows(numbers_of(without), "products")}
        for product in rows(numbers, "products"):
            tried += 1
            plain = before.get(product["key"], {})
            for name in ("running_bulk", "full_bulk", "running_per_packed", "full_cost"):
                assert not plain or product[name] == plain[name]
        found = [count["cost"] for count in rows(numbers, "counts")]
        total = None if None in found else sum(found)
        loss = column(numbers, "season", "shrinkage")[0]
        assert loss is total or same(loss, total, least=1e-9)
    assert tried > 20


def test_what_is_sold_is_in_revenue_and_never_in_saving() -> None:
    """Twice the price for all that was sold: the revenue doubles, and nothing more is saved."""
    tried = 0
    for season, numbers in made()[::2]:
        uses = [row.record for row in season.table("uses") if "price" in row.record]
        revenues = [
            *column(numbers, "uses", "revenue"),
            *column(numbers, "market_packs", "revenue"),
        ]
        if not uses or None in revenues:
            continue
        before = {each: column(numbers, "season", each)[0] for each in ("revenue", "saving")}
        uses += season.head.get("asked", [])
        priced = [(use, "price") for use in uses]
        priced += [(prices, pack) for day in season.table("markets")
                   for prices in [day.record.get("prices", {})] for pack in prices]  # fmt: skip
        kept = [record[name] for record, name in priced]
        for (record, name), price in zip(priced, kept, strict=True):
            number, _, unit = price.partition(" ")
            record[name] = f"{float(number) * 2!r} {unit}"
        after = numbers_of(season)
        for (record, name), price in zip(priced, kept, strict=True):
            record[name] = price
        tried += 1
        assert same(column(after, "season", "revenue")[0], 2 * before["revenue"], least=1e-9)
        assert column(after, "season", "saving")[0] == before["saving"]
    assert tried > 5


def test_market_days_lose_no_pack_and_no_money() -> None:
    """What was taken along came back, was sold or tasted; the season's sales, less what products
    and purses hold, is nothing."""
    tried = differing = 0
    for _, numbers in made():
        (season,), days = rows(numbers, "season"), list(rows(numbers, "markets"))
        there = list(rows(numbers, "market_packs"))
        for row in there:
            assert row["took"] == (row["back"] or 0) + (row["samples"] or 0) + row["sold"]
        for pack in rows(numbers, "packs"):
            gone = sum(row["gone"] for row in there if row["pack"] == pack["key"])
            used = sum(u["containers"] for u in rows(numbers, "uses") if u["pack"] == pack["key"])
            if pack["missing"] is not None:
                gone += used + pack["opened"] + pack["missing"]
                assert pack["on_hand"] == pack["filled"] - gone
        paid = [row["paid"] for row in there]
        sold = [use["paid"] for use in rows(numbers, "uses") if use["sold"]]
        if not days or None in (*paid, *sold):
            continue
        tried += 1
        differing += bool(season["market_difference"])
        assert same(season["money_in"], sum(sold + paid) + season["market_difference"], least=1e-9)
        fees = sum(day["fee"] or 0 for day in days)
        assert same(season["market_fees"], fees, least=1e-9)
        left = [day["left"] for day in days]
        if None not in left:
            out = sum(row["running_out"] for row in there)
            off = sum(day["tax_in_it"] + day["fees"] + day["travel_cost"] for day in days)
            took = sum(paid) + season["market_difference"]
            assert same(sum(left), took - off - fees - out, least=1e-9)
    assert tried > 5 and differing > 3


def test_market_days_move_no_cost() -> None:
    """Without its markets a season has the same costs by weight."""
    tried = 0
    for season, numbers in made():
        if not season.table("markets"):
            continue
        without = season.copied()
        for content in without.files.values():
            content.pop("markets", None)
        before = {p["key"]: p for p in rows(numbers_of(without), "products")}
        for product in rows(numbers, "products"):
            tried += 1
            for name in ("running_bulk", "full_bulk", "running_per_packed", "full_cost"):
                assert product[name] == before[product["key"]][name]
    assert tried > 20


@pytest.mark.parametrize("part", ["energy", "upkeep", "wear"])
def test_what_done_runs_cost_is_what_products_carry(part: str) -> None:
    tried = 0
    for _, numbers in made():
        runs = [run[f"{part}_cost"] for run in rows(numbers, "runs") if run["done"]]
        products = column(numbers, "products", f"cost_{part}")
        if None in runs or None in products:
            continue
        tried += 1
        assert same(sum(products), sum(runs), least=1e-9)
    assert tried > 20


def test_time_is_carried_as_produce_and_runs_are() -> None:
    tried = 0
    for _, numbers in made():
        runs = [run["labor_cost"] for run in rows(numbers, "runs") if run["done"]]
        lots = {str(lot["key"]).casefold(): lot for lot in rows(numbers, "lots")}
        products = column(numbers, "products", "cost_labor")
        total = 0.0
        for load in rows(numbers, "loads"):
            lot = lots[load["lot"].casefold()]
            if (
                load["finished"]
                and not load["again"]
                and None not in (lot["usable"], load["weight_in"])
            ):
                time = lot["labor_cost"]
                if not lot["of_season"]:  # its time is what it cost then
                    ends = lot["carried_full"], lot["carried_running"]
                    time = None if None in ends else ends[0] - ends[1]
                total += (time or 0) * load["weight_in"] / lot["usable"]
        if None in products or None in runs:
            continue
        tried += 1
        assert same(sum(products), sum(runs) + total, least=1e-9)
    assert tried > 20


def test_mass_in_is_mass_out() -> None:
    for _, numbers in made():
        for lot in rows(numbers, "lots"):
            if lot["waiting"] is not None:
                out = lot["loaded"] + lot["waiting"] + (lot["set_aside"] or 0) + (lot["lost"] or 0)
                assert same(out, lot["prepped"], least=1e-9)
        loads = list(rows(numbers, "loads"))
        for run in rows(numbers, "runs"):
            if run["done"]:
                mine = [load for load in loads if load["run"] == run["key"]]
                wet = sum(as_lb(numbers, load["weight_in"], "fresh") for load in mine)
                dry = sum(as_lb(numbers, load["weight_out"], "dried") for load in mine)
                water = as_lb(numbers, run["water_removed"], "fresh")
                assert same(dry + water, wet, least=1e-9)
        for product in rows(numbers, "products"):
            water = sum(
                as_lb(numbers, load["water_removed"], "fresh")
                for load in loads
                if load["product"] == product["key"] and load["finished"]
            )
            fresh = as_lb(numbers, product["loaded"], "fresh")
            lost = sum(
                as_lb(numbers, load["weight_in"], "fresh")
                for load in loads
                if load["product"] == product["key"] and load["given_up"] and load["again"]
            )
            dried = as_lb(numbers, product["dried"], "dried") + lost
            assert same(dried + water, fresh, least=1e-9)
            if product["unpacked"] is not None:
                out = product["packed"] + product["bulk_used"] + product["unpacked"]
                out += product["bulk_missing"] + product["bulk_mixed"]
                assert same(out, product["dried"] + product["carried"], least=1e-9)


def test_shares_of_a_run_sum_to_one() -> None:
    tried = 0
    for _, numbers in made():
        loads = list(rows(numbers, "loads"))
        for run in rows(numbers, "runs"):
            shares = [load["run_share"] for load in loads if load["run"] == run["key"]]
            if run["done"]:
                tried += 1
                assert same(sum(shares), 1.0)
            else:
                assert set(shares) <= {None}
    assert tried > 50


def test_bulk_and_packs_hold_what_the_product_cost() -> None:
    tried = 0
    for _, numbers in made():
        for product in rows(numbers, "products"):
            packs = [
                pack
                for pack in rows(numbers, "packs")
                if pack["product"] == product["key"] and pack["of_runs"]
            ]
            if product["running_per_packed"] is None or product["packed_good"] <= 0:
                continue
            tried += 1
            left = [(pack["count"] - pack["opened"]) * pack["running_each"] for pack in packs]
            filled = sum(left)
            good = product["running_per_packed"] * product["packed_good"]
            assert same(filled, good, least=1e-9), "the good ones carry what all of them cost"
            bulk = product["running_bulk"] * product["bulk"]
            assert same(bulk, product["cost_bulk_running"] + product["carried_running"], least=1e-9)
    assert tried > 20


def test_estimated_share_is_a_share() -> None:
    for _, numbers in made():
        for table in ("products", "season"):
            for share in column(numbers, table, "estimated_share"):
                assert share is None or -1e-12 <= share <= 1 + 1e-12


# --- the same season, told otherwise -----------------------------------------------------------


def in_units(season: Season, fresh: str, dried: str) -> Season:
    copy = season.copied()
    copy.head["units"] = {"fresh": fresh, "dried": dried}
    return copy


KEYS_WITH_NET = {("prices", "key"), ("price_list", "size"), ("price_list", "priced")}
NET_IN_WORDS = {
    "priced_as",
    "place",
    "asked_place",
    "said_of_cost",
    "said_of_mixing",
    "mixed_told",
    "headline",
}
"""Texts that name a net weight or a cost by weight, and so its unit."""


@pytest.mark.parametrize(("fresh", "dried"), [("kg", "g"), ("lb", "oz")])
def test_units_change_no_result(fresh: str, dried: str) -> None:
    tried = 0
    for season, numbers in made()[::2]:
        other = numbers_of(in_units(season, fresh, dried))
        for definition in BOOK:
            unit = definition.kind.unit
            if definition.role == "helper" or definition.table.name == "checks":
                continue
            if definition.name in NET_IN_WORDS or definition.key in KEYS_WITH_NET:
                continue
            ratio = unit.bound(numbers.slots) / unit.bound(
                slots_of(fresh, dried, numbers.slots["money"])
            )
            scale = float(factor(ratio, ONE)) if definition.kind.type == "number" else 1.0
            for one, two in zip(
                column(numbers, *definition.key), column(other, *definition.key), strict=True
            ):
                tried += one is not None
                assert same(one, two, scale, least=1e-11 * max(scale, 1)), (
                    definition.key,
                    one,
                    two,
                )
    assert tried > 5_000


def renamed(season: Season) -> tuple[Season, dict[str, str]]:
    """Every id of the season with another name, wherever it is referred to."""
    names = {
        row.key: f"zz-{n}-{row.table[:2]}"
        for n, row in enumerate(season.rows())
        if "id" in row.record
    }

    def new(value: Any) -> Any:
        if isinstance(value, dict):
            return {names.get(key, key): new(each) for key, each in value.items()}
        if isinstance(value, list):
            return [new(each) for each in value]
        if value in names:
            return names[value]
        run, slash, lot = value.partition("/")
        return f"{names.get(run, run)}/{names.get(lot, lot)}" if slash and run in names else value

    return Season(new(season.copied().files)), names


def test_names_change_no_result() -> None:
    for season, numbers in made()[::2]:
        other_season, names = renamed(season)
        assert names
        other = numbers_of(other_season)
        for definition in BOOK:
            if definition.kind.type == "text" and definition.table.name != "season":
                continue
            if definition.name.endswith("_first"):
                continue  # names a row
            one, two = column(numbers, *definition.key), column(other, *definition.key)
            assert one == two, definition.key


def shuffled(season: Season, rng: Random) -> Season:
    """The records of every list in another order, all of them in the season's one file."""
    head, recipes = season.copied().head, {}
    for file, content in season.copied().files.items():
        if file.startswith("recipes/"):
            recipes[file] = content
            continue
        for table, value in content.items():
            if file != "season.yaml":
                head[table] = [*head.get(table, []), *value]
    for table in ("lots", "runs", "mixes", "packs", "uses", "offers", "overheads", "carried_over"):
        if table in head:
            rng.shuffle(head[table])
            for record in head[table]:
                for inner in ("loads", "from", "bought"):
                    if isinstance(record.get(inner), list):
                        rng.shuffle(record[inner])
    return Season({"season.yaml": head, **recipes})


SPEAKS_FOR_ALL = {
    ("loads", name) for name in ("energy_u_together", "energy_u_squared", "beside_u_squared")
} | {
    ("dryers", name)
    for name in (
        "product_lacking", "product_not_packed", "said_of_lacking", "said_of_open", "payback_word",
        "payback_said", "payback_without",
    )
}  # fmt: skip
SPEAKS_FOR_ALL |= {("lots", "recent"), ("lots", "recent_of"), ("packs", "eat_turn")}
"""What stands in the first row of several, and is nothing in the others; which of several products
without a price is named; turns among equals."""


def test_the_order_of_records_changes_no_result() -> None:
    tried = 0
    for n, (season, numbers) in enumerate(made()[::2]):
        if not _one_lot_files(season):
            other = numbers_of(shuffled(season, Random(n)))
            for table in sorted(ROW_KEYS | {"season"}):
                at = {key: row for row, key in enumerate(column(other, table, "key"))}
                assert len(at) == len(column(numbers, table, "key"))
                for definition in BOOK.tables[table].definitions.values():
                    if re.search(r"_(rank|middle|lowest|first|place)$", definition.name):
                        continue  # a place among equals goes by position
                    if definition.key in SPEAKS_FOR_ALL:
                        continue
                    two = column(other, table, definition.name)
                    for key, one in zip(
                        column(numbers, table, "key"),
                        column(numbers, table, definition.name),
                        strict=True,
                    ):
                        tried += 1
                        assert same(one, two[at[key]], least=1e-10), (table, definition.name, key)
    assert tried > 5000


def _one_lot_files(season: Season) -> bool:
    """Whether a load leaves its lot out, which only the one lot of its file allows."""
    return any(not {"lot", "again"} & {*row.record} for row in season.table("loads"))
