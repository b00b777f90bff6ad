"""Runs of cable calculated independently: from print and arithmetic alone, no table and no equation of the program.

Ω per 1000 ft: AC 43.13-1B, Table 11-9. Amperes: 33 CFR 183.425, Table 5, at 75 and 105 °C. Fuses: ISO 8820-3 C to
30 A, wafers with set screws for 8 to 4 AWG to 150 A, ISO 8820-5 SF51 above.
"""

from math import sqrt

import pytest

from fasten.catalog.tables import builtin
from fasten.wiring.fields import read_run
from fasten.wiring.resolve import resolve
from fasten.wiring.sizing import NoSize, Sizing, sized

OHM_PER_1000_FT = {
    "18": 6.23, "16": 4.81, "14": 3.06, "12": 2.02, "10": 1.26, "8": 0.70, "6": 0.44, "4": 0.28, "2": 0.18,
    "1/0": 0.12, "2/0": 0.09,
}  # fmt: skip
AMPS_105 = {
    "18": 20,
    "16": 25,
    "14": 35,
    "12": 45,
    "10": 60,
    "8": 80,
    "6": 120,
    "4": 160,
    "2": 210,
    "1/0": 285,
    "2/0": 330,
}
AMPS_75 = {
    "18": 10,
    "16": 15,
    "14": 20,
    "12": 25,
    "10": 40,
    "8": 65,
    "6": 95,
    "4": 125,
    "2": 170,
    "1/0": 230,
    "2/0": 265,
}
BLADE = (1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30)
WAFER = (20, 30, 40, 50, 60, 80, 100, 125, 150)
STRIP = (60, 80, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500)
GAUGES = tuple(OHM_PER_1000_FT)
UP_TO_6, WAFERS = GAUGES[:7], ("8", "6", "4")  # blades are proposed up to 16 mm²


def lost_v(gauge: str, amps: float, metres: float, ambient: float = 30.0) -> float:
    warm = ambient + 75 * (amps / AMPS_105[gauge]) ** 2
    per_m = OHM_PER_1000_FT[gauge] / 304.8 * (234.5 + warm) / 254.5
    return amps * per_m * metres


def fuse(gauge: str, floor: float, most: float) -> float | None:
    series = [rating for rating in BLADE if gauge in UP_TO_6]
    series = [rating for rating in series if floor <= rating <= most]
    if not series and gauge in WAFERS:
        series = [rating for rating in WAFER if floor <= rating <= most]
    if not series and GAUGES.index(gauge) >= GAUGES.index("4"):
        series = [rating for rating in STRIP if floor <= rating <= most]
    return series[0] if series else None


def by_hand(amps: float, floor: float, metres: float, *, hot: bool = False) -> tuple[str, float, float] | None:
    """Gauge, fuse and volts of the first gauge that carries its fuse and loses 3 % of 13.8 V at most."""
    for gauge in GAUGES:
        carries = AMPS_105[gauge] * (0.85 if hot else 1.0)
        rating, volts = fuse(gauge, floor, carries), lost_v(gauge, amps, metres, 50.0 if hot else 30.0)
        if rating is not None and volts <= 0.03 * 13.8:
            return gauge, rating, volts
    return None


def answered(**said: str) -> Sizing | NoSize:
    fields = {"from": "battery stud M8", "to": "set screw"} | {key.rstrip("_"): text for key, text in said.items()}
    return sized(resolve(read_run(fields, builtin()), builtin()), builtin())


@pytest.mark.parametrize("hot", [False, True])
@pytest.mark.parametrize("length", [0.5, 2.0, 5.0, 8.0])
@pytest.mark.parametrize("amps", [1.0, 5.0, 12.0, 24.0, 25.0, 36.0, 60.0, 96.6, 145.0, 190.0])
def test_a_load_by_its_current(amps: float, length: float, *, hot: bool) -> None:
    place = "engine-bay" if hot else "cabin"
    found = answered(carries=f"{amps} A", length=f"{length} m", ground="0.45 m", where=place)
    expected = by_hand(amps, amps / 0.8, length + 0.45, hot=hot)
    if expected is None:  # the two largest gauges are of another print
        assert isinstance(found, NoSize) or found.size.name in {"3/0 AWG", "4/0 AWG"}
        return
    assert isinstance(found, Sizing)
    assert found.fuse is not None
    assert found.conductor is not None
    assert (found.size.name, found.fuse.rating_a) == (f"{expected[0]} AWG", expected[1])
    assert found.conductor.drop_v == pytest.approx(expected[2], rel=0.002), "the print is converted to three decimals"


@pytest.mark.parametrize(
    ("watts", "share"), [("250 W class D", 0.75), ("600 W class AB", 0.6), ("2 x 400 W class D", 0.75)]
)
def test_an_amplifier_by_its_power(watts: str, share: float) -> None:
    power = 800.0 if watts.startswith("2 x") else float(watts.split(maxsplit=1)[0])
    amps = power / share / 13.8
    found, expected = answered(carries=watts, length="4 m"), by_hand(amps, amps / 0.8, 4.0)
    assert isinstance(found, Sizing)
    assert found.fuse is not None
    assert expected is not None
    assert (found.size.name, found.fuse.rating_a) == (f"{expected[0]} AWG", expected[1])


@pytest.mark.parametrize("metres", [1.0, 3.0, 6.0, 9.0])
@pytest.mark.parametrize(("watts", "ohms"), [(50, 4), (100, 4), (300, 2), (1000, 2), (1000, 1)])
def test_a_loudspeaker_lead(watts: int, ohms: int, metres: float) -> None:
    amps = sqrt(watts / ohms)
    for gauge in GAUGES:
        warm = 30 + 45 * (amps / AMPS_75[gauge]) ** 2
        ohm = 2 * metres * OHM_PER_1000_FT[gauge] / 304.8 * (234.5 + warm) / 254.5
        if ohm <= 0.05 * ohms and amps <= AMPS_75[gauge]:
            break
    load = f"loudspeaker {watts} W {ohms} ohm"
    found = answered(carries=load, from_="set screw", to="loudspeaker", length=f"{metres} m")
    assert isinstance(found, Sizing)
    assert found.lead is not None
    assert found.size.name == f"{gauge} AWG"
    assert found.lead.loop_ohm == pytest.approx(ohm, rel=0.002)
