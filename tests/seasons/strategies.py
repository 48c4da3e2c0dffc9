"""The same makers for hypothesis: what they draw is under its control, so failures shrink."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import strategies as st

from seasons.edits import Edit, edit
from seasons.form import PRODUCTS, Season
from seasons.make import make


def seasons(size: str = "small", products: Sequence[str] = PRODUCTS) -> st.SearchStrategy[Season]:
    """Whole seasons."""
    return st.randoms(use_true_random=False).map(lambda rng: make(rng, size, products))


@st.composite
def edited_seasons(
    draw: st.DrawFn, size: str = "small", products: Sequence[str] = PRODUCTS
) -> tuple[Season, Edit]:
    """A season, and an edit of it."""
    rng = draw(st.randoms(use_true_random=False))
    season = make(rng, size, products)
    return season, edit(rng, season)
