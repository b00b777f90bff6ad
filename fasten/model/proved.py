"""What is proved of a joint and what the person reads: proposals, refusals, answers, advice."""

from fasten.model.asked import Boss, MountPoint
from fasten.model.check import Check, Input, worst
from fasten.model.holes import OnHoles
from fasten.model.joint import Joint, Span
from fasten.model.plan import Caution, Need, WorkStep
from fasten.model.words import Panel, Status
from fasten.record import lean, record


@lean
class Demand:
    """The load of a case on the worst fixing: `panel` and `load` say which way and which one.

    `shared_n` is the shear that its clamp must keep from slipping, where that is not all of its shear: friction yields,
    so that all clamps share a slip evenly. None where it is.
    """

    case: str
    kind: str
    load: str
    panel: Panel
    shear_n: float
    tension_n: float
    inputs: tuple[Input, ...]
    from_: str
    shared_n: float | None = None

    @property
    def slips_n(self) -> float:
        """The shear that its clamp must keep from slipping."""
        return self.shear_n if self.shared_n is None else self.shared_n


@record
class Behind:
    """Space behind the substrate: needed and available (None where it is not given)."""

    needed_mm: float
    available_mm: float | None


@record
class Torque:
    """How tight: target and window, and what limits the upper end.

    `past_driving` says that it only clamps: how hard a thread-forming screw drives in sheet is in no table.
    `clamp_reserve` is the share of its least clamp that may go before service slips or parts the joint; None where it
    counts on no clamp.
    """

    target_nm: float
    min_nm: float
    max_nm: float
    target_inlbf: float
    limited_by: str
    nut_factor: Span
    tool: str
    from_: tuple[str, ...]
    past_driving: bool
    clamp_reserve: float | None = None


@lean
class Removals:
    """How often it comes off in ten years, how often it may, and what is replaced when.

    `renewed` are the keys of the parts among it, of which one more set goes in the box.
    """

    wanted: int
    rated: int
    replace: tuple[str, ...]
    renewed: tuple[str, ...] = ()


@lean
class ScorePart:
    """One contribution to the ranking: what, points, why."""

    name: str
    points: float
    why: str


@lean
class Score:
    """The sum of the contributions; lower ranks first."""

    total: float
    parts: tuple[ScorePart, ...]


@lean
class Figure:
    """A figure of a refusal: what was there, what was needed."""

    name: str
    value: float
    unit: str


@record
class MoreBehind:
    """Space behind that would do."""

    needed_mm: float


@record
class ThickerBoard:
    """Board as thick as would do."""

    needed_mm: float


@record
class OtherSide:
    """The other side, reached by hand."""


@record
class OtherMaterial:
    """A substrate of another material, which no small change makes of it."""


Cure = MoreBehind | ThickerBoard | OtherSide | OtherMaterial | Boss


@lean
class Refusal:
    """Why a method does not fit, with figures.

    `cure` is what by itself would make it pass, where the refusal knows it; `change` names the small changes that do.
    `check` is the worst of the `fails` checks that failed, where one did; then `joint` is what was tried and `failed`
    that check with its figures.
    """

    method: str
    because: str
    figures: tuple[Figure, ...]
    change: str | None = None
    check: str | None = None
    fails: int = 1
    title: str = ""
    cure: Cure | None = None
    joint: Joint | None = None
    failed: Check | None = None


@record
class Exemption:
    """What is not checked for good reason: `subject` is what of the joint, `because` the reason."""

    subject: str
    because: str


@record
class GroundJoint:
    """What a ground joint must measure once it is made: nothing calculated beforehand can prove it.

    `max_resistance_mohm` is the greatest drop over the full current, None where the current is not given. `palm_mm` is
    how wide a lug of its cable and stud is by table, None where none is known.
    """

    stud: str
    rings: int
    cable_mm2: float | None
    current_a: float | None
    drop_mv: float
    max_resistance_mohm: float | None
    palm_mm: float | None
    from_: tuple[str, ...]


@lean
class Proposal:
    """A joint with its proof. `proven` is False while any check is not checked or is marginal.

    `last_resort` says that nothing but a bond holds the item; `ground` is what it must measure as a ground joint.
    """

    method: str
    joint: Joint
    proven: bool
    checks: tuple[Check, ...]
    torque: Torque | None
    removals: Removals
    exempt: tuple[Exemption, ...]
    last_resort: bool
    ground: GroundJoint | None

    @property
    def status(self) -> Status:
        """What the proof comes to: the state of its worst check."""
        return worst(self.checks)


@record
class Answer:
    """A proposal ranked and made into work: what the person reads.

    `remarks` say, of the first answer, what was set aside of what was given, and what would be first without the shelf.
    """

    rank: int
    method: str
    title: str
    proposal: Proposal
    score: Score
    steps: tuple[WorkStep, ...]
    tools: tuple[Need, ...]
    consumables: tuple[Need, ...]
    cautions: tuple[Caution, ...]
    remarks: tuple[str, ...] = ()


@lean
class SourceNote:
    """A source as answers cite it."""

    id: str
    basis: str
    text: str


@record
class Beside:
    """Mount points that go with a change: what each is called, how many are alike, and the whole question of one."""

    name: str
    count: int
    said: tuple[tuple[str, str], ...]


@record
class Remedy:
    """What would make the panel stiff enough: its name, words, and how fast the item then sways at least, where known.

    `said` are the fields of the question that change, each with its text; an empty text takes a field out. Without one
    it says what must be known first. `beside` are mount points that go with it.
    """

    name: str
    text: str
    sways_hz: float | None
    said: tuple[tuple[str, str], ...]
    beside: Beside | None = None


@record
class Advice:
    """The whole answer to one question: what was understood, what fits in order, what does not and why.

    `on_holes` is how the item lies on existing holes, None where none were given.
    """

    mount: MountPoint
    answers: tuple[Answer, ...]
    refusals: tuple[Refusal, ...]
    sources: tuple[SourceNote, ...]
    ground: GroundJoint | None = None
    remedies: tuple[Remedy, ...] = ()
    on_holes: OnHoles | None = None
