"""A desk that is built once for a file of tests, each of which types into a copy of its own."""

from __future__ import annotations

from dataclasses import replace

import pytest

from edits.desk import Desk, desk


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    return desk(tmp_path_factory.mktemp("desk"))


@pytest.fixture
def at(plain: Desk) -> Desk:
    return replace(plain)
