"""What the methods share: refusals with a figure, layers of the stack, and whether a joint is clamped or located."""

from collections.abc import Iterable, Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Protocol, TypeVar

from fasten.catalog.materials import ITEMS
from fasten.catalog.named import material
from fasten.catalog.opened import times_of
from fasten.catalog.parts import HEADS, LENGTH_RANGES, PREFERRED_LENGTHS, WASHERS, Head
from fasten.catalog.practice import METHOD_WORDS
from fasten.catalog.rows import MetricThread, Row, TableOf
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.soft import held_by, named, standoff_mm, staying
from fasten.model import (
    Cure,
    Figure,
    Holds,
    JointKind,
    Layer,
    MountPoint,
    OtherMaterial,
    OtherSide,
    Position,
    Reach,
    Refusal,
    Screw,
    StackPart,
    Subject,
    kinds,
)
from fasten.model.kinds import PatchKind
from fasten.model.known import Absent, Ground, MakesGround
from fasten.record import record
from fasten.text.figures import figure, words
from fasten.text.rounding import rounded_up

NOTHING_EXEMPT: Mapping[Subject, str] = MappingProxyType({})  # of a method whose joints are examined whole
_BY_PRACTICE = "common practice grounds only through a bolt, a rivet nut or a tapped thread on bare metal"
_BY_RULE = "AC 43.13-1B 11-188e bonds only by a threaded screw or bolt"
GROUND: Ground = MakesGround(f"{_BY_RULE}; {_BY_PRACTICE}")
NO_GROUND: Ground = Absent(f"no ground joint: {_BY_PRACTICE}")
NO_GROUND_TAPPING: Ground = Absent(f"a tapping screw makes no ground joint: {_BY_RULE}")
NO_GROUND_RIVET: Ground = Absent(f"a blind rivet makes no ground joint that can be tightened or remade: {_BY_PRACTICE}")


@record
class Always:
    """What is so of every joint of a method: whether it sits in a hole, and which of these it holds by at its face."""

    in_hole: bool
    patches: tuple[PatchKind, ...] = ()


IN_HOLE = Always(in_hole=True)
STEEL = "steel"
ZINC = "zinc_plated"
STAINLESS = "stainless_dry"
COVER_MM = 1.0


class Threaded(Protocol):
    """A row of a table that has a thread."""

    @property
    def thread(self) -> str:
        """The thread's name: M5."""


RowT = TypeVar("RowT", bound=Threaded)


def refuse(
    method: str,
    because: str,
    *figures: tuple[str, float, str],
    change: str | None = None,
    check: str | None = None,
    cure: Cure | None = None,
) -> Refusal:
    """A refusal with its figures."""
    return Refusal(method, because, tuple(Figure(*figure) for figure in figures), change, check, cure=cure)


def with_fixings(mount: MountPoint, count: int) -> str:
    """More fixings on the same pattern, in words that a question takes."""
    pattern = mount.pattern
    if pattern is None or pattern.points_mm or mount.run_mm is not None:  # a run of cable spreads its clamps by itself
        return f"{count} fixings instead of {mount.fixings}"
    sides = figure(pattern.a_mm) if pattern.b_mm is None else f"{figure(pattern.a_mm)}x{figure(pattern.b_mm)}"
    return f"{count} fixings instead of {mount.fixings}, pattern {pattern.kind} {sides} mm"


def needs_family(method: str, mount: MountPoint, tables: Tables, *families: str) -> Refusal | None:
    """Refuse a substrate of another family than the method is for."""
    family = material(tables, mount.material).family
    if family in families:
        return None
    because = f"for {' or '.join(families)}, and {words(mount.material)} is {family}"
    return refuse(method, because, cure=OtherMaterial())


def needs_hard_layers(method: str, mount: MountPoint, tables: Tables) -> Refusal | None:
    """Refuse a soft layer that stays in the load path where nothing keeps the screw from working loose."""
    if kind_of(mount, tables) is JointKind.CLAMPED:
        return None
    return refuse(method, "foam keeps no clamp load, and nothing here stops the screw from working loose")


def needs_strength(method: str, mount: MountPoint, tables: Tables) -> Refusal | None:
    """Refuse a substrate whose strength no table gives: nothing in it could be proved."""
    if material(tables, mount.material).ultimate_mpa is not None:
        return None
    return refuse(method, f"the strength of {words(mount.material)} is not known, so nothing in it can be proved")


def needs_sort(method: str, because: str, mount: MountPoint, tables: Tables, *sorts: str) -> Refusal | None:
    """Refuse an item of a sort that this is not made to hold, whatever its mass."""
    item = tables.find(ITEMS, mount.item)
    if item is None or item.sort in sorts:
        return None
    return refuse(method, because)


