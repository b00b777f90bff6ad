"""Quarter-turn studs, from what a person types to the advice: for what they are, and what they wait for."""

from pathlib import Path

import pytest
from built.own_row import tables_with

from fasten.advice.advise import advise
from fasten.catalog.registry import TABLES as REGISTERED
from fasten.catalog.tables import Tables, builtin
from fasten.methods import quarter_turn
from fasten.methods.quarter_turn import QUARTER_TURNS
from fasten.model import Advice, Answer, Proposal, Refusal, Status
from fasten.proof.demands import demands
from fasten.proof.prove import prove
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
COVER = {
    "item": "trim-panel", "onto": "steel 0.8 mm", "removed": "weekly", "mass": "0.5kg", "fixings": "4",
    "pattern": "rectangle 240x180", "behind": "30mm", "edge": "40mm", "item-hole": "6.5mm", "item-thickness": "2mm",
    "panel": "seat-back",
}  # fmt: skip
COLUMNS = (
    "size stud head head_height cover_min cover_max length hole hole_plus sheet_min sheet_max depth flange "
    "flange_thickness rated"
)
UNITS = "- mm mm mm mm mm mm mm mm mm mm mm mm mm N"
ROW = ("6 mm", 6.0, 13.0, 1.8, 0.8, 2.0, 10.8, 11.0, 0.2, 0.7, 3.0, 9.0, 24.0, 1.0)


def asked(tables: Tables = TABLES, **said: str) -> Advice:
    fields = COVER | {name.replace("_", "-"): text for name, text in said.items()}
    return advise(resolve(read_question(fields, tables), tables), tables)


def answer_of(advice: Advice) -> Answer:
    return next(answer for answer in advice.answers if answer.method == quarter_turn.NAME)


def refusal_of(advice: Advice) -> Refusal:
    return next(refusal for refusal in advice.refusals if refusal.method == quarter_turn.NAME)


def rated(folder: Path, pull_n: int) -> Tables:
    """The tables with a row of the user's own, as its box gives it."""
    return tables_with(folder, "quarter-turns", COLUMNS, UNITS, (*ROW, pull_n))


def test_a_cover_that_comes_off_weekly_waits_for_the_rating_of_the_box() -> None:
    proposal = answer_of(asked()).proposal
    assert not proposal.proven
    waiting = {check.id.partition(".")[0]: check for check in proposal.checks if check.status is Status.NOT_CHECKED}
    assert set(waiting) == {"rated-pull", "rated-shear"}
    assert all("box" in str(check.needs) for check in waiting.values())
    assert all(check.status is not Status.FAILS for check in proposal.checks)


def test_no_figure_of_the_table_is_a_pull_and_every_size_is_from_memory() -> None:
    table = TABLES.table("quarter-turns")
    assert REGISTERED["quarter-turns"] is QUARTER_TURNS
    assert all(row.rated_n is None for row in TABLES.rows(QUARTER_TURNS))
    assert {source.basis for source in table.sources.values()} == {"from memory"}


def test_the_rating_of_the_users_own_box_proves_it(tmp_path: Path) -> None:
    """A made-up 250 N: a third of it in service, half in a hard stop, pulled or pushed sideways, and both together."""
    proposal = answer_of(asked(rated(tmp_path, 250))).proposal
    assert proposal.proven
    allowed = {check.id: check.allowable for check in proposal.checks if check.id.startswith("rated-")}
    for name in ("rated-pull", "rated-shear"):
        assert allowed[f"{name}.service"] == pytest.approx(250 / 3)
        assert allowed[f"{name}.hard_stop"] == pytest.approx(250 / 2)
    assert "rated-together.service" in allowed


def test_one_too_weak_for_its_share_is_refused(tmp_path: Path) -> None:
    """0.5 kg on four at 20 g is 24.5 N each, on a plan that shares it; half of a made-up 40 N is 20."""
    tables = rated(tmp_path, 40)
    mount = resolve(read_question(COVER, tables), tables)
    joint = next(quarter_turn.joints(mount, tables))
    found = prove(joint, mount, quarter_turn, demands(mount, tables), tables)
    assert isinstance(found, Refusal)
    assert found.check is not None
    assert found.check.startswith("rated-")


@pytest.mark.parametrize(
    ("said", "because"),
    [
        ({"onto": "mdf 18 mm"}, "is board"),
        ({"item": "amplifier"}, "for covers and trim only"),
        ({"mass": "2kg", "fixings": "2", "pattern": "row 200"}, "1 kg"),
        ({"between": "foam 3 mm"}, "foam between holds the cover off"),
        ({"item_hole": "5mm"}, "no stud fits through a 5 mm item hole"),
        ({"item_thickness": "9mm"}, "no stud is for 9 mm of cover: they take 0.8 to 4.4 mm"),
        ({"onto": "steel 4 mm"}, "no receptacle is riveted to 4 mm: they take 0.7 to 3 mm"),
    ],
)
def test_what_no_stud_suits_is_refused_with_its_figure(said: dict[str, str], because: str) -> None:
    assert because in refusal_of(asked(TABLES, **said)).because


def test_a_hole_too_small_for_a_stud_is_cured_by_a_wider_one() -> None:
    found = refusal_of(asked(item_hole="5mm"))
    assert found.change == "a 6.5 mm item hole"
    assert answer_of(asked(item_hole="6.5mm")).proposal.joint.screw is not None


def test_the_stud_is_the_one_for_the_cover_and_the_receptacle_sits_in_its_hole() -> None:
    """Stud and receptacle by hand: 12 mm under its head is for 2 to 3.2 mm; 9 mm deep less 0.8 mm of sheet is 8.2."""
    joint = answer_of(asked(item_thickness="3mm")).proposal.joint
    assert joint.screw is not None
    assert joint.hole is not None
    assert (joint.screw.length_mm, joint.hole.diameter_mm) == (12.0, 11.0)
    assert joint.behind_done_mm == pytest.approx(8.2)
    assert joint.lock.name == "its receptacle, which the turned stud snaps into"


def test_the_steps_say_what_goes_where_in_order_of_work() -> None:
    answer = answer_of(asked())
    told = [(step.phase.value, step.step) for step in answer.steps]
    assert told == sorted(told, key=told.index)
    assert [phase for phase, _ in told][-4:] == ["set", "lock", "fit", "later"]
    assert {"rivet setter for receptacles", "driver"} <= {tool.key for tool in answer.tools}
    assert "blind rivets for receptacles" in {need.key for need in answer.consumables}


def test_it_is_a_proposal_of_parts_that_a_shelf_may_list() -> None:
    found = prove(
        next(quarter_turn.joints(mount := resolve(read_question(COVER, TABLES), TABLES), TABLES)), mount, quarter_turn,
        demands(mount, TABLES), TABLES,
    )  # fmt: skip
    assert isinstance(found, Proposal)
    stocked = {(one.kind.key, one.size, one.series) for one in quarter_turn.stocked(TABLES)}
    assert ("quarter_turn_stud", "6 mm", "13 mm head") in stocked
    assert ("quarter_turn_receptacle", "6 mm", "24 mm flange") in stocked
