"""Space behind and edge that are known at least: read as that figure, and never a refusal of what may be there."""

from dataclasses import replace

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Answer, Bound, MountPoint, Status
from fasten.model.check import needed
from fasten.question.read import read_question
from fasten.question.resolve import resolve


def asked(**said: str) -> MountPoint:
    plain = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "panel": "floor", "support": "firm"}
    return resolve(read_question(plain | said, builtin()), builtin())


def first(mount: MountPoint) -> Answer:
    return advise(mount, builtin(), changes=False).answers[0]


@pytest.mark.parametrize("text", ["at least 30 mm", "At least 30mm", ">= 30 mm", "\u2265 3 cm"])
def test_a_figure_that_is_known_at_least_is_written_so(text: str) -> None:
    mount = asked(behind=text, edge=text)
    assert (mount.behind_mm, mount.behind_bound) == (30.0, Bound.AT_LEAST)
    assert (mount.edge_mm, mount.edge_bound) == (30.0, Bound.AT_LEAST)


def test_enough_of_it_proves_what_the_measured_figure_does() -> None:
    least = first(asked(behind="at least 30 mm", edge="at least 30 mm")).proposal
    measured = first(asked(behind="30 mm", edge="30 mm")).proposal
    assert least.status is Status.HOLDS
    assert (least.joint, least.torque, least.checks) == (measured.joint, measured.torque, measured.checks)


def test_too_little_is_unresolved_where_it_may_be_more_and_refused_where_it_is_measured() -> None:
    open_ = first(asked(behind="at least 20 mm", edge="at least 30 mm")).proposal
    exact = first(asked(behind="20 mm", edge="30 mm")).proposal
    assert needed(open_.checks) == ("21.5 mm behind (at least 20 mm is known)",)
    assert open_.joint != exact.joint
    assert exact.status is Status.HOLDS


def test_both_figures_are_among_the_inputs_of_what_waits() -> None:
    check = next(c for c in first(asked(behind="at least 16 mm", edge="30 mm")).proposal.checks if c.needs)
    assert check.demand == pytest.approx(21.5)
    assert ("known at least", 16.0) in [(entry.name, entry.value) for entry in check.inputs]


def test_an_edge_that_is_too_near_for_sure_to_shut_out_more_is_unresolved_too() -> None:
    proposal = first(asked(behind="30 mm", edge="at least 8 mm")).proposal
    assert [check.id for check in proposal.checks if check.needs] == ["edge-distance"]


def test_a_clip_nut_asks_how_far_the_edge_really_is() -> None:
    near = asked(behind="30 mm", edge="10 mm")
    clip = next(answer for answer in advise(near, builtin(), changes=False).answers if "clip" in answer.title)
    later = advise(replace(near, edge_bound=Bound.AT_LEAST), builtin(), changes=False)
    same = next(answer for answer in later.answers if answer.method == clip.method)
    assert any("edge measured" in need for need in needed(same.proposal.checks))


def test_a_bay_that_is_narrower_than_a_strip_is_never_too_wide() -> None:
    """A wide bay is too soft where it was measured; one under that width may be stiff enough."""
    wide = asked(behind="30 mm", edge="30 mm", support="bay 500x2000", mass="9 kg")
    narrower = asked(behind="30 mm", edge="30 mm", support="bay under 500 mm", mass="9 kg")
    assert not advise(wide, builtin(), changes=False).answers
    assert first(narrower).proposal.status is Status.NOT_CHECKED
