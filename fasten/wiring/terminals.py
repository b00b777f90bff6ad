"""What passes through the terminals of a run, and whether the cable enters them: by their tables, or left open."""

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_ends import STUD_CURRENTS, TAB_RECEPTACLES
from fasten.model import Check, Input
from fasten.proof.checks import at_most, holds, waits
from fasten.text.figures import figure
from fasten.wiring.crimps import SAME
from fasten.wiring.ends import HOLDERS, body_stud
from fasten.wiring.words import End, Size, StudEnd, Terminal, TerminalEnd

MEMORY = "from memory"


def terminal_checks(end: End, whose: str, size: Size, full_a: float | None, tables: Tables) -> tuple[Check, ...]:
    """The checks of an end by what flows through it, None where it is next to nothing.

    The studs of a fuse holder go by its fuse.
    """
    if isinstance(end, TerminalEnd) and end.terminal in (Terminal.CLAMP_PLATE, Terminal.PUSH_IN):
        return (_enters(end, size),)
    if full_a is None:
        return ()
    if isinstance(end, StudEnd) and whose != HOLDERS:
        return _through_stud(end.stud or body_stud(size, tables), full_a, tables)
    if isinstance(end, TerminalEnd) and end.terminal is Terminal.TAB:
        return _through_tab(end.tab or "", size, full_a, tables)
    return ()


def _enters(end: TerminalEnd, size: Size) -> Check:
    """Whether the cable enters a clamp, where it is said what that takes."""
    name, title = end.terminal.value, "Cable, of what the terminal takes"
    if end.takes_mm2 is None:
        needs = f"needs the largest cable that the {name} takes, this is {size.name}: write {name} takes 8 AWG"
        return waits(f"enters.{name}", "Cable into its terminal", "mm²", size.area_mm2, needs, (), "", ())
    inputs = Input("cable", size.area_mm2, "mm²"), Input("takes", end.takes_mm2, "mm²")
    most_mm2 = end.takes_mm2 * SAME
    return at_most(f"enters.{name}", title, size.area_mm2, most_mm2, "mm²", inputs, "cable <= takes", ())


def _through_stud(stud: str, full_a: float, tables: Tables) -> tuple[Check, ...]:
    row = tables.find(STUD_CURRENTS, stud)
    if row is None:
        needs = f"needs what the {stud} stud carries: no row is for it"
        return (waits(f"stud-current.{stud}", "Current at the stud", "A", full_a, needs, (), "", ()),)
    known = f"brass {stud} does for {figure(row.safe_a)} A"
    from_ = (tables.source_id(STUD_CURRENTS, row),)
    return (_judged(f"stud-current.{stud}", f"{stud} stud", known, full_a, (row.safe_a, row.up_to_a), from_),)


def _through_tab(tab: str, size: Size, full_a: float, tables: Tables) -> tuple[Check, ...]:
    """The current of a tab; of one that is known from memory alone it is looked at."""
    row = tables.find(TAB_RECEPTACLES, tab)
    if row is None:
        return ()  # that no receptacle is known for it stands open already
    from_ = (tables.source_id(TAB_RECEPTACLES, row),)
    by_memory = tables.source(from_[0]).basis == MEMORY
    known = f"a receptacle for {size.name} does for {figure(row.safe_a)} A{' as remembered' if by_memory else ''}"
    span = (0.0, max(full_a, row.up_to_a)) if by_memory else (row.safe_a, row.up_to_a)
    return (_judged(f"tab-current.{tab}", f"{tab} tab", known, full_a, span, from_),)


def _judged(id_: str, what: str, known: str, full_a: float, span: tuple[float, float], from_: tuple[str, ...]) -> Check:
    """A current that holds up to the first figure, fails over the second, and is open between them."""
    safe_a, most_a = span
    if holds(full_a, safe_a) or not holds(full_a, most_a):
        inputs = Input("current", full_a, "A"), Input("carries", safe_a, "A"), Input("at most", most_a, "A")
        capacity_a = safe_a if holds(full_a, safe_a) else most_a
        title = f"Full current, of what the {what} carries"
        return at_most(id_, title, full_a, capacity_a, "A", inputs, "current <= carries", from_)
    needs = f"needs what the {what} carries, by its maker: {known}, and this is {figure(round(full_a, 1))} A"
    return waits(id_, f"Current at the {what}", "A", full_a, needs, (), "", from_)
