"""The first answer to every item on every material, at two thicknesses and for every removal, as a table to be read.

The table is read line by line as a practitioner reads it; where one would shake his head, a rule is wrong and is mended
there. What is committed is what was read: a line that changes is read again. FASTEN_REWRITE=1 writes the table anew.
"""

import os
from collections.abc import Iterator
from pathlib import Path

from fasten.advisor import advise
from fasten.catalog.parts import Item, Material
from fasten.catalog.tables import builtin
from fasten.model import Answer, Removal
from fasten.question import read_question
from fasten.ranking import size
from fasten.resolve import resolve

TABLE = Path(__file__).with_name("first-answers.md")
THICK = {
    "sheet": ("0.8 mm", "3 mm"), "board": ("12 mm", "18 mm"), "wood": ("12 mm", "20 mm"),
    "plastic": ("3 mm", "8 mm"), "laminate": ("3 mm", "6 mm"),
}  # fmt: skip
# What anybody at the car can measure; everything else as the item's preset has it, reached from one side.
MEASURED = {"edge": "60mm", "behind": "60mm", "panel": "floor"}
NOTHING = "-"
HEAD = """# First answers

Every item preset on every material, at two thicknesses, for every removal: the method that ranks first and its size.
60 mm to any edge and behind, on a floor, reached from one side, everything else as the item's preset has it. `?` is an
answer that is not proven; `-` is nothing that fits.

"""


def first(answer: Answer) -> str:
    return f"{answer.method} {size(answer.proposal.joint)}{'' if answer.proposal.proven else ' ?'}"


def cell(item: str, onto: str, removed: str) -> str:
    said = {"item": item, "onto": onto, "removed": removed, **MEASURED}
    advice = advise(resolve(read_question(said, builtin()), builtin()), builtin())
    return first(advice.answers[0]) if advice.answers else NOTHING


def rows() -> Iterator[str]:
    tables, removals = builtin(), [removal.value for removal in Removal]
    yield "| item | onto | " + " | ".join(removals) + " |"
    yield "|---" * (len(removals) + 2) + "|"
    for item in tables.rows(Item, "items"):
        for material in tables.rows(Material, "materials"):
            for thick in THICK.get(material.family, ()):
                if material.material == "tinned_copper":
                    continue  # of lugs, never of panels
                onto = f"{material.material} {thick}"
                cells = [cell(item.item, onto, removed) for removed in removals]
                yield f"| {item.item} | {onto.replace('_', ' ')} | " + " | ".join(cells) + " |"


def test_the_first_answers_are_those_that_were_read() -> None:
    found = HEAD + "\n".join(rows()) + "\n"
    if os.environ.get("FASTEN_REWRITE"):
        TABLE.write_text(found, encoding="utf-8")
    assert found == TABLE.read_text(encoding="utf-8")


def test_what_is_heavy_or_carries_current_never_hangs_by_a_face_or_a_clip() -> None:
    by_face = ("push_in_clip", "ball_stud", "magnet_and_plate", "hook_and_loop")
    for line in TABLE.read_text(encoding="utf-8").splitlines():
        if line.startswith(("| amplifier", "| enclosure", "| equipment-board", "| speaker", "| ground-lug", "| fuse")):
            assert not any(method in line for method in by_face), line
