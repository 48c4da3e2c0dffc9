"""Figures by which someone could come to harm, and what must stand wherever they are shown."""

from __future__ import annotations

from collections.abc import Iterable

from reportgen.algebra.book import Key

DRYNESS = "Dryness is judged for plausibility, not safety: weight alone cannot prove it."
OXYGEN = "Moist food sealed without oxygen can carry botulism: seal only what is dry throughout."
KEEPING = "A best-by day holds only for food that is dry throughout and stays sealed."

_BESIDE = {
    DRYNESS: {
        "loads": "moisture_left moisture_left_low moisture_left_high by_weight evidence "
        "dryness_verdict dryness_reason dryness_open dryness_cause dryness_pending dryness_limit",
        "packs": "dryness dryness_known doubtful_origin dryness_of_loads dryness_of_mixes "
        "dryness_unmixed first_dryness",
        "prices": "doubtful",
        "plan": "doubtful",
        "draws": "doubtful_loads pack_dryness",
        "mixes": "dryness first_dryness bought_doubtful",
        "mix_parts": "dryness own_dryness mixed_dryness bulk_dryness doubtful_loads",
        "bought_parts": "dryness",
        **dict.fromkeys(
            ("absorber_needs", "uses", "market_packs", "counts", "trace", "recall", "eat_first"),
            "pack_dryness",
        ),
    },
    OXYGEN: {
        "packs": "void oxygen oxygen_here absorber_share airless",
        "absorber_needs": "count_needed",
    },
    KEEPING: {
        "packs": "best_by best_by_basis eat_turn keeps_by_maker keeps days_left best_by_opened "
        "best_by_mixed mixes_best_by mix_days first_days",
        "mixes": "best_by days_left first_days earliest_known bought_undated",
        "mix_parts": "best_by own_best_by days_left own_days mixed_days",
        "bought_parts": "days_left",
        "draws": "first_days mix_days",
        "eat_first": "best_by best_by_basis days_left",
        "prices": "past_best_by",
        "season": "shelf_without_day",
    },
}
CAUTIONS: dict[Key, str] = {
    (table, name): caution
    for caution, tables in _BESIDE.items()
    for table, names in tables.items()
    for name in names.split()
}
"""Table and quantity → what is said beside it."""


def beside(shown: Iterable[Key]) -> list[str]:
    """What must be said where these quantities are shown."""
    said = {CAUTIONS[key] for key in shown if key in CAUTIONS}
    return [each for each in _BESIDE if each in said]
