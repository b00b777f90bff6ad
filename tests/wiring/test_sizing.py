"""The chain of a run: published and worked cases, which row governs, and what is refused with which figure."""

from math import log10, sqrt

import pytest

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.mechanics.wiring import amplifier_current_a, drop_v, warm_mohm_per_m
from fasten.model import Status
from fasten.report.wire.as_text import chain
from fasten.wiring.conductor import Conductor
from fasten.wiring.conductor import conductor as calculated
from fasten.wiring.fuse import is_ground
from fasten.wiring.pieces import colour_of
from fasten.wiring.words import Run, Size

from .asked import asked, no_size, sizing


def status(found: str, **said: str) -> Status:
    return {check.id: check.status for check in sizing(**said).checks}[found]


# -- published ---------------------------------------------------------------------------------------------------------


def test_the_drop_of_the_example_of_ac_43() -> None:
    """AC 43.13-1B, Table 11-7, first row: 107 ft of No. 6 at 20 A and 0.00044 Ω/ft lose 0.942 V (print: 1 V)."""
    found = drop_v(current_a=20, resistance_mohm_per_m=0.44 / 0.3048, length_mm=107 * 304.8)
    assert found == pytest.approx(0.942, rel=0.01)


def test_a_warm_conductor_reaches_less_far() -> None:
    """AC 43.13-1B, paragraph 11-66 d(4) with the 39 ft of Table 11-8 at 20 °C: 33.7 ft at 60 °C."""
    assert 39 / warm_mohm_per_m(cold_mohm_per_m=1.0, conductor_c=60) == pytest.approx(33.7, abs=0.05)


def test_the_current_of_a_published_amplifier() -> None:
    """A reference page for audio in vehicles: 500 W at 0.85 and 12 V are 49.0 A, with a quarter more 61.3 A."""
    found = amplifier_current_a(power_w=500, efficiency_share=0.85, supply_v=12)
    assert (round(found, 1), round(1.25 * found, 1)) == (49.0, 61.3)


def test_only_an_amplifier_takes_a_third_on_music() -> None:
    """What charges a battery does so all the time."""
    amplifier, charge = sizing(), sizing(carries="120 A", to="battery stud M8")
    assert "about 32 A of it on music" in " ".join(text for _, text in chain(amplifier))
    assert "music" not in " ".join(text for _, text in chain(charge))


# -- worked by hand ----------------------------------------------------------------------------------------------------


def test_a_thousand_watts_take_2_awg_and_125_amps() -> None:
    """1000/(0.75 x 13.8) = 96.6 A; 2 AWG at 30 + 75 (96.6/210)² = 45.9 °C has 0.591 x 280.4/254.5 mΩ/m."""
    found = sizing(ground="0.5 m")
    assert found.current is not None
    assert found.conductor is not None
    assert found.fuse is not None
    assert found.current.full_a == pytest.approx(96.618, abs=0.001)
    assert found.current.fuse_floor_a == pytest.approx(120.773, abs=0.001)
    assert (found.size.name, found.fuse.rating_a, found.fuse.family.family) == ("2 AWG", 125.0, "SF51")
    assert found.conductor.drop_v == pytest.approx(0.346, abs=0.0005)
    assert found.instead is not None
    assert found.instead.conductor.size.name == "4 AWG"
    assert found.instead.conductor.drop_v == pytest.approx(0.560, abs=0.0005)


def test_the_body_counts_once_it_is_measured() -> None:
    """96.62 A through 1.2 mΩ lose 0.116 V: with the 0.343 V of 2 AWG too much, so that 1/0 AWG is proposed."""
    bare, found = sizing(cable="1/0 AWG", insulation="105"), sizing(body="1.2 mohm")
    assert found.size.name == "1/0 AWG"
    assert found.conductor is not None
    assert bare.conductor is not None
    assert found.conductor.drop_v - bare.conductor.drop_v == pytest.approx(96.618 * 1.2e-3, abs=1e-5)
    with pytest.raises(FastenError, match="no resistance of a body"):
        sizing(body="2 ohm")


