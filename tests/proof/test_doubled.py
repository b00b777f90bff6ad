"""A doubler under the item: how stiff the bay is with it, its rivets as a group, its parts, and when it is named.

The stiffness of bays with a doubler is that of finite elements run apart from this code; a rigid square foot of the
same side, calculated apart too, is stiffer than any of them.
"""

import pytest

from fasten.advice.advise import advise
from fasten.advice.consumables import consumables_of
from fasten.advice.plan import plan_of
from fasten.catalog.practice import DOUBLED_BAYS
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.geometry.doubler import rivet_count
from fasten.job.list.stock import stock
from fasten.mechanics.plate import bay_n_per_mm, bonded_ratio, riveted_ratio
from fasten.model import Check, Doubler, Joined, Panel, Status
from fasten.proof.demands import demands
from fasten.proof.doubled import rivet_checks
from fasten.proof.remedies import remedies

from .test_panel import given, line, mount

TABLES = builtin()
SMALL = {
    "item": "signal-processor", "mass": "3.5kg", "pattern": "rectangle 160x110", "support": "bay 300x450",
}  # fmt: skip
RIVETED, BONDED = "210x2.5 mm riveted", "210x2 mm bonded"
RIGID_FOOT = {0.5: 376.99, 0.7: 1744.4}  # of a bay twice as long as wide, over D and the short side squared


def rivets(**said: str) -> list[Check]:
    asked = mount(**SMALL | {"doubler": RIVETED} | said)
    return rivet_checks(asked, demands(asked, TABLES), TABLES)


@pytest.mark.parametrize("row", [row for row in TABLES.rows(DOUBLED_BAYS) if row.rigidity_ratio == 1])
def test_without_a_doubler_the_table_is_naviers_series(row: DOUBLED_BAYS.row_type) -> None:  # type: ignore[name-defined]
    out = 0.3 * row.side_ratio
    for points, found in ((((0.0, 0.0),), row.point), (((out, out), (-out, out), (out, -out), (-out, -out)), row.four)):
        assert bay_n_per_mm(points_mm=points, short_mm=1, long_mm=2, rigidity_nmm=1) == pytest.approx(found, rel=1e-3)


def test_no_doubler_is_stiffer_than_a_rigid_foot_and_a_stiffer_one_is_stiffer() -> None:
    for side, foot in RIGID_FOOT.items():
        rows = [row for row in TABLES.rows(DOUBLED_BAYS) if row.side_ratio == side]
        assert all(row.point < row.four < foot for row in rows)
        assert [row.four for row in rows] == sorted(row.four for row in rows)


def test_bonded_it_bends_as_one_riveted_by_itself() -> None:
    """As thick as the sheet: 2^3 and 1 + 1; twice as thick: 27 and 9."""
    assert (bonded_ratio(sheet_mm=0.8, doubler_mm=0.8), riveted_ratio(sheet_mm=0.8, doubler_mm=0.8)) == (8, 2)
    assert bonded_ratio(sheet_mm=0.8, doubler_mm=1.6) == pytest.approx(27)
    assert riveted_ratio(sheet_mm=0.8, doubler_mm=1.6) == pytest.approx(9)


def test_the_bay_is_as_stiff_as_the_table_has_it() -> None:
    """D 9612 of 0.8 mm; 1 + (2.5/0.8)^3 = 31.5, 0.12 of the way from 27 to 64: 914.9 x 9612 / 300^2 = 97.7 N/mm."""
    found = given(line(**SMALL, doubler=RIVETED))
    assert found["stiffness"] == pytest.approx(97.7, rel=2e-3)
    assert found["sways at"] == pytest.approx(26.6, abs=0.1)


