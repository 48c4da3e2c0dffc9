"""Mixes by pencil: weight in and out, what it costs, how dry it is, how long it keeps."""

from __future__ import annotations

from pathlib import Path
from textwrap import dedent
from typing import Any

import numpy as np
import pytest
from seasons import Season, sample_seasons

from reportgen.program import read
from trade.small import HEAD, RECIPES, Figures, season
from trade.test_properties import numbers_of, rows, same

pytestmark = pytest.mark.seasons

# Turnips: 10 of produce, 4 of energy, 2 of upkeep on 20 oz dried: 0.80 an ounce; full 0.20 of wear
# more. Beets: 0.60 and 0.80 an ounce.
BASE = """
as_of: 2025-12-01
lots:
  - {id: t, product: turnip-cubes, date: 2025-09-01, price: 10 USD, weighed: 16 lb, prepped: 12 lb,
     finished: true}
  - {id: b, product: beet-cubes, date: 2025-09-01, price: 9 USD, weighed: 16 lb, prepped: 12 lb,
     finished: true}
runs:
  - {id: r, started: 2025-09-02, duration: 20 h, energy: 16 kWh,
     loads: [{lot: t, wet: 12 lb, dry: 20 oz, dryness: {water_activity: 0.3}}]}
  - {id: s, started: 2025-09-04, duration: 20 h, energy: 4 kWh,
     loads: [{lot: b, wet: 12 lb, dry: 20 oz, dryness: {water_activity: 0.3}}]}
"""
DUST = """
mixes:
  - {id: dust, product: dust, date: 2025-09-10, from: [{product: beet-cubes, weight: 5 oz}],
     out: 4 oz, labor: 6 min}
"""
MIX = (
    DUST
    + """
  - id: trail
    product: trail
    date: 2025-09-20
    from:
      - {product: turnip-cubes, weight: 6 oz}
      - {pack: P, count: 2}
      - {mix: dust, weight: 2 oz}
    bought: [{item: seeds, weight: 4 oz, price: 3.20 USD, best_by: 2026-01-31,
              dryness: {water_activity: 0.4}}]
    out: 15 oz
    labor: 30 min
"""
)
PACKS = """
packs:
  - {id: P, product: turnip-cubes, date: 2025-09-08, container: tin, count: 4, net: 2 oz,
     from: [r], labor: 24 min}
  - {id: M, product: trail, date: 2025-09-21, container: tin, count: 5, net: 2.5 oz,
     from: [trail], labor: 15 min}
"""
USES = """
uses:
  - {date: 2025-10-01, pack: M, count: 2, for: stall, price: 10 USD}
  - {date: 2025-10-02, pack: M, count: 1, for: household}
"""
OFFERS = """
offers:
  - {id: o, product: trail, date: 2025-09-01, net: 5 oz, price: 15 USD}
"""


def made(folder: Path, text: str = BASE + MIX + PACKS + USES + OFFERS) -> Figures:
    (folder / "recipes").mkdir(exist_ok=True)
    for name in ("dust", "trail"):
        (folder / "recipes" / f"{name}.yaml").write_text(f"name: {name}\n")
    return season(folder, text)


def near(value: object) -> Any:
    return pytest.approx(value)


def test_what_parts_cost(tmp_path: Path) -> None:
    found = made(tmp_path)
    names = ("running_cost", "full_cost")
    parts = [cost for n in range(1, 5) for cost in found.of("mix_parts", f"part-{n}", *names)]
    # Beets 5 at 0.60 and 0.80; turnips 6 at 0.80 and 1; two tins of 2 oz with packaging of 2 and a
    # quarter of 4 of time; dust at 3 / 4 and (4 + 1 of time) / 4 an ounce.
    assert parts == near([3, 4, 4.8, 6, 7.2, 10, 1.5, 2.5])
    assert found.of("mixes", "dust", "weight_in", "loss", "running_cost", "full_cost") == near(
        [5, 1, 3, 5]
    )
    called = [found("mix_parts", "called", f"part-{n}") for n in range(1, 5)]
    assert called == ["Beet cubes", "Turnip cubes", "Turnip cubes", "dust"]
    names = ("weight_in", "loss", "bought_cost", "running_cost", "full_cost")
    assert found.of("mixes", "trail", *names) == near([16, 1, 3.2, 16.7, 26.7])
    assert found.of("mixes", "trail", "running_by_weight", "full_by_weight") == near(
        [16.7 / 15, 26.7 / 15]
    )
    assert found.of("packs", "M", "running_each", "full_each") == near(
        [2.5 * 16.7 / 15 + 2, 2.5 * 26.7 / 15 + 2 + 0.5]
    )


