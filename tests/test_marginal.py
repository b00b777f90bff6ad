"""A strength on an estimated formula that is missed by under 5 %: a state of its own on every surface, never proven."""

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from fasten.__main__ import main
from fasten.advice.advise import advise
from fasten.advice.ranking import order, score
from fasten.catalog.tables import builtin
from fasten.model import Advice, Check, MountPoint, Status
from fasten.model.check import needed
from fasten.proof.checks import at_most, on_estimate
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_json import advice_json
from fasten.report.answer.as_text import advice_text
from fasten.report.answer.compare import compare_document
from fasten.report.answer.headline import headline

TABLES = builtin()
# Four M8 in 18 mm of MDF: 65 x 8^-0.7 x 18^0.1 x 18 x 8 = 2916 N, over 1.25 it is 2333 N a bolt; 48.5 kg at 20 g
# is 2378 N, 2 % more.
HEAVY = {
    "item": "enclosure", "onto": "MDF 18 mm", "removed": "yearly", "panel": "floor", "reach": "both-sides",
    "edge": "60mm", "behind": "60mm", "support": "frame", "mass": "48.5kg",
}  # fmt: skip


def mounted(**said: str) -> MountPoint:
    return resolve(read_question(HEAVY | {name.replace("_", "-"): text for name, text in said.items()}, TABLES), TABLES)


@cache
def asked(mount: MountPoint) -> Advice:
    return advise(mount, TABLES)


def line(advice: Advice, identity: str) -> Check:
    return next(check for check in advice.answers[0].proposal.checks if check.id == identity)


def test_what_is_missed_by_two_per_cent_on_an_estimate_is_marginal_and_not_proven() -> None:
    advice = asked(mounted())
    found = line(advice, "board-bolt.hard_stop")
    assert found.status is Status.MARGINAL
    assert found.demand == pytest.approx(48.5 * 20 * 9.80665 / 4)
    assert found.allowable == pytest.approx(2333, rel=2e-3)
    assert (advice.answers[0].proposal.status, advice.answers[0].proposal.proven) == (Status.MARGINAL, False)


def test_five_per_cent_is_too_much() -> None:
    """2333 x 1.05 = 2450 N is 49.96 kg; with 9 mm given it takes no larger bolt."""
    assert asked(mounted(mass="49.9kg")).answers
    assert not asked(mounted(mass="50.1kg", item_hole="9mm")).answers


def test_only_an_estimate_is_let_off_and_only_by_its_share() -> None:
    missed = at_most("x", "Title", 104.0, 100.0, "N", (), "-", ())
    assert on_estimate(missed, 1.05).status is Status.MARGINAL
    assert "4.0 % short: title" in (on_estimate(missed, 1.05).needs or "")
    assert on_estimate(missed, 1.04).status is Status.FAILS
    held = at_most("x", "Title", 100.0, 100.0, "N", (), "-", ())
    assert on_estimate(held, 1.05) == held


@pytest.mark.parametrize("mass", [x / 2 for x in range(4, 60, 5)])
def test_no_stiffness_window_or_dent_is_ever_marginal(mass: float) -> None:
    for said in ({"item": "amplifier"}, {"item": "amplifier", "onto": "steel 0.8 mm"}, {"support": "span 600 mm"}):
        advice = asked(mounted(mass=f"{mass}kg", **said))
        checks = [check for answer in advice.answers for check in answer.proposal.checks]
        marginal = {check.id.partition(".")[0] for check in checks if check.status is Status.MARGINAL}
        assert marginal <= {"board-lateral", "board-bolt", "item-bearing-board", "insert-withdrawal", "board-together"}


def test_it_ranks_after_all_that_holds_or_is_not_checked_whatever_its_points() -> None:
    """An enclosure of 19.5 kg: the tee nut is marginal, the bolt holds; without a distance to an edge it is open."""
    for said in ({"mass": "19.5kg"}, {"mass": "19.5kg", "edge": "unknown"}):
        fields = {name: text for name, text in (HEAVY | said).items() if text != "unknown"}
        advice = asked(resolve(read_question(fields, TABLES), TABLES))
        found = [answer.proposal.status for answer in advice.answers]
        assert Status.MARGINAL in found
        assert found == sorted(found, key=lambda status: status is Status.MARGINAL)
    proposal = advice.answers[0].proposal
    scored = score(proposal, advice.mount, TABLES)
    worse = replace(proposal, checks=(*proposal.checks, replace(proposal.checks[0], status=Status.MARGINAL)))
    assert order(replace(scored, total=0.0), worse) > order(replace(scored, total=1000.0), proposal)


def test_every_text_says_so() -> None:
    advice = asked(mounted())
    wanted = "a test piece or a stronger joint, 2.0 % short: board's hole elongated by the bolt (estimate)"
    assert wanted in " ".join(headline(advice.answers[0], 200))
    assert "MARGINAL, NOT PROVEN" in advice_text(advice, 100)
    assert "~ marginal" in advice_text(advice, 100)
    assert "MARGINAL: Board's hole elongated" in advice_text(advice, 100)
    assert wanted in needed(advice.answers[0].proposal.checks)
    said = [" ".join(row) for section in compare_document(advice).sections for row in section.rows]
    assert any("marginal: needs" in row for row in said)


def test_the_json_says_so() -> None:
    answer = advice_json(asked(mounted()))["answers"][0]
    assert (answer["status"], answer["proven"]) == ("marginal", False)
    states = {check["id"]: check["status"] for check in answer["checks"]}
    assert states["board-bolt.hard_stop"] == "marginal"


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    code = main(list(words))
    return code, capsys.readouterr().out


def picked() -> list[str]:
    return [HEAVY["item"], *(word for name, text in HEAVY.items() if name != "item" for word in (f"--{name}", text))]


def test_the_commands_say_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = str(tmp_path / "job.toml")
    code, out = run(capsys, "pick", *picked(), "--json")
    assert (code, json.loads(out)["answers"][0]["status"]) == (0, "marginal")
    assert run(capsys, "pick", *picked(), "--into-job", job, "--name", "box")[0] == 0
    code, out = run(capsys, "ready", job)
    assert code == 1
    assert "NOT READY" in out
    assert "test piece" in out
    code, out = run(capsys, "work", job)
    assert "MARGINAL, NOT PROVEN: PROVE IT FIRST" in out.upper()
    assert "NOT PROVEN at box" in out
    assert "MARGINAL at box: do not build it before a test piece holds." in out
    code, out = run(capsys, "hardware", job)
    assert code == 0
