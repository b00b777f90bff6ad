"""What was really built at a mount point, as text and as plain data for JSON."""

from collections.abc import Iterator
from typing import Any

from fasten.after.judge import Judged
from fasten.after.own_tests import Effect, effect_text
from fasten.after.removals import Wear
from fasten.job.after.built import AS_PLANNED, said_by, visits_text
from fasten.job.words import Mount, Visit
from fasten.model import Answer, Refusal
from fasten.report.answer.headline import parts
from fasten.report.job.as_built import less_lines
from fasten.report.plain import to_plain
from fasten.report.safe import safe
from fasten.report.wrap import wrapped
from fasten.text.figures import counted
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, torque_digits
from fasten.text.units import Dimension, write

__all__ = ["as_advised", "built_json", "built_text", "record_text"]

FORMAT = 1
_COLUMN = 10


def built_text(
    mount: Mount, verdict: Judged | None = None, worn: tuple[Wear, ...] = (), read: tuple[Effect, ...] = ()
) -> str:  # fmt: skip
    """The name of the mount point, then a line for each thing that the last visit wrote down, or that it read."""
    last = mount.visits[-1] if mount.visits else None
    said = (f"{capital(name):{_COLUMN}}{safe(text)}" for name, text in said_by(last))
    judged = (*read_lines(read), *verdict_lines(verdict), *wear_lines(worn))
    lines = [f"As built: {safe(mount.name)}", *said, *map(safe, judged)]
    return "\n".join(lines) + "\n"


def built_json(
    mount: Mount, verdict: Judged | None = None, worn: tuple[Wear, ...] = (), read: tuple[Effect, ...] = ()
) -> dict[str, Any]:  # fmt: skip
    """What is there now, and every visit, as plain data; keys are only ever added."""
    return {
        "format": FORMAT, "mount": mount.name, "built": to_plain(mount.built), "visits": to_plain(list(mount.visits)),
        "verdict": verdict_json(verdict),
        "wear": [{"part": one.part, "every": one.every, "since": one.since, "due": one.due} for one in worn],
        "tests": to_plain(list(read)),
    }  # fmt: skip


def read_lines(read: tuple[Effect, ...]) -> Iterator[str]:
    """What readings on test pieces make of the figures of a joint, a line each."""
    return (f"{capital(effect_text(one))}." for one in read)


def verdict_lines(verdict: Judged | None) -> Iterator[str]:
    """The verdict in a line, and a line for each thing it needs, each that is to be done, and each that is less."""
    if verdict is None:
        return
    yield f"Verdict: {verdict.verdict}"
    yield from (f"  needs {need}" for need in verdict.needs)
    yield from (f"  {what}" for what in verdict.do)
    yield from (f"  {text}" for text in less_lines(verdict.less))


def wear_lines(worn: tuple[Wear, ...]) -> Iterator[str]:
    """What the next visit renews, a line each."""
    for wear in worn:
        if wear.due and wear.every > 1:
            count = counted(wear.since, "removal")
            yield f"Renew at the next removal: {wear.part}, every {wear.every}; {count} since it was new"


def verdict_json(verdict: Judged | None) -> dict[str, Any] | None:
    """The verdict as plain data, with every check of the joint as it was built; keys are only ever added."""
    if verdict is None:
        return None
    proved = verdict.proved
    return {
        "verdict": str(verdict.verdict), "needs": list(verdict.needs), "do": list(verdict.do),
        "less": to_plain(list(verdict.less)), "figures": to_plain(list(verdict.figures)),
        "torque": None if isinstance(proved, Refusal) else to_plain(proved.torque),
        "checks": [] if isinstance(proved, Refusal) else to_plain(list(proved.checks)),
    }  # fmt: skip


def record_text(mount: Mount, width: int, verdict: Judged | None = None) -> str:
    """Every visit, the newest last, in lines of at most `width` columns, and that they stay."""
    lines = [line for visit in mount.visits for line in (*_visit_lines(visit, width), "")]
    judged = [line for text in verdict_lines(verdict) for line in wrapped(text, width)]
    return "\n".join([*lines, *judged, "", *wrapped(f"{visits_text(mount)}.", width)])


def _visit_lines(visit: Visit, width: int) -> Iterator[str]:
    for name, text in said_by(visit):
        yield from wrapped(text, width, first=f"{capital(name):{_COLUMN}}", rest=" " * _COLUMN)


def as_advised(answer: Answer | None) -> dict[str, str]:
    """What an answer says, in the fields of a record, each as it may be read back; nothing where there is none."""
    if answer is None:
        return {}
    hole, torque = answer.proposal.joint.hole, answer.proposal.torque
    return {
        "hole": "" if hole is None else write(hole.diameter_mm, Dimension.LENGTH),
        "hardware": dict(parts(answer)).get("Screw", AS_PLANNED),
        "torque": "" if torque is None else f"{rounded_down(torque.target_nm, torque_digits(torque))} N·m",
    }
