"""Test pieces of the user's own at a mount point: what was read of its joint, and what that makes of its figures."""

import re
from collections.abc import Mapping

from fasten.advice.advise import method_by
from fasten.after.measured import field_name, read_readings, read_sizes
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.lines import tested_line
from fasten.mechanics import test_pieces
from fasten.model import Joint, MountPoint, OwnTest, Read, Refusal, Subject
from fasten.model.kinds import Body
from fasten.model.known import Stated
from fasten.proof.demands import demands
from fasten.proof.modes import tested
from fasten.proof.modes.capacity import Capacity, Needed
from fasten.proof.modes.tested import Tested
from fasten.proof.prove import prove
from fasten.proof.torque.forming import FORMING
from fasten.proof.torque.limits import body_turns
from fasten.proof.torque.tightening import tool_error
from fasten.record import record, replace
from fasten.text.figures import with_unit
from fasten.text.units import number

RETORQUE, TORQUE = "retorque", "torque"
_READS = {Read.SPIN_OUT: "spin_out", Read.PULL_OUT: "pull_out", Read.DRIVE: "drive", Read.STRIP: "strip"}
_SAME = re.compile(r"(?:the )?same\b", re.IGNORECASE)
_PEAK = re.compile(r"\b(?:with|holds(?: its)?) peak\b", re.IGNORECASE)


@record
class Effect:
    """What readings make of a figure: as it was by the tables, as it is with them, and with one more like them.

    None where there is no such figure. `counts` says that they take its place; `why` says why not, or that they do.
    """

    read: Read
    what: str
    unit: str
    count: int
    before: float | None
    after: float | None
    one_more: float | None
    counts: bool
    why: str


# -- what was read ----------------------------------------------------------------------------------------------------


def read_tests(
    said: Mapping[str, str], joint: Joint, sheet_mm: float, hole_mm: float, mount: MountPoint, date: str,
    tables: Tables,
) -> tuple[OwnTest, ...]:  # fmt: skip
    """The test pieces of a visit, of exactly this joint, sheet and hole; FastenError where a field cannot be read."""
    line = tested_line(joint)
    if line is None:
        return ()
    tool, found = said.get("tool", "").strip(), list[OwnTest]()
    for read, name in _READS.items():
        if text := said.get(name, "").strip():
            readings = read_readings(text, name)
            error = error_of(read, tool, max(readings), tables)
            found.append(OwnTest(read, line.text, mount.material, sheet_mm, hole_mm, readings, error, tool, date,
                                 mount.into))  # fmt: skip
    if (kept := _kept(said)) is not None:
        found.append(OwnTest(Read.KEPT, line.text, mount.material, sheet_mm, hole_mm, kept, 0.0, tool, date,
                             mount.into))  # fmt: skip
    return tuple(found)


def _kept(said: Mapping[str, str]) -> tuple[float, ...] | None:
    """The share of its torque that each screw still moved at when it was tightened again; the rest is no loss."""
    if not said.get(RETORQUE, "").strip() or not said.get(TORQUE, "").strip():
        return None
    again, first = read_sizes(said[RETORQUE], RETORQUE), read_sizes(said[TORQUE], TORQUE)
    pairs = zip(again, first, strict=True) if len(again) == len(first) else ((one, max(first)) for one in again)
    return tuple(min(moved / was, 1.0) for moved, was in pairs)


def error_of(read: Read, tool: str, greatest: float, tables: Tables) -> float:
    """What a tool may be off by: nothing of a torque where the same sets the fixing; of a pull, that of its scale."""
    if read is Read.PULL_OUT:
        return rule(tables, Rules.TEST_SCALE_PEAK if _PEAK.search(tool) else Rules.TEST_SCALE).value
    return 0.0 if _SAME.match(tool) else tool_error(greatest, tables).value


