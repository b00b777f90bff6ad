"""The tables the advice is made from fit one another and say what they must; figures are compared with other prints."""

import re
from itertools import pairwise

import pytest

from fasten.advice.tools import SET_BY, STOP_COLLAR
from fasten.catalog import job_parts, materials, parts, practice, rows
from fasten.catalog.check import check_table
from fasten.catalog.registry import TABLES as REGISTERED
from fasten.catalog.tables import builtin, shipped_folder
from fasten.model import Panel, Phase, Removal
from fasten.proof.modes import families

TABLES = builtin()
ADVICE = (
    "rivet-nuts", "blind-rivets", "board-screws", "screw-in-inserts", "tee-nuts", "board-kinds", "materials",
    "soft-layers", "places", "items", "finishes", "tightening", "faces",
    "load-cases", "factors", "removals", "anodic-index", "methods", "steps", "tools", "cautions", "weights", "rules",
)  # fmt: skip
METHODS = {row.method for row in TABLES.rows(practice.METHOD_WORDS)}
RIVET_NUTS = TABLES.rows(parts.RIVET_NUTS)


def rule(name: str) -> float:
    row = TABLES.find(practice.RULES, name)
    assert row is not None, name
    return row.value


@pytest.mark.parametrize("name", ADVICE)
def test_every_value_of_the_table_is_good_and_every_source_is_used(name: str) -> None:
    table = TABLES.table(name)
    check_table(table, f"{name}.toml")
    assert set(table.sources) == {row.from_ for row in table.rows}


def test_every_rivet_nut_thread_has_two_lengths_or_says_why_not() -> None:
    by_thread: dict[tuple[str, str], list[parts.RivetNut]] = {}
    for row in RIVET_NUTS:
        by_thread.setdefault((row.series, row.thread), []).append(row)
    for key, found in by_thread.items():
        assert len(found) > 1 or found[0].note != "-", key


def test_the_lengths_of_one_thread_cover_the_sheet_without_a_gap() -> None:
    for row, longer in pairwise(RIVET_NUTS):
        if (row.series, row.thread) == (longer.series, longer.thread):
            assert longer.grip_min_mm == row.grip_max_mm
            assert longer.length_mm > row.length_mm
            assert longer.hole_mm == row.hole_mm


@pytest.mark.parametrize("row", RIVET_NUTS, ids=lambda row: row.name())
def test_a_rivet_nut_goes_into_its_hole_and_not_through_it(row: parts.RivetNut) -> None:
    thread = next(t for t in TABLES.rows(rows.METRIC_THREADS) if t.designation == row.thread)
    assert row.hole_mm > thread.major_mm
    assert row.flange_mm > row.hole_mm + row.hole_plus_mm
    assert row.bulge_mm > row.hole_mm + row.hole_plus_mm
    assert row.body_mm is None or 0 < row.hole_mm - row.body_mm <= 0.1 + 1e-9
    assert 0 < row.grip_min_mm < row.grip_max_mm < row.length_mm
    assert row.body in {"round", "hexagon"}
    assert row.end in {"open", "closed"}


def test_spin_out_is_never_over_a_published_average() -> None:
    """Maker's tests, averages in 0.76 mm low carbon sheet: 19, 21, 39, 60 in·lb round and 71, 110, 170, 290 hexagon."""
    round_inlb = {"M4": 19, "M5": 21, "M6": 39, "M8": 60}
    hexagon_inlb = {"M4": 71, "M5": 110, "M6": 170, "M8": 290}
    for row in RIVET_NUTS:
        published = (round_inlb if row.body == "round" else hexagon_inlb)[row.thread] * 0.112985
        assert row.spin_out_nm <= published * 1.03, f"{row.name()}: metric print rounded by up to 3 %"
        assert row.spin_out_sheet_mm == 0.76


def test_a_hexagon_turns_later_than_any_round_body_of_its_thread() -> None:
    for thread in ("M4", "M5", "M6", "M8"):
        spin_out = {
            b: [r.spin_out_nm for r in RIVET_NUTS if (r.thread, r.body, r.spin_out_of) == (thread, b, "least")]
            for b in ("round", "hexagon")
        }
        assert min(spin_out["hexagon"]) > max(spin_out["round"])


