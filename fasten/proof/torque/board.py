"""How tight a screw goes that forms its own thread in board: it is seated, and claims no clamp.

Its shear goes in bearing. Where no figure is known for what strips it, there is no torque: it is driven by feel.
"""

from fasten.catalog.materials import FINISHES
from fasten.catalog.practice import RULES, TIGHTENING, Rule
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.joint import screw_of
from fasten.mechanics.torque import torque_floor_nm
from fasten.model import Demand, Input, Joint, MountPoint, Span
from fasten.proof.modes import board as board_modes
from fasten.proof.torque.limits import Limit, by_torque, item_limit, moved, screw_limit, share_of_load, share_of_torque
from fasten.proof.torque.tightening import WAY, ByFeel, Limits, Window, tool_error


def torque(
    joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables
) -> Window | ByFeel:
    """`torque` of a screw that forms its thread in board."""
    return window(joint, mount, tables) or ByFeel("no figure is known for what strips it in this board")


def window(joint: Joint, mount: MountPoint, tables: Tables) -> Window | None:
    """From 1.2 times what seats the screw to half of what strips it; None where no figure is known for the board.

    What strips it was measured with long screws: a short one is held to half of its own withdrawal past the seat.
    """
    strip = tables.find(RULES, f"{mount.material}-strip-{mount.into.value}")
    seat = tables.find(RULES, f"{mount.material}-seat-{mount.into.value}")
    if strip is None or seat is None:
        return None
    finish, way = tables.need(FINISHES, screw_of(joint).finish), tables.need(TIGHTENING, WAY)
    stripping = share_of_torque("strip torque of the board", strip.value, Rules.PLASTIC_STRIP_SHARE, tables,
                                (tables.source_id(RULES, strip),))  # fmt: skip
    held = board_modes.SCREW_WITHDRAWAL.capacity(joint, mount, tables)
    thread = share_of_load("thread in the board", joint, held, Rules.PLASTIC_STRIP_SHARE, finish.nut_factor, tables)
    pressing = item_limit(joint, mount, finish.nut_factor, way.scatter, tables)
    limits = (
        stripping, screw_limit(joint, mount, finish.nut_factor, tables),
        *(_past_seat(limit, seat) for limit in (thread, *pressing)),
    )  # fmt: skip
    upper = min(limits, key=by_torque)
    ratio = rule(tables, Rules.DRIVING_RATIO)
    inputs = (Input("torque that seats it", seat.value, "N·m"), Input("driving ratio", ratio.value, "-"))
    sources = (tables.source_id(RULES, seat), tables.source_id(RULES, ratio))
    return Window(
        lower_nm=torque_floor_nm(driving_nm=seat.value, margin=ratio.value),
        upper=upper, preload_needed_n=0.0,
        shown=lambda: (inputs, sources), nut_factor=Span(finish.nut_factor_min, finish.nut_factor_max),
        error=tool_error(upper.torque_nm, tables), forms=True, lower_formula="driving ratio x torque that seats it",
    )  # fmt: skip


def _past_seat(limit: Limit, seat: Rule) -> Limit:
    """What drives the thread does not clamp: only the torque past it presses on the item."""
    seats = Input("torque that seats it", seat.value, "N·m")
    return moved(limit, seat.value, seats, "torque that seats it + {}")
