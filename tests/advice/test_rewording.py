"""No code reads the words of a step, tool, consumable or caution: all of them may say something else."""

from collections.abc import Sequence

import pytest
from built.few import sample
from built.rewording import Reworded

from fasten.advice.advise import METHODS, advise
from fasten.catalog.tables import builtin
from fasten.model import Advice, Answer, MountPoint

from .asked import answered

TABLES = Reworded()
Work = tuple[object, ...]


def work(answer: Answer) -> Work:
    """What an answer is without its words: joint, proof, score, and the keys and order of its work."""
    proposal = answer.proposal
    return (
        answer.method, proposal.joint, proposal.proven, proposal.checks, proposal.torque, proposal.removals.renewed,
        answer.score.total, [(step.phase, step.step) for step in answer.steps],
        [(tool.key, tool.size_mm) for tool in answer.tools], [need.key for need in answer.consumables],
        [caution.for_all for caution in answer.cautions],
    )  # fmt: skip


def without_words(advice: Advice) -> tuple[list[Work], list[Work]]:
    refused: list[Work] = [(entry.method, entry.check, entry.figures, entry.cure) for entry in advice.refusals]
    return [work(answer) for answer in advice.answers], refused


def texts(advice: Advice) -> list[str]:
    return [
        one.text
        for answer in advice.answers
        for part in (answer.steps, answer.tools, answer.consumables, answer.cautions)
        for one in part
    ]


def check(mounts: Sequence[MountPoint]) -> set[str]:
    """The methods that answer these; all the same whatever the tables say in words."""
    for mount in mounts:
        said, other = (advise(mount, tables, changes=False) for tables in (builtin(), TABLES))
        assert without_words(other) == without_words(said)
        assert all("Quite otherwise" in text or text in bonds(said) for text in texts(other))
    return {answer.method for mount in mounts for answer in advise(mount, builtin(), changes=False).answers}


def bonds(advice: Advice) -> set[str]:
    """Adhesives go by their name in their own table, where tools have none of it."""
    patches = (answer.proposal.joint.patch for answer in advice.answers)
    return {patch.bond for patch in patches if patch is not None and patch.bond is not None}


def every_method() -> list[MountPoint]:
    """A few questions that every method answers one of."""
    chosen: list[MountPoint] = []
    left = {method.NAME for method in METHODS}
    for _, mount, answers in answered():
        if found := left & {answer.method for answer in answers}:
            chosen.append(mount)
            left -= found
    assert not left, f"no question of tests/advice/asked.py ends in {', '.join(left)}"
    return chosen


@pytest.mark.slow
def test_other_words_give_the_same_order_tools_and_verdict_for_every_method() -> None:
    assert check(every_method()) == {method.NAME for method in METHODS}


@pytest.mark.slow
def test_other_words_give_the_same_for_every_question() -> None:
    check(sample([mount for _, mount, _ in answered()], 30))
