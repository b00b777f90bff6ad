"""The proof as it is read on the screen: what is unresolved and what is tight first, the rest folded to one line."""

from fasten.model import Advice, Answer, Check, Status
from fasten.report.answer.proof import exempt, proof
from fasten.text.exceeded import percent
from fasten.text.figures import counted
from fasten.text.rounding import rounded_up

TIGHT = 0.6  # of what there is, from which a check is shown before the others


def first_checks(answer: Answer) -> tuple[Check, ...]:
    """What fails, is marginal or is not checked, then what uses over 60 %, the tightest first."""
    checks = answer.proposal.checks
    unresolved = [check for check in checks if check.status is not Status.HOLDS]
    tight = [check for check in checks if check.status is Status.HOLDS and _used(check) > TIGHT]
    return (*unresolved, *sorted(tight, key=_used, reverse=True))


def other_checks(answer: Answer) -> tuple[Check, ...]:
    """Every other check, in its order."""
    first = first_checks(answer)
    return tuple(check for check in answer.proposal.checks if check not in first)


def proof_lines(advice: Advice, answer: Answer, width: int) -> list[str]:
    """The checks that are read first, and one line on all others."""
    others = other_checks(answer)
    most = max(map(_used, others), default=0.0)
    folded = f"{counted(len(others), 'more check')}, none over {percent(float(rounded_up(most, 2)))}: at the end"
    first = first_checks(answer)
    return [*(proof(first, advice.sources, width) if first else ()), *([folded] if others else [])]


def rest_lines(advice: Advice, answer: Answer, width: int) -> list[str]:
    """All that was folded, and what no check examines."""
    others = other_checks(answer)
    return [*(proof(others, advice.sources, width) if others else ()), *exempt(answer.proposal.exempt, width)]


def _used(check: Check) -> float:
    return check.utilisation or 0.0
