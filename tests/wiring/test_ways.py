"""Sections and holes: how thick a bundle is, what holds, covers and protects it, and what stays open."""

from dataclasses import replace
from math import pi, sqrt

import pytest

from fasten.catalog.wiring_work import BUNDLE_PACKING, RUN_TOOLS, WAY_STEPS
from fasten.errors import FastenError
from fasten.mechanics.wiring import mixed_bundle_mm, tape_mm, tie_count
from fasten.model import Status
from fasten.model.plan import Plan
from fasten.wiring.bundle import bundle_of
from fasten.wiring.holes import CONDITIONS, hole_plan
from fasten.wiring.sizing import Sizing, sized
from fasten.wiring.way_accepted import way_confirms, with_accepted
from fasten.wiring.ways import loaded_over_half, section_plan

from .asked import TABLES, asked


def of(outside_mm: float | None, **said: str) -> Sizing:
    found = sized(replace(asked(**said), name="power", outside_mm=outside_mm), TABLES)
    assert isinstance(found, Sizing)
    return found


def section(*runs: Sizing, clamped: bool = True, **said: str) -> Plan:
    return section_plan(
        "sill", {"where": "open", "length": "1.2 m"} | said, runs, clamps=4 if clamped else None, tables=TABLES
    )


def opened(plan: Plan) -> set[str]:
    return {check.id for check in plan.checks if check.status is Status.NOT_CHECKED}


POWER = of(12.0)


# -- published and by hand ---------------------------------------------------------------------------------------------


def test_the_bundle_of_the_published_example() -> None:
    """A sizing sheet of convoluted tube: 30 wires of 0.045 in are 0.3015 in; 1.2 times the root of 30 is 6.57."""
    found = mixed_bundle_mm(diameters_mm=(0.045 * 25.4,) * 30, factor=1.2) / 25.4
    assert found == pytest.approx(0.3015, rel=0.02)


def test_two_side_by_side_are_as_wide_as_both() -> None:
    assert mixed_bundle_mm(diameters_mm=(12.0, 3.0), factor=1.2) == 15.0
    assert mixed_bundle_mm(diameters_mm=(5.0,), factor=1.2) == 5.0
    with pytest.raises(ValueError, match="diameters_mm"):
        mixed_bundle_mm(diameters_mm=(), factor=1.2)


def test_circles_are_packed_as_geometry_has_it() -> None:
    """Two side by side; three: 1 + 2/root 3; four: 1 + root 2; five: 1 + 1/sin 36; six and seven round one: 3."""
    by_hand = {2: 2.0, 3: 1 + 2 / sqrt(3), 4: 1 + sqrt(2), 5: 2.701, 6: 3.0, 7: 3.0}
    assert {row.cables: row.diameters for row in TABLES.rows(BUNDLE_PACKING)} == pytest.approx(by_hand, abs=0.001)


def test_the_tape_of_half_overlapped_turns() -> None:
    """12 mm thick, 19 x 0.15 mm half-overlapped: 4.068 m a metre, 14.39 m for 3.5 m with its turns at the ends."""
    found = tape_mm(bundle_mm=12, width_mm=19, thickness_mm=0.15, overlap_share=0.5, length_mm=3500)
    assert found == pytest.approx(pi * 12.3 / 9.5 * 3500 + 48 * pi)
    assert found / 1000 == pytest.approx(14.39, rel=0.001)


def test_the_ties_of_a_length() -> None:
    assert tie_count(length_mm=4600, spacing_mm=250) == 20
    assert tie_count(length_mm=500, spacing_mm=250) == 3


# -- bundles -----------------------------------------------------------------------------------------------------------


def test_a_loudspeaker_lead_counts_as_two_wires() -> None:
    lead = of(3.0, carries="loudspeaker 100 W 4 ohm", from_="set screw", ground="")
    assert bundle_of((lead,), TABLES).diameter_mm == 6.0
    assert bundle_of((POWER, lead), TABLES).diameter_mm == pytest.approx(max(1.2 * sqrt(144 + 18), 15))


