"""The parts of a run, section or hole, each built in one place, so that answers and shelves know them alike."""

from fasten.catalog.wiring import FuseFamily
from fasten.catalog.wiring_ends import CrimpTerminal, WireEndSleeve
from fasten.catalog.wiring_work import Grommet, LinedClamp
from fasten.model import end_kinds
from fasten.model.end_kinds import EndKind
from fasten.model.line import LineId, Part, Sort
from fasten.model.plan import PartNeed
from fasten.record import record
from fasten.text.figures import figure, words
from fasten.wiring.crimps import colour_range
from fasten.wiring.words import Pole, Size, Unsized


@record
class EndPart:
    """A part that an end takes: its kind, size, stud and colour; `type_` says what else tells it from others."""

    kind: EndKind
    size: str
    stud: str
    type_: str
    colour: str

    @property
    def sizes(self) -> tuple[str, str, str, str]:
        """What the line of the part is found again by, beside its kind."""
        return self.size, self.stud, self.type_, self.colour

    @property
    def listed(self) -> Part:
        """The part as a hardware list and a shelf have it."""
        return Part(self.kind.line, f"{self.size} {self.stud}".strip(), words(self.type_), self.colour, None)


def need_of(part: EndPart, count: int) -> PartNeed:
    """So many of a part, as a plan needs them."""
    kind = part.kind
    return PartNeed(LineId(Sort.PART, kind.key, part.sizes), part.listed, "", kind.listed, kind.spares, count, 0)


def tube_lug(size: Size, stud: str) -> EndPart:
    """A tube lug by cable and stud."""
    return EndPart(end_kinds.TUBE_LUG, size.name, stud, "copper tube", "")


def ring_terminal(row: CrimpTerminal, stud: str) -> EndPart:
    """An insulated ring by its colour and stud."""
    return EndPart(end_kinds.RING_TERMINAL, colour_range(row), stud, "insulated", row.colour)


def end_sleeve(row: WireEndSleeve) -> EndPart:
    """A wire-end sleeve with collar."""
    kind, collar = end_kinds.END_SLEEVE, f"collar, {figure(row.length_mm)} mm"
    return EndPart(kind, f"{figure(row.area_mm2)} mm²", "", collar, row.colour)


def reducing_pin(size: Size) -> EndPart:
    """A pin that takes a cable to a smaller terminal."""
    return EndPart(end_kinds.REDUCING_PIN, size.name, "", "", "")


def receptacle(tab: str, size: Size) -> EndPart:
    """A receptacle by tab and cable."""
    return EndPart(end_kinds.RECEPTACLE, tab, "", f"for {size.name}", "")


def butt_splice(row: CrimpTerminal) -> EndPart:
    """An insulated butt splice by its colour."""
    return EndPart(end_kinds.BUTT_SPLICE, colour_range(row), "", "insulated", row.colour)


def butt_connector(size: Size) -> EndPart:
    """A tube butt connector by its cable."""
    return EndPart(end_kinds.BUTT_CONNECTOR, size.name, "", "copper tube", "")


def contact(size: Size) -> EndPart:
    """A contact of a connector by its cable."""
    return EndPart(end_kinds.CONTACT, size.name, "", "as the connector's maker says", "")


def plugged_lead(carries: Unsized, long_mm: float) -> EndPart:
    """A lead that comes with its plugs, by what it carries and how long it is at least."""
    return EndPart(end_kinds.PLUGGED_LEAD, f"{figure(long_mm / 1000)} m", "", carries.value, "")


def battery_clamp(pole: Pole) -> EndPart:
    """A battery clamp with outputs; plus and minus differ."""
    return EndPart(end_kinds.BATTERY_CLAMP, f"post {pole.value}", "", "with outputs", "")


def fuse(rating_a: float, family: FuseFamily) -> EndPart:
    """A fuse by its rating and family."""
    return EndPart(end_kinds.FUSE, f"{figure(rating_a)} A", "", family.family, "")


def fuse_holder(family: FuseFamily) -> EndPart:
    """The holder of a family of fuses."""
    return EndPart(end_kinds.FUSE_HOLDER, "", "", family.family, "")


def block(outputs: int, *, grounds: bool) -> EndPart:
    """A distribution block by its outputs; one of grounds has no fuses."""
    return EndPart(end_kinds.BLOCK, f"{outputs} outputs", "", "of grounds" if grounds else "with fuses", "")


def lined_clamp(row: LinedClamp) -> EndPart:
    """A lined clamp by the bundle it holds."""
    return EndPart(end_kinds.LINED_CLAMP, row.size, "", "lined", "")


def grommet(row: Grommet) -> EndPart:
    """A grommet by its inside, hole and groove."""
    seat = f"hole {figure(row.hole_mm)} mm, groove {figure(row.groove_mm)} mm"
    return EndPart(end_kinds.GROMMET, f"{figure(row.inside_mm)} mm", "", seat, "")