def test_a_suggested_torque_breaks_no_rivet_nut() -> None:
    """Maker's suggested torque for steel nuts with 8.8 screws: 2.5, 5.0, 8.6, 21 N·m for M4 to M8, full heads."""
    suggested = {"M4": 2.5, "M5": 5.0, "M6": 8.6, "M8": 21.0}
    for row in RIVET_NUTS:
        if "reduced" not in row.series:
            assert row.breaking_nm > suggested[row.thread], row.name()


def test_blind_rivets_leave_no_gap_in_grip() -> None:
    found = TABLES.rows(parts.BLIND_RIVETS)
    for row, longer in pairwise(found):
        assert row.diameter_mm < row.hole_mm < row.head_mm
        assert row.grip_min_mm < row.grip_max_mm < row.length_mm
        if row.size == longer.size:
            assert longer.grip_min_mm == row.grip_max_mm
        else:
            assert longer.shear_n > row.shear_n


def test_every_metal_corrodes_as_a_row_of_the_index() -> None:
    for row in TABLES.rows(materials.MATERIALS):
        known = TABLES.find(materials.ANODIC_INDEX, row.anodic) is not None
        assert known == (row.family == "sheet"), row.material
        assert known or row.anodic == "-"


def test_a_sheet_has_the_strength_its_checks_need() -> None:
    for row in TABLES.rows(materials.MATERIALS):
        if row.family == "sheet":
            assert row.ultimate_mpa is not None
            assert row.yield_mpa is not None
            assert row.ultimate_mpa > row.yield_mpa
        assert row.density_g_cm3 is not None


@pytest.mark.parametrize("table", [materials.MATERIALS, materials.ITEMS], ids=lambda table: table.name)
def test_no_name_means_two_things(table: rows.TableOf[materials.Material | materials.Item]) -> None:
    names = [row.name() for row in TABLES.rows(table)]
    for row in TABLES.rows(table):
        names += row.other_names.split("|")
    assert len(names) == len(set(names))


def test_every_item_is_of_a_known_material_and_takes_a_screw() -> None:
    for row in TABLES.rows(materials.ITEMS):
        assert TABLES.find(materials.MATERIALS, row.material) is not None
        assert re.fullmatch(r"(circle|row) \d+|rectangle \d+x\d+", row.pattern)
        assert row.hole_mm >= 4.5, "M4 medium clearance, ISO 273"


def test_places_name_panels_of_the_model() -> None:
    for row in TABLES.rows(materials.PLACES):
        assert row.panel in {panel.value for panel in Panel}
        assert 0.6 <= row.min_mm < row.max_mm <= 1.2, "any body panel, general automotive pages"


def test_every_removal_has_a_count_that_rises() -> None:
    found = TABLES.rows(practice.REMOVALS)
    assert [row.removed for row in found] == [removal.value for removal in Removal]
    assert [row.count for row in found] == sorted({row.count for row in found})


def test_the_hard_stop_is_twenty_fore_and_aft_and_ten_elsewhere_one_at_a_time() -> None:
    """FMVSS 571.207 by analogy, 20 times the weight; 10 g sideways and vertical by common practice."""
    found = [row for row in TABLES.rows(practice.LOAD_CASES) if row.case == "hard-stop"]
    seen = {(row.x_g, row.y_g, row.z_g) for row in found}
    assert seen == {(20, 0, 0), (-20, 0, 0), (0, 10, 0), (0, -10, 0), (0, 0, 10), (0, 0, -10)}


def test_the_road_acts_together_in_every_direction() -> None:
    """1 g down, 1 g braking or cornering, 3 g bump up or down: common practice, no source for the bump."""
    found = [row for row in TABLES.rows(practice.LOAD_CASES) if row.case == "road"]
    wanted = {(x, y, -1 + bump) for x, y in ((1, 0), (-1, 0), (0, 1), (0, -1)) for bump in (-3, 3)}
    assert {(row.x_g, row.y_g, row.z_g) for row in found} == wanted