def test_a_bundle_stays_open_until_every_cable_is_measured() -> None:
    plan = section(POWER, of(None))
    assert opened(plan) == {"bundle"}
    assert opened(section(POWER)) == set()
    assert plan.unresolved[0].startswith("the outside of 2 AWG")
    assert opened(section()) == {"bundle"}, "no run names it"


# -- sections ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("where", "count"), [("engine-bay", 5), ("underfloor", 5), ("open", 4)])
def test_a_section_is_clamped_by_where_it_lies(where: str, count: int) -> None:
    """1.2 m: one clamp within 120 mm of each end, then every 300 or 450 mm, as a mount point for it has them."""
    [clamp] = section(POWER, clamped=False, where=where).parts
    assert clamp.count == count
    plan = section(POWER, where=where)
    [clamp] = plan.parts
    assert (clamp.part.kind, clamp.part.size, clamp.count) == ("lined clamp", "10 to 14 mm", 4)
    assert plan.proven
    assert opened(section(POWER, clamped=False, where=where)) == {"clamps"}


def test_a_channel_is_tied() -> None:
    plan = section(POWER, where="channel", length="3.5 m", clamped=False)
    assert plan.parts == ()
    [ties] = plan.consumables
    assert (ties.amount, ties.detail, ties.in_the_box(15)) == (15.0, "100 x 2.5 mm", 100)
    assert plan.proven


def test_a_longer_tie_does_as_well() -> None:
    """A tie of 200 mm goes round what one of 100 mm does; common practice."""
    [ties] = section(POWER, where="channel", length="3.5 m", clamped=False).consumables
    assert {"cable tie 200 mm", "cable tie, 300 x 4.8 mm", "cable tie"} <= set(ties.names)
    assert ties.names[-1] == "cable tie"


def test_a_cover_is_chosen_by_the_bundle() -> None:
    tube = section(POWER, cover="tube").consumables[0]
    assert (tube.id.key, tube.detail, tube.amount) == ("convoluted tube", "15.9 mm inside", 1200.0)
    tape = section(POWER, cover="tape").consumables[0]
    assert tape.amount == pytest.approx(pi * 12.3 / 9.5 * 1200 + 48 * pi)
    assert "tube" in opened(section(of(30.0), cover="tube"))
    assert "clamp" in opened(section(of(46.0)))


def test_signal_does_not_lie_beside_power() -> None:
    signal = of(4.0, carries="signal", from_="plug 14 mm", to="plug 14 mm", ground="")
    assert "separation" in opened(section(POWER, signal))
    assert "separation" not in opened(section(signal))
    remote = of(2.4, carries="remote", from_="connector", to="connector", ground="")
    assert "separation" not in opened(section(POWER, remote))


@pytest.mark.parametrize("said", [{"where": "roof"}, {"length": ""}, {"length": "2 kg"}, {"cover": "paint"}])
def test_a_section_that_cannot_be_read_is_refused(said: dict[str, str]) -> None:
    with pytest.raises(FastenError):
        section_plan("sill", {"where": "open", "length": "1 m"} | said, (POWER,), clamps=4, tables=TABLES)


def test_well_loaded_conductors_are_counted() -> None:
    loaded = of(None, carries="100 A", length="1 m", ground="", limit="1 V")
    assert loaded.conductor is not None
    assert loaded_over_half((loaded, loaded, POWER)) == 2


# -- holes -------------------------------------------------------------------------------------------------------------


def hole(*runs: Sizing, **said: str) -> Plan:
    return hole_plan("bulkhead", {"through": "steel 0.9 mm"} | said, runs, TABLES)


