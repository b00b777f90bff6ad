"""What test pieces bore, from their step: one line with kind and tool filled in, and what it makes of the figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fasten.after.measured import field_name
from fasten.after.own_tests import effect_text, read_first
from fasten.errors import FastenError
from fasten.report.safe import safe
from fasten.report.wrap import wrapped
from fasten.text.names import capital
from fasten.tui.state.blank import Blank

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fasten.catalog.tables import Tables
    from fasten.job.after.own_tests import Readings
    from fasten.job.choices import Choice

SAME, SCALE = "same wrench", "luggage scale"
NOTE = "Type what each one bore, one after the other; put the tool right where it was another."
ALL = "Every mount point with the same hardware, sheet and hole goes by it from now on."


def kinds_of(choice: Choice, tables: Tables) -> tuple[str, ...]:
    """What is read on test pieces of a mount point's joint; nothing where nothing can be."""
    if choice.answer is None or choice.point is None:
        return ()
    return read_first(choice.answer.proposal.joint, choice.point, tables)


def blanks_of(kinds: tuple[str, ...], first: str) -> tuple[Blank, ...]:
    """A line for each kind, with its tool; the first goes on with what was typed at the step."""
    tool = {name: SCALE if name == "pull_out" else SAME for name in kinds}
    return tuple(
        Blank(name, capital(field_name(name)), f"{tool[name]}: {first if at == 0 else ''}")
        for at, name in enumerate(kinds)
    )


def fields_of(filled: Mapping[str, str]) -> dict[str, str]:
    """The fields of a visit that the lines say, each tool and readings; FastenError where nothing was read."""
    found = {"kind": "checked"}
    for name, text in filled.items():
        tool, colon, readings = text.rpartition(":")
        if readings.strip():
            found |= {name: readings.strip(), **({"tool": tool.strip()} if colon else {})}
    if len(found) == 1:
        raise FastenError("nothing was read", fix="type what each test piece bore: 2.9 3.1 3.4")
    return found


def effects_text(read: Readings, kept: str, width: int) -> str:
    """The old figures and the new, what one more reading would bring, and where it is kept, in lines."""
    said = [f"{capital(effect_text(one))}." for one in read.effects]
    said += [f"Kept in {kept}. {ALL}"] if kept else []
    return "\n\n".join("\n".join(wrapped(safe(text), width)) for text in said)
