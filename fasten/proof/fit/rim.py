"""Thin foam under a stiff rim, which needs no compression limiter: what makes the rim stiff enough, and why not.

Nothing counts on a clamp through foam, so that all a limiter would do is keep it from being crushed. A rim that hardly
bends between its fixings presses thin foam alike all round.
"""

from fasten.catalog.materials import SOFT_LAYERS
from fasten.catalog.named import material
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.patterns import gap_mm
from fasten.geometry.soft import pressed, staying
from fasten.mechanics.foam import rim_sag_mm
from fasten.model import Between, Check, Input, MountPoint
from fasten.model.check import RIM
from fasten.proof.checks import at_most
from fasten.record import record
from fasten.text.figures import figure, mm
from fasten.text.rounding import rounded_up


@record
class _Rim:
    """How far the rim bends between two fixings, and how far it may."""

    sag_mm: float
    most_mm: float
    inputs: tuple[Input, ...]
    from_: tuple[str, ...]


def presses_alone(mount: MountPoint, tables: Tables) -> bool:
    """Whether the rim alone presses the foam, and no compression limiter is needed."""
    return pressed(mount.between, tables) is not None and why_limited(mount, tables) is None


def why_limited(mount: MountPoint, tables: Tables) -> str | None:
    """Why foam takes a compression limiter; None where its rim presses it alone."""
    foam, layers = pressed(mount.between, tables), staying(mount.between)
    thin_mm, _ = rule_value(tables, Rules.FOAM_OWN_STOP)
    if foam is None or len(layers) > 1:
        return "foam is not all that lies between"
    if foam.thickness_mm >= thin_mm:
        return f"the foam is {mm(foam.thickness_mm)} thick, and needs one from {figure(thin_mm)} mm on"
    rim = _rim(mount, foam, tables)
    if rim is None:
        return "how much the rim bends round it is not known"
    if rim.sag_mm > foam.thickness_mm:
        return "the rim would bend more between two fixings than the foam is thick"
    if rim.sag_mm > rim.most_mm:
        return f"the rim would bend {rounded_up(rim.sag_mm, 2)} mm between two fixings, and may {mm(rim.most_mm)}"
    return None


def checks(mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """The line that says why there is no limiter: how far the rim bends against how far it may."""
    foam = pressed(mount.between, tables)
    rim = None if foam is None or not presses_alone(mount, tables) else _rim(mount, foam, tables)
    if rim is None:
        return ()
    return (at_most(RIM, "Rim stiff enough to press its foam without a limiter", rim.sag_mm, rim.most_mm, "mm",
                    rim.inputs, "push x gap^4 / (32 E t^3) <= (1 - left at the fixings - least pressed) x foam",
                    rim.from_),)  # fmt: skip


def _rim(mount: MountPoint, foam: Between, tables: Tables) -> _Rim | None:
    """None where there is one fixing, or the modulus of the item is not known."""
    of, row = material(tables, mount.item_material), tables.need(SOFT_LAYERS, foam.material)
    if mount.pattern is None or of.youngs_mpa is None:
        return None
    push, push_source = rule_value(tables, Rules.FOAM_PUSH)
    least, least_source = rule_value(tables, Rules.FOAM_LEAST)
    gap, thick_mm = gap_mm(mount.pattern, mount.fixings), mount.item_thickness_mm
    sag_mm = rim_sag_mm(pressure_mpa=push, gap_mm=gap, youngs_mpa=of.youngs_mpa, thickness_mm=thick_mm)
    inputs = (
        Input("push of soft foam, assumed", push, "MPa"), Input("gap between fixings", gap, "mm"),
        Input("modulus of the rim", of.youngs_mpa, "MPa"), Input("thickness of the rim", thick_mm, "mm"),
        Input("left at the fixings", row.stop_fraction, "-"), Input("least pressed", least, "-"),
        Input("foam", foam.thickness_mm, "mm"),
    )  # fmt: skip
    sources = (push_source, least_source, tables.source_id(SOFT_LAYERS, row))
    return _Rim(sag_mm, (1 - row.stop_fraction - least) * foam.thickness_mm, inputs, sources)