@pytest.mark.parametrize(
    ("outside_mm", "size", "sleeved"), [(12.0, "12 mm", False), (12.1, "14 mm", True), (22.7, "24 mm", True)]
)
def test_a_hole_gets_the_grommet_that_its_cables_fill(outside_mm: float, size: str, *, sleeved: bool) -> None:
    plan = hole(of(outside_mm))
    assert [need.part.size for need in plan.parts] == [size]
    assert any("sleeving" in step.text for step in plan.steps) == sleeved
    assert opened(plan) == {"grommet"}, "no series is published"


def test_an_existing_hole_is_measured_first() -> None:
    plan = hole(POWER, existing="20 mm")
    assert "the existing hole of 20 mm measured" in plan.unresolved[0]
    assert any("bellows grommet" in step.text for step in plan.steps)
    assert not any("Drill" in step.text for step in plan.steps)
    assert any("Drill" in step.text for step in hole(POWER).steps)


def test_a_plug_must_pass() -> None:
    thick = of(4.0, carries="signal", from_="plug 14 mm", to="plug 14 mm", ground="")
    assert "plug" in opened(hole(thick))
    assert "plug" not in opened(hole(of(13.0), thick))
    assert "plug" in opened(hole(thick, existing="12 mm")), "the hole that is there counts"
    assert "plug" in opened(hole(thick, through="door boot"))


def test_an_existing_hole_gets_a_grommet_that_sits_in_it_or_none() -> None:
    """Of those for 25 mm the narrowest that 12 mm passes is 18 mm inside; none for 25 mm passes 23 mm."""
    plan = hole(POWER, existing="25 mm")
    assert [need.part.size for need in plan.parts] == ["18 mm"]
    assert any("sleeving" in step.text for step in plan.steps)
    none = hole(of(23.0), existing="25 mm")
    assert none.parts == ()
    assert opened(none) == {"bellows"}
    assert "no grommet of the table sits in 25 mm and passes 23 mm" in none.unresolved[0]


# -- what a look settles -----------------------------------------------------------------------------------------------


def test_a_new_hole_is_drilled_and_one_that_is_there_is_not() -> None:
    assert [(need.hole_mm, need.name) for need in hole(POWER).bits] == [(3.0, "3 mm"), (16.0, "16 mm")]
    assert hole(POWER, existing="20 mm").bits == ()
    assert [need.hole_mm for need in hole().bits] == [3.0], "without a cable there is no grommet, and a pilot alone"


def test_what_a_look_settles_of_a_hole_lapses_when_its_figures_change() -> None:
    plan = hole(POWER)
    (confirm,) = way_confirms(plan, ())
    assert confirm.id == "grommet:bulkhead:16:12"
    settled = with_accepted(plan, way_confirms(plan, (confirm.id,)))
    assert settled.proven
    thicker = hole(of(13.9))
    assert [one.accepted for one in way_confirms(thicker, (confirm.id,))] == [False]
    there = hole(POWER, existing="20 mm")
    assert [one.accepted for one in way_confirms(there, (confirm.id,))] == [False]


def test_what_no_look_settles_cannot_be_accepted() -> None:
    signal = of(5.0, carries="signal", from_="connector", ground="")
    mixed = section(POWER, signal, clamped=False)
    assert opened(mixed) == {"separation", "clamps"}
    assert [one.check for one in way_confirms(mixed, ())] == ["separation"]
    assert way_confirms(hole(), ()) == ()  # no grommet is on the list yet


def test_a_cable_that_was_seen_to_be_as_thick_as_sold_counts_at_its_thickest() -> None:
    unmeasured = replace(of(None), run=replace(of(None).run, name="power"))
    open_, seen = bundle_of((unmeasured,), TABLES), bundle_of((unmeasured,), TABLES, frozenset({"power"}))
    assert open_.open_ == ("2 AWG",)
    assert (seen.open_, seen.diameter_mm) == ((), open_.diameter_mm)