@pytest.mark.parametrize(
    ("said", "size", "fuse_a", "family"),
    [
        ({"carries": "600 W class AB"}, "4 AWG", 100, "wafer"),
        ({"carries": "3000 W class D", "own_fuses": "2 x 30 A"}, "4 AWG", 60, "wafer"),  # 60 A, not 4/0 AWG
        ({"carries": "4 x 75 W class AB", "own_fuses": "2 x 25 A", "length": "0.8 m"}, "8 AWG", 50, "wafer"),
        ({"carries": "5 A", "length": "0.8 m", "ground": "0.8 m"}, "18 AWG", 7.5, "blade"),
        ({"carries": "20 A", "length": "6 m"}, "8 AWG", 25, "blade"),
        ({"carries": "250 A"}, "3/0 AWG", 350, "SF51"),
        ({"series": "mm2"}, "35 mm²", 125, "SF51"),
        ({"material": "copper-clad"}, "1/0 AWG", 125, "SF51"),
        ({"limit": "0.6 V"}, "4 AWG", 125, "wafer"),
        ({"holder": "single bolt"}, "2 AWG", 125, "single bolt"),
        ({"measured": "straight", "length": "6 m"}, "1/0 AWG", 125, "SF51"),
    ],
)
def test_a_run_gets_its_size_and_fuse(said: dict[str, str], size: str, fuse_a: float, family: str) -> None:
    found = sizing(**said)
    assert found.fuse is not None
    assert (found.size.name, found.fuse.rating_a, found.fuse.family.family) == (size, fuse_a, family)
    assert {check.status for check in found.checks} == {Status.HOLDS}


def test_a_24_volt_vehicle_takes_half_the_current() -> None:
    found = sizing(system="24 V")
    assert found.current is not None
    assert found.current.full_a == pytest.approx(1000 / 0.75 / 27.6)
    assert found.run.limit_v == pytest.approx(0.828)


def test_a_loudspeaker_lead_keeps_to_a_twentieth_of_the_impedance() -> None:
    """100 W into 4 Ω: 5 A; 18 AWG at 30 + 45 (5/10)² = 41.25 °C, 4 m there and back: 0.177 Ω, 0.38 dB."""
    found = sizing(from_="set screw", carries="loudspeaker 100 W 4 ohm", length="4 m")
    assert found.lead is not None
    assert found.conductor is not None
    ohm = 8 * 20.44 * (234.5 + 41.25) / 254.5 / 1000
    assert found.size.name == "18 AWG"
    assert found.conductor.insulation_c == 75
    assert found.lead.loop_ohm == pytest.approx(ohm)
    assert found.lead.loss_db == pytest.approx(20 * log10(1 + ohm / 4))
    assert sizing(from_="set screw", carries="loudspeaker 100 W 4 ohm", length="5 m").size.name == "16 AWG"
    assert sizing(from_="set screw", carries="loudspeaker 1000 W 2 ohm", length="1.5 m").size.name == "12 AWG", (
        f"{sqrt(500):.1f} A"
    )
    assert found.fuse is None


def test_what_carries_nothing_is_no_thinner_than_can_be_made_up() -> None:
    assert sizing(carries="remote", from_="connector").size.name == "18 AWG"
    assert sizing(carries="signal", from_="plug", series="mm2").size.name == "0.75 mm²"


# -- the cable that is chosen ------------------------------------------------------------------------------------------


def test_a_chosen_cable_that_misses_the_limit_only_is_taken() -> None:
    found = sizing(cable="4 AWG", insulation="105 C")
    assert status("drop", cable="4 AWG", insulation="105 C") is Status.HOLDS
    assert found.over_limit_v == pytest.approx(found.conductor.drop_v - 0.414 if found.conductor else 0)
    assert found.enough is not None
    assert found.enough.name == "2 AWG"


@pytest.mark.parametrize(
    ("said", "fails"),
    [
        ({"cable": "8 AWG"}, {"conductor-temperature", "drop", "ampacity", "fuse"}),
        ({"cable": "6 AWG", "insulation": "105 C"}, {"fuse"}),  # 120 A, and the fuse needs 125
        ({"cable": "4 AWG", "insulation": "60 C"}, {"fuse"}),
        ({"cable": "4 AWG", "material": "copper-clad"}, {"fuse"}),
        ({"cable": "2 AWG", "insulation": "105 C", "carries": "130 A", "length": "19 m"}, {"drop"}),
    ],
)
def test_a_chosen_cable_that_is_too_small_fails(said: dict[str, str], fails: set[str]) -> None:
    assert {check.id for check in sizing(**said).checks if check.status is Status.FAILS} == fails


def test_cable_at_hand_without_a_mark_counts_as_75_degrees() -> None:
    unmarked, marked, bought = sizing(cable="4 AWG"), sizing(cable="4 AWG", insulation="105"), sizing()
    assert [one.conductor and one.conductor.insulation_c for one in (unmarked, marked, bought)] == [75, 105, 105]


