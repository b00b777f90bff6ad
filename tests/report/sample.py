"""Invented but plausible advice for the report's tests. Nobody's figures: do not build from them."""

from dataclasses import replace

from fasten.model import (
    Advice,
    Answer,
    Between,
    BitChoice,
    Check,
    Figure,
    Hole,
    Input,
    Into,
    Joint,
    JointKind,
    Layer,
    MountPoint,
    Origin,
    Panel,
    Pattern,
    Proposal,
    Reach,
    Receiver,
    Refusal,
    Removal,
    Removals,
    Score,
    ScorePart,
    Screw,
    SourceNote,
    Span,
    Status,
    Tolerance,
    Torque,
    Visible,
    WasherPart,
    Where,
)

ORIGINS = (
    *((name, Origin.GIVEN) for name in ("item", "material", "thickness_min_mm", "thickness_max_mm", "removed")),
    *((name, Origin.GIVEN) for name in ("mass_kg", "fixings", "pattern", "item_thickness_mm", "item_hole_mm", "reach")),
    ("item_mass_kg", Origin.GIVEN),
    ("item_cg_mm", Origin.PRESET),
    ("item_material", Origin.PRESET),
    ("cg_mm", Origin.PRESET),
    *((name, Origin.ASSUMED) for name in ("panel", "where", "visible", "grade")),
)

MOUNT = MountPoint(
    item="amplifier",
    material="steel",
    thickness_min_mm=0.8,
    thickness_max_mm=0.8,
    place=None,
    removed=Removal.YEARLY,
    mass_kg=6.0,
    fixings=4,
    pattern=Pattern("rectangle", 240.0, 180.0),
    item_thickness_mm=3.0,
    item_hole_mm=5.5,
    item_material="aluminium",
    cg_mm=30.0,
    panel=Panel.UNKNOWN,
    between=None,
    behind_mm=40.0,
    edge_mm=None,
    boss=None,
    into=Into.FACE,
    reach=Reach.ONE_SIDE,
    where=Where.CABIN,
    visible=Visible.NO,
    grade="8.8",
    body_mm=None,
    hole_there_mm=None,
    thread_there=None,
    case=None,
    carries=None,
    item_mass_kg=6.0,
    item_cg_mm=30.0,
    run_mm=None,
    ring=None,
    rings=None,
    cable_mm2=None,
    current_a=None,
    origins=ORIGINS,
)

RIVET_NUT = Receiver(
    part="rivet nut, round body",
    series="sample round",
    thread="M5",
    length_mm=13.0,
    grip_mm=Span(0.5, 3.0),
    material="steel",
    flange_mm=10.0,
    flange_thickness_mm=1.0,
    body_mm=7.0,
    bulge_mm=9.6,
    thread_proof_n=7000.0,
    shear_n=None,
    breaking_nm=9.0,
    spin_out_nm=3.4,
    spin_out_sheet_mm=0.76,
    prevailing_nm=None,
    from_="sample-memory",
)


def _screw(thread: str, length_mm: float, diameter_mm: float, pitch_mm: float, head_mm: float, **more: object) -> Screw:
    """A pan-head screw of the sample, with what differs."""
    base = Screw(
        thread=thread,
        length_mm=length_mm,
        head="pan",
        standard="ISO 7045",
        class_="4.8",
        finish="zinc plated",
        drive="cross recess",
        diameter_mm=diameter_mm,
        pitch_mm=pitch_mm,
        head_mm=head_mm,
        head_height_mm=3.7,
        engagement_mm=5.0,
        protrusion_mm=1.0,
    )
    return replace(base, **more)  # type: ignore[arg-type]


RIVET_NUT_JOINT = Joint(
    method="rivet_nut",
    kind=JointKind.CLAMPED,
    layers=(Layer("item", "aluminium", 3.0), Layer("substrate", "steel", 0.8)),
    hole=Hole(7.1, Tolerance(0.0, 0.1), None, BitChoice("7.1 mm", 7.1, 0.0, True)),
    receiver=RIVET_NUT,
    screw=_screw("M5", 14.0, 5.0, 0.8, 9.5, engagement_mm=5.125, protrusion_mm=0.875),
    washers=(),
    grip_mm=0.8,
    sheet_mm=0.8,
    sheet_max_mm=0.8,
    behind_set_mm=15.2,
    behind_done_mm=9.2,
    lock="spring washer",
    from_=("sample-memory",),
)

THROUGH_BOLT_JOINT = Joint(
    method="through_bolt",
    kind=JointKind.CLAMPED,
    layers=(
        Layer("washer", "steel", 2.0),
        Layer("item", "MDF", 18.0),
        Layer("substrate", "steel", 0.8),
        Layer("washer", "steel", 2.0),
        Layer("nut", "steel", 8.0),
    ),
    hole=Hole(9.0, Tolerance(0.0, 0.36), None, BitChoice("9 mm", 9.0, 0.0, True)),
    receiver=Receiver(
        part="prevailing-torque nut",
        series="ISO 7040",
        thread="M8",
        length_mm=8.0,
        grip_mm=None,
        material="steel 8",
        flange_mm=13.0,
        flange_thickness_mm=None,
        body_mm=None,
        bulge_mm=None,
        thread_proof_n=29300.0,
        shear_n=None,
        breaking_nm=None,
        spin_out_nm=None,
        spin_out_sheet_mm=None,
        prevailing_nm=2.0,
        from_="sample-standard",
    ),
    screw=_screw(
        "M8",
        35.0,
        8.0,
        1.25,
        11.6,
        head="hexagon",
        standard="ISO 4017",
        class_="8.8",
        head_height_mm=5.3,
        engagement_mm=8.0,
        protrusion_mm=4.2,
    ),
    washers=(
        WasherPart("ISO 7093-1", "8", "head", 8.4, 24.0, 2.0),
        WasherPart("ISO 7093-1", "8", "nut", 8.4, 24.0, 2.0),
    ),
    grip_mm=22.8,
    sheet_mm=0.8,
    sheet_max_mm=0.8,
    behind_set_mm=0.0,
    behind_done_mm=14.2,
    lock="prevailing-torque nut",
    from_=("sample-standard",),
)

