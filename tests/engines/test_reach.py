"""Which tests are said to need an engine."""

from __future__ import annotations

from typing import Any

import pytest

from engines.need import missing
from engines.reach import _reaches


def test_who_comes_to_say_that_one_is_missing_is_found_behind_others() -> None:
    def asks() -> None:
        missing("an engine")

    def calls() -> None:
        asks()

    assert _reaches(asks) and _reaches(calls) and _reaches({"made": [calls]})


def test_a_name_that_pytest_has_too_leads_nowhere() -> None:
    def looks(found: Any) -> bool:
        return bool(found.mark(1) == pytest.approx(1))

    assert not _reaches(looks)
