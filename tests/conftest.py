"""What several kinds of test share: a five-line profile, a way to build from text, and how long the random tests run.

``BELLOWSCUT_LONG=1 pytest tests/invariants`` tries forty times as many instruments, afresh each time.
"""

from __future__ import annotations

import contextlib
import ctypes
import functools
import gc
import os
import sys
from collections.abc import Callable, Iterator

import pytest
from hypothesis import HealthCheck, settings

from bellowscut.bellows import Bellows, build
from bellowscut.profile import loads

SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large]

settings.register_profile("quick", max_examples=25, derandomize=True, deadline=None, database=None, suppress_health_check=SLOW)
settings.register_profile("long", max_examples=1000, deadline=None, database=None, suppress_health_check=SLOW)
settings.load_profile("long" if os.environ.get("BELLOWSCUT_LONG") else "quick")

FIVE_LINES = """\
format = 1
[section]
shape = "regular"
sides = 6
end_size = "6 1/4 in"
[bellows]
folds = 6
fold_depth = "25 mm"
"""


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "source(key): the entry of bellowscut.sources that a check takes its figures from")


def pytest_collection_finish(session: pytest.Session) -> None:  # noqa: ARG001 - its name makes it a hook
    # What stands now stands to the end: looking through it again after each module would take longer than many of them.
    gc.collect()
    gc.freeze()


@pytest.fixture(scope="module", autouse=True)
def _nothing_kept(request: pytest.FixtureRequest) -> Iterator[None]:
    """What one module has cached, of its own or in the package, does not pile up on what the next one needs."""
    yield
    for module in (request.module, *(one for name, one in sys.modules.items() if name.startswith("bellowscut."))):
        for value in vars(module).values():
            if isinstance(value, functools._lru_cache_wrapper):
                value.cache_clear()
    gc.collect()
    if sys.platform == "linux":
        # Python gives memory back to the C library, which keeps it.
        with contextlib.suppress(OSError, AttributeError):
            ctypes.CDLL(None).malloc_trim(0)


@pytest.fixture(scope="session")
def six_fold() -> Bellows:
    """The five-line profile: six sides, six folds of 25 mm, every default."""
    return build(loads(FIVE_LINES))


@pytest.fixture(scope="session")
def made() -> Callable[..., Bellows]:
    """Build the five-line profile with keys changed: ``made(bellows={"relief": 4}, gusset={"lap": 6})``.

    A value None takes a key out, and an empty table is one with all its defaults.
    """

    def make(**tables: dict[str, object]) -> Bellows:
        asked: dict[str, dict[str, object]] = {
            "section": {"shape": "regular", "sides": 6, "end_size": "6 1/4 in"},
            "bellows": {"folds": 6, "fold_depth": 25},
        }
        for name, keys in tables.items():
            if name == "section" and "shape" in keys:
                asked[name] = {}
            asked.setdefault(name, {}).update(keys)
        top = asked.pop("top", {})
        lines = ["format = 1", *_lines(top)]
        for name, keys in asked.items():
            lines += [f"[{name}]", *_lines(keys)]
        return build(loads("\n".join(lines)))

    return make


def _lines(keys: dict[str, object]) -> list[str]:
    return [f"{name} = {_toml(value)}" for name, value in keys.items() if value is not None]


def _toml(value: object) -> str:
    if isinstance(value, str):
        return f'"{value}"'
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list | tuple):
        return f"[{', '.join(_toml(one) for one in value)}]"
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{name} = {_toml(one)}' for name, one in value.items())} }}"
    return repr(value)