def needs_light_trim(method: str, part: str, mount: MountPoint, tables: Tables) -> Refusal | None:
    """Refuse what is too heavy for parts that snap in, by its share a part and as a whole, however many there are."""
    share_kg, most_kg = mount.mass_kg / mount.fixings, rule(tables, Rules.TRIM_MASS).value
    if share_kg > most_kg:
        because = (
            f"no heavy items on {part}s alone: {rounded_up(share_kg, 2)} kg a {part}, {figure(most_kg)} kg at most"
        )
        return refuse(method, because,
                      (f"mass a {part}", share_kg, "kg"), ("limit", most_kg, "kg"))  # fmt: skip
    whole_kg = rule(tables, Rules.TRIM_MASS_WHOLE).value
    if mount.mass_kg > whole_kg:
        because = f"no heavy items on {part}s alone: {rounded_up(mount.mass_kg, 2)} kg, {figure(whole_kg)} kg at most"
        return refuse(method, because,
                      ("mass", mount.mass_kg, "kg"), ("limit", whole_kg, "kg"))  # fmt: skip
    return None


def needs_few_removals(method: str, because: str, mount: MountPoint, tables: Tables) -> Refusal | None:
    """Refuse what comes off more often than the method is rated for, in words of its own."""
    wanted = times_of(mount, tables).once
    words = tables.need(METHOD_WORDS, method)
    if wanted <= words.rated:
        return None
    return refuse(method, f"{because}, and this comes off {mount.removed.value}",
                  ("removals wanted", wanted, "-"), ("removals rated", words.rated, "-"),
                  check="removals")  # fmt: skip


def needs_both_sides(method: str, mount: MountPoint) -> Refusal | None:
    """Refuse where the back cannot be reached."""
    if mount.reach is Reach.BOTH_SIDES:
        return None
    return refuse(
        method, "the nut needs a hand behind, and you reach only one side", ("sides reached", 1, "-"),
        ("sides needed", 2, "-"), check="reach", cure=OtherSide(),
    )  # fmt: skip


def needs_both_sides_of_laminate(method: str, mount: MountPoint, tables: Tables) -> Refusal | None:
    """Refuse a part that spreads behind laminate where no washer can be laid under it: laminate crushes and splits."""
    if mount.reach is Reach.BOTH_SIDES or material(tables, mount.material).family != "laminate":
        return None
    because = "laminate splits under what spreads behind it: it needs a backing washer, and you reach only one side"
    return refuse(method, because, ("sides reached", 1, "-"), ("sides needed", 2, "-"), check="reach",
                  cure=OtherSide())  # fmt: skip


def backing_washer(mount: MountPoint, hole_mm: float, tables: Tables) -> tuple[StackPart, ...]:
    """The smallest large washer behind laminate that a body of the hole's size passes; none behind what is not."""
    if material(tables, mount.material).family != "laminate":
        return ()
    fitting = [row for row in tables.rows(WASHERS) if row.form == "large" and row.hole_mm >= hole_mm]
    best = min(fitting, key=lambda row: row.outer_mm, default=None)
    washer = stack.washer_for(tables, "large", best.size, Position.NUT) if best is not None else None
    return () if washer is None else (washer,)


def with_threads(rows: Iterable[RowT], mount: MountPoint, tables: Tables) -> list[tuple[RowT, MetricThread]]:
    """Every row whose screw passes the item's hole, with its thread, in the order of the rows."""
    rows = tuple(rows)
    sizes = tuple(dict.fromkeys(row.thread for row in rows))
    threads = {found.designation: found for found in stack.threads_for_hole(tables, mount.item_hole_mm, sizes)}
    return [(row, threads[row.thread]) for row in rows if row.thread in threads]


def largest_first(found: list[tuple[RowT, MetricThread]]) -> list[tuple[RowT, MetricThread]]:
    """The same, the largest thread first."""
    return sorted(found, key=lambda pair: -pair[1].major_mm)


def limited_soft_mm(mount: MountPoint, tables: Tables) -> float:
    """Height of the soft layers at their compression limiter or spacer; 0 where none stays."""
    return standoff_mm(mount.between, tables)


def kind_of(mount: MountPoint, tables: Tables) -> JointKind:
    """Located where foam stays in the load path, else clamped: a spacer takes the clamp through carpet."""
    return JointKind.LOCATED if held_by(mount.between, tables) is Holds.LIMITER else JointKind.CLAMPED


def soft_between(mount: MountPoint) -> str | None:
    """What the soft layers that stay are called; None where none stays."""
    return named(staying(mount.between)) or None


