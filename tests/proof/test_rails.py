"""Rails from one line of support to the other: how stiff, of which tube, with which parts and further mount points."""

from math import pi, sqrt
from pathlib import Path

import pytest

from fasten.advice.advise import advise
from fasten.advice.plan import plan_of
from fasten.catalog.tables import builtin
from fasten.commands.pick import arguments, run
from fasten.errors import FastenError
from fasten.job.choices import choices
from fasten.job.list.stock import stock
from fasten.job.store.storage import load_job
from fasten.model import Check, MountPoint, Remedy, Status
from fasten.proof.remedies import remedies
from fasten.question.read import read_question
from fasten.question.resolve import resolve

from .test_panel import given, line, mount

TABLES = builtin()
SOFT = {"support": "bay 400x600"}  # an amplifier of 5 kg sways there at 14.5 Hz at most


def on_rails(rails: str, **said: str) -> MountPoint:
    fields = {
        "item": "amplifier", "onto": "steel plate 3 mm", "removed": "yearly", "mass": "5kg", "cg": "30mm",
        "panel": "floor", "pattern": "rectangle 240x180", "behind": "20mm", "edge": "25mm", "rails": rails,
    }  # fmt: skip
    return resolve(read_question(fields | said, TABLES), TABLES)


def stiff(rails: str, **said: str) -> Check:
    checks = advise(on_rails(rails, **said), TABLES, changes=False).answers[0].proposal.checks
    return next(check for check in checks if check.id == "panel-stiffness")


def rails_for(**said: str) -> Remedy:
    return next(one for one in remedies(mount(**said), TABLES) if one.name == "rails")


def test_two_tubes_by_hand() -> None:
    """15 x 1.5: I (15^4 - 12^4)/12 = 2490.75 mm4; 2 x 48 x 205000 x I / 400^3 = 765.9 N/mm; 5 kg: 62.3 Hz."""
    found = stiff("2 of 15x1.5 mm over 400 mm")
    assert (found.title, found.status) == ("Stiffness of the rails", Status.HOLDS)
    assert found.allowable == pytest.approx(sqrt(1000 * 2 * 48 * 205000 * 2490.75 / 400**3 / 5) / (2 * pi), rel=1e-6)


def test_rails_too_slender_are_refused_with_those_that_do() -> None:
    """One over 900 mm: 33.6 N/mm under 12 kg, 8.4 Hz."""
    refused = advise(on_rails("1 of 15x1.5 mm over 900 mm", mass="12kg"), TABLES)
    assert not refused.answers
    (larger,) = refused.remedies
    assert stiff(larger.said[0][1], mass="12kg").status is Status.HOLDS


def test_the_least_tube_that_clears_is_named_with_what_is_asked_next() -> None:
    found = rails_for(**SOFT)
    assert found.text == "two rails of 15 x 1.5 mm square steel tube over 400 mm"
    said = dict(found.said)
    assert (said["onto"], said["rails"], said["support"]) == ("steel plate 3 mm", "2 of 15 x 1.5 mm over 400 mm", "")
    assert found.beside is not None
    assert (found.beside.name, found.beside.count) == ("rail end", 4)
    ends = dict(found.beside.said)
    assert (ends["mass"], ends["fixings"], ends["support"], ends["cg"]) == ("2.5 kg", "2", "frame", "48 mm")
    assert advise(resolve(read_question(ends, TABLES), TABLES), TABLES, changes=False).answers


def test_without_a_bay_and_under_a_roof_no_rails_are_sized() -> None:
    for said in ({}, SOFT | {"panel": "roof"}):
        assert "rails" not in {one.name for one in remedies(mount(**said), TABLES)}


def test_rails_and_plate_are_parts_and_steps_and_their_welds_are_checked() -> None:
    asked = on_rails("2 of 20x1.5 mm over 400 mm")
    answer = advise(asked, TABLES, changes=False).answers[0]
    plan = plan_of("amp", answer, asked, TABLES)
    parts = [(need.part.kind, need.part.size, need.part.length_mm, need.count) for need in plan.parts]
    assert ("rail", "20 x 20 x 1.5 mm", 480, 2) in parts
    assert ("plate across rails", "290 x 230 x 3 mm", None, 1) in parts
    assert all(stock(TABLES).holds(need.part) for need in plan.parts)
    assert any("2 rails of 20 x 20 x 1.5 mm square steel tube" in step.text for step in answer.steps)
    weld = next(check for check in answer.proposal.checks if check.id == "rails-weld.hard_stop")
    assert weld.status is Status.HOLDS
    assert weld.allowable == pytest.approx(2 * 2 * 30 * 2 * 166)


def test_rails_stand_alone() -> None:
    with pytest.raises(FastenError, match="plate across them"):
        mount(rails="2 of 20x1.5 mm over 400 mm")
    with pytest.raises(FastenError, match="no support"):
        on_rails("2 of 20x1.5 mm over 400 mm", support="frame")


@pytest.mark.parametrize(
    "text", ["2 of 20 mm over 400 mm", "20x1.5 mm over 400 mm", "2 of 20x1.5", "2 of 3x2 over 4 m"]
)
def test_what_are_no_rails_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(FastenError, match="not understood"):
        on_rails(text)


def test_taken_into_a_job_they_are_the_item_and_each_rail_end(tmp_path: Path) -> None:
    import argparse

    parser = argparse.ArgumentParser()
    arguments(parser)
    job = tmp_path / "car.toml"
    asked = ["amplifier", "--onto", "steel 0.8 mm", "--mass", "5kg", "--panel", "floor", "--support", "bay 400x600",
             "--removed", "yearly", "--into-job", str(job), "--name", "amp", "--take"]  # fmt: skip
    assert run(parser.parse_args([*asked, "rails"])) == 0
    kept = load_job(job, TABLES).value
    assert [one.name for one in kept.mounts] == ["amp", *(f"amp rail end {count}" for count in (1, 2, 3, 4))]
    assert all(found.answer is not None for found in choices(kept, TABLES))
    with pytest.raises(FastenError, match="rail"):
        run(parser.parse_args([*asked, "rial"]))
    assert given(line(**SOFT))
