"""Which tests need an engine or a browser: those that can come to say that one is missing.

Nobody marks them by hand. A test is followed through the names that its code uses, its fixtures
and its parameters, as far as ``need.missing``; what gets there is marked ``engine``.
"""

from __future__ import annotations

import inspect
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import CodeType, FunctionType, ModuleType

import pytest

from engines.need import missing

TESTS = str(Path(__file__).resolve().parent.parent)

_known: dict[CodeType, bool] = {}


def needs_engine(item: pytest.Function) -> bool:
    """Whether a test can come to ``missing``."""
    begun: list[object] = [item.function]
    if hasattr(item, "callspec"):
        begun += item.callspec.params.values()
    for fixtures in item._fixtureinfo.name2fixturedefs.values():
        begun += [each.func for each in fixtures]
    return any(map(_reaches, begun))


def _reaches(begun: object) -> bool:
    if isinstance(begun, Mapping):
        return any(map(_reaches, begun.values()))
    if isinstance(begun, list | tuple):
        return any(map(_reaches, begun))
    if isinstance(begun, ModuleType | type):
        home = getattr(begun, "__module__", begun.__name__)
        inside = [each for each in vars(begun).values() if getattr(each, "__module__", "") == home]
        return any(map(_reaches, inside))
    if begun is pytest.mark:  # it answers to every name, so to that of what it would wrap
        return False
    function = inspect.unwrap(begun) if callable(begun) else getattr(begun, "fget", None)
    if function is missing:
        return True
    if not isinstance(function, FunctionType) or not function.__code__.co_filename.startswith(
        TESTS
    ):
        return False
    code = function.__code__
    if code not in _known:
        _known[code] = False  # while it is being followed: a function may come to itself
        _known[code] = any(map(_reaches, _used(code, function)))
    return _known[code]


def _used(code: CodeType, function: FunctionType) -> Iterator[object]:
    """What a function's names stand for; of a module, what is used of it."""
    for cell in function.__closure__ or ():
        yield cell.cell_contents
    for name in code.co_names:
        value = function.__globals__.get(name)
        if isinstance(value, ModuleType):
            of_it = [vars(value)[each] for each in code.co_names if each in vars(value)]
            yield of_it or value
        else:
            yield value
    for inner in code.co_consts:
        if isinstance(inner, CodeType):
            yield from _used(inner, function)