def layers(
    mount: MountPoint, tables: Tables, washers: tuple[StackPart, ...], nut_mm: float | None
) -> tuple[Layer, ...]:
    """The layers from the head down."""
    soft_mm = limited_soft_mm(mount, tables)
    found = [Layer("washer", STEEL, washer.thickness_mm) for washer in washers if washer.place == Position.HEAD]
    found.append(Layer("item", mount.item_material, mount.item_thickness_mm))
    if soft_mm:
        found.append(Layer("soft", soft_between(mount) or "", soft_mm))
    found.extend(Layer("washer", STEEL, washer.thickness_mm) for washer in washers if washer.place == Position.BETWEEN)
    found.extend(panel_layers(mount))
    found.extend(Layer("washer", STEEL, washer.thickness_mm) for washer in washers if washer.place == Position.NUT)
    if nut_mm is not None:
        found.append(Layer("nut", STEEL, nut_mm))
    return tuple(found)


def panel_layers(mount: MountPoint) -> tuple[Layer, ...]:
    """The panel at its thickest: its doubler, where it has one, on the sheet."""
    if mount.doubler is None:
        return (Layer("substrate", mount.material, mount.thickness_max_mm),)
    doubler_mm = mount.doubler.thickness_mm
    sheet_mm = mount.thickness_max_mm - doubler_mm
    return Layer(kinds.DOUBLER.line, mount.material, doubler_mm), Layer("substrate", mount.material, sheet_mm)


def head_washers(
    mount: MountPoint, head: Head, size: str, tables: Tables, *, always: bool, widest: str = "large"
) -> tuple[StackPart, ...] | None:
    """The washer under the head of a screw, as `washers_under` finds it."""
    bare = always and not has_flange(head)
    return washers_under(mount, head.diameter_max_mm, size, tables, always=bare, widest=widest)


def has_flange(head: Head) -> bool:
    """Whether a head brings its own washer: a plain one under it would be the narrower of the two."""
    return head.form in {"hexagon_flange", "collar_button"}


def washers_under(
    mount: MountPoint, bears_mm: float, size: str, tables: Tables, *, always: bool, widest: str = "large"
) -> tuple[StackPart, ...] | None:
    """The washer under a head or nut: the widest on a soft item, else the first to cover the hole a millimetre a side.

    On a soft item what the advice wants tried comes first. None where there is no washer of the size. Where even the
    large one does not cover the hole, the proof refuses it.
    """
    covers = mount.item_hole_mm + 2 * COVER_MM
    soft = material(tables, mount.item_material).family != "sheet"
    if not (soft or always) and bears_mm >= covers:
        return ()
    if soft and mount.spread is not None and Position.HEAD in mount.spread.places:
        if size in mount.spread.but_for:
            return None
        return stack.spreader(tables, mount.spread.form, size, Position.HEAD) or None
    found = [stack.washer_for(tables, form, size, Position.HEAD) for form in ((widest,) if soft else ("plain", widest))]
    washers = [washer for washer in found if washer is not None]
    if not washers:
        return None
    return (next((washer for washer in washers if washer.outer_mm >= covers), washers[-1]),)


def part_sources(tables: Tables, head: Head, length_mm: float, washers: tuple[StackPart, ...]) -> tuple[str, ...]:
    """Sources of the screw's head and length and of the washers."""
    names = tuple([(washer.standard, washer.size) for washer in washers])
    return _sources_of(tables, head.standard, head.size, length_mm, names)


@lru_cache(maxsize=1024)
def _sources_of(
    tables: Tables, standard: str, size: str, length_mm: float, washers: tuple[tuple[str, str], ...]
) -> tuple[str, ...]:
    length = tables.find(PREFERRED_LENGTHS, "tapping" if size.startswith("ST") else "machine", length_mm)
    found: list[tuple[TableOf[Row], Row | None]] = [
        (HEADS, tables.find(HEADS, standard, size)),
        (LENGTH_RANGES, tables.find(LENGTH_RANGES, standard, size)),
        (PREFERRED_LENGTHS, length),
        *((WASHERS, tables.find(WASHERS, *washer)) for washer in washers),
    ]
    return tuple(dict.fromkeys(tables.source_id(table, row) for table, row in found if row is not None))


def machine_screw(
    thread: MetricThread, head: Head, length_mm: float, grade: str, engagement_mm: float, protrusion_mm: float
) -> Screw:
    """A machine screw as the joint carries it."""
    return Screw(
        kind=kinds.MACHINE_SCREW, thread=thread.designation, length_mm=length_mm, head=head.form,
        standard=head.standard, class_=grade, finish=STAINLESS if grade.startswith("A") else ZINC,
        drive=words(f"{head.drive} {head.drive_size}"), diameter_mm=thread.major_mm,
        pitch_mm=thread.pitch_mm, head_mm=head.diameter_min_mm or head.diameter_max_mm,
        head_height_mm=head.height_max_mm, engagement_mm=engagement_mm, protrusion_mm=protrusion_mm,
    )  # fmt: skip