def test_the_average_is_that_of_a_reference_library(tmp_path: Path) -> None:
    """numpy.average: the weighted mean of what went in, over all that went in."""
    found = made(tmp_path, BASE + MIX.replace("    out: 15 oz\n", "") + PACKS)
    weights, costs = [6.0, 4.0, 2.0, 4.0], [0.8, 7.2 / 4, 3 / 4, 3.2 / 4]
    assert found("mixes", "running_by_weight", "trail") == near(np.average(costs, weights=weights))
    assert found.mark("mixes", "weight_out", "trail") is True
    assert found.mark("mixes", "weight_out", "dust") is False


def test_each_weight_and_each_cost_once(tmp_path: Path) -> None:
    found = made(tmp_path)
    assert found.of("packs", "P", "opened", "on_hand") == [2, 2]
    names = ("packed", "packed_good", "unpacked", "bulk_mixed")
    assert found.of("products", "turnip-cubes", *names) == near([8, 4, 6, 6])
    assert found.of("products", "beet-cubes", *names) == near([0, 0, 15, 5])
    assert found.of("products", "trail", *names) == near([0, 0, 0, 0])
    assert found.of("mixes", "dust", "packed", "passed_on", "left") == near([0, 2, 2])
    assert found.of("mixes", "trail", "packed", "passed_on", "left") == near([12.5, 0, 2.5])
    # Dried and packed: 16 + 8 for turnips, 12 for beets; the trail mix holds what it took.
    cost = {name: found("products", "running_cost", name)
            for name in ("turnip-cubes", "beet-cubes", "dust", "trail")}  # fmt: skip
    assert cost == near({"turnip-cubes": 24 - 12, "beet-cubes": 12 - 3, "dust": 3 - 1.5,
                         "trail": 16.7 + 10})  # fmt: skip
    assert found("season", "running_cost") == near(16 + 8 + 12 + 10 + 3.2)
    assert found("season", "money_bought") == near(3.2)
    assert found("products", "running_per_packed", "turnip-cubes") == near((4 * 0.8 + 4) / 4)


def test_what_it_brought(tmp_path: Path) -> None:
    found = made(tmp_path)
    # Two sold at 10 less a tenth; three kept of 2.5 oz, at half of 3 an ounce.
    assert found("mixes", "brought", "trail") == near(18 + 3 * 2.5 * 3 / 2)
    assert found("mixes", "earned", "trail") == near(18 + 11.25 - 16.7)
    # The dust brought nothing but what the trail mix took of it, at cost.
    assert found("mixes", "earned", "dust") == near(1.5 - 3)
    assert found("mixes", "hours", "trail") == near(0.75)
    assert found("worth_mixing", "called", "worth-1") == "trail"
    # Half an hour of mixing, a quarter of packing.
    assert found("worth_mixing", "hours", "worth-1") == near(0.75)
    assert found("season", "last_mix") == 45920  # 2025-09-20


def test_of_what_is_only_mixed_the_season_says_what_its_mixes_cost(tmp_path: Path) -> None:
    found = made(tmp_path)
    # 16.70 on 15 oz.
    said = found("products", "headline", "trail")
    assert said == "trail: running cost 1.11 USD/oz mixed, packaging apart"
    assert found("products", "running_per_packed", "trail") is None
    # There is no figure that a weighing could make surer; of what was dried there is.
    assert found("products", "worth_measuring", "trail") is None
    assert found("products", "worth_measuring", "turnip-cubes")


