"""Invented but plausible advice for the report's tests. Nobody's figures: do not build from them."""

from dataclasses import replace

from fasten.model import (
    Advice,
    Answer,
    Between,
    Caution,
    Check,
    Figure,
    Input,
    Need,
    Phase,
    Proposal,
    Reach,
    Refusal,
    Removals,
    Score,
    ScorePart,
    SourceNote,
    Span,
    Status,
    Torque,
    WorkStep,
)

from .sample_joints import (
    MOUNT,
    RIVET_NUT_JOINT,
    THROUGH_BOLT_JOINT,
)

SPIN_OUT = Check(
    id="spin_out",
    title="Receiver turning in the sheet",
    status=Status.HOLDS,
    demand=1.9,
    allowable=2.21,
    unit="N·m",
    utilisation=1.9 / 2.21,
    factor=1.0 / 0.65,
    load_case=None,
    inputs=(Input("spin_out_nm", 3.4, "N·m"), Input("share", 0.65, "-")),
    formula="target torque <= 0.65 x spin-out",
    from_=("sample-memory", "sample-standard"),
)
SLIP = Check(
    id="slip",
    title="Slip under the item",
    status=Status.HOLDS,
    demand=62.3456789,
    allowable=250.0,
    unit="N",
    utilisation=62.3456789 / 250.0,
    factor=1.5,
    load_case="service",
    inputs=(Input("friction", 0.15, "-"),),
    formula="V <= mu n F",
    from_=("sample-standard",),
)
PULL_THROUGH = Check(
    id="pull_through",
    title="Bulge pulled through the sheet",
    status=Status.FAILS,
    demand=2400.0,
    allowable=1658.88,
    unit="N",
    utilisation=2400.0 / 1658.88,
    factor=1.25,
    load_case="hard_stop",
    inputs=(Input("bulge_mm", 9.6, "mm"),),
    formula="dw t fu / 1.25",
    from_=("sample-handbook", "sample-practice"),
)
SPACE_BEHIND = Check(
    id="space_behind",
    title="Space behind",
    status=Status.NOT_CHECKED,
    demand=15.2,
    allowable=None,
    unit="mm",
    utilisation=None,
    factor=None,
    load_case=None,
    inputs=(),
    formula="needed <= available",
    from_=(),
    needs="needs 15.2 mm behind",
)
EDGE = replace(
    SPACE_BEHIND, id="edge", title="Distance to an edge", demand=14.2, needs="needs 14.2 mm to the nearest edge"
)

TORQUE = Torque(
    target_nm=1.9,
    min_nm=1.2,
    max_nm=2.21,
    target_inlbf=16.816418,
    limited_by="spin-out",
    nut_factor=Span(0.13, 0.27),
    tool="torque screwdriver",
    from_=("sample-memory",),
    past_driving=False,
)


def caution(text: str) -> tuple[Caution, ...]:
    return (Caution(text, text, False),)


def needs(*names: str) -> tuple[Need, ...]:
    return tuple(Need(name, name) for name in names)


RIVET_NUT_ANSWER = Answer(
    rank=1,
    method="rivet_nut",
    title="Rivet nut M5, round body, in 0.8 mm steel",
    proposal=Proposal(
        method="rivet_nut",
        joint=RIVET_NUT_JOINT,
        proven=True,
        checks=(SPIN_OUT, SLIP),
        torque=TORQUE,
        removals=Removals(10, 20, ("spring washer every removal",)),
        exempt=(),
        last_resort=False,
        ground=None,
    ),
    score=Score(
        12.5, (ScorePart("removals", 0.0, "rated for 20, wanted 10"), ScorePart("tools", 12.5, "setting tool"))
    ),
    steps=(
        WorkStep(Phase.LOOK, 1, "Look behind the panel: wiring, fuel and brake lines, tanks.", "rivet_nut/look/1"),
        WorkStep(Phase.MARK, 1, "Mark from the item, centre punch, drill 3 mm, then 7.1 mm.", "rivet_nut/mark/1"),
        WorkStep(
            Phase.DEBURR,
            1,
            "Deburr, paint the bare edge, set one rivet nut in a test piece of the same sheet.",
            "rivet_nut/deburr/1",
        ),
    ),
    tools=needs("drill", "7.1 mm bit", "setting tool M5", "torque screwdriver"),
    consumables=needs("primer for bare edges", "medium-strength threadlocker"),
    cautions=caution(
        "A round body turns in thin sheet: stay under 2.2 N·m and never use a prevailing-torque nut on it."
    ),
)

THROUGH_BOLT_ANSWER = Answer(
    rank=2,
    method="through_bolt",
    title="Through bolt M8 with large washers",
    proposal=Proposal(
        method="through_bolt",
        joint=THROUGH_BOLT_JOINT,
        proven=True,
        checks=(replace(SLIP, demand=150.0, utilisation=0.6), PULL_THROUGH),
        torque=None,
        removals=Removals(10, 5, ("nut after 5 removals",)),
        exempt=(),
        last_resort=False,
        ground=None,
    ),
    score=Score(20.0, ()),
    steps=(WorkStep(Phase.OPEN_UP, 1, "Clamp the board in place and drill both in one go.", "through_bolt/open_up/1"),),
    tools=needs("two 13 mm spanners"),
    consumables=(),
    cautions=caution("MDF creeps: tighten again after a week."),
)

UNPROVEN_ANSWER = replace(
    RIVET_NUT_ANSWER,
    proposal=replace(RIVET_NUT_ANSWER.proposal, proven=False, checks=(SPIN_OUT, SPACE_BEHIND, SLIP, EDGE)),
)

REFUSALS = (
    Refusal(
        method="tapping_screw",
        because="0.8 mm steel is thinner than one pitch, 1.41 mm, and it comes off yearly",
        figures=(Figure("thickness", 0.8, "mm"), Figure("pitch", 1.41, "mm")),
        change=None,
    ),
    Refusal(
        method="through_bolt",
        because="one side can be reached, both are needed",
        figures=(),
        change="reach behind, or cut an access hole",
    ),
)

SOURCES = (
    SourceNote("sample-memory", "from memory", "Sample rivet nuts, invented"),
    SourceNote("sample-standard", "standard", "Sample standard, invented"),
    SourceNote("sample-handbook", "handbook", "Sample handbook, invented"),
    SourceNote("sample-practice", "common practice", "Sample practice, invented"),
)

PROVEN = Advice(MOUNT, (RIVET_NUT_ANSWER, THROUGH_BOLT_ANSWER), REFUSALS[:1], SOURCES)
THROUGH_BOLT = Advice(
    replace(MOUNT, item="enclosure", item_thickness_mm=18.0, between=Between("carpet", 4.0), reach=Reach.BOTH_SIDES),
    (replace(THROUGH_BOLT_ANSWER, rank=1),),
    (),
    SOURCES,
)
UNPROVEN = Advice(replace(MOUNT, behind_mm=None), (UNPROVEN_ANSWER,), REFUSALS, SOURCES)
NOTHING_FITS = Advice(
    replace(MOUNT, behind_mm=9.0),
    (),
    (
        Refusal(
            "rivet_nut",
            "9 mm behind, 15.2 mm needed to set an M5 body 13 mm long",
            (Figure("available", 9.0, "mm"), Figure("needed", 15.2, "mm")),
            "a receiver 6.8 mm long",
        ),
        *REFUSALS,
    ),
    SOURCES,
)
