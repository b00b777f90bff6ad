"""A bay with a doubler under the item: how stiff it is at least, and whether the doubler's rivets hold as a group."""

from math import sqrt

from fasten.catalog.named import material
from fasten.catalog.practice import DOUBLED_BAYS, FACTORS, RULES, DoubledBay
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.doubler import rivet_count, rivet_of
from fasten.mechanics import sheet
from fasten.mechanics.plate import bay_n_per_mm, bonded_ratio, riveted_ratio
from fasten.model import Bay, Check, Demand, Doubler, Input, Joined, MountPoint, Panel
from fasten.model.check import LOAD_KINDS
from fasten.proof.checks import at_most, waits
from fasten.proof.loads import case_name
from fasten.record import record
from fasten.require import Points

_ASPECT = 2.0  # of the bays of the table
RIVETS, OVERHEAD = "doubler-rivets", "doubler-overhead"


@record
class Doubled:
    """Stiffness of a bay with its doubler, from what; `needs` says why it cannot be counted on."""

    n_per_mm: float
    inputs: tuple[Input, ...]
    from_: tuple[str, ...]
    needs: str = ""


def doubled(mount: MountPoint, doubler: Doubler, bay: Bay, points: Points, rigidity: float, tables: Tables) -> Doubled:
    """The least that a bay holds with its doubler in the middle; nothing where the doubler does not reach."""
    wide = [max(side) - min(side) for side in zip(*points, strict=True)]
    reach = rule(tables, Rules.DOUBLER_REACH)
    inputs = (
        Input("side of the doubler", doubler.side_mm, "mm"), Input("doubler", doubler.thickness_mm, "mm"),
        Input("reaches past the fixings", reach.value, "mm"),
    )  # fmt: skip
    if max(wide) + 2 * reach.value > doubler.side_mm:
        needs = f"needs a doubler that reaches {reach.value:g} mm past every fixing"
        return Doubled(0.0, inputs, (tables.source_id(RULES, reach),), needs)
    rows = _rows(doubler.side_mm / bay.short_mm, tables)
    if not rows:
        least = tables.rows(DOUBLED_BAYS)[0].side_ratio
        return Doubled(0.0, inputs, (), f"needs a doubler of at least {least * bay.short_mm:.0f} mm, half the bay")
    ratio = stiffer(doubler, mount.thickness_min_mm)
    four = len(points) > 3 and sqrt(wide[0] * wide[1]) >= 0.6 * rows[0].side_ratio * bay.short_mm
    found = _at_ratio(rows, ratio, four=four) * rigidity / bay.short_mm**2 * _longer(points, bay, rigidity)
    given = (*inputs, Input("bending stiffness over that of the sheet", ratio, "-"), Input("stiffness", found, "N/mm"))
    return Doubled(found, given, (tables.source_id(DOUBLED_BAYS, rows[0]), tables.source_id(RULES, reach)))


def stiffer(doubler: Doubler, sheet_mm: float) -> float:
    """How much stiffer sheet and doubler bend than the sheet."""
    ratio = bonded_ratio if doubler.joined is Joined.BONDED else riveted_ratio
    return ratio(sheet_mm=sheet_mm, doubler_mm=doubler.thickness_mm)


def _rows(side_ratio: float, tables: Tables) -> list[DoubledBay]:
    """The rows of the widest doubler in the table that this one covers."""
    covered = [row.side_ratio for row in tables.rows(DOUBLED_BAYS) if row.side_ratio <= side_ratio + 1e-9]
    return [row for row in tables.rows(DOUBLED_BAYS) if covered and row.side_ratio == max(covered)]


def _at_ratio(rows: list[DoubledBay], ratio: float, *, four: bool) -> float:
    """Between two rows in a straight line, which lies under the curve; past the last no more."""
    held = min(ratio, rows[-1].rigidity_ratio)
    under = max((row for row in rows if row.rigidity_ratio <= held), key=lambda row: row.rigidity_ratio)
    over = min((row for row in rows if row.rigidity_ratio >= held), key=lambda row: row.rigidity_ratio)
    low, high = ((row.four if four else row.point) for row in (under, over))
    apart = over.rigidity_ratio - under.rigidity_ratio
    return low if apart == 0 else low + (held - under.rigidity_ratio) / apart * (high - low)