def test_a_size_of_a_mix_that_is_not_packed_is_priced_from_the_mixes_and_the_container(
    tmp_path: Path,
) -> None:
    second = """  - {id: again, product: trail, date: 2025-09-25, out: 3 oz, labor: 6 min,
     from: [{product: turnip-cubes, weight: 4 oz}]}
"""
    asked = "asked: [{product: trail, container: tin, net: 6 oz, price: 14 USD}]\n"
    found = made(tmp_path, BASE + MIX + second + PACKS + asked)
    # Both mixes of it: 16.70 and 4 at 0.80 on 15 and 3 oz; full 26.70 and 4, and a tenth of 10.
    # A tin is 2.
    names = ("mixes_out", "running_mixed", "full_mixed", "only_mixed")
    assert found.of("products", "trail", *names) == near([18, 19.9 / 18, 31.7 / 18, True])
    row = found.of("prices", "trail/tin/6", "packed", "running_each", "full_each")
    assert row == near([0, 6 * 19.9 / 18 + 2, 6 * 31.7 / 18 + 2])
    floor, of_floor = found.of("prices", "trail/tin/6", "price_floor", "asked_to_floor")
    assert floor == near((6 * 31.7 / 18 + 2) / 0.9) and of_floor == near(14 / floor)
    # What was packed stands at the mix that is in it.
    assert found("prices", "running_each", "trail/tin/2.5") == near(2.5 * 16.7 / 15 + 2)
    # What was dried is priced from its own bulk, though some of it was mixed anew.
    again = MIX.replace("product: dust", "product: beet-cubes")
    asked = "asked: [{product: beet-cubes, container: tin, net: 6 oz, price: 14 USD}]\n"
    found = made(tmp_path, BASE + again + PACKS + asked)
    assert found.of("products", "beet-cubes", "running_mixed", "only_mixed") == near([3 / 4, False])
    assert found("prices", "running_each", "beet-cubes/tin/6") == near(6 * 0.6 + 2)


def test_what_mixes_saved(tmp_path: Path) -> None:
    found = made(tmp_path)
    each = 2.5 * 16.7 / 15 + 2
    assert found("season", "saving_taken") == near(2.5 * 1.5 - each)
    assert found("season", "saving") == near(3 * (2.5 * 1.5 - each))


MARKET = """
markets:
  - {id: green, date: 2025-09-25, channel: stall, fee: 7 USD, labor: 2 h, took: {M: 4, P: 2},
     back: {M: 1, P: 2}, samples: {M: 1}, prices: {M: 12 USD}, takings: {cash: 23 USD}}
"""


def test_what_it_brought_at_a_market(tmp_path: Path) -> None:
    """Two sold at 12 less a tenth, one tasted; two left on the shelf, at half of 3 an ounce."""
    found = made(tmp_path, BASE + MIX + PACKS + OFFERS + MARKET)
    assert found.of("packs", "M", "taken", "on_hand") == [3, 2]
    assert found("mixes", "brought", "trail") == near(21.6 + 2 * 2.5 * 3 / 2)
    assert found("mixes", "earned", "trail") == near(21.6 + 7.5 - 16.7)
    each = 2.5 * 16.7 / 15 + 2
    assert found("markets", "running_out", "green") == near(3 * each)
    assert found("markets", "left", "green") == near(23 - 2.3 - 7 - 3 * each)
    # The trail mix is of no run: what it was sold for is no product's worth, but the season's.
    names = ("sold_weight", "kept_weight")
    assert found.of("products", "trail", *names) == near([0, 0])
    assert found("season", "revenue") == near(24)
    names = ("taken", "gone_at_markets", "opened", "missing", "on_hand")
    assert found.of("recall", "t/M", *names) == [3, 3, 0, 0, 2]
    assert found.of("recall", "t/P", *names) == [0, 0, 2, 0, 2]
    # Two of four tins were opened five days before: that many were there to be taken along.
    assert found("market_packs", "there", "green/P") == 2


