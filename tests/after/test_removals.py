"""Removals are counted since a part was new, and it is due at the visit of its rating: a nut every five at the fifth.

Prevailing-torque nuts are renewed every five by ISO 2320, as the table of methods has it.
"""

import pytest

from fasten.after.removals import Came, worn
from fasten.after.verdict import Verdict
from fasten.catalog.tables import builtin
from fasten.job.after.built import recorded
from fasten.job.after.judged import judged, wear
from fasten.job.choices import choice
from fasten.job.words import Mount, Visit

TABLES = builtin()
BOARD = Mount("board", (
    ("item", "equipment-board"), ("onto", "steel 1 mm"), ("removed", "rarely"), ("item-thickness", "12 mm"),
    ("item-material", "plywood"), ("panel", "seat-back"), ("behind", "60 mm"), ("edge", "40 mm"), ("support", "firm"),
    ("reach", "both-sides"),
))  # fmt: skip


def nut(*came: Came) -> tuple[int, bool]:
    answer = choice(BOARD, TABLES).answer
    assert answer is not None
    [found] = [one for one in worn(answer.proposal.joint, came, TABLES) if one.every == 5]
    assert found.part == "prevailing-torque nut"
    return found.since, found.due


def test_a_nut_is_due_at_its_fifth_removal() -> None:
    off = Came(off=True, renewed="")
    assert [nut(*[off] * times)[1] for times in range(6)] == [False, False, False, False, True, True]


@pytest.mark.parametrize("renewed", ["prevailing-torque nuts", "4 nuts, primer", "all", "Prevailing torque nut"])
def test_it_is_counted_anew_once_it_is_renewed(renewed: str) -> None:
    off = Came(off=True, renewed="")
    assert nut(off, off, off, Came(off=True, renewed=renewed), off) == (1, False)


@pytest.mark.parametrize("renewed", ["", "washers", "the screw", "all but the nuts", "not the nut", "no nuts"])
def test_what_else_is_renewed_does_not_count(renewed: str) -> None:
    assert nut(*[Came(off=True, renewed=renewed)] * 3) == (3, False)


def test_fitted_again_it_came_off_before_whether_or_not_that_was_written_down() -> None:
    def visit(kind: str) -> Visit:
        return Visit("2026-01-01", "", "", "", "", kind=kind)

    def since(*kinds: str) -> int:
        found = choice(Mount(BOARD.name, BOARD.said, visits=tuple(map(visit, kinds))), TABLES)
        return next(one.since for one in wear(found, TABLES) if one.every == 5)

    assert since("told") == since("fitted") == since("fitted", "checked") == 0
    assert since("fitted", "off", "checked", "fitted") == since("checked", "fitted", "checked", "fitted") == 1
    assert since("fitted", "off", "fitted") == since("fitted", "fitted") == since("told", "fitted") == 1
    assert since("fitted", "off", "off", "fitted", "repaired") == 3


@pytest.mark.parametrize(
    ("again", "renewed", "is_open"),
    [(4, "", False), (5, "", True), (9, "", True), (5, "prevailing-torque nuts", False)],
)
def test_a_nut_that_was_fitted_too_often_is_not_proven(again: int, renewed: str, *, is_open: bool) -> None:
    """It is for four removals and renewed at the fifth: whoever fits it once more leaves it open."""
    planned = choice(BOARD, TABLES)
    assert planned.answer is not None
    assert planned.answer.proposal.torque is not None
    said = {"torque": f"{planned.answer.proposal.torque.target_nm + 2:.2f} N·m", "turning": "2 N·m", "kind": "fitted"}
    mount = BOARD
    for at in range(again + 1):
        mount = recorded(mount, said | ({"renewed": renewed} if renewed and at == again else {}), "2026-01-01")
    found = judged(choice(mount, TABLES), TABLES)
    assert found is not None
    needs = [need for need in found.needs if "renewed" in need]
    assert needs == ([f"prevailing-torque nut renewed: {again} removals since it was new, and it is for 4"] * is_open)
    assert found.verdict is (Verdict.OPEN if is_open else Verdict.HOLDS)