def _longer(points: Points, bay: Bay, rigidity: float) -> float:
    """A longer bay than those of the table is softer, without a doubler by this much; a shorter one counts the same."""
    if bay.long_mm <= _ASPECT * bay.short_mm:
        return 1.0
    own, table = (
        bay_n_per_mm(points_mm=points, short_mm=bay.short_mm, long_mm=long_mm, rigidity_nmm=rigidity)
        for long_mm in (bay.long_mm, _ASPECT * bay.short_mm)
    )
    return own / table


# -- its rivets -------------------------------------------------------------------------------------------------------


def rivet_checks(mount: MountPoint, demands: tuple[Demand, ...], tables: Tables) -> list[Check]:
    """The rivets of a doubler, as if all that pulls and shears at the fixings went through them; never overhead."""
    doubler = mount.doubler
    if doubler is None or doubler.joined is Joined.BONDED:
        return []
    lines = [_line(mount, doubler, kind, side, demands, tables) for kind in LOAD_KINDS for side in ("shear", "pull")]
    return [*_overhead(mount), *(line for line in lines if line is not None)]


def _overhead(mount: MountPoint) -> list[Check]:
    if mount.panel not in {Panel.ROOF, Panel.UNKNOWN}:
        return []
    needs = "needs the panel: rivets never hang anything over people"
    if mount.panel is Panel.ROOF:
        needs = "needs a doubler that is bonded: rivets never hang anything over people"
    return [waits(OVERHEAD, "Rivets of the doubler never overhead", "-", None, needs, (), "the panel is no roof", ())]


def _line(
    mount: MountPoint, doubler: Doubler, kind: str, side: str, demands: tuple[Demand, ...], tables: Tables
) -> Check | None:
    """One line of the group; None where nothing of this kind is asked of it."""
    loads = [one for one in demands if one.kind == kind]
    factor = tables.find(FACTORS, kind, "rivet")
    if not loads or factor is None or factor.factor is None:
        return None
    worst = max(loads, key=lambda one: one.shear_n if side == "shear" else one.tension_n)
    title, id_ = f"Rivets of the doubler, {side}", f"{RIVETS}-{side}.{kind}"
    row = rivet_of(doubler, mount.thickness_min_mm, tables)
    strength = material(tables, mount.material).ultimate_mpa
    if row is None or strength is None:
        needs = "needs a rivet that grips sheet and doubler" if row is None else "needs the strength of the sheet"
        return waits(id_, title, "N", None, needs, worst.inputs, "-", (), load_case=case_name(worst))
    count = rivet_count(doubler, tables)
    share = (worst.shear_n if side == "shear" else worst.tension_n) * mount.fixings / count
    head = rule(tables, Rules.BLIND_HEAD)
    thin_mm = min(mount.thickness_min_mm, doubler.thickness_mm)
    held = sheet.pull_through_en_n(
        sheet_mm=thin_mm, head_mm=head.value * row.diameter_mm, sheet_ultimate_mpa=strength, gamma=1.0
    )
    least = min(row.shear_n if side == "shear" else row.tension_n, held)
    inputs = (
        *worst.inputs, Input("fixings", mount.fixings, "-"), Input("rivets", count, "-"),
        Input("rating of the rivet", row.shear_n if side == "shear" else row.tension_n, "N"),
        Input("blind head in the thinner sheet", held, "N"), Input("factor", factor.factor, "-"),
    )  # fmt: skip
    sources = (tables.source_id(FACTORS, factor), tables.source_id(RULES, head), worst.from_)
    formula = "load on a fixing x fixings / rivets <= least of rivet and sheet / factor"
    return at_most(
        id_, title, share, least / factor.factor, "N", inputs, formula, sources, factor=factor.factor,
        load_case=case_name(worst),
    )  # fmt: skip