def test_no_chosen_cable_is_proven_without_a_fuse() -> None:
    """ISO 8820-3 E: 20, 30, 40 … 100 A on studs M5, for cable between the blades to 30 A and the wafers from 8 mm²."""
    large = (20, 30, 40, 50, 60, 70, 80, 100)
    carries = {"14 AWG": 35, "12 AWG": 45, "10 AWG": 60, "4 mm2": 45, "6 mm2": 60}  # 33 CFR 183.425, 105 °C
    for cable, most_a in carries.items():
        for amps in range(25, 49):
            rating = next(one for one in large if one >= amps / 0.8)
            found = sizing(carries=f"{amps} A", length="0.3 m", cable=cable, insulation="105 C")
            if rating <= most_a:
                assert found.fuse is not None
                assert (found.fuse.family.family, found.fuse.rating_a) == ("large blade", rating)
            else:
                assert found.fuse is None
                assert Status.FAILS in {check.status for check in found.checks if check.id == "fuse"}


def test_a_kind_of_fuse_that_is_not_made_so_large_stays_open() -> None:
    said = {"carries": "26 A", "length": "1 m", "cable": "10 AWG", "insulation": "105 C"}
    assert status("no-fuse", **said, holder="blade") is Status.NOT_CHECKED
    assert sizing(**said, holder="SF30").fuse is not None


@pytest.mark.parametrize("limit", ["3 %", "0.5 V", "10 %", "1.38 V"])
def test_ten_per_cent_is_the_stop_whatever_the_limit(limit: str) -> None:
    """ABYC E-11: 10 % of 13.8 V are 1.38 V, for all that is not critical."""
    said = {"carries": "72 A", "cable": "6 AWG", "insulation": "105 C", "limit": limit, "length": "20 m"}
    drop = next(check for check in sizing(**said).checks if check.id == "drop")
    assert drop.status is Status.FAILS
    assert drop.allowable == pytest.approx(1.38)


def test_a_load_is_never_fed_from_a_minus() -> None:
    """A run from there is the ground lead of what it ends at, and black."""
    lead = asked(from_="battery post -", to="set screw", ground="")
    assert is_ground(lead)
    assert colour_of(lead) == "black"


def test_a_lead_is_tried_in_no_size_beyond_the_first_that_does(monkeypatch: pytest.MonkeyPatch) -> None:
    tried: list[str] = []

    def conductor(size: Size, full_a: float, run: Run, tables: Tables) -> Conductor | None:
        tried.append(size.name)
        return calculated(size, full_a, run, tables)

    monkeypatch.setattr("fasten.wiring.sizing.conductor", conductor)
    found = sizing(from_="set screw", carries="loudspeaker 90 W 4 ohm", length="5.25 m")  # asked nowhere else
    assert (found.size.name, tried) == ("16 AWG", ["18 AWG", "16 AWG"])


@pytest.mark.parametrize("load", [{"carries": "5 A"}, {"carries": "loudspeaker 50 W 4 ohm", "from": "set screw"}])
def test_a_cable_thinner_than_every_row_is_refused_for_that(load: dict[str, str]) -> None:
    """33 CFR 183.425 begins at 18 AWG, 0.82 mm²."""
    ground = {} if "from" not in load else {"ground": ""}
    refused = no_size(**load, **ground, length="0.5 m", cable="0.75 mm2")
    assert refused.because == "no row of ampacity is for 0.75 mm² at 75 °C"
    assert refused.fix == "take cable from 1 mm² up"


def test_a_lead_has_no_line_of_proof_that_proves_nothing() -> None:
    """Its current follows from power and impedance, whatever the vehicle's voltage."""
    said = {"carries": "loudspeaker 100 W 4 ohm", "from": "set screw", "to": "set screw bore 5 mm", "length": "4 m"}
    for system in ("12 V", "24 V"):
        found = sizing(**said, system=system)
        assert found.current is not None
        assert found.current.full_a == pytest.approx(5)
        assert all(check.allowable is not None for check in found.checks)
        current = dict(chain(found))["Current"]
        assert "5 A" in current
        assert " V" not in current


@pytest.mark.parametrize("cable", ["4 AWG orange", "orange 25 mm2"])
def test_orange_cable_is_refused_as_licensed_work(cable: str) -> None:
    with pytest.raises(FastenError, match="licensed work"):
        asked(cable=cable)


@pytest.mark.parametrize(
    "load", ["1000 W class D 24 V", "1000 W 24 V class D", "24 V 1000 W class D", "72 A 24 V", "24 V 72 A"]
)
def test_a_load_may_say_its_system_anywhere(load: str) -> None:
    assert asked(carries=load, system="24 V").supply_v == 27.6
    with pytest.raises(FastenError, match="a 24 V load on 12 V"):
        asked(carries=load)


