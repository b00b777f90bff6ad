"""Figures of the user's own test pieces: of exactly this hardware, sheet and hole, by the statistics of few readings.

They take the place of a tabled figure where three or more agree; else they may lower it, never raise it.
"""

from fasten.catalog.named import material
from fasten.catalog.practice import RULES
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.lines import tested_line
from fasten.mechanics import test_pieces
from fasten.model import Input, Joint, MountPoint, OwnTest, Read
from fasten.model.known import Stated
from fasten.model.tested import OWN_TEST
from fasten.proof.modes.capacity import Capacity, Needed
from fasten.record import record, replace

SAME_MM = 0.005  # two sheets or holes are one, written with two decimals
PULLED_OUT = "readings of own test pieces: m exp(-t s sqrt(1 + 1/n)) / (1 + e)"
AS_MEAN = " exp(1.645 s')"


@record
class Tested:
    """What readings of one kind come to: `count` of them, what stands in for a tabled mean, and for a least figure.

    `counts` says that they take the place of a figure whatever it is; else they may only lower it. `mean` is their
    geometric mean, `over` what one in twenty goes over, `all_within` that all are near their mean.
    """

    count: int
    readings: tuple[float, ...]
    all_within: bool
    counts: bool
    mean: float
    as_mean: float
    as_least: float
    over: float
    inputs: tuple[Input, ...]
    from_: tuple[str, ...]

    def instead(self, tabled: float | None, of: Stated) -> float | None:
        """The figure that counts instead of a tabled one; None where that stays, or there is none and none counts."""
        found = self.figure(of)
        if self.counts:
            return found
        return found if tabled is not None and found < tabled else None

    def figure(self, of: Stated) -> float:
        """What they come to where the tabled figure is a mean, or the least of what was found."""
        return self.as_mean if of is Stated.MEAN else self.as_least


def found(read: Read, joint: Joint, mount: MountPoint, tables: Tables) -> Tested | None:
    """What the readings of a kind come to that are of this joint; None where there are none."""
    mine = tuple(test for test in mount.tests if test.read is read and is_of(test, joint, mount))
    return tested(read, mine, mount.material, tables) if mine else None


def is_of(test: OwnTest, joint: Joint, mount: MountPoint) -> bool:
    """Whether a test is of exactly this hardware, sheet and hole, in the face or the edge as it is: that holds less."""
    line, hole = tested_line(joint), joint.hole
    if line is None or hole is None or test.part != line.text or test.material != mount.material:
        return False
    if test.into is not mount.into:
        return False
    least_mm, most_mm = hole.diameter_mm - hole.tolerance_mm.minus, hole.diameter_mm + hole.tolerance_mm.plus
    within = least_mm - SAME_MM <= test.hole_mm <= most_mm + SAME_MM
    return within and -SAME_MM <= test.sheet_mm - joint.sheet_mm <= SAME_MM


def tested(read: Read, tests: tuple[OwnTest, ...], name: str, tables: Tables) -> Tested:
    """What tests of one thing come to, all their readings together; `name` is the material they were made in."""
    readings = tuple(reading for test in tests for reading in test.readings)
    error = max(test.error for test in tests)
    sheet = material(tables, name).family == "sheet"
    scatter, worth, within, least = (
        rule(tables, one) for one in (
            Rules.TEST_SCATTER_METAL if sheet else Rules.TEST_SCATTER_OTHERS, Rules.TEST_PRIOR_READINGS,
            Rules.TEST_WITHIN, Rules.TEST_LEAST,
        )
    )  # fmt: skip
    count, middle = len(readings), sum(readings) / len(readings)
    mean = test_pieces.log_mean(readings=readings)
    deviation = test_pieces.log_deviation(readings=readings, prior=scatter.value, prior_readings=worth.value)
    student = test_pieces.student_quantile(over=test_pieces.ONE_IN_TWENTY, freedom=round(worth.value) + count - 1)
    low = test_pieces.characteristic(mean=mean, deviation=deviation, student=student, count=count, error=error)
    all_within = max(max(readings) / middle - 1, 1 - min(readings) / middle) <= within.value + 1e-9
    inputs = (
        Input("geometric mean of own tests", mean, _UNITS[read]), Input("own tests", float(count), "-"),
        Input("deviation of their logarithms", deviation, "-"), Input("t at 95 %", student, "-"),
        Input("instrument error", error, "-"), Input("scatter that the factor holds", scatter.value, "-"),
    )  # fmt: skip
    from_ = (source_id(read, count, max(test.date for test in tests)), tables.source_id(RULES, scatter))
    return Tested(
        count, readings, all_within, all_within and count >= least.value, mean,
        test_pieces.mean_equivalent(characteristic=low, prior=scatter.value), low,
        test_pieces.upper_characteristic(mean=mean, deviation=deviation, student=student, count=count), inputs, from_,
    )  # fmt: skip


_UNITS = dict.fromkeys(Read, "N·m") | {Read.PULL_OUT: "N", Read.KEPT: "-"}


def source_id(read: Read, count: int, day: str) -> str:
    """The id under which answers cite readings of the user's own."""
    return f"{OWN_TEST}:{read}/{count}/{day}"


def formula(of: Stated) -> str:
    """How a figure follows from its readings."""
    return f"{PULLED_OUT}{AS_MEAN if of is Stated.MEAN else ''}"


def pulled(
    capacity: Capacity | Needed, of: Stated, joint: Joint, mount: MountPoint, tables: Tables
) -> Capacity | Needed:  # fmt: skip
    """What the substrate bears, by what own test pieces were pulled out at; what they do not show is taken off."""
    read = found(Read.PULL_OUT, joint, mount, tables) if of is not Stated.LIMIT else None
    if read is None:
        return capacity
    if isinstance(capacity, Needed):
        load_n = read.instead(None, of)
        return capacity if load_n is None else Capacity(load_n, read.inputs, formula(of), read.from_)
    share = 1.0
    for kept in capacity.kept:
        share *= kept.value
    load_n = read.instead(capacity.load_n / share, of)
    if load_n is None:
        return capacity
    shown = f"{formula(of)}{' x share kept' if capacity.kept else ''}"
    own = Capacity(load_n * share, (*read.inputs, *capacity.kept), shown, read.from_)
    return replace(own, from_=(*own.from_, *(capacity.from_ if capacity.kept else ())))


def is_own(capacity: Capacity) -> bool:
    """Whether a capacity rests on own test pieces."""
    return any(source.startswith(OWN_TEST) for source in capacity.from_)
