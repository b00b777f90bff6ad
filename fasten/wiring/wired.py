"""A run answered: its sizes, and every line of proof with where its figures come from."""

from fasten.catalog.tables import Tables
from fasten.model import Check, SourceNote, Status
from fasten.model.check import needed, worst
from fasten.proof.checks import waits
from fasten.record import record
from fasten.text.figures import figure
from fasten.wiring.conditions import Done, holding
from fasten.wiring.pieces import in_block, made
from fasten.wiring.sizing import NoSize, Sizing, sized
from fasten.wiring.words import Run, RunWhere

FROM_MEMORY = "from memory"
FIRST = ("outside", "shrink", "bore", "conductor", "tab")  # what is measured first, by what it changes


@record
class Wired:
    """A run with what it gets: sizes, pieces and ends, lines of proof, and the sources that they name.

    `held` are the conditions of steps, tools and cautions that hold.
    """

    done: Done
    held: frozenset[str]
    checks: tuple[Check, ...]
    sources: tuple[SourceNote, ...]

    @property
    def sizing(self) -> Sizing:
        """The sizes of the run."""
        return self.done.sizing

    @property
    def to_measure(self) -> tuple[str, ...]:
        """What is still to be measured or confirmed, by its short names."""
        return tuple(dict.fromkeys(one.title for one in self.checks if one.status is Status.NOT_CHECKED))

    @property
    def needs(self) -> tuple[str, ...]:
        """What is still to be measured or confirmed, without the word needs."""
        return needed(self.checks)

    @property
    def fails(self) -> bool:
        """Whether a check fails: the chosen cable is too small."""
        return worst(self.checks) is Status.FAILS


def wired(run: Run, tables: Tables) -> Wired | NoSize:
    """The answer to a run, or why no size does."""
    sizing = sized(run, tables)
    return sizing if isinstance(sizing, NoSize) else answered(sizing, tables)


def answered(sizing: Sizing, tables: Tables) -> Wired:
    """The whole answer to a run that has its sizes."""
    run = sizing.run
    done = Done(sizing, made(sizing, tables), tables)
    checks = (*sizing.checks, *_of_ends(done), *_of_place(run), *_of_holder(done))
    return Wired(done, holding(done), checks, notes(checks, tables))


def _of_ends(done: Done) -> tuple[Check, ...]:
    """What must fit or be confirmed at the ends, each once: first what changes most."""
    found = {check.id: check for end in done.made.ends for check in end.checks}
    return tuple(sorted(found.values(), key=lambda check: _place(check.id)))


def _place(identity: str) -> int:
    kind = identity.partition(".")[0]
    return FIRST.index(kind) if kind in FIRST else len(FIRST)


def _of_place(run: Run) -> tuple[Check, ...]:
    if run.where is not RunWhere.EXHAUST:
        return ()
    needs = "needs another way, or a shield: within 150 mm of the exhaust nothing is known of what a cable carries"
    return (waits("exhaust", "Way past the exhaust", "A", None, needs, (), "", ()),)


def _of_holder(done: Done) -> tuple[Check, ...]:
    """A family that is known from memory alone only proposes: its holder is looked at."""
    fuse = done.sizing.fuse
    if fuse is not None and in_block(done.sizing.run):
        needs = f"needs the block: see that it takes a fuse of {figure(fuse.rating_a)} A for this branch"
        return (waits("block", "Fuses of the block", "", None, needs, (), "", ()),)
    if fuse is None or done.tables.source(fuse.from_[0]).basis != FROM_MEMORY:
        return ()
    takes = f"takes {done.sizing.size.name} and a fuse of {figure(fuse.rating_a)} A"
    needs = f"needs the holder of the {fuse.family.title}: see that it {takes}"
    return (waits("holder", "Holder ends", "", None, needs, (), "", fuse.from_[:1]),)


def notes(checks: tuple[Check, ...], tables: Tables) -> tuple[SourceNote, ...]:
    """The sources that checks name, each once, in their order."""
    named = dict.fromkeys(source for check in checks for source in check.from_)
    found = ((identity, tables.source(identity)) for identity in named)
    return tuple(SourceNote(identity, source.basis, source.text) for identity, source in found)
