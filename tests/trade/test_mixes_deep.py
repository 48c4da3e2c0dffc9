"""Packs of a mix that went into another, by pencil: what they cost, how dry and how long.

Also what was left out where mixes are written: a count, a time.
"""

from __future__ import annotations

from pathlib import Path

from published.figures import Figures as Bare

from reportgen.program import read
from trade.small import HEAD, Figures, season
from trade.test_mixes import BASE, DUST, MIX, OFFERS, PACKS, USES, made, near

DEEP = (
    DUST
    + """
  - id: trail
    product: trail
    date: 2025-09-20
    from: [{pack: D, count: 2}, {product: turnip-cubes, weight: 4 oz}]
    bought: [{item: salt, weight: 1 oz, price: 0.50 USD, best_by: 2025-11-30,
              dryness: {water_activity: 0.2}}]
packs:
  - {id: D, product: dust, date: 2025-09-12, container: tin, count: 3, net: 1 oz, from: [dust]}
"""
)


def test_packs_of_a_mix_cost_their_share_of_it_and_their_packaging(tmp_path: Path) -> None:
    found = made(tmp_path, BASE + DEEP)
    # Beets 5 at 0.60 are 3 on 4 oz, and 2 of packaging; full 5 at 0.80 and 1 of time. Two of them,
    # turnips 4 at 0.80 (full 1.00) and salt.
    names = ("running_cost", "full_cost")
    assert found.of("mix_parts", "part-2", *names) == near([2 * 2.75, 2 * 3.25])
    assert found.of("mixes", "trail", *names) == near([5.5 + 3.2 + 0.5, 6.5 + 4 + 0.5])
    assert found.of("mixes", "trail", "weight_in", "weight_out") == near([7, 7])


def test_they_are_as_dry_as_the_mix_and_keep_as_long(tmp_path: Path) -> None:
    found = made(tmp_path, BASE + DEEP)
    assert found("mixes", "dryness", "trail") == found("mix_parts", "dryness", "part-2") == "dry"
    for name, months in (("turnip-cubes", 12), ("beet-cubes", 3)):
        path = tmp_path / "recipes" / f"{name}.yaml"
        path.write_text(path.read_text() + f"best_by: {months} month\n")
    done = read(tmp_path)
    assert done.numbers is not None
    found = Figures(done.numbers)
    # Beets from the day they became dust, 2025-09-10; the salt is the first to go.
    assert found("mix_parts", "best_by", "part-2") == near(45910 + 365 / 4)
    assert found("mixes", "best_by", "trail") == 45991
    late = DEEP.replace("2025-11-30", "2026-11-30")
    (tmp_path / "season.yaml").write_text(HEAD + BASE + late)
    done = read(tmp_path)
    assert done.numbers is not None
    assert Figures(done.numbers)("mixes", "best_by", "trail") == near(45910 + 365 / 4)


def test_a_part_not_shown_to_be_dry_makes_a_mix_not_shown(tmp_path: Path) -> None:
    """Bulk in the mix itself, and bulk in a mix of which packs went into it."""
    reading = ", dryness: {water_activity: 0.3}"
    turnips = BASE.replace(reading, "", 1)
    beets = "".join(BASE.rsplit(reading, 1))
    for text, part in ((turnips, "part-3"), (beets, "part-2")):
        found = made(tmp_path, text + DEEP)
        assert found("mix_parts", "dryness", part) == "not shown"
        assert found("mixes", "dryness", "trail") == "not shown"


def test_a_part_without_a_count_is_one_pack(tmp_path: Path) -> None:
    found = made(tmp_path, BASE + MIX.replace("{pack: P, count: 2}", "{pack: P}") + PACKS)
    names = ("weight_in", "running_cost", "full_cost")
    assert found.of("mix_parts", "part-3", *names) == near([2, 3.6, 5])
    assert found("bought_parts", "days_left", "bought-1") == 61, "from December 1 to January 31"
    assert found.of("packs", "P", "opened", "on_hand") == [1, 3]


def test_what_each_mixed_product_saved_is_its_own(tmp_path: Path) -> None:
    """Three packs of trail mix are kept at half of 3 an ounce, two of dust at half of 8."""
    packs = PACKS + (
        "  - {id: D, product: dust, date: 2025-09-12, container: tin, count: 2, net: 0.5 oz,"
        " from: [dust]}\n"
    )
    offers = OFFERS + "  - {id: o-2, product: dust, date: 2025-09-01, net: 1 oz, price: 8 USD}\n"
    found = made(tmp_path, BASE + MIX + packs + USES + offers)
    assert found("products", "mixed_instead", "trail") == near(3 * 2.5 * 1.5)
    assert found("products", "mixed_instead", "dust") == near(2 * 0.5 * 4)


def test_no_time_asks_for_no_rate() -> None:
    bought = [{"into": "mix", "weight": 2.0, "price": 3.0}]
    for time, full in ((None, 3.0), (0.0, 3.0), (1.0, None)):
        mix = {"key": "mix", "product": "food", "labor": time}
        found = Bare("lb", "oz", products=[{"key": "food"}], mixes=[mix], bought_parts=bought)
        assert found("mixes", "full_cost") == full, time


def test_a_price_asked_for_no_weight_yet_is_missed_in_no_list(tmp_path: Path) -> None:
    asked = {"product": "food", "container": "tin", "price": 9.0}
    table = {"products": [{"key": "food"}], "containers": [{"key": "tin"}]}
    assert Bare("lb", "oz", asking=[asked], **table)("asking", "not_listed") is False


def test_a_bare_season_has_none_of_it(tmp_path: Path) -> None:
    found = season(tmp_path, BASE)
    assert found("products", "running_mixed", "beet-cubes") is None
    assert found("products", "only_mixed", "beet-cubes") is False


def test_a_count_left_blank_in_a_row_is_one() -> None:
    """As in a row typed into a sheet: files are read with the count filled in."""
    pack = {"product": "food", "container": "tin", "net": 2.0, "carried_running": 3.0,
            "carried_full": 4.0}  # fmt: skip
    found = Bare(
        "lb", "oz", products=[{"key": "food"}], containers=[{"key": "tin"}],
        packs=[{"key": "P", "count": 5, **pack}], mixes=[{"key": "mix", "product": "food"}],
        mix_parts=[{"into": "mix", "pack": "P"}],
    )  # fmt: skip
    names = ("weight_in", "opened", "own_full", "full_cost")
    assert [found("mix_parts", name) for name in names] == [2, 1, 4, 4]
    assert found("packs", "opened") == 1
