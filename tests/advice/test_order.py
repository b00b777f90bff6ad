"""What holds is first, then what must still be found out; what only the question leaves open counts as holding."""

from dataclasses import replace
from functools import cache

from fasten.advice.advise import advise
from fasten.advice.ranking import POOR
from fasten.catalog.tables import builtin
from fasten.model import Advice, Asks, Check, Proposal, Status
from fasten.model.check import needed
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
TRIM = {"item": "trim-panel", "onto": "steel 0.8 mm", "removed": "rarely", "mass": "0.5 kg"}
AMPLIFIER = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "6 kg", "reach": "one-side"}
KNOWN = {"behind": "40 mm", "edge": "40 mm", "support": "firm"}


@cache
def _asked(said: tuple[tuple[str, str], ...]) -> Advice:
    return advise(resolve(read_question(dict(said), TABLES), TABLES), TABLES, changes=False)


def asked(**said: str) -> Advice:
    return _asked(tuple(said.items()))


def waits(proposal: Proposal) -> list[Check]:
    return [check for check in proposal.checks if check.status is Status.NOT_CHECKED]


def test_what_a_box_must_tell_comes_after_what_holds() -> None:
    answers = asked(**TRIM, **KNOWN).answers
    rated = next(each.rank for each in answers if any(check.id == "rated-pull" for check in waits(each.proposal)))
    good = [each for each in answers if not any(part.name in POOR for part in each.score.parts)]
    assert answers[0].proposal.proven
    assert all(each.proposal.proven or waits(each.proposal)[0].asks is None for each in answers)
    assert rated > max(each.rank for each in good if each.proposal.proven)


def test_what_the_question_leaves_open_changes_no_order() -> None:
    """The measured panel, space and edge settle the checks of every answer alike: the order is the same before."""
    bare, known = asked(**AMPLIFIER), asked(**AMPLIFIER, **KNOWN)
    assert not bare.answers[0].proposal.proven
    assert known.answers[0].proposal.proven
    assert [each.title for each in bare.answers] == [each.title for each in known.answers]


def test_each_open_check_says_what_of_the_question_settles_it() -> None:
    proposal = asked(**AMPLIFIER).answers[0].proposal
    assert {check.id: check.asks for check in waits(proposal)} == {
        "panel-stiffness": Asks.SUPPORT, "space-behind": Asks.BEHIND, "edge-distance": Asks.EDGE,
    }  # fmt: skip


def test_what_settles_several_checks_is_asked_for_once() -> None:
    [edge] = [check for check in waits(asked(**AMPLIFIER).answers[0].proposal) if check.asks is Asks.EDGE]
    assert needed((edge, replace(edge, id="corner-distance"))) == (edge.needs.removeprefix("needs "),)  # type: ignore[union-attr]


def test_a_bond_that_holds_is_still_the_last_resort() -> None:
    """Expanding nuts of unknown rating before foam tape, on plastic that gets hot: common practice, no source."""
    first = asked(item="crossover", onto="abs 3 mm", removed="rarely", edge="40 mm").answers[0].proposal
    assert first.method != "adhesive"
    assert not first.proven
