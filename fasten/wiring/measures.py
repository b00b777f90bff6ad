"""Whether what was measured of a cable can be: its conductor holds its copper, and its outside goes round that."""

from collections.abc import Mapping
from math import pi, sqrt

from fasten.errors import FastenError
from fasten.text.figures import figure
from fasten.text.rounding import rounded_down, rounded_up
from fasten.wiring.words import Size

OUTSIDE, CONDUCTOR = "outside", "conductor"
_THINNER = 0.94  # areas of SAE are up to 12 % under those of AWG, and a calliper errs
_LOOSE = 1.5  # strands that fill less than half of their circle are none of a cable


def check_measures(size: Size, mm: Mapping[str, float], where: str = "") -> None:
    """Raises FastenError where cable of a size is not so thick; its `where` what was measured, or as it is given."""
    copper_mm = sqrt(4 * size.area_mm2 / pi)
    for name, value in mm.items():
        if value < copper_mm * _THINNER:
            least = rounded_down(copper_mm, 1)
            what = f"{figure(value)} mm is no {name} of {size.name}, whose copper alone is {least} mm thick"
            raise FastenError(
                what, where=where or name, fix="measure it again, or write the size that is printed on it"
            )
    conductor_mm, outside_mm = mm.get(CONDUCTOR), mm.get(OUTSIDE)
    if conductor_mm is not None and conductor_mm > copper_mm * _LOOSE:
        most = rounded_up(copper_mm * _LOOSE, 1)
        what = f"{figure(conductor_mm)} mm is no conductor of {size.name}, whose strands are at most {most} mm together"
        raise FastenError(what, where=where or CONDUCTOR, fix="measure the bare strands, without the insulation")
    if conductor_mm is not None and outside_mm is not None and conductor_mm >= outside_mm:
        what = f"a conductor of {figure(conductor_mm)} mm is in no cable {figure(outside_mm)} mm thick"
        raise FastenError(
            what, where=where or CONDUCTOR, fix="measure both again: the outside goes over the insulation"
        )
