"""What holds for every joint in board and wood."""

from dataclasses import replace

import pytest

from fasten.advice.method import Method
from fasten.methods import screw_in_insert, screw_into_board, tee_nut, through_bolt
from fasten.model import MountPoint, Proposal, Removal
from fasten.proof.demands import demands
from fasten.proof.modes import board as board_modes
from fasten.proof.prove import prove

from .board_mounts import TABLES, TRIM, advised, asked, mounted

MODULES = (screw_into_board, screw_in_insert, tee_nut, through_bolt)
BOARDS = ("MDF 18 mm", "particleboard 16 mm", "plywood 15 mm", "pine 20 mm", "hardwood 18 mm")


def proved(mount: MountPoint) -> list[tuple[Method, Proposal]]:
    loads = demands(mount, TABLES)
    found: list[tuple[Method, Proposal]] = []
    for module in MODULES:
        if module.gates(mount, TABLES) is None:
            results = [prove(joint, mount, module, loads, TABLES) for joint in module.joints(mount, TABLES)]
            found += [(module, result) for result in results if isinstance(result, Proposal)]
    return found


@pytest.mark.parametrize("onto", BOARDS)
def test_more_mass_never_lowers_a_utilisation_in_board(onto: str) -> None:
    light = mounted(TRIM, onto=onto, removed="never", reach="both-sides", edge="60mm")
    heavy = replace(light, mass_kg=light.mass_kg * 2)
    found = proved(light)
    assert {proposal.method for _, proposal in found} == {module.NAME for module in MODULES}
    for module, before in found:
        after = prove(before.joint, heavy, module, demands(heavy, TABLES), TABLES)
        if isinstance(after, Proposal):
            for old, new in zip(before.checks, after.checks, strict=True):
                assert old.id == new.id
                assert (new.utilisation or 0.0) >= (old.utilisation or 0.0) * (1 - 1e-9), old.id


@pytest.mark.parametrize("into", ["face", "edge"])
@pytest.mark.parametrize("onto", BOARDS)
def test_every_input_of_a_capacity_in_board_counts(onto: str, into: str) -> None:
    """A deeper, wider or denser hold bears more: each figure that is shown moves the load."""
    mount = mounted(TRIM, onto=onto, removed="rarely", into=into)
    found = proved(mount)
    assert bool(found) == (onto != "plywood 15 mm" or into == "face")
    for module, proposal in found:
        for mode in (
            mode for mode in module.modes(mount, TABLES) if mode in {board_modes.SCREW_WITHDRAWAL, board_modes.LATERAL}
        ):
            screw = proposal.joint.screw
            if screw is None or proposal.joint.receiver is not None:
                continue
            before = mode.capacity(proposal.joint, mount, TABLES).load_n
            deeper = replace(proposal.joint, screw=replace(screw, engagement_mm=screw.engagement_mm + 1))
            wider = replace(proposal.joint, screw=replace(screw, diameter_mm=screw.diameter_mm + 0.5))
            assert mode.capacity(deeper, mount, TABLES).load_n > before
            assert mode.capacity(wider, mount, TABLES).load_n > before


def test_a_screw_never_comes_out_of_the_back_of_a_board() -> None:
    for onto in BOARDS:
        mount = mounted(TRIM, onto=onto, removed="rarely")
        for joint in screw_into_board.joints(mount, TABLES):
            assert joint.screw is not None
            assert joint.screw.length_mm - joint.grip_mm + 2 <= mount.thickness_min_mm + 1e-9
            assert joint.behind_done_mm == 0


@pytest.mark.slow
def test_a_stripped_joint_of_each_method_is_refused_with_its_figures() -> None:
    for onto in BOARDS:
        mount = mounted(TRIM, onto=onto, removed=Removal.NEVER.value, mass="400kg", reach="both-sides", edge="60mm")
        advice = advised(mount)
        assert not advice.answers
        for module in MODULES:
            assert all(refusal.figures for refusal in advice.refusals if refusal.method == module.NAME)


@pytest.mark.parametrize("onto", BOARDS)
def test_work_on_board_has_nothing_of_sheet_metal(onto: str) -> None:
    advice = asked(TRIM, onto=onto, reach="both-sides", removed="never")
    screwed = [answer for answer in advice.answers if answer.proposal.joint.hole is not None]
    assert {answer.method for answer in screwed} == {module.NAME for module in MODULES}
    for answer in screwed:
        told = " ".join(
            [*(step.text for step in answer.steps), *(need.text for need in (*answer.tools, *answer.consumables))]
        ).lower()
        assert "scrap of the same board" in told
        for word in ("swarf", "deburr", "bare edge", "bare-edge", "same sheet", "must not dish"):
            assert word not in told, (answer.method, word)
