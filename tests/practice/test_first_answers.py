"""The first answer to every item on every material, at two thicknesses and for every removal, as a table to be read.

The table is read line by line as a practitioner reads it; where one would shake his head, a rule is wrong and is mended
there. What is committed is what was read: a line that changes is read again. FASTEN_REWRITE=1 writes the table anew.
"""

import os
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from fasten.advice.advise import advise
from fasten.advice.ranking import size
from fasten.catalog.materials import Item, Material
from fasten.catalog.tables import builtin
from fasten.model import Advice, Answer, MountPoint, Removal
from fasten.question.read import read_question
from fasten.question.resolve import resolve

pytestmark = pytest.mark.slow

TABLE = Path(__file__).with_name("first-answers.md")
THICK = {
    "sheet": ("0.8 mm", "3 mm"), "board": ("12 mm", "18 mm"), "wood": ("12 mm", "20 mm"),
    "plastic": ("3 mm", "8 mm"), "laminate": ("3 mm", "6 mm"),
}  # fmt: skip
# What anybody at the car can measure; everything else as the item's preset has it, reached from one side.
MEASURED = {"edge": "60mm", "behind": "60mm", "panel": "floor"}
ALSO = {"enclosure": {"reach": "both-sides"}}
NEAREST = 2  # of the methods that would fit with a change, how many are named
HEAD = """# First answers

Every item preset on every material, at two thicknesses, for every removal: the method that ranks first and its size.
60 mm to any edge and behind, on a floor, reached from one side, everything else as the item's preset has it; an
enclosure is bolted down from both sides, as anybody would. `?` is an answer that is not proven; `no` is nothing that
fits, and its number tells below the table what would, or why nothing does.

"""


def mounted(item: str, onto: str) -> MountPoint:
    said = {"item": item, "onto": onto, "removed": "never", **MEASURED, **ALSO.get(item, {})}
    return resolve(read_question(said, builtin()), builtin())


def first(answer: Answer) -> str:
    return f"{answer.method} {size(answer.proposal.joint)}{'' if answer.proposal.proven else ' ?'}"


def told(advice: Advice) -> str:
    """What would fit with a change; where nothing would, why what came nearest does not, or why nothing ever will."""
    turned = [refusal for refusal in advice.refusals if refusal.change]
    if turned:
        return "; ".join(f"{refusal.title} with {refusal.change}" for refusal in turned[:NEAREST])
    by_figures = [refusal for refusal in advice.refusals if refusal.check is not None and refusal.figures]
    nearest = [*by_figures, *(refusal for refusal in advice.refusals if refusal.figures), *advice.refusals][0]
    figures = ", ".join(f"{entry.name} {entry.value:.4g} {entry.unit}".removesuffix(" -") for entry in nearest.figures)
    return f"{nearest.title}: {nearest.because}" + (f" ({figures})" if figures else "")


def cell(mount: MountPoint, reasons: dict[str, int]) -> str:
    advice = advise(mount, builtin(), changes=False)
    if advice.answers:
        return first(advice.answers[0])
    reason = told(advise(mount, builtin()))
    return f"no {reasons.setdefault(reason, len(reasons) + 1)}"


def rows(item: Item, reasons: dict[str, int]) -> Iterator[str]:
    for material in builtin().rows(Material, "materials"):
        if material.material == "tinned_copper":
            continue  # of lugs, never of panels
        for thick in THICK.get(material.family, ()):
            mount = mounted(item.item, f"{material.material} {thick}")
            cells = [cell(replace(mount, removed=removed), reasons) for removed in Removal]
            yield f"| {material.material.replace('_', ' ')} {thick} | " + " | ".join(cells) + " |"


def section(item: Item) -> str:
    """The table of one item, and below it what its numbers stand for."""
    reasons: dict[str, int] = {}
    head = ["| onto | " + " | ".join(removal.value for removal in Removal) + " |", "|---" * (len(Removal) + 1) + "|"]
    table = [*head, *rows(item, reasons)]
    below = [f"{number}. {reason}" for reason, number in reasons.items()]
    return "\n".join([f"## {item.item}", "", *table, *([""] if below else []), *below])


def whole() -> str:
    return HEAD + "\n\n".join(section(item) for item in builtin().rows(Item, "items")) + "\n"


def test_the_first_answers_are_those_that_were_read() -> None:
    found = whole()
    if os.environ.get("FASTEN_REWRITE"):
        TABLE.write_text(found, encoding="utf-8")
    assert found == TABLE.read_text(encoding="utf-8")


HEAVY = ("amplifier", "enclosure", "equipment-board", "speaker", "speaker-adapter", "ground-lug", "fuse-holder")


def test_what_is_heavy_or_carries_current_never_hangs_by_a_face_or_a_clip() -> None:
    sections = {part.split("\n")[0]: part for part in TABLE.read_text(encoding="utf-8").split("\n## ")[1:]}
    for item in (*HEAVY, "distribution-block", "bracket"):
        table = sections[item].partition("\n1. ")[0]
        for method in ("push_in_clip", "ball_stud", "magnet_and_plate", "hook_and_loop"):
            assert method not in table, item