# -- where it lies -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("insulation", "left_a"), [("105 C", 160 * 0.85), ("75 C", 125 * 0.75), ("200 C", 170 * 0.89)])
def test_the_engine_bay_lowers_what_a_cable_carries(insulation: str, left_a: float) -> None:
    found = sizing(cable="4 AWG", insulation=insulation, where="engine-bay", carries="20 A")
    assert found.conductor is not None
    assert found.conductor.ampacity_a == pytest.approx(left_a)
    assert found.conductor.ambient_c == 50


def test_a_run_to_the_body_has_no_fuse_of_its_own() -> None:
    found = sizing(carries="96.6 A", from_="set screw", to="body", length="0.45 m", ground="")
    assert found.fuse is None
    assert found.size.name == "4 AWG", "it carries the fuse before it: 121 A"
    assert [check.id for check in found.checks][-1] == "fuse"


def test_two_batteries_are_two_sources() -> None:
    found = sizing(carries="100 A", to="battery post +")
    assert found.fuse is not None
    assert found.fuse.count == 2


# -- refused -----------------------------------------------------------------------------------------------------------


def test_no_size_is_said_with_its_figures() -> None:
    assert no_size(carries="350 A").because == "350 A is over 300 A, the most of one run"
    short = no_size(carries="60 A", holder="blade")
    assert short.because == "a fuse blade is made up to 30 A, and this one needs 75 A"
    assert no_size(carries="250 A", length="9 m").because == "no size does: 4/0 AWG loses 0.453 V, the limit is 0.414 V"


@pytest.mark.parametrize(
    ("said", "where"),
    [
        ({"carries": "1000 W"}, "carries"),
        ({"carries": "1000 W class X"}, "carries"),
        ({"carries": "0 W class D"}, "carries"),
        ({"carries": "60 kW class D"}, "carries"),
        ({"carries": "1000 W class D 48 V"}, "carries"),
        ({"carries": "1000 W class D 24 V"}, "carries"),
        ({"carries": "heater"}, "carries"),
        ({"carries": "loudspeaker 100 W 4 ohm"}, "from"),  # it would lie on the battery
        *(({"carries": light}, "from") for light in ("remote", "signal", "data")),  # no fuse would protect it
        ({"carries": "signal", "from": "connector", "to": "battery post -"}, "to"),
        *(({"from": minus}, "from") for minus in ("battery post -", "battery stud M8 -", "body", "body M8")),
        ({"from": "stud M6", "to": "body"}, "to"),
        *(
            ({"carries": "loudspeaker 100 W 4 ohm", "from": "set screw", name: text}, name)
            for name, text in (
                ("ground", "0.4 m"),
                ("holder", "blade"),
                ("limit", "3 %"),
                ("own-fuses", "30 A"),
                ("body", "1 mohm"),
            )
        ),
        *(({"cable": orange}, "cable") for orange in ("4 AWG orange", "orange 25 mm2", "orange cable")),
        *(
            ({"carries": load}, "carries")
            for load in (
                "72 A 24 V",
                "24 V 72 A",
                "1000 W 24 V class D",
                "24 V 1000 W class D",
                "72 A 36 V",
                "72 A 48 V",
            )
        ),
        ({"from": "orange cable"}, "from"),
        ({"from": "left amplifier"}, "from"),
        ({"to": "stud M7"}, "to"),
        ({"to": "body"}, "from"),  # the plus on the body
        ({"from": "body", "to": "battery stud M8"}, "to"),
        ({"to": "battery stud M8 -"}, "from"),
        ({"to": ""}, "to"),
        ({"length": "5 kg"}, "length"),
        ({"measured": "guessed"}, "measured"),
        ({"cable": "4"}, "cable"),
        ({"cable": "7 AWG"}, "cable"),
        ({"insulation": "30 C"}, "insulation"),
        ({"limit": "3"}, "limit"),
        ({"limit": "20 %"}, "limit"),
        ({"limit": "1.5 V"}, "limit"),
        ({"holder": "clip"}, "holder"),
        ({"own_fuses": "three"}, "own-fuses"),
        ({"own_fuses": "0 x 30 A"}, "own-fuses"),
        ({"through_device": "isolator"}, "through-device"),
    ],
)
def test_bad_input_is_refused_with_its_field_and_what_to_do(said: dict[str, str], where: str) -> None:
    with pytest.raises(FastenError) as refused:
        asked(**said)
    assert refused.value.where == where
    assert refused.value.fix


@pytest.mark.parametrize(
    "field", ["carries", "from", "limit", "own_fuses", "through_device", "system", "cable", "holder"]
)
@pytest.mark.parametrize("text", ["9" * 100_000, "1, " * 40_000, "a " * 50_000, "stud " * 20_000])
def test_a_huge_text_is_refused_at_once(field: str, text: str) -> None:
    with pytest.raises(FastenError):
        asked(**{field: text})
