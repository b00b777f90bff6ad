"""What must be found out of an existing thread: how deep or long it is, and what it was made for."""

from fasten.catalog.rows import METRIC_THREADS
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import PANEL, receiver_of, screw_of
from fasten.model import Asks, Check, Input, Joint, MountPoint
from fasten.proof.checks import at_most, unknown
from fasten.text.rounding import up


def checks(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """How deep or long it is: it cannot be known from outside, and no figure of ours stands in for it."""
    if joint.screw is None:
        return (_stud(joint, mount, tables),)
    behind = () if mount.behind_mm is None else (_behind(joint, mount.behind_mm),)
    return _depth(joint), *behind


def _over(joint: Joint) -> Input:
    """All that lies between the head or nut and the panel."""
    over_mm = sum(layer.thickness_mm for layer in joint.layers if layer.role not in PANEL)
    return Input("what lies on the panel", over_mm, "mm")


def _depth(joint: Joint) -> Check:
    over, screw = _over(joint), Input("screw", screw_of(joint).length_mm, "mm")
    deep_mm = screw.value - over.value
    needs = f"needs a thread that lets the screw {up(deep_mm)} in, past the panel's face"
    formula = "screw - what lies on the panel <= depth of the thread"
    return unknown("thread-depth", "Depth of the thread", deep_mm, needs, (screw, over), formula, joint.from_,
                   Asks.EXISTING_HOLE)  # fmt: skip


def _behind(joint: Joint, given_mm: float) -> Check:
    """Where the space behind is given; where it is not, the depth of the thread is already an open check."""
    inputs = (Input("needed when done", joint.behind_done_mm, "mm"), Input("space behind", given_mm, "mm"))
    return at_most("space-behind", "Space behind", joint.behind_done_mm, given_mm, "mm", inputs,
                   "needed <= space behind", joint.from_)  # fmt: skip


def _stud(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    stud = receiver_of(joint)
    thread = tables.need(METRIC_THREADS, stud.thread)
    past, source = rule_value(tables, Rules.PROTRUSION_PITCHES)
    over, nut = _over(joint), Input("nut", stud.length_mm, "mm")
    inputs: tuple[Input, ...] = (over, nut, Input("past the nut", past, "pitch"), Input("pitch", thread.pitch_mm, "mm"))
    long_mm = over.value + nut.value + past * thread.pitch_mm
    needs = f"needs a stud that stands out {up(long_mm)}"
    formula, sources = "what lies on the panel + nut + past it <= stud", (source, *joint.from_)
    there_mm = None if mount.existing_thread is None else mount.existing_thread.length_mm
    if there_mm is not None:
        inputs = (*inputs, Input("stud", there_mm, "mm"))
        return at_most("stud-length", "Length of the stud", long_mm, there_mm, "mm", inputs, formula, sources)
    return unknown("stud-length", "Length of the stud", long_mm, needs, inputs, formula, sources, Asks.EXISTING_HOLE)