TAPPED_JOINT = Joint(
    method="tapped_hole",
    kind=JointKind.CLAMPED,
    layers=(Layer("item", "aluminium", 3.0), Layer("substrate", "steel", 6.0)),
    hole=Hole(5.0, Tolerance(0.0, 0.15), None, BitChoice("5 mm", 5.0, 0.0, True)),
    receiver=None,
    screw=_screw("M6", 10.0, 6.0, 1.0, 11.0, engagement_mm=6.0, protrusion_mm=1.0, head_height_mm=4.6),
    washers=(),
    grip_mm=3.0,
    sheet_mm=6.0,
    sheet_max_mm=6.0,
    behind_set_mm=0.0,
    behind_done_mm=1.0,
    lock="threadlocker",
    from_=("sample-standard",),
)

TAPPING_JOINT = Joint(
    method="tapping_screw",
    kind=JointKind.CLAMPED,
    layers=(Layer("item", "ABS", 2.5), Layer("substrate", "steel", 0.8)),
    hole=Hole(3.2, Tolerance(0.1, 0.1), None, BitChoice("3.2 mm", 3.2, 0.0, True)),
    receiver=None,
    screw=_screw(
        "ST4.2", 13.0, 4.22, 1.41, 8.0, engagement_mm=0.8, protrusion_mm=9.7, head_height_mm=3.1, standard="ISO 7049"
    ),
    washers=(),
    grip_mm=3.3,
    sheet_mm=0.8,
    sheet_max_mm=0.8,
    behind_set_mm=9.7,
    behind_done_mm=9.7,
    lock="",
    from_=("sample-handbook",),
)

CARPET_JOINT = replace(
    RIVET_NUT_JOINT,
    kind=JointKind.LOCATED,
    layers=(
        Layer("washer", "steel", 1.0),
        Layer("item", "aluminium", 3.0),
        Layer("soft", "carpet", 4.0),
        Layer("substrate", "steel", 0.8),
    ),
    washers=(WasherPart("ISO 7089", "5", "head", 5.3, 10.0, 1.0),),
    screw=_screw("M5", 20.0, 5.0, 0.8, 9.5, engagement_mm=6.0, protrusion_mm=1.875),
)

BLIND_RIVET_JOINT = Joint(
    method="blind_rivet",
    kind=JointKind.CLAMPED,
    layers=(Layer("item", "aluminium", 1.5), Layer("substrate", "steel", 0.8)),
    hole=Hole(4.9, Tolerance(0.0, 0.1), None, BitChoice("4.9 mm", 4.9, 0.0, True)),
    receiver=replace(
        RIVET_NUT,
        part="blind rivet",
        series="sample rivet",
        thread="4.8",
        length_mm=8.0,
        grip_mm=Span(1.5, 3.5),
        flange_mm=9.5,
        flange_thickness_mm=1.1,
        body_mm=4.8,
        bulge_mm=None,
    ),
    screw=_screw(
        "4.8",
        8.0,
        4.8,
        0.0,
        9.5,
        head="rivet head",
        standard="sample rivet",
        head_height_mm=1.1,
        engagement_mm=0.0,
        protrusion_mm=5.7,
    ),
    washers=(),
    grip_mm=2.3,
    sheet_mm=0.8,
    sheet_max_mm=0.8,
    behind_set_mm=8.2,
    behind_done_mm=5.7,
    lock="",
    from_=("sample-memory",),
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
)

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
    ),
    score=Score(
        12.5, (ScorePart("removals", 0.0, "rated for 20, wanted 10"), ScorePart("tools", 12.5, "setting tool"))
    ),
    steps=(
        "Look behind the panel: wiring, fuel and brake lines, tanks.",
        "Mark from the item, centre punch, drill 3 mm, then 7.1 mm.",
        "Deburr, paint the bare edge, set one rivet nut in a test piece of the same sheet.",
    ),
    tools=("drill", "7.1 mm bit", "setting tool M5", "torque screwdriver"),
    consumables=("primer for bare edges", "medium-strength threadlocker"),
    cautions=("A round body turns in thin sheet: stay under 2.2 N·m and never use a prevailing-torque nut on it.",),
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
    ),
    score=Score(20.0, ()),
    steps=("Clamp the board in place and drill both in one go.",),
    tools=("two 13 mm spanners",),
    consumables=(),
    cautions=("MDF creeps: tighten again after a week.",),
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
JOINTS = {
    "rivet nut": RIVET_NUT_JOINT,
    "through bolt": THROUGH_BOLT_JOINT,
    "tapped hole": TAPPED_JOINT,
    "tapping screw": TAPPING_JOINT,
    "carpet": CARPET_JOINT,
    "blind rivet": BLIND_RIVET_JOINT,
}