@pytest.mark.parametrize("family", families.FAMILIES, ids=lambda family: family.name)
def test_every_family_has_a_factor_or_a_reason_for_each_kind_of_load_case(family: families.Family) -> None:
    kinds = {row.kind for row in TABLES.rows(practice.LOAD_CASES)}
    assert kinds == {"service", "hard_stop", "sustained"}
    rows = [row for row in TABLES.rows(practice.FACTORS) if row.family == family.name]
    assert {row.kind for row in rows} == kinds
    assert all((row.factor is None) == (row.because != "-") for row in rows)


def test_every_row_of_a_factor_is_of_a_family_that_is_there() -> None:
    named = {family.name for family in families.FAMILIES} | {"slip", "slip-unlocked", "separation"}
    assert {row.family for row in TABLES.rows(practice.FACTORS)} == named


def test_what_counts_in_no_kind_or_one_is_named_with_its_stand_in() -> None:
    """Preload is judged on proof load; AISI with its 3 in service, the European rule with its 1.25 in a stop."""
    counted: dict[str, set[str]] = {}
    for row in TABLES.rows(practice.FACTORS):
        counted.setdefault(row.family, set()).update({row.kind} if row.factor is not None else ())
    assert {name: kinds for name, kinds in counted.items() if not {"service", "hard_stop"} <= kinds} == {
        "screw_proof": {"service"}, "screw": {"hard_stop"}, "sheet_screw": {"service"}, "sheet_en": {"hard_stop"},
        "tape_standing": {"sustained"}, "maker": set(), "slip": {"service"}, "slip-unlocked": {"service"},
        "separation": {"service"},
    }  # fmt: skip


def test_a_factor_is_never_under_one() -> None:
    assert all(row.factor is None or row.factor >= 1 for row in TABLES.rows(practice.FACTORS))


def test_slip_and_separation_are_asked_in_service_only() -> None:
    found = TABLES.rows(practice.FACTORS)
    kinds = {(row.family, row.kind) for row in found if row.family in {"slip", "slip-unlocked", "separation"}}
    assert kinds == {("slip", "service"), ("slip-unlocked", "service"), ("separation", "service")}


def test_a_nominal_nut_factor_lies_in_its_range() -> None:
    for row in TABLES.rows(materials.FINISHES):
        assert row.nut_factor_min <= row.nut_factor <= row.nut_factor_max


def test_preload_scatters_more_the_less_is_known() -> None:
    scatter = {row.way: row.scatter for row in TABLES.rows(practice.TIGHTENING)}
    assert scatter["torque_wrench_lubricated"] < scatter["torque_wrench"] < scatter["by_feel"] < 1


@pytest.mark.parametrize("method", sorted(METHODS))
def test_every_method_has_steps_and_tools_of_its_own(method: str) -> None:
    steps = [row for row in TABLES.rows(practice.STEPS) if row.method == method]
    assert steps, f"{method} has no steps in catalogs/steps.toml"
    assert [row for row in TABLES.rows(practice.TOOLS) if row.method == method], f"no {method} in tools.toml"


@pytest.mark.parametrize("method", sorted(METHODS))
def test_a_method_tries_a_test_piece(method: str) -> None:
    phases = {row.phase for row in TABLES.rows(practice.STEPS) if row.method == method}
    tried = Phase.TEST_PIECE.value in phases
    assert tried or method == "factory_thread", "nobody has a second one of what the vehicle's maker welded in"


@pytest.mark.parametrize("method", sorted(METHODS))
def test_the_setting_tool_of_a_method_is_among_its_tools(method: str) -> None:
    tool = TABLES.need(practice.METHOD_WORDS, method).setting_tool
    if tool == "-":
        return
    rows = [row for row in TABLES.rows(practice.TOOLS) if (row.method, row.tool) == (method, tool)]
    always = [row for row in rows if set(row.only_if) <= {"not existing nut"}]
    assert always, f"no {tool} for {method} in tools.toml"
    kind = TABLES.find(job_parts.TOOL_KINDS, tool)
    assert kind is not None, f"no row for {tool} in tool-kinds.toml, so that a shelf that has it counts for nothing"
    assert kind.heading in SET_BY, f"{tool} sets {method}: its heading in tool-kinds.toml is one of {sorted(SET_BY)}"


