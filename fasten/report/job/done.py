"""What a command changed of a job, in a sentence and as plain data."""

from typing import Any

from fasten.question.fields import field_named
from fasten.record import record
from fasten.report.plain import to_plain
from fasten.report.wrap import wrapped

FORMAT = 1


@record
class Done:
    """What was done in a sentence, and to what of the job by its name.

    `again` are the fields that are to be measured again, `notes` what else must be known of it.
    """

    text: str
    name: str
    again: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def done_text(done: Done, width: int) -> str:
    """What was done, then what is to be measured again and what else must be known, in lines."""
    lines = [*wrapped(done.text, width)]
    for name in done.again:
        lines += wrapped(f"measure again: {field_named(name).help}", width, first="- ", rest="  ")
    for note in done.notes:
        lines += wrapped(note, width, first="! ", rest="  ")
    return "\n".join(lines) + "\n"


def done_json(done: Done) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    return {"format": FORMAT, "done": done.text, "name": done.name, "again": to_plain(done.again),
            "notes": to_plain(done.notes)}  # fmt: skip
