"""Families of failure modes: each names the law by which shear and pull act together, or why none joins them.

The factor of a family for each kind of load case is a row of `factors.toml`, or a row that says why it does not count.
"""

from collections.abc import Callable

from fasten.mechanics.screw import shank_interaction
from fasten.mechanics.sheet import sheet_interaction
from fasten.model.known import Stated
from fasten.record import record


@record
class Law:
    """How shear and pull add up: `id` names its check and its formula."""

    id: str
    title: str
    used: Callable[..., float]


@record
class NotJoined:
    """Why nothing joins shear and pull here."""

    why: str


@record
class Family:
    """Modes that share their factors and their law. Those of one law are joined whatever their family.

    `of` says what their figures are, which is what own test pieces take the place of.
    """

    name: str
    law: Law | NotJoined
    of: Stated


IN_SHEET = Law("sheet-together", "Sheet, shear and pull together", sheet_interaction)
IN_SHANK = Law("shank-together", "Shank, shear and pull together", shank_interaction)
IN_BOARD = Law("board-together", "Board, shear and pull together", shank_interaction)
IN_PLASTIC = Law("plastic-together", "Plastic, shear and pull together", sheet_interaction)
IN_PART = Law("rated-together", "Part, shear and pull together", sheet_interaction)
IN_STRIPS = Law("hook-together", "Strips, shear and pull together", sheet_interaction)
IN_BOND = Law("bond-together", "Bond, shear and pull together", sheet_interaction)
IN_MAGNET = Law("magnet-together", "Magnet, shear and pull together", sheet_interaction)
LAWS = (IN_SHEET, IN_SHANK, IN_BOARD, IN_PLASTIC, IN_PART, IN_STRIPS, IN_BOND, IN_MAGNET)

PULL_ONLY = NotJoined("it takes pull only: the shear of its fixing goes through the shank and into what it bears on")
ITEM_APART = NotJoined("no published rule combines the item's elongated hole with its pull over the head")

SHEET = Family("sheet", IN_SHEET, Stated.LEAST)
SHEET_SCREW = Family("sheet_screw", IN_SHEET, Stated.MEAN)
SHEET_EN = Family("sheet_en", IN_SHEET, Stated.LEAST)
SCREW = Family("screw", IN_SHANK, Stated.LEAST)
CORE = Family("core", IN_SHANK, Stated.LEAST)
RIVET = Family("rivet", IN_SHANK, Stated.LEAST)
SCREW_PROOF = Family(
    "screw_proof",
    NotJoined("proof load limits the pull: both together count on the screw's strength"),
    Stated.LEAST,
)
THREAD = Family("thread", PULL_ONLY, Stated.LEAST)
STRIP = Family("strip", PULL_ONLY, Stated.LEAST)
ITEM = Family("item", ITEM_APART, Stated.LEAST)
ITEM_SOFT = Family("item_soft", NotJoined("a limit on pressure, not a strength that shear takes part of"), Stated.LIMIT)
BOARD = Family("board", IN_BOARD, Stated.MEAN)
BOARD_BEARING = Family("board_bearing", IN_BOARD, Stated.MEAN)
PLASTIC = Family("plastic", IN_PLASTIC, Stated.LEAST)
RATED = Family("rated", IN_PART, Stated.LEAST)
MAKER = Family("maker", NotJoined("only the vehicle's maker knows what it bears"), Stated.LIMIT)
HOOK = Family("hook", IN_STRIPS, Stated.LIMIT)
BOND = Family("bond", IN_BOND, Stated.LIMIT)
TAPE = Family("tape", IN_BOND, Stated.LIMIT)
TAPE_STANDING = Family("tape_standing", IN_BOND, Stated.LIMIT)
MAGNET = Family("magnet", IN_MAGNET, Stated.LIMIT)
FAMILIES = (
    SHEET, SHEET_SCREW, SHEET_EN, SCREW, CORE, RIVET, SCREW_PROOF, THREAD, STRIP, ITEM, ITEM_SOFT, BOARD, BOARD_BEARING,
    PLASTIC, RATED, MAKER, HOOK, BOND, TAPE, TAPE_STANDING, MAGNET,
)  # fmt: skip
