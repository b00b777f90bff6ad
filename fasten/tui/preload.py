"""What the first answer needs, loaded while the screen already stands and takes keys."""

import gc
from contextlib import suppress

from fasten.catalog.tables import Tables
from fasten.question.fields import ITEM, ONTO, REMOVED

_LIKELY = {ITEM.name: "amplifier", ONTO.name: "steel 0.8 mm", REMOVED.name: "yearly"}


def ready(tables: Tables) -> None:
    """Load the modules and read the tables of a first answer; what is wrong with them is said by the answer itself."""
    with suppress(Exception):
        from fasten.report.answer.as_text import advice_text
        from fasten.tui.mounts.entry import consider

        good = consider(_LIKELY, tables).good
        if good is not None:
            advice_text(good.advice, 76)
    gc.freeze()  # what is there by now stays for good: the collector need not look at it again
    gc.enable()
