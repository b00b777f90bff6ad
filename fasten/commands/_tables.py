"""The tables to answer from: the shipped ones with the user's own laid over."""

import os
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables

OVERLAY_FOLDER = "FASTEN_TABLES"


def overlay_folder() -> "str | None":
    """Where the user's own tables are kept, whether or not there are any; None where nobody is at home."""
    if named := os.environ.get(OVERLAY_FOLDER):
        return named
    if sys.platform == "linux":
        # The same folder as below, without an import that costs a tenth of a look-up.
        config = os.environ.get("XDG_CONFIG_HOME", "").strip() or os.path.expanduser("~/.config")
        return None if config.startswith("~") else os.path.join(config, "fasten", "tables")
    from platformdirs import user_config_path

    try:
        return str(user_config_path("fasten") / "tables")
    except RuntimeError:
        return None


def open_tables(*, strict: bool = False, proves: bool = True) -> "Tables":
    """The tables; a file of the user's own that cannot be used is reported on stderr and left out.

    What `proves` nothing needs no test pieces of the user's own.
    """
    from fasten.catalog.tables import Tables, opened, shipped_folder
    from fasten.commands._streams import say

    own = overlay_folder()
    tables = Tables(shipped_folder(), own, strict=True) if strict else opened(own)
    for problem in tables.problems:
        say(f"your own table is left out: {problem}")
    return _with_tests(tables) if proves else tables


def _with_tests(tables: "Tables") -> "Tables":
    """The tables with the user's own test pieces; a file of them that cannot be used is reported and left out."""
    from fasten.commands._folders import tests_path

    path = tests_path()
    if path is None or not os.path.lexists(path):
        return tables
    from fasten.commands._streams import say
    from fasten.errors import FastenError
    from fasten.job.store.tests_toml import read_tests

    try:
        return tables.with_tests(read_tests(path))
    except FastenError as error:
        say(f"your own test pieces are left out: {error}")
        return tables
