"""The verdict on an answer: whether it holds, and what to say of it first."""

from collections.abc import Sequence
from functools import partial

from fasten.job.choices import Choice
from fasten.job.preset import PROPOSED
from fasten.model import Advice, Answer, Check, Status
from fasten.model.check import needed
from fasten.record import record
from fasten.report.answer.headline import standing
from fasten.text.exceeded import exceeded, percent
from fasten.text.figures import counted
from fasten.tui.drawn.reasons import Reason


@record
class Verdict:
    """Whether it stands, its words, the reasons most wanted first, and its role where it does not stand.

    `rows` are the reasons of a box, each a row of its own.
    """

    stands: bool
    words: str
    reasons: tuple[str, ...]
    role: str = "open"
    rows: tuple[Reason, ...] = ()


def verdict_of(advice: Advice, asked: Sequence[str] = ()) -> Verdict:
    """On the first answer, or that there is none; what it needs in the order in which that is `asked`."""
    if not advice.answers:
        return Verdict(False, "NO FIT", _nearest(advice), "bad")
    answer = advice.answers[0]
    checks = answer.proposal.checks
    failing = tuple(exceeded(check) for check in checks if check.status is Status.FAILS)
    if failing:
        return Verdict(False, "DOES NOT HOLD", failing, "bad")
    if not answer.proposal.proven:
        first, *more = needed(tuple(sorted(checks, key=partial(_turn, asked)))) or ("",)
        return Verdict(False, standing(answer), (*((f"needs {first}",) if first else ()), *more))
    return Verdict(True, "HOLDS", (*_tightest(answer), counted(len(checks), "check")))


def verdict_of_choice(choice: Choice) -> Verdict:
    """On what a mount point of a job gets."""
    plan, answer = choice.plan, choice.answer
    if plan is None or answer is None:
        return Verdict(False, "NO FIT", (), "bad")
    if plan.failing:
        return Verdict(False, "DOES NOT HOLD", plan.failing, "bad")
    if not plan.proven:
        first, *more = plan.unresolved or ("something is not checked",)
        words = standing(answer) if not answer.proposal.proven else "NOT PROVEN"
        return Verdict(False, words, (f"needs {first}", *more))
    return Verdict(True, "HOLDS", _tightest(answer))


def _nearest(advice: Advice) -> tuple[str, ...]:
    """What would make the first that can be cured fit, and how many were tried."""
    cures = [f"would fit with {refusal.change}" for refusal in advice.refusals if refusal.change]
    return (*cures[:1], f"{counted(len(advice.refusals), 'method')} tried")


def _turn(asked: Sequence[str], check: Check) -> int:
    """When what settles a check is asked for: first whether what is proposed is so, last what is not asked for."""
    if check.id == PROPOSED:
        return -1
    return asked.index(check.asks.value) if check.asks is not None and check.asks.value in asked else len(asked)


def _tightest(answer: Answer) -> tuple[str, ...]:
    """The check that uses most of what there is."""
    used = [check for check in answer.proposal.checks if check.utilisation is not None]
    if not used:
        return ()
    tightest = max(used, key=lambda check: check.utilisation or 0.0)
    return (f"tightest {percent(tightest.utilisation or 0.0)}, {_lowered(tightest)}",)


def _lowered(check: Check) -> str:
    """Its title within a sentence, where its first word is no name in capitals."""
    title = check.title
    return title[:1].lower() + title[1:] if title[1:2].islower() or title[1:2] == " " else title
