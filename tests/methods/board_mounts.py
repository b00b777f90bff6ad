"""Mount points of board and wood, and what is read out of their advice."""

from functools import cache

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Advice, Answer, Check, MountPoint, Refusal
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
TRIM = {
    "item": "trim-panel", "onto": "MDF 18 mm", "removed": "monthly", "visible": "yes", "item-material": "abs",
    "item-thickness": "3mm",
}  # fmt: skip
AMPLIFIER = {
    "item": "amplifier", "onto": "MDF 12 mm", "removed": "yearly", "mass": "5kg", "fixings": "4",
    "pattern": "rectangle 240x180", "item-thickness": "3mm", "item-hole": "5.5mm", "panel": "seat-back",
    "edge": "40mm", "behind": "40mm", "reach": "both-sides",
}  # fmt: skip
ROOT = {"ST3.5": 2.64, "ST4.2": 3.10, "ST4.8": 3.58}  # greatest, ISO 1478
PITCH = {"M4": 0.7, "M5": 0.8, "M6": 1.0, "M8": 1.25}


def mounted(base: dict[str, str], **said: str) -> MountPoint:
    fields = base | {name.replace("_", "-"): text for name, text in said.items()}
    return resolve(read_question(fields, TABLES), TABLES)


@cache
def advised(mount: MountPoint) -> Advice:
    return advise(mount, TABLES, changes=False)


def asked(base: dict[str, str], **said: str) -> Advice:
    return advised(mounted(base, **said))


def of(advice: Advice, method: str) -> list[Answer]:
    return [answer for answer in advice.answers if answer.method == method]


def refused(advice: Advice, method: str) -> Refusal:
    found = [refusal for refusal in advice.refusals if refusal.method == method]
    assert len(found) == 1, f"{method} was refused {len(found)} times"
    return found[0]


def figures(refusal: Refusal) -> dict[str, float]:
    return {figure.name: figure.value for figure in refusal.figures}


def check(answer: Answer, identity: str) -> Check:
    found = [entry for entry in answer.proposal.checks if entry.id == identity]
    assert len(found) == 1, f"{identity} is there {len(found)} times"
    return found[0]


def given(entry: Check) -> dict[str, float]:
    return {part.name: part.value for part in entry.inputs}