def check_readings(said: Mapping[str, str], joint: Joint, title: str, mount: MountPoint, tables: Tables) -> None:
    """Raises FastenError where a joint has nothing of which this could be read."""
    for read, name in _READS.items():
        if said.get(name, "").strip() and (why := _cannot(read, joint, mount, tables)):
            raise FastenError(f"{title} has no {field_name(name)}: {why}", where=field_name(name),
                              fix=f"what can be read of it: {_can(joint, mount, tables)}")  # fmt: skip
    if said.get(RETORQUE, "").strip() and not said.get(TORQUE, "").strip():
        what = "what it was tightened to is not known, so what it kept is not either"
        raise FastenError(what, where=RETORQUE, fix="give --torque as well")


def read_first(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[str, ...]:
    """The fields in which a joint's test pieces are read first: what turns it, what drives and strips it, or a pull."""
    for reads in ((Read.SPIN_OUT,), (Read.DRIVE, Read.STRIP), (Read.PULL_OUT,)):
        if not any(_cannot(read, joint, mount, tables) for read in reads):
            return tuple(_READS[read] for read in reads)
    return ()


def readable(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[str, ...]:
    """The fields in which anything can be read on test pieces of a joint."""
    return tuple(name for read, name in _READS.items() if not _cannot(read, joint, mount, tables))


def _can(joint: Joint, mount: MountPoint, tables: Tables) -> str:
    names = map(field_name, readable(joint, mount, tables))
    return ", ".join(names) or "nothing but what a nut was held at"


def _cannot(read: Read, joint: Joint, mount: MountPoint, tables: Tables) -> str:
    """Why this cannot be read of a joint; empty where it can."""
    if tested_line(joint) is None or joint.hole is None:
        return "it holds by its face"
    if read is Read.SPIN_OUT:
        turns = joint.receiver is not None and joint.receiver.kind.body is Body.TURNS
        return "" if turns else "nothing of it can turn in its hole"
    if read is Read.PULL_OUT:
        return "" if _pulled(joint, mount, tables) else "what lets go first is not the substrate that it is set in"
    forms = joint.screw is not None and joint.screw.kind.thread in FORMING
    return "" if forms else "its screw forms no thread"


def check_outlier(tests: tuple[OwnTest, ...], tables: Tables) -> None:
    """Raises FastenError where one of four readings or more stands so far apart that it may be a slip."""
    least, within = rule(tables, Rules.TEST_OUTLIER_FROM), rule(tables, Rules.TEST_WITHIN)
    for test in tests:
        readings = test.readings
        if test.read not in _READS or len(readings) < least.value or is_near(readings, within.value):
            continue
        if test_pieces.outlier_ratio(readings=readings) > test_pieces.outlier_limit(count=len(readings)):
            middle = sum(readings) / len(readings)
            worst = max(readings, key=lambda one: max(one - middle, middle - one))
            what = f"{number(worst, 2)} {unit_of(test.read)} stands apart from the other readings, which may be a slip"
            raise FastenError(what, where=test.read.value, fix="correct it, or add --sure to keep it as it is")


def is_near(readings: tuple[float, ...], share: float) -> bool:
    """Whether all are as near their mean."""
    middle = sum(readings) / len(readings)
    return max(max(readings) / middle - 1, 1 - min(readings) / middle) <= share + 1e-9


def unit_of(read: Read) -> str:
    """The unit of what was read."""
    return "-" if read is Read.KEPT else "N" if read is Read.PULL_OUT else "N·m"


# -- what it comes to -------------------------------------------------------------------------------------------------


def effects(joint: Joint, mount: MountPoint, own: tuple[OwnTest, ...], tables: Tables) -> tuple[Effect, ...]:
    """What these tests make of the figures of a joint, beside what its mount point knew before."""
    there = replace(mount, tests=joined(mount.tests, own))
    found = list[Effect]()
    for read in dict.fromkeys(test.read for test in own):
        result = tested.found(read, joint, there, tables)
        if result is None:
            continue
        what, before = _figure(read, joint, replace(mount, tests=()), tables)
        _, after = _figure(read, joint, there, tables)
        _, one_more = _figure(read, joint, _with_one_more(there, read, result, own), tables)
        found.append(Effect(read, what, unit_of(read), result.count, before, after, one_more, result.counts,
                            _why(read, result, before, after, tables)))  # fmt: skip
    return tuple(found)


def joined(known: tuple[OwnTest, ...], more: tuple[OwnTest, ...]) -> tuple[OwnTest, ...]:
    """Tests together with others, each once."""
    return tuple(dict.fromkeys((*known, *more)))


def target_nm(joint: Joint, mount: MountPoint, tables: Tables) -> float | None:
    """The torque that a joint is set to, by its proof at a mount point; None where there is none."""
    proof = prove(joint, mount, method_by(joint), demands(mount, tables), tables)
    return None if isinstance(proof, Refusal) or proof.torque is None else proof.torque.target_nm


def _with_one_more(mount: MountPoint, read: Read, result: Tested, own: tuple[OwnTest, ...]) -> MountPoint:
    """The mount point as it would be with one more reading like those that there are."""
    like = next(test for test in own if test.read is read)
    one = replace(like, readings=(result.mean,), date=like.date)
    return replace(mount, tests=(*mount.tests, one))


def _why(read: Read, result: Tested, before: float | None, after: float | None, tables: Tables) -> str:
    least, within = (rule(tables, name).value for name in (Rules.TEST_LEAST, Rules.TEST_WITHIN))
    if read is Read.KEPT:
        return "what it keeps may be less than planned with, never more"
    if result.counts:
        return f"{result.count} that agree within {number(within * 100, 0)} % take its place"
    few = f"{result.count} of the {number(least, 0)} it takes" if result.count < least else (
        f"not all are within {number(within * 100, 0)} % of their mean"
    )  # fmt: skip
    lower = before is not None and after is not None and after < before
    return f"{few}: they lower it" if lower else f"{few}: they may lower it, never raise it"


def _figure(read: Read, joint: Joint, mount: MountPoint, tables: Tables) -> tuple[str, float | None]:
    """What a reading is of, and that figure at a mount point as it counts."""
    if read is Read.SPIN_OUT:
        turns = body_turns(joint, mount, tables)
        return "torque that turns the body", turns.torque_nm if turns else None
    if read is Read.PULL_OUT:
        held = [one.load_n for one in _pulled(joint, mount, tables) if isinstance(one, Capacity)]
        return "pull that it bears", min(held, default=None)
    if read is Read.KEPT:
        return "share of the clamp that stays", _least_kept(joint, mount, tables)
    return "torque to set", target_nm(joint, mount, tables)


def _least_kept(joint: Joint, mount: MountPoint, tables: Tables) -> float | None:
    proof = prove(joint, mount, method_by(joint), demands(mount, tables), tables)
    checks = () if isinstance(proof, Refusal) else proof.checks
    found = (one.value for check in checks for one in check.inputs if one.name == "preload kept")
    return next(found, None)


def _pulled(joint: Joint, mount: MountPoint, tables: Tables) -> list[Capacity | Needed]:
    """What the substrate bears a pull by, in each way that a test pull shows."""
    return [
        mode.found(joint, mount, tables) for mode in method_by(joint).modes(mount, tables)
        if mode.applies(joint) and Subject.SUBSTRATE_TENSION in mode.subjects and mode.family.of is not Stated.LIMIT
    ]  # fmt: skip


def effect_text(effect: Effect) -> str:
    """What readings make of a figure, in a sentence without its end."""
    was, now, more = (_shown(value, effect.unit) for value in (effect.before, effect.after, effect.one_more))
    head = f"{effect.read.value}, n = {effect.count}: {effect.what} {was} by the tables"
    if effect.before is not None and effect.after is None:
        return f"{head}, so little with your readings that this joint does not do; {effect.why}"
    return f"{head}, {now} with your readings; {effect.why}; one more like these would make it {more}"


def _shown(value: float | None, unit: str) -> str:
    if value is None:
        return "not known"
    return with_unit(value, "" if unit == "-" else unit)


def out_of_reach(tests: tuple[OwnTest, ...], joint: Joint, point: MountPoint) -> bool:
    """Whether a joint is of the part that was tested, and none of the tests is of its sheet and hole."""
    line = tested_line(joint)
    alike = [one for one in tests if line is not None and one.part == line.text and one.material == point.material]
    return bool(alike) and not any(tested.is_of(one, joint, point) for one in alike)
