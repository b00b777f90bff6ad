"""A run answered: its sizes, and every line of proof with where its figures come from."""

from fasten.catalog.tables import Tables
from fasten.model import Check, SourceNote, Status
from fasten.model.check import needed, worst
from fasten.proof.checks import waits
from fasten.record import record
from fasten.wiring.sizing import NoSize, Sizing, sized
from fasten.wiring.words import Run


@record
class Wired:
    """A run with what it gets: sizes, lines of proof, and the sources that they name."""

    sizing: Sizing
    checks: tuple[Check, ...]
    sources: tuple[SourceNote, ...]

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
    if isinstance(sizing, NoSize):
        return sizing
    checks = (*sizing.checks, _ends_open())
    return Wired(sizing, checks, notes(checks, tables))


def notes(checks: tuple[Check, ...], tables: Tables) -> tuple[SourceNote, ...]:
    """The sources that checks name, each once, in their order."""
    named = dict.fromkeys(source for check in checks for source in check.from_)
    found = ((identity, tables.source(identity)) for identity in named)
    return tuple(SourceNote(identity, source.basis, source.text) for identity, source in found)


def _ends_open() -> Check:
    needs = "needs what each end is fitted with: terminal, crimp and heat-shrink"
    return waits("ends", "Ends of the run", "", None, needs, (), "", ())