def test_a_market_finds_what_was_not_opened_yet(tmp_path: Path) -> None:
    """On the day before the mix all four were there, on its own morning too, then two."""
    for day, there in (("2025-09-19", 4), ("2025-09-20", 4), ("2025-09-21", 2)):
        market = MARKET.replace("2025-09-25", day)
        found = made(tmp_path, BASE + MIX + PACKS + market)
        assert found("market_packs", "there", "green/P") == there
    counts = (
        "counts: [{date: 2025-09-25, pack: M, counted: 2}, {date: 2025-09-25, pack: P, counted: 1}]"
    )
    found = made(tmp_path, BASE + MIX + PACKS + MARKET + counts)
    assert found.numbers.cells["counts"]["missing"] == near([0, 1])


def test_a_count_of_the_shelf_knows_what_was_opened(tmp_path: Path) -> None:
    counts = """
counts:
  - {date: 2025-09-19, pack: P, counted: 4}
  - {date: 2025-09-20, pack: P, counted: 1}
  - {date: 2025-09-09, product: beet-cubes, weight: 20 oz}
  - {date: 2025-09-10, product: beet-cubes, weight: 14 oz}
"""
    found = made(tmp_path, BASE + MIX + PACKS + counts)
    missing = [found("counts", "missing", f"count-{n}") for n in (1, 2)]
    assert missing == near([0, 1]) and found("packs", "on_hand", "P") == near(1)
    bulk = [found("counts", "missing_weight", f"count-{n}") for n in (3, 4)]
    assert bulk == near([0, 1])


def test_a_repack_and_a_second_pack_of_two_mixes(tmp_path: Path) -> None:
    text = (
        BASE
        + """
mixes:
  - {id: anew, product: turnip-cubes, from: [{pack: P, count: 3}]}
  - {id: more, product: turnip-cubes, from: [{product: turnip-cubes, weight: 4 oz}], out: 2 oz}
packs:
  - {id: P, product: turnip-cubes, container: tin, count: 4, net: 2 oz, from: [r]}
  - {id: Q, product: turnip-cubes, container: tin, count: 4, net: 2 oz, from: [anew, more]}
"""
    )
    found = made(tmp_path, text)
    # (3 tins of 3.60 + 4 oz at 0.80) over 6 + 2 oz; the product's average is what it was.
    assert found("packs", "running_each", "Q") == near(2 * (10.8 + 3.2) / 8 + 2)
    assert found("products", "running_bulk", "turnip-cubes") == near(0.8)
    assert found.of("mixes", "anew", "packed", "left") == near([6, 0])
    assert found.of("mixes", "more", "packed", "left") == near([2, 0])
    assert found("products", "unpacked", "turnip-cubes") == near(20 - 8 - 4)


# --- how dry, how long ---------------------------------------------------------------------------


def dryness(folder: Path, **changed: str) -> list[object]:
    """What is said of the trail mix and its packs, with parts of the text in place of others."""
    text = BASE + MIX + PACKS
    for old, new in changed.items():
        before, after = new.split(" => ")
        assert text.count(before) == 1, old
        text = text.replace(before, after)
    folder.mkdir()
    found = made(folder, text)
    return [found("mixes", "dryness", "trail"), found("packs", "dryness", "M")]


def test_it_is_as_dry_as_its_worst_part(tmp_path: Path) -> None:
    beets = "dry: 20 oz, dryness: {water_activity: 0.3}}]}\nmixes".replace("mixes", "\nmixes")
    cases = {
        "as it is": ({}, "dry"),
        "seeds without a reading": (
            {"a": "best_by: 2026-01-31,\n              dryness: {water_activity: 0.4} => "
                  "best_by: 2026-01-31"},
            "not shown",
        ),
        "the same, but it was read itself": (
            {"a": "best_by: 2026-01-31,\n              dryness: {water_activity: 0.4} => "
                  "best_by: 2026-01-31", "b": "    out: 15 oz => "
                  "    dryness: {water_activity: 0.35}\n    out: 15 oz"},
            "dry",
        ),
        "moist seeds, whatever it says itself": (
            {"a": "water_activity: 0.4 => water_activity: 0.7", "b": "    out: 15 oz => "
                  "    dryness: {water_activity: 0.35}\n    out: 15 oz"},
            "doubtful",
        ),
        "read as moist": ({"b": "    out: 15 oz => "
                                "    dryness: {moisture_meter: 20 %}\n    out: 15 oz"}, "doubtful"),
        "a moist load behind the powder": (
            {"a": f"{beets} => {beets.replace('0.3', '0.8')}"}, "doubtful",
        ),
    }  # fmt: skip
    told = {
        what: dryness(tmp_path / str(n), **changes)
        for n, (what, (changes, _)) in enumerate(cases.items())
    }
    assert told == {what: [verdict, verdict] for what, (_, verdict) in cases.items()}


