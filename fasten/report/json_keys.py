"""Every key of the JSON that the commands print, with the unit of its figure and what stands there.

What a key is stands once in `json_keys.txt`, whichever command prints it: one key means one thing. The fields of a
question are those of `pick`. A key whose name ends in a unit holds a figure in that unit; what is absent is null.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from fasten.catalog.load import COLUMN_OF_UNIT
from fasten.question.fields import FIELDS
from fasten.record import record
from fasten.report.wrap import wrapped

FORMAT = 1
OF = {
    "pick": "format mount answers refusals sources ground remedies on_holes",
    "wire": "format fits proven current conductor fuse lead path instead enough pieces ends sections holes parts tools "
            "steps cautions checks open confirms lapsed sources",
    "runs": "format runs sections holes to_settle proposals",
    "hardware": "format title vehicle shelf currency mounts parts bits tools consumables unfit cost unpriced remarks "
                "apart runs ways",
    "ready": "format ready title shelf mounts missing unproven unfit remarks apart runs ways assumed "
             "as_built",
    "work": "format title vehicle note first cautions bits tools consumables mounts last first_ticked last_ticked "
            "measuring",
    "gauge": "format title vehicle gauges mounts settled",
    "instead": "format mount answer wanted behind_available_mm substitutes not_tried reason",
    "fewest": "format before after before_cost cost proven changes unfit runs",
    "built": "format mount built visits verdict wear tests",
    "repair": "format mount damage at asks means hole_left_mm danger out routes refused never",
    "start": "format title job mounts runs installs",
    "set": "format title vehicle note name said preset answer reason ask twins unconfirmed",
    "copy": "format done name again notes",
    "look": "format query answers found notes sources",
    "tables": "format checked tables problems",
    "shelf": "format title bits tools consumables parts questions added",
    "demo": "format title vehicle job shelf mounts runs",
}  # fmt: skip
"""What stands at the top of the document of a command; those of pair, rename, move, remove, keep, pack and undo are
that of copy."""
KEPT = {
    "existing_hole_mm": "hole_there_mm", "existing_holes_mm": "holes_there_mm", "existing_thread": "thread_there",
}  # fmt: skip
"""What attributes of a mount point are called in JSON that had another name when the format was made: keys stay."""


@record
class Key:
    """A key, the unit of its figure where it has one, and what stands there."""

    key: str
    unit: str
    text: str


def keys() -> tuple[Key, ...]:
    """Every key, in the order of the alphabet."""
    lines = Path(__file__).with_suffix(".txt").read_text(encoding="utf-8").splitlines()
    said = {key: text for key, _, text in (line.partition("|") for line in lines)}
    said |= {key: text for key, text in _of_questions() if key not in said}
    return tuple(Key(key, unit_of(key), said[key]) for key in sorted(said))


def unit_of(key: str) -> str:
    """The unit that a key ends in; empty where it holds no figure in one."""
    return next((unit for suffix, unit in COLUMN_OF_UNIT if key.endswith(f"_{suffix}")), "")


def keys_text(width: int) -> str:
    """What each document has at its top, then every key, in lines."""
    lines = [*wrapped(_LEAD, width), "", "DOCUMENTS"]
    for command, top in OF.items():
        lines += wrapped(f"{command}: {', '.join(top.split())}", width, rest="  ")
    lines += ["", "KEYS"]
    for one in keys():
        unit = f" [{one.unit}]" if one.unit else ""
        lines += wrapped(f"{one.key}{unit}: {one.text}", width, rest="  ")
    return "\n".join(lines) + "\n"


def keys_json() -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    documents = [{"command": command, "top": top.split()} for command, top in OF.items()]
    every = [{"key": one.key, "unit": one.unit, "text": one.text} for one in keys()]
    return {"format": FORMAT, "documents": documents, "keys": every}


_LEAD = (
    "What --json prints. A key whose name ends in a unit holds a figure in that unit, to six digits; what is absent is "
    "null. Keys are only ever added to a format. Each field of a mount point is an object of its value and its origin: "
    "given, preset or assumed, and null where there is none. What is wrong is an object on stderr: format, error "
    "(what, where, fix and exit, the exit code) and others, each the same."
)


def _of_questions() -> Iterator[tuple[str, str]]:
    """The fields of a mount point by their attributes, and by the names that files and options know them by."""
    for field in FIELDS:
        for attribute in (KEPT.get(name, name) for name in field.fills):
            yield attribute, field.help
            yield f"item_{attribute}", f"{field.help}, without what the item carries"
        yield field.name, field.help
    yield "thickness_min_mm", "least thickness of the substrate; both are equal unless a named place gives it"
    yield "thickness_max_mm", "most thickness of the substrate"
