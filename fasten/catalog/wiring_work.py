"""Row types of the work on cable: its steps, tools and cautions, and what holds, covers and protects a bundle."""

from fasten.catalog.rows import Row, TableOf
from fasten.model import Phase
from fasten.record import record


@record
class RunStep(Row):
    """One step of the work on a run; the order is by phase, then step.

    `only_if` names conditions that must all hold (`fasten.wiring.conditions`), one after `not` must not; what stands in
    braces in the text is filled by the answer.
    """

    key = ("phase", "step")
    words = {"phase": tuple(phase.value for phase in Phase)}
    phase: str
    step: int
    only_if: tuple[str, ...]
    text: str


RUN_STEPS = TableOf(RunStep, "run-steps")


@record
class RunTool(Row):
    """A tool or consumable for runs and holes of cable, beside what crimps and what is cut to length.

    It is one of tool-kinds, or a tool that only work on cable takes.
    """

    key = ("of", "tool")
    words = {"of": ("wire", "hole")}
    of: str
    tool: str
    only_if: tuple[str, ...]


RUN_TOOLS = TableOf(RunTool, "run-tools")


@record
class RunCaution(Row):
    """A caution for runs of cable, in the order of telling."""

    key = ("caution",)
    caution: str
    only_if: tuple[str, ...]
    text: str


RUN_CAUTIONS = TableOf(RunCaution, "run-cautions")


@record
class Grommet(Row):
    """A rubber grommet: the cable that fills it, the hole it sits in, and the sheet that fills its groove."""

    key = ("inside_mm", "hole_mm")
    order = ("inside_mm", "hole_mm")
    parts = True
    rising = (("inside_mm", "hole_mm"),)
    inside_mm: float
    hole_mm: float
    groove_mm: float


GROMMETS = TableOf(Grommet, "grommets")


@record
class CableTie(Row):
    """A plain cable tie, and the largest bundle that it goes round."""

    key = ("tie",)
    order = ("bundle_mm",)
    parts = True
    tie: str
    bundle_mm: float


CABLE_TIES = TableOf(CableTie, "cable-ties")


@record
class LinedClamp(Row):
    """A lined loop clamp, and the bundles that it holds."""

    key = ("size",)
    order = ("least_mm",)
    parts = True
    rising = (("least_mm", "most_mm"),)
    size: str
    least_mm: float
    most_mm: float


LINED_CLAMPS = TableOf(LinedClamp, "lined-clamps")


@record
class ConvolutedTube(Row):
    """A convoluted tube by its inside."""

    key = ("inside_mm",)
    order = ("inside_mm",)
    parts = True
    inside_mm: float


CONVOLUTED_TUBES = TableOf(ConvolutedTube, "convoluted-tubes")


@record
class BundlePacking(Row):
    """How thick a bundle of equal cables is, in diameters of one."""

    key = ("cables",)
    order = ("cables",)
    cables: int
    diameters: float


BUNDLE_PACKING = TableOf(BundlePacking, "bundle-packing")


@record
class WayStep(Row):
    """One step of the work on a section or hole of a job; `only_if` and what stands in braces as of a run's step."""

    key = ("of", "phase", "step")
    words = {"of": ("section", "hole"), "phase": tuple(phase.value for phase in Phase)}
    of: str
    phase: str
    step: int
    only_if: tuple[str, ...]
    text: str


WAY_STEPS = TableOf(WayStep, "way-steps")