def test_a_load_that_came_out_later_says_nothing_of_it(tmp_path: Path) -> None:
    later = (
        BASE
        + """\
  - {id: late, started: 2025-09-21, duration: 20 h,
     loads: [{lot: b, wet: 1 lb, dry: 5 oz, dryness: {water_activity: 0.8}}]}
"""
    )
    found = made(tmp_path, later + MIX + PACKS)
    assert found("mixes", "dryness", "dust") == "dry"
    steps = zip(found.numbers.cells["trace"]["pack"], found.numbers.cells["trace"]["load"],
                strict=True)  # fmt: skip
    assert {load for pack, load in steps if pack == "M"} == {"r/t", "s/b", None}


def test_it_keeps_as_long_as_what_keeps_shortest(tmp_path: Path) -> None:
    # Neither food of these tests says how long it keeps: one part is not known, and so is the mix.
    assert made(tmp_path)("mixes", "best_by", "trail") is None
    for name, months in (("turnip-cubes", 12), ("beet-cubes", 3)):
        path = tmp_path / "recipes" / f"{name}.yaml"
        path.write_text(path.read_text() + f"best_by: {months} month\n")
    done = read(tmp_path)
    assert done.numbers is not None
    found = Figures(done.numbers)
    day = {part: found("mix_parts", "best_by", part) for part in ("part-1", "part-2", "part-3")}
    # Beets from the day they were mixed, opened packs from the day they were filled.
    assert day["part-1"] == near(45910 + 365 / 4)
    assert day["part-2"] == near(45920 + 365) and day["part-3"] == near(45908 + 365)
    assert found("mixes", "best_by", "trail") == found("packs", "best_by", "M") == day["part-1"]
    assert found("packs", "best_by_basis", "M") == "the earliest of its parts"


def test_an_opened_pack_no_longer_keeps_as_its_container_says(tmp_path: Path) -> None:
    text = BASE + MIX + PACKS.replace("count: 4, net: 2 oz,", "count: 4, net: 2 oz,\n"
                                      "     carried: {running: 1 USD, full: 2 USD, "
                                      "best_by: 2025-12-31, from: last year},")  # fmt: skip
    found = made(tmp_path, text)
    assert found("mix_parts", "best_by", "part-3") == 46022
    assert found("mix_parts", "running_cost", "part-3") == near(2)
    assert found("mix_parts", "carried_from", "part-3") == "last year"
    sources = found.numbers.cells["trace"]["source"]
    assert "last year" in sources


# --- over made-up seasons ------------------------------------------------------------------------


def mixed_seasons() -> list[tuple[Season, Any]]:
    found = (*sample_seasons(60, 91), *sample_seasons(60, 91, "medium"))
    return [(each, numbers_of(each)) for each in found if each.table("mixes")]


