"""A run answered: its sizes, and every line of proof with where its figures come from."""

from functools import lru_cache

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.model import Check, Input, SourceNote, Status
from fasten.model.check import needed, worst
from fasten.proof.checks import at_most, waits
from fasten.record import lean
from fasten.text.figures import figure
from fasten.wiring.accepted import BY_YOU, Confirm, confirms_of, made_with, taken
from fasten.wiring.conditions import Done
from fasten.wiring.counted import counted, far_fuse, stacked, unmounted
from fasten.wiring.crimps import coloured
from fasten.wiring.fuse import Fuse, is_ground
from fasten.wiring.pieces import in_block, made
from fasten.wiring.sizing import NoSize, Sizing, sized
from fasten.wiring.words import Run, RunWhere

FROM_MEMORY = "from memory"


@lean
class Wired:
    """A run with what it gets: sizes, pieces and ends, lines of proof, and the sources that they name.

    `confirms` are the checks that can be accepted,
    `lapsed` the ids of what was accepted and is not to be accepted any more.
    """

    done: Done
    checks: tuple[Check, ...]
    sources: tuple[SourceNote, ...]
    confirms: tuple[Confirm, ...]
    lapsed: tuple[str, ...]

    @property
    def sizing(self) -> Sizing:
        """The sizes of the run."""
        return self.done.sizing

    @property
    def to_measure(self) -> tuple[str, ...]:
        """What is still to be measured or confirmed, by short names: one for each of its needs."""
        titles = {need: check.title for check in reversed(self.checks) for need in needed((check,))}
        return tuple(titles[need] for need in self.needs)

    @property
    def needs(self) -> tuple[str, ...]:
        """What is still to be measured or confirmed, without the word needs."""
        return needed(self.checks)

    @property
    def fails(self) -> bool:
        """Whether a check fails: the chosen cable is too small."""
        return worst(self.checks) is Status.FAILS


def wired(run: Run, tables: Tables, accepted: tuple[str, ...] = ()) -> Wired | NoSize:
    """The answer to a run, or why no size does; `accepted` are the ids of what the user measured or accepted."""
    sizing = sized(run, tables)
    return sizing if isinstance(sizing, NoSize) else answered(sizing, tables, accepted)


def answered(sizing: Sizing, tables: Tables, accepted: tuple[str, ...] = ()) -> Wired:
    """The whole answer to a run that has its sizes."""
    done = Done(sizing, made(sizing, tables), tables)
    checks = (
        *sizing.checks, *counted(sizing, tables), *done.made.checks, *_of_place(sizing.run), *_of_holder(done),
        *unmounted(sizing), *stacked(sizing.run, tables), *far_fuse(sizing, tables),
    )  # fmt: skip
    confirms = confirms_of(checks, done.made, sizing, accepted)
    if any(one.accepted for one in confirms):
        done = Done(sizing, made_with(done.made, confirms), tables)
        checks = tuple(taken(check, confirms) for check in checks)
    known = {one.id for one in confirms}
    lapsed = tuple(id_ for id_ in accepted if id_ not in known)
    return Wired(done, checks, notes(checks, tables), confirms, lapsed)


def _of_place(run: Run) -> tuple[Check, ...]:
    if run.where is not RunWhere.EXHAUST:
        return ()
    needs = "needs another way, or a shield: within 150 mm of the exhaust nothing is known of what a cable carries"
    return (waits("exhaust", "Way past the exhaust", "A", None, needs, (), "", ()),)


def _of_holder(done: Done) -> tuple[Check, ...]:
    """A holder at the end of a run is near enough; a family that is known from memory alone is looked at."""
    return (*_near_enough(done), *_seen(done))


def _near_enough(done: Done) -> tuple[Check, ...]:
    fuse, run = done.sizing.fuse, done.sizing.run
    if fuse is None or not run.to_holder:
        return ()
    return (at_most("fuse-place", "Way to the fuse, of the most", run.length_mm, fuse.within_mm, "mm",
                    (Input("length", run.length_mm, "mm"),), "length <= most", fuse.from_[1:]),)  # fmt: skip


def _seen(done: Done) -> tuple[Check, ...]:
    fuse = done.sizing.fuse
    if fuse is not None and in_block(done.sizing.run):
        needs = f"needs the block: see that it takes a fuse of {figure(fuse.rating_a)} A for this branch"
        return (waits("block", "Fuses of the block", "", None, needs, (), "", ()),)
    if fuse is None and _has_dead_output(done.sizing):
        needs = (
            "needs the block: an output with a place for a fuse is dead without one; see that this has none, or a link"
        )
        return (waits("block", "Fuses of the block", "", None, needs, (), "", ()),)
    if fuse is not None and fuse.family.lead_least_mm2 is not None:
        return (_leads(fuse, done),)
    if fuse is None or done.tables.source(fuse.from_[0]).basis != FROM_MEMORY:
        return ()
    takes = f"takes {done.sizing.size.name} and a fuse of {figure(fuse.rating_a)} A"
    needs = f"needs the holder of the {fuse.family.title}: see that it {takes}"
    return (waits("holder", "Holder ends", "", None, needs, (), "", fuse.from_[:1]),)


def _has_dead_output(sizing: Sizing) -> bool:
    """Whether a branch comes out of a block that has fuses, and has none there as the one before it protects it."""
    run = sizing.run
    return in_block(run) and sizing.conductor is not None and run.upstream_fuse_a is not None and not is_ground(run)


def _leads(fuse: Fuse, done: Done) -> Check:
    """Whether the splice that takes the cable takes the leads of the holder as well."""
    family, size = fuse.family, done.sizing.size
    lug_from, _ = rule_figure(done.tables, WiringRules.LUG_FROM)
    row = coloured(size, done.tables)
    splice = f"a {row.colour} splice takes up to {figure(row.most_mm2)} mm²"
    if size.area_mm2 >= lug_from:
        splice = f"a butt connector for {size.name} takes no thinner one"
    least, most = figure(family.lead_least_mm2 or 0.0), figure(family.lead_most_mm2 or 0.0)
    needs = f"needs the leads of its holder: {least} to {most} mm² are usual, and {splice}; else take a stepped splice"
    return waits("holder", "Holder ends", "mm²", None, needs, (), "", fuse.from_[:1])


def notes(checks: tuple[Check, ...], tables: Tables) -> tuple[SourceNote, ...]:
    """The sources that checks name, each once, in their order."""
    named = dict.fromkeys(source for check in checks for source in check.from_)
    return tuple(BY_YOU if identity == BY_YOU.id else _note(identity, tables) for identity in named)


@lru_cache(maxsize=512)  # of few sources, which each run names
def _note(identity: str, tables: Tables) -> SourceNote:
    source = tables.source(identity)
    return SourceNote(identity, source.basis, source.text)
