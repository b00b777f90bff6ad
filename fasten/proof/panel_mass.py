"""The mass that practice puts on a panel of which nobody knows how stiff it is."""

from math import inf

from fasten.catalog.materials import ITEMS, MATERIALS, Material
from fasten.catalog.named import material
from fasten.catalog.practice import RULES
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.floor import mass_on_panel_kg
from fasten.model import Check, Input, MountPoint, Panel, Ribs
from fasten.model.check import STIFFNESS
from fasten.proof.checks import at_most
from fasten.proof.sway import BOARDS, bending_nmm, rigidity_of

_OF_BOARD = {"mdf": Rules.FLOOR_MASS_MDF, "plywood": Rules.FLOOR_MASS_PLYWOOD}
TITLE = "Stiffness of the panel"


def by_practice(mount: MountPoint, tables: Tables) -> Check:
    """The small mass that practice puts on a panel whose support is not given."""
    most, inputs, formula, sources = _practice_mass(mount, tables)
    demand = mass_on_panel_kg(mount)
    given = (Input("mass on the panel", demand, "kg"), *inputs)
    return at_most(STIFFNESS, TITLE, demand, most, "kg", given, formula, sources)


Practice = tuple[float, tuple[Input, ...], str, tuple[str, ...]]


def _practice_mass(mount: MountPoint, tables: Tables) -> Practice:
    """The mass, what it follows from, how, and by which sources."""
    row = material(tables, mount.material)
    if row.family in BOARDS:
        return _board_mass(mount, row, tables)
    rigidity, inputs, _ = rigidity_of(mount, tables)
    if rigidity is None or (mount.panel is Panel.ROOF and is_skin(mount, tables)):
        return _nothing(mount, tables)
    if isinstance(mount.support, Ribs):
        return _ribs_mass(mount, mount.support, tables)
    ring = _ring_mass(mount, rigidity, tables)
    skin = _skin_mass(rigidity, inputs, tables)
    return skin if ring is None or skin[0] >= ring[0] else ring


def _nothing(mount: MountPoint, tables: Tables) -> Practice:
    """A roof skin, and what bends nobody knows how."""
    thickness = Input("thickness", mount.thickness_min_mm, "mm")
    return 0.0, (thickness,), "no mass without a support", (tables.source_id(RULES, rule(tables, Rules.SKIN_MASS)),)


def _skin_mass(rigidity: float, inputs: tuple[Input, ...], tables: Tables) -> Practice:
    base, sheet, cap = (rule(tables, name) for name in (Rules.SKIN_MASS, Rules.SKIN_MASS_SHEET, Rules.SKIN_MASS_MOST))
    of_steel = _of_steel(sheet.value, tables)
    given = (
        *inputs, Input("bending stiffness", rigidity, "N·mm"), Input("that of the rule's sheet", of_steel, "N·mm"),
        Input("mass of the rule", base.value, "kg"), Input("most", cap.value, "kg"),
    )  # fmt: skip
    formula = "mass <= 3 kg x bending stiffness of the panel over that of 0.8 mm steel, 10 kg at most"
    sources = tuple(tables.source_id(RULES, one) for one in (base, sheet, cap))
    return min(base.value * rigidity / of_steel, cap.value), given, formula, sources


def _ring_mass(mount: MountPoint, rigidity: float, tables: Tables) -> Practice | None:
    """An item round its own opening stiffens the panel there; None where it is none, or the sheet is too thin."""
    ring, sheet = rule(tables, Rules.SKIN_RING_MASS), rule(tables, Rules.SKIN_RING_SHEET)
    if tables.need(ITEMS, mount.item).opening != "yes" or rigidity < _of_steel(sheet.value, tables) * (1 - 1e-9):
        return None
    given = (Input("sheet", mount.thickness_min_mm, "mm"), Input("mass of the rule", ring.value, "kg"))
    sources = (tables.source_id(RULES, ring), tables.source_id(RULES, sheet))
    return ring.value, given, "mass <= 5 kg: the item stiffens the panel as a ring", sources


def _of_steel(thickness_mm: float, tables: Tables) -> float:
    """Bending stiffness of the sheet of a rule; without the figures of steel nothing is as stiff."""
    return bending_nmm(tables.need(MATERIALS, "steel"), thickness_mm) or inf


def _ribs_mass(mount: MountPoint, ribs: Ribs, tables: Tables) -> Practice:
    base, depth, sheet = (rule(tables, name) for name in (Rules.RIBS_MASS, Rules.RIBS_DEPTH, Rules.SKIN_MASS_SHEET))
    sources = tuple(tables.source_id(RULES, one) for one in (base, depth))
    given = (
        Input("sheet", mount.thickness_min_mm, "mm"), Input("depth of the beads", ribs.depth_mm, "mm"),
        Input("least depth", depth.value, "mm"), Input("mass of the rule", base.value, "kg"),
        Input("sheet of the rule", sheet.value, "mm"),
    )  # fmt: skip
    deep = ribs.depth_mm >= depth.value
    found = base.value * (mount.thickness_min_mm / sheet.value) ** 3 if deep else 0.0
    return found, given, "mass <= 10 kg x (sheet / 0.8 mm)^3, beads 8 mm deep or more", sources


def _board_mass(mount: MountPoint, row: Material, tables: Tables) -> Practice:
    """A board has a mass of its own where practice has one, else that of MDF by its modulus."""
    mdf = tables.need(MATERIALS, "mdf")
    if row.youngs_mpa is None or mdf.youngs_mpa is None:
        return _nothing(mount, tables)
    own = _OF_BOARD.get(row.material)
    base = rule(tables, own or Rules.FLOOR_MASS_MDF)
    board, cap = rule(tables, Rules.FLOOR_MASS_BOARD), rule(tables, Rules.FLOOR_MASS_MOST)
    stiffer = 1.0 if own is not None else row.youngs_mpa / mdf.youngs_mpa
    given = (
        Input("board", mount.thickness_min_mm, "mm"), Input("board of the rule", board.value, "mm"),
        Input("modulus over that of the rule", stiffer, "-"), Input("mass of the rule", base.value, "kg"),
        Input("most", cap.value, "kg"),
    )  # fmt: skip
    found = min(stiffer * base.value * (mount.thickness_min_mm / board.value) ** 3, cap.value)
    sources = (tables.source_id(RULES, base), tables.source_id(RULES, cap))
    return found, given, "mass <= that of 12 mm x (board / 12 mm)^3, 25 kg at most", sources


def is_skin(mount: MountPoint, tables: Tables) -> bool:
    """Whether the panel is a bare skin of metal."""
    return (
        material(tables, mount.material).family == "sheet"
        and mount.thickness_min_mm < rule(tables, Rules.FRAME_SHEET).value
    )
