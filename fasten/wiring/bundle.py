"""How thick the cables are that lie together, and whether all of them were measured."""

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.catalog.wiring_work import BUNDLE_PACKING
from fasten.mechanics.wiring import mixed_bundle_mm
from fasten.model import Check, Input
from fasten.proof.checks import waits
from fasten.record import record
from fasten.text.figures import figure
from fasten.wiring.covers import is_plugged, outside_of
from fasten.wiring.sizing import Sizing
from fasten.wiring.words import Loudspeaker, TerminalEnd

_EQUAL = 0.95  # of the thickest: cables that count as equal to it


@record
class Bundle:
    """A bundle of cables: how thick it is at most, the cables whose outside was not measured, and what it rests on.

    `diameter_mm` is None where nothing is known of one of them.
    """

    diameter_mm: float | None
    open_: tuple[str, ...]
    inputs: tuple[Input, ...]
    from_: tuple[str, ...]


def bundle_of(runs: tuple[Sizing, ...], tables: Tables, seen: frozenset[str] = frozenset()) -> Bundle:
    """The bundle of the cables of runs; a loudspeaker lead counts as its two wires.

    `seen` are runs whose cable the user saw to be no thicker than it is sold: at its thickest it counts as measured.
    """
    diameters: list[float] = []
    open_: list[str] = []
    unknown = False
    sources: list[str] = []
    for sizing in runs:
        outside = outside_of(sizing.size, sizing.run, tables)
        if outside is None or not (outside.measured or sizing.run.name in seen):
            open_.append(_called(sizing))
        if outside is None:
            unknown = True
            continue
        sources += outside.from_
        diameters += [outside.most_mm] * (2 if isinstance(sizing.run.carries, Loudspeaker) else 1)
    inputs = tuple(Input(f"cable {at}", one, "mm") for at, one in enumerate(diameters, 1))
    factor, source = rule_figure(tables, WiringRules.BUNDLE_MIXED)
    if unknown or not diameters:
        return Bundle(None, tuple(dict.fromkeys(open_)), inputs, tuple(dict.fromkeys(sources)))
    mixed = mixed_bundle_mm(diameters_mm=tuple(diameters), factor=factor)
    whole = max(mixed, _packed(diameters, tables))
    return Bundle(whole, tuple(dict.fromkeys(open_)), inputs, tuple(dict.fromkeys((*sources, source))))


def _called(sizing: Sizing) -> str:
    """What must be measured: cable by its size, a lead with plugs by its run."""
    return f"lead {sizing.run.name} (write plug lead 6 mm)" if is_plugged(sizing.run) else sizing.size.name


def plug_mm(runs: tuple[Sizing, ...]) -> float:
    """The widest plug that a run comes with; 0 where none does."""
    ends = (end for sizing in runs for end in (sizing.run.from_, sizing.run.to))
    return max((end.bore_mm or 0.0 for end in ends if isinstance(end, TerminalEnd) and end.is_plug), default=0.0)


def has_unknown_plug(runs: tuple[Sizing, ...]) -> bool:
    """Whether a run comes with a plug of which it is not said how thick it is."""
    ends = (end for sizing in runs for end in (sizing.run.from_, sizing.run.to))
    return any(isinstance(end, TerminalEnd) and end.is_plug and end.bore_mm is None for end in ends)


def bundle_check(bundle: Bundle) -> Check:
    """How thick a bundle is: open until every cable of it is measured."""
    about = "" if bundle.diameter_mm is None else f", about {figure(bundle.diameter_mm)} mm together"
    needs = f"needs the outside of {', '.join(bundle.open_)}{about}, by calliper"
    return waits("bundle", "Bundle", "mm", bundle.diameter_mm, needs, bundle.inputs,
                 "max(1.2 root(sum of squares), two thickest side by side, packing)", bundle.from_)  # fmt: skip


def _packed(diameters: list[float], tables: Tables) -> float:
    """The thickest equal cables packed; 0 where so many have no row."""
    widest = max(diameters)
    equal = sum(one >= _EQUAL * widest for one in diameters)
    row = tables.find(BUNDLE_PACKING, equal)
    return 0.0 if row is None else row.diameters * widest
