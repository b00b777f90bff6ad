"""What stands on a panel, and over which span its board lies where that is one."""

from fasten.model import FloorSpan, MountPoint


def floor_of(mount: MountPoint) -> FloorSpan | None:
    """The span of the board under a mount point: as it was said, or between the fixings of the board that it is on.

    mount: the mount point [-]
    Returns: the span, None where none is known [-]
    Source: geometry.
    """
    if mount.support is None and mount.on_board is not None and mount.on_board.span_mm is not None:
        return FloorSpan(mount.on_board.span_mm)
    return mount.support if isinstance(mount.support, FloorSpan) else None


def mass_on_panel_kg(mount: MountPoint) -> float:
    """What sways on one panel: of a cable in clamps the share of one clamp, on a board all that stands on it.

    mount: the mount point [-]
    Returns: mass [kg]
    Source: geometry.
    """
    if mount.on_board is not None:
        return mount.on_board.mass_kg
    return mount.mass_kg / mount.fixings if mount.run_mm is not None else mount.mass_kg
