"""What every test stands on: a module stays with one worker, and nothing is kept that no later test asks for."""

import gc
import os
import sys
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
from built.few import few
from hypothesis import settings

from fasten.advice.advise import advise

_TESTS = Path(__file__).parent
_CODE = "from built.code import"  # what parses the whole package, and keeps it

# Where a test does not say how many examples it tries. No deadline: another program may have the machine.
settings.register_profile("set", max_examples=few(100), deadline=None)
settings.load_profile("set")


def pytest_configure(config: pytest.Config) -> None:
    """Keep what is compiled, for the many processes that are started, where the machine is set not to.

    What somebody keeps of their own on this machine, tables and test pieces, must not change an answer.
    """
    sys.dont_write_bytecode = False
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    if "FASTEN_DATA" not in os.environ:
        folder = tempfile.TemporaryDirectory(prefix="fasten-tests-")
        config.add_cleanup(folder.cleanup)
        os.environ["FASTEN_DATA"] = str(Path(folder.name, "data"))


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers() -> int:
    """Two workers a core: a test of the screen waits for its terminal half of its time. Fewer where one says so."""
    return int(os.environ.get("PYTEST_XDIST_AUTO_NUM_WORKERS") or 2 * (os.cpu_count() or 1))


@pytest.hookimpl(tryfirst=True)
def pytest_collection(session: pytest.Session) -> None:
    """Import a share of the modules before the others: each is compiled by one worker, not by all of them at once."""
    config = session.config
    worker = getattr(config, "workerinput", None)
    if worker is None or config.args_source is not config.ArgsSource.TESTPATHS:
        return
    paths = sorted(_TESTS.rglob("test_*.py"))
    for path in paths[int(worker["workerid"].removeprefix("gw")) :: worker["workercount"]]:
        with suppress(Exception, pytest.skip.Exception):  # what is wrong with it is said when it is collected
            import_module(".".join(path.relative_to(_TESTS).with_suffix("").parts))


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """A module with one worker: what its tests share is worked out once. Those that read the code share one as well."""
    from xdist.scheduler import LoadFileScheduling  # type: ignore[import-untyped]

    class ByModule(LoadFileScheduling):  # type: ignore[misc]
        def _split_scope(self, nodeid: str) -> str:
            return scope(super()._split_scope(nodeid))

    @cache  # it is asked for several times a test
    def scope(module: str) -> str:
        return _CODE if _reads_code(config.rootpath / module) else module

    return ByModule(config, log)


def _reads_code(module: Path) -> bool:
    return _CODE in module.read_text(encoding="utf-8")


def pytest_collection_finish() -> None:
    """Leave out of every later search for garbage what has been imported by now and stays, and search seldom.

    What the core makes is of frozen parts without circles and goes by itself; answers that are kept would be searched
    over and over, at a seventh of the whole cost.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(10_000, 20, 100)


@pytest.fixture(autouse=True, scope="module")
def _nothing_kept() -> Iterator[None]:
    """Let go of the answers of a module, and of the tables that some of them were made from."""
    yield
    advise.cache_clear()
