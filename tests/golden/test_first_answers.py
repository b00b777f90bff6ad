"""The first answer to every item on every material, at two thicknesses and for every removal, as a table to be read.

The table is read line by line as a practitioner reads it; where one would shake his head, a rule is wrong and is mended
there. What is committed is what was read: a line that changes is read again. FASTEN_REWRITE=1 writes the table anew.
"""

import os
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from fasten.advice.advise import advise
from fasten.advice.ranking import size
from fasten.catalog.materials import ITEMS, MATERIALS, Item
from fasten.catalog.tables import builtin
from fasten.model import Advice, Answer, MountPoint, Removal, Status
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
STANDING = {Status.HOLDS: "", Status.NOT_CHECKED: " ?", Status.MARGINAL: " ~"}
HEAD = """# First answers

Every item preset on every material, at two thicknesses, for every removal: the method that ranks first and its size.
60 mm to any edge and behind, on a floor, reached from one side, everything else as the item's preset has it; an
enclosure is bolted down from both sides, as anybody would. `?` is an answer that is not proven, `~` one that is
marginal; `no` is nothing that fits, and its number tells below the table what would, or why nothing does.

"""


def mounted(item: str, onto: str) -> MountPoint:
    said = {"item": item, "onto": onto, "removed": "never", **MEASURED, **ALSO.get(item, {})}
    return resolve(read_question(said, builtin()), builtin())


def first(answer: Answer) -> str:
    return f"{answer.method} {size(answer.proposal.joint)}{STANDING[answer.proposal.status]}"


def told(advice: Advice) -> str:
    """What would fit with a change; where nothing would, why what came nearest does not, or why nothing ever will."""
    turned = [refusal for refusal in advice.refusals if refusal.change]
    if turned:
        return "; ".join(f"{refusal.title} with {refusal.change}" for refusal in turned[:NEAREST])
    by_figures = [refusal for refusal in advice.refusals if refusal.check is not None and refusal.figures]
    nearest = [*by_figures, *(refusal for refusal in advice.refusals if refusal.figures), *advice.refusals][0]
    figures = ", ".join(f"{entry.name} {entry.value:.4g} {entry.unit}".removesuffix(" -") for entry in nearest.figures)
    return f"{nearest.title}: {nearest.because}" + (f" ({figures})" if figures else "")


def answer_of(mount: MountPoint) -> str:
    """The first answer, or `no` and why."""
    advice = advise(mount, builtin(), changes=False)
    return first(advice.answers[0]) if advice.answers else f"no {told(advise(mount, builtin()))}"


def places() -> tuple[str, ...]:
    """Every material in each of its thicknesses, save that of lugs, which is never one of panels."""
    return tuple(
        f"{material.material} {thick}"
        for material in builtin().rows(MATERIALS)
        if material.material != "tinned_copper"
        for thick in THICK.get(material.family, ())
    )


def answers(item: str, onto: str, removals: Sequence[Removal] = tuple(Removal)) -> list[str]:
    """One row of the table: the first answer for each removal."""
    mount = mounted(item, onto)
    return [answer_of(replace(mount, removed=removed)) for removed in removals]


def rows(item: Item, reasons: dict[str, int]) -> Iterator[str]:
    for onto in places():
        cells = [
            f"no {reasons.setdefault(cell[3:], len(reasons) + 1)}" if cell.startswith("no ") else cell
            for cell in answers(item.item, onto)
        ]
        yield f"| {shown(onto)} | " + " | ".join(cells) + " |"


def shown(onto: str) -> str:
    return onto.replace("_", " ")


def section(item: Item) -> str:
    """The table of one item, and below it what its numbers stand for."""
    reasons: dict[str, int] = {}
    head = ["| onto | " + " | ".join(removal.value for removal in Removal) + " |", "|---" * (len(Removal) + 1) + "|"]
    table = [*head, *rows(item, reasons)]
    below = [f"{number}. {reason}" for reason, number in reasons.items()]
    return "\n".join([f"## {item.item}", "", *table, *([""] if below else []), *below])


def whole() -> str:
    return HEAD + "\n\n".join(section(item) for item in builtin().rows(ITEMS)) + "\n"


def read() -> dict[str, dict[str, list[str]]]:
    """What was read, by item and what it is fixed onto, each number with what it stands for."""
    found: dict[str, dict[str, list[str]]] = {}
    for part in TABLE.read_text(encoding="utf-8").split("\n## ")[1:]:
        item, *lines = part.splitlines()
        reasons = dict(line.split(". ", 1) for line in lines if line[:1].isdigit())
        cells = [[cell.strip() for cell in line.strip("|").split("|")] for line in lines if line.startswith("| ")]
        found[item] = {
            onto: [f"no {reasons[cell[3:]]}" if cell.startswith("no ") else cell for cell in row]
            for onto, *row in cells[1:]
        }
    return found


def sample() -> list[tuple[str, str, Removal]]:
    """Every material and thickness, each with other items and removals in turn, and so every item with some of them."""
    items, removals = [row.item for row in builtin().rows(ITEMS)], tuple(Removal)
    return [
        (items[(at + more) % len(items)], onto, removals[(at + more) % len(removals)])
        for at, onto in enumerate(places())
        for more in (0, 7)
    ]


def test_a_sample_of_the_first_answers_are_those_that_were_read() -> None:
    """All of them by hand: tests/benchmarks/first_answers.py."""
    if os.environ.get("FASTEN_REWRITE"):
        TABLE.write_text(whole(), encoding="utf-8")
    known = read()
    column = list(Removal).index
    differ = [
        (item, onto, removed.value)
        for item, onto, removed in sample()
        if answers(item, onto, [removed]) != [known[item][shown(onto)][column(removed)]]
    ]
    assert not differ, f"see with FASTEN_REWRITE=1 what else is another now, and read it: {differ}"


def test_the_table_has_every_item_on_everything() -> None:
    items = [row.item for row in builtin().rows(ITEMS)]
    assert {item: list(rows) for item, rows in read().items()} == {item: list(map(shown, places())) for item in items}


HEAVY = ("amplifier", "enclosure", "equipment-board", "speaker", "speaker-adapter", "ground-lug", "fuse-holder")


def test_what_is_heavy_or_carries_current_never_hangs_by_a_face_or_a_clip() -> None:
    sections = {part.split("\n")[0]: part for part in TABLE.read_text(encoding="utf-8").split("\n## ")[1:]}
    for item in (*HEAVY, "distribution-block", "bracket"):
        table = sections[item].partition("\n1. ")[0]
        for method in ("push_in_clip", "ball_stud", "magnet_and_plate", "hook_and_loop"):
            assert method not in table, item
