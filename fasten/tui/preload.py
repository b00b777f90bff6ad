"""What the first answer and the first save need, loaded while the screen already stands and takes keys."""

import gc
from contextlib import suppress

from fasten.catalog.tables import Tables
from fasten.question.fields import ITEM, ONTO, REMOVED

_LIKELY = {ITEM.name: "amplifier", ONTO.name: "steel 0.8 mm", REMOVED.name: "yearly"}


def ready(tables: Tables) -> None:
    """Load the modules and read the tables of a first answer, and what checks a job before it is saved.

    What is wrong with the tables is said by the answer itself.
    """
    with suppress(Exception):
        from fasten.report.answer.as_text import advice_text
        from fasten.tui.mounts.entry import consider

        good = consider(_LIKELY, tables).good
        if good is not None:
            advice_text(good.advice, 76)
    with suppress(Exception):  # what is wrong with a job is said as it is saved
        from fasten.job.store.job_toml import checked_job
        from fasten.job.words import Job

        checked_job(Job("", "", "", ()), "")
    gc.freeze()  # what is there by now stays for good: the collector need not look at it again
    gc.enable()