def test_what_is_named_clears_and_a_thinner_one_does_not() -> None:
    found = {one.text: one for one in remedies(mount(**SMALL), TABLES)}
    named = [text for text in found if text.startswith("a doubler")]
    assert [found[text].said[0][1] for text in named] == ["210 x 2.5 mm riveted", "210 x 2 mm bonded"]
    assert line(**SMALL, doubler="210x2.5 mm riveted").status is Status.HOLDS
    assert line(**SMALL, doubler="210x2 mm riveted").status is Status.NOT_CHECKED
    assert line(**SMALL, doubler="210x1.5 mm bonded").status is Status.NOT_CHECKED


def test_none_is_named_that_would_not_reach_past_the_fixings_or_hang_from_a_roof() -> None:
    """240 mm of pattern wants 270, and 0.7 of 300 is 210."""
    wide = mount(mass="4kg", support="bay 300x450")
    roof = mount(**SMALL, panel="roof")
    assert not [one for asked in (wide, roof) for one in remedies(asked, TABLES) if "doubler" in one.text]


def test_a_doubler_too_small_for_pattern_or_bay_leaves_it_open() -> None:
    assert "15 mm past every fixing" in (line(**SMALL, doubler="180x2 mm bonded").needs or "")
    small = SMALL | {"pattern": "rectangle 60x60"}
    assert "half the bay" in (line(**small, doubler="120x2 mm bonded").needs or "")


def test_its_rivets_take_all_that_the_fixings_do() -> None:
    """Four to a side of 190 mm / 40 up is 5: 20 rivets. Fixings by load of each over 20, by 3 in service."""
    assert rivet_count(Doubler(210, 2.5, Joined.RIVETED), TABLES) == 20
    checks = {check.id: check for check in rivets()}
    assert all(check.status is Status.HOLDS for check in checks.values())
    loads = demands(mount(**SMALL), TABLES)
    pull = max(one.tension_n for one in loads if one.kind == "hard_stop")
    found = checks["doubler-rivets-pull.hard_stop"]
    assert found.demand == pytest.approx(4 * pull / 20)
    assert found.factor == 1.25
    assert found.allowable == pytest.approx(1080 / 1.25)  # 1.25 x 4 mm of blind head in 0.8 mm of 270 MPa


def test_rivets_are_never_proven_overhead_and_a_bond_has_none() -> None:
    waiting = {panel: rivets(panel=panel.value)[0].status for panel in (Panel.ROOF, Panel.UNKNOWN)}
    assert set(waiting.values()) == {Status.NOT_CHECKED}
    assert rivets(doubler=BONDED) == []


def test_it_is_on_the_list_with_its_rivets_or_its_adhesive_and_in_the_steps() -> None:
    for said, parts in ((RIVETED, [("doubler", 1), ("blind rivet", 20)]), (BONDED, [("doubler", 1)])):
        asked = mount(**SMALL, doubler=said)
        answer = advise(asked, TABLES, changes=False).answers[0]
        plan = plan_of("dsp", answer, asked, TABLES)
        assert [
            (need.part.kind, need.count) for need in plan.parts if need.part.kind in {"doubler", "blind rivet"}
        ] == parts
        bonds = [
            need.amount for need in consumables_of(answer, asked, TABLES) if need.names[0] == "structural adhesive"
        ]
        assert bonds == ([] if said is RIVETED else [pytest.approx(0.0005 * 210**2)])
        assert all(stock(TABLES).holds(need.part) for need in plan.parts)
        assert any("Cut the doubler, 210 x 210 x" in step.text for step in answer.steps)


def test_the_grip_takes_sheet_and_doubler_and_the_sheet_alone_bears() -> None:
    asked = mount(**SMALL, doubler=BONDED)
    assert (asked.thickness_min_mm, asked.thickness_max_mm) == (0.8, 2.8)


@pytest.mark.parametrize("text", ["200 mm bonded", "200x1.6 mm", "200x1.6 mm taped", "bonded", "1x2x3 mm bonded"])
def test_what_is_no_doubler_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(FastenError, match="not understood"):
        mount(doubler=text)


def test_a_board_takes_no_doubler() -> None:
    with pytest.raises(FastenError, match="sheet metal"):
        mount(onto="MDF 18 mm", doubler=BONDED)
