"""Thin foam under a stiff rim needs no compression limiter, and the answer says which way was taken and why.

Common practice: foam under 3 mm. By hand: a beam built in at both ends, q L^4 / (384 E I), and 25 % of foam to seal.
"""

from functools import cache

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.geometry.joint import limiter_of
from fasten.geometry.patterns import gap_mm
from fasten.mechanics.foam import rim_sag_mm
from fasten.model import Answer, JointKind, Pattern, Status
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
RING = {
    "item": "speaker-adapter", "onto": "steel 0.7 mm", "removed": "rarely", "panel": "door", "behind": "60mm",
    "edge": "60mm",
}  # fmt: skip


@cache
def _first(said: tuple[tuple[str, str], ...]) -> Answer:
    mount = resolve(read_question(dict(said), TABLES), TABLES)
    return next(answer for answer in advise(mount, TABLES, changes=False).answers if answer.method == "rivet_nut")


def first(between: str, **said: str) -> Answer:
    fields = RING | {name.replace("_", "-"): text for name, text in said.items()} | {"between": between}
    return _first(tuple(sorted(fields.items())))


def step(answer: Answer) -> str:
    return next(step.text for step in answer.steps if "compression limiter" in step.text)


def test_a_ring_of_board_presses_thin_foam_alone_and_says_why() -> None:
    """Six on a circle of 180 stand 90 apart: 0.028 x 90^4 / (32 x 2200 x 18^3) = 0.0045 mm, of 0.15 x 2 mm."""
    answer = first("foam 2 mm")
    assert limiter_of(answer.proposal.joint) is None
    assert answer.proposal.joint.kind is JointKind.LOCATED, "no clamp is counted on"
    [line] = [check for check in answer.proposal.checks if check.id == "rim-bends"]
    assert line.demand == pytest.approx(0.0045, rel=0.02)
    assert line.allowable == pytest.approx(0.3)
    assert (line.status, answer.proposal.proven) == (Status.HOLDS, True)
    assert step(answer).startswith("The foam needs no compression limiter: it is thin")


@pytest.mark.parametrize(
    ("between", "said", "why"),
    [
        ("foam 3 mm", {}, "the foam is 3 mm thick, and needs one from 3 mm on"),
        ("foam 2 mm", {"item_material": "abs", "item_thickness": "4mm"}, "the rim would bend 0.41 mm between two"),
        ("foam 2 mm", {"item_material": "abs", "item_thickness": "2mm"}, "more between two fixings than the foam is"),
        ("foam 2 mm, deadener 2 mm", {}, "foam is not all that lies between"),
        ("foam 2 mm", {"item": "bracket", "fixings": "1"}, "how much the rim bends round it is not known"),
    ],
)
def test_where_there_is_a_limiter_its_step_says_why(between: str, said: dict[str, str], why: str) -> None:
    answer = first(between, **said)
    assert limiter_of(answer.proposal.joint) is not None
    assert why in step(answer)
    assert "rim-bends" not in {check.id for check in answer.proposal.checks}


def test_the_torque_still_presses_the_foam_down() -> None:
    """The torque that seats it counts the push of the foam with and without a limiter."""
    lines = {between: first(between) for between in ("foam 2 mm", "foam 3 mm")}
    for answer in lines.values():
        window = next(check for check in answer.proposal.checks if check.id == "torque-window")
        assert "push x width x foam" in window.formula
        assert "foam a fixing" in {entry.name for entry in window.inputs}


def test_a_beam_built_in_at_both_ends() -> None:
    """q = 0.1 x 10 N/mm, L 100, E 1000, I = 10 x 10^3 / 12: 1 x 10^8 / (384 x 1000 x 833.3) = 0.3125 mm."""
    sag = rim_sag_mm(pressure_mpa=0.1, gap_mm=100, youngs_mpa=1000, thickness_mm=10)
    assert sag == pytest.approx(1 * 100**4 / (384 * 1000 * 10 * 10**3 / 12))


@pytest.mark.parametrize(
    ("pattern", "fixings", "gap"),
    [
        (Pattern("rectangle", 240, 180), 4, 240), (Pattern("rectangle", 240, 180), 6, 180),
        (Pattern("circle", 180, None), 6, 90), (Pattern("row", 80, None), 3, 80),
    ],
)  # fmt: skip
def test_the_widest_gap_along_a_pattern(pattern: Pattern, fixings: int, gap: float) -> None:
    assert gap_mm(pattern, fixings) == pytest.approx(gap)