@pytest.mark.slow
def test_mixes_conserve_weight_and_money_and_move_no_unit_cost() -> None:
    tried = money = full = deep = at_markets = 0
    for made_up, numbers in mixed_seasons():
        without = made_up.copied()
        mixes = {row.key for row in made_up.table("mixes")}
        packs = {row.key for row in made_up.table("packs") if mixes & {*row.record.get("from", ())}}
        for content in without.files.values():
            content.pop("mixes", None)
            for table, name in (("packs", "id"), ("uses", "pack"), ("counts", "pack")):
                if isinstance(content.get(table), list):
                    content[table] = [r for r in content[table] if r.get(name) not in packs]
            for day in content.get("markets", ()):
                for said in ("took", "back", "samples", "prices"):
                    kept = {k: v for k, v in day.pop(said, {}).items() if k not in packs}
                    day |= {said: kept} if kept else {}
        plainly = numbers_of(without)
        before = {row["key"]: row for row in rows(plainly, "products")}
        for row in rows(numbers, "products"):
            for name in ("running_bulk", "full_bulk", "dried", "drying_ratio"):
                assert row["key"] not in before or row[name] == before[row["key"]][name]
        plain = {row["key"]: row for row in rows(plainly, "packs")}
        for row in rows(numbers, "packs"):
            for name in ("running_each", "full_each"):
                assert row["key"] not in plain or row[name] == plain[row["key"]][name]
        tried += 1
        at_markets += any(row["pack"] in packs for row in rows(numbers, "market_packs"))
        for mix in rows(numbers, "mixes"):
            deep += bool(mix["parts_mixed"])
            if None not in (mix["weight_in"], mix["left"]):
                gone = mix["loss"] + mix["packed"] + mix["passed_on"] + mix["left"]
                assert same(mix["weight_in"], gone, least=1e-9)
        for row in rows(numbers, "recall"):
            where = [row[name] for name in ("taken", "opened", "missing", "on_hand")]
            if None not in where:
                assert same(row["filled"], sum(where), least=1e-9)
                assert row["gone_at_markets"] <= row["taken"]
        products, parts = list(rows(numbers, "products")), list(rows(numbers, "mix_parts"))
        made_of = [mix["running_cost"] for mix in rows(numbers, "mixes")]
        costs = [row["running_cost"] for row in products]
        given = [part["running_cost"] for part in parts]
        bought = [row["price"] for row in rows(numbers, "bought_parts")]
        dried = [row["running_made"] for row in products]
        if None in (*costs, *made_of, *given, *bought, *dried):
            continue
        money += 1
        assert same(sum(made_of), sum(given) + sum(bought), least=1e-9)
        assert same(sum(costs), sum(dried) + sum(bought), least=1e-9)
        time = [mix["labor_cost"] for mix in rows(numbers, "mixes")]
        in_full = [(row["full_cost"], row["full_made"]) for row in products]
        if None not in (*time, *(cost for both in in_full for cost in both)):
            full += 1
            spent = sum(made for _, made in in_full) + sum(bought) + sum(time)
            assert same(sum(cost for cost, _ in in_full), spent, least=1e-9)
    assert tried > 30 and money > 8 and full > 5 and deep > 8 and at_markets > 8


# --- what cannot be ------------------------------------------------------------------------------


def refused(folder: Path, text: str) -> str:
    (folder / "recipes").mkdir(exist_ok=True)
    for name in ("dust", "trail", *RECIPES):
        (folder / "recipes" / f"{name}.yaml").write_text(dedent(RECIPES.get(name, f"name: {name}")))
    (folder / "season.yaml").write_text(HEAD + text)
    return "\n".join(
        f"{each.place.file}:{each.place.line}: {each.what}; {each.expected}"
        for each in read(folder).problems
    )


def test_a_chain_of_three_and_a_circle_are_refused_by_name(tmp_path: Path) -> None:
    third = """
  - {id: soup, product: trail, from: [{mix: trail, weight: 2 oz}]}
"""
    told = refused(tmp_path, BASE + MIX.rstrip() + third + PACKS)
    assert "the mix trail is made of mixes: soup ← trail ← dust" in told
    assert "mixes at most two deep" in told and "season.yaml:" in told
    told = refused(tmp_path, BASE + MIX.replace("{mix: dust,", "{mix: trail,") + PACKS)
    assert "the mix trail goes into itself: trail ← trail" in told
    circle = MIX.replace("[{product: beet-cubes, weight: 5 oz}]", "[{pack: M}]")
    assert "goes into itself: dust ← trail ← dust" in refused(tmp_path, BASE + circle + PACKS)