def test_every_tool_and_consumable_that_is_called_something_is_needed_somewhere() -> None:
    """By a method, or in amounts alone; a stop is what the list itself asks for."""
    named = {row.tool for row in TABLES.rows(practice.TOOLS)} | {STOP_COLLAR}
    named |= {row.consumable for row in TABLES.rows(job_parts.CONSUMABLES)}
    assert [row.tool for row in TABLES.rows(job_parts.TOOL_KINDS) if row.tool not in named] == []


@pytest.mark.parametrize("table", ["steps", "tools"])
def test_steps_and_tools_are_of_known_methods(table: str) -> None:
    named = {row.method for row in TABLES.table(table).rows} - {practice.EVERY, practice.JOB}  # type: ignore[attr-defined]
    assert not METHODS - named, f"no rows in catalogs/{table}.toml: {', '.join(sorted(METHODS - named))}"
    assert not named - METHODS, f"of no method in catalogs/methods.toml: {', '.join(sorted(named - METHODS))}"


def test_tapping_screws_stand_rare_removal_and_not_yearly() -> None:
    """DIN 7975 and a plan of one to three re-drives, then the next diameter: common practice."""
    counts = {row.removed: row.count for row in TABLES.rows(practice.REMOVALS)}
    for method in ("tapping_screw", "self_drilling_screw"):
        words = TABLES.find(practice.METHOD_WORDS, method)
        assert words is not None
        assert counts["rarely"] <= words.rated < counts["yearly"]


def test_what_wears_is_named_where_it_is_replaced() -> None:
    for row in TABLES.rows(practice.METHOD_WORDS):
        assert (row.replace == "-") == (row.replace_every == 0), row.method


def test_every_panel_has_a_caution_of_its_own() -> None:
    named = {name for row in TABLES.rows(practice.CAUTIONS) for name in row.only_if}
    assert {"floor", "seat back", "side panel", "roof", "door panel", "panel not said"} <= named
    assert len(Panel) == 6


@pytest.mark.parametrize(
    "word", ["seat-belt", "airbag", "fuel tank", "brake line", "high-voltage", "pillars", "test piece", "maker's"]
)
def test_the_cautions_for_all_name_what_kills(word: str) -> None:
    assert any(word in row.text for row in TABLES.rows(practice.CAUTIONS) if row.for_all)


def test_shares_are_shares_and_limits_widen_as_it_gets_drier() -> None:
    shares = [row for row in TABLES.rows(practice.RULES) if row.rule.endswith("-share")]
    assert shares
    assert all(0 < row.value < 1 for row in shares)
    assert rule("anodic-limit-harsh") < rule("anodic-limit-normal") < rule("anodic-limit-controlled")


def test_rules_agree_with_a_second_print() -> None:
    """EN 1993-1-3 spacing 3 d and edge 1.5 d; the rivet rule of AC 43.13-1B 2 D, and 3 D as well."""
    assert (rule("edge-distance-screw"), rule("spacing")) == (1.5, 3)
    assert rule("edge-distance-rivet-nut") == 2


def test_a_soft_layer_keeps_no_preload() -> None:
    for row in TABLES.rows(materials.SOFT_LAYERS):
        assert 0 < row.stop_fraction <= (1 if row.held_by == "spacer" else 0.99)
        assert row.kept_preload == 0


def test_a_hard_face_keeps_more_than_a_creeping_one() -> None:
    kept = {row.faces: row.kept_preload for row in TABLES.rows(materials.FACES)}
    assert 1 > kept["painted_metal"] > kept["metal_on_board"] > kept["metal_on_abs"] > 0


def test_the_readme_beside_the_tables_tells_of_every_table() -> None:
    told = (shipped_folder() / "README.md").read_text(encoding="utf-8")
    of_methods = [name for name, row_type in REGISTERED.items() if row_type.__module__.startswith("fasten.methods.")]
    untold = [name for name in REGISTERED if name not in of_methods and f"`{name}`" not in told]
    assert not untold, f"say in catalogs/README.md where the numbers come from: {', '.join(untold)}"