def test_a_door_has_a_boot_slack_and_no_grommet_and_a_plug_where_it_turns_stays_open() -> None:
    boot = hole(POWER, through="door boot")
    assert (boot.parts, boot.bits, opened(boot)) == ((), (), {"slack"})
    assert not any("grommet" in step.text or "Drill" in step.text for step in boot.steps)
    assert any("slack" in step.text for step in boot.steps)
    for unsaid in ("door", "tailgate"):  # nothing says whether a plug sits where it turns
        assert opened(hole(POWER, through=unsaid)) == {"slack", "hinge"}
    plugged = hole(POWER, through="door plug")
    assert opened(plugged) == {"slack", "hinge"}
    ids = tuple(one.id for one in way_confirms(plugged, ()))
    assert with_accepted(plugged, way_confirms(plugged, ids)).proven


@pytest.mark.parametrize("through", ["banana", "glass 4 mm", "5 mm", "steel", "carpet 3 mm"])
def test_what_is_nothing_to_go_through_is_refused(through: str) -> None:
    with pytest.raises(FastenError) as caught:
        hole(POWER, through=through)
    assert caught.value.where == "through"
    assert caught.value.fix


@pytest.mark.parametrize("through", ["boot", "rubber boot", "tailgate boot", "Door Boot"])
def test_a_boot_is_there_already(through: str) -> None:
    plan = hole(POWER, through=through)
    assert (plan.parts, plan.bits, opened(plan)) == ((), (), {"slack"})
    assert listed(plan) == {"sealant"}


@pytest.mark.parametrize(
    ("through", "size", "open_"),
    [
        ("steel 0.9 mm", "8 mm", {"grommet"}), ("steel 1.8 mm", "8 mm", {"grommet"}),
        ("20 ga steel", "8 mm", {"grommet"}), ("steel floor", "8 mm", {"grommet"}), ("steel 12 mm", "", {"groove"}),
        ("mdf 18 mm", "", {"groove"}), ("", "8 mm", {"grommet", "groove"}),
    ],
)  # fmt: skip
def test_the_sheet_lies_in_the_groove_of_its_grommet(through: str, size: str, open_: set[str]) -> None:
    """From memory: of those 8 mm inside one has a groove of 1.5 and one of 2 mm, and none of the table has more."""
    plan = hole(of(8.0), through=through)
    assert [need.part.size for need in plan.parts] == ([size] if size else [])
    assert opened(plan) == open_
    deep = next((check.allowable for check in plan.checks if check.id == "groove"), None)
    assert deep == {"steel 0.9 mm": 1.5, "20 ga steel": 1.5, "steel floor": 1.5, "steel 1.8 mm": 2.0}.get(through)


def listed(plan: Plan) -> set[str]:
    return {need.names[0] for need in plan.consumables} | {need.key for need in plan.tools}


def test_what_the_steps_of_a_hole_demand_is_on_the_list() -> None:
    """Pilot, paint, sleeving and sealant; a liner where no groove is so wide; nothing drilled, nothing painted."""
    sheet, board = listed(hole(of(16.5))), listed(hole(of(16.5), through="mdf 18 mm"))
    assert {"bare-edge primer", "deburring tool", "sleeving", "sealant", "drill with a depth stop"} <= sheet
    assert {"hole liner", "sealant", "scraper or abrasive paper"} <= board
    assert not board & {"bare-edge primer", "deburring tool", "sleeving"}
    assert listed(hole(POWER, existing="16 mm")) == {"calliper", "sealant"}
    assert "sleeving" not in listed(hole(of(12.0)))


def test_every_condition_of_holes_is_known_and_used() -> None:
    tools = [row.only_if for row in TABLES.rows(RUN_TOOLS) if row.of == "hole"]
    steps = [row.only_if for row in TABLES.rows(WAY_STEPS) if row.of == "hole"]
    named = {name.removeprefix("not ") for names in (*tools, *steps) for name in names}
    assert named == CONDITIONS
