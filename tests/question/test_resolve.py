"""From a question to a mount point: what is filled in, where it is noted to come from, and what is asked for."""

from dataclasses import fields, replace

import pytest

from fasten.catalog.materials import ITEMS
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.model import (
    Between,
    Boss,
    ExistingThread,
    Into,
    MountPoint,
    Origin,
    Panel,
    Pattern,
    Question,
    Reach,
    Removal,
    Visible,
    Where,
)
from fasten.model.asked import NOT_ASKED
from fasten.question.read import read_question
from fasten.question.resolve import resolve

GIVEN, PRESET, ASSUMED = Origin.GIVEN, Origin.PRESET, Origin.ASSUMED
LEAST = Question("amplifier", "steel", thickness_mm=0.8, removed=Removal.YEARLY)
ITEM_ROWS = builtin().rows(ITEMS)
AMPLIFIER = next(row for row in ITEM_ROWS if row.item == "amplifier")
MAY_STAY_UNSAID = {
    "place", "pattern", "between", "behind_mm", "edge_mm", "outline", "boss", "body_mm", "body_thread",
    "existing_hole_mm", "existing_holes_mm", "holes_at", "existing_thread", "case",
}  # fmt: skip


def mount(**said: object) -> MountPoint:
    return resolve(replace(LEAST, **said), builtin())  # type: ignore[arg-type]


def origins(point: MountPoint) -> dict[str, Origin]:
    return dict(point.origins)


def test_the_least_question_is_filled_from_the_preset_and_by_assumption() -> None:
    point = mount()
    assert (point.mass_kg, point.fixings) == (AMPLIFIER.mass_kg, AMPLIFIER.fixings)
    assert (point.item_thickness_mm, point.item_hole_mm) == (AMPLIFIER.thickness_mm, AMPLIFIER.hole_mm)
    assert point.item_material == AMPLIFIER.material
    assert (point.panel, point.reach, point.where) == (Panel.UNKNOWN, Reach.ONE_SIDE, Where.CABIN)
    assert (point.visible, point.grade) == (Visible.NO, "8.8")
    assert origins(point) == (
        dict.fromkeys(("item", "material", "thickness_min_mm", "thickness_max_mm", "removed"), GIVEN)
        | dict.fromkeys(("mass_kg", "fixings", "pattern", "item_thickness_mm", "item_hole_mm", "item_material"), PRESET)
        | {"item_mass_kg": PRESET, "item_cg_mm": ASSUMED}
        | dict.fromkeys(("cg_mm", "panel", "into", "reach", "where", "far_side", "visible", "grade"), ASSUMED)
    )


def test_what_nobody_said_stays_unsaid() -> None:
    point = mount()
    assert point.pattern is not None
    assert all(getattr(point, name) is None for name in MAY_STAY_UNSAID - {"pattern"})


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("mass_kg", 6.0),
        ("item_thickness_mm", 4.0),
        ("item_hole_mm", 6.6),
        ("item_material", "mdf"),
        ("cg_mm", 12.0),  # given, it may be below the least that is assumed
        ("panel", Panel.ROOF),
        ("between", Between("foam", 3.0)),
        ("behind_mm", 0.0),
        ("edge_mm", 12.0),
        ("boss", Boss(8.0, 14.0)),
        ("into", Into.FACE),
        ("reach", Reach.BOTH_SIDES),
        ("where", Where.DOOR),
        ("visible", Visible.YES),
        ("grade", "A2-70"),
        ("body_mm", 7.1),
        ("existing_hole_mm", 6.2),
        ("existing_thread", ExistingThread("M6", "stud")),
        ("case", "ambulance"),
        ("pattern", Pattern("circle", 165.0, None)),
        ("fixings", AMPLIFIER.fixings),
    ],
)
def test_what_was_given_stays_and_is_noted(name: str, value: object) -> None:
    point = mount(**{name: value})
    assert getattr(point, name) == value
    assert origins(point)[name] is GIVEN


def test_every_field_that_is_there_has_one_origin_in_order() -> None:
    point = mount(place="floor", behind_mm=40.0)
    order = [field.name for field in fields(MountPoint) if field.name not in NOT_ASKED]
    assert [name for name, _ in point.origins] == [name for name in order if getattr(point, name) is not None]


@pytest.mark.parametrize(
    ("item", "cg_mm"), [("amplifier", 30.0), ("enclosure", 175.0), ("speaker-adapter", 30.0), ("speaker", 37.5)]
)
def test_centre_of_gravity_is_half_the_height_and_at_least_30_mm(item: str, cg_mm: float) -> None:
    """Common practice, no source; heights 60, 350, 18 and 75 mm."""
    point = mount(item=item)
    assert point.cg_mm == cg_mm
    assert origins(point)["cg_mm"] is ASSUMED


def test_a_place_gives_a_range_of_thickness_and_the_panel() -> None:
    """Floor pan 0.8 to 1.2 mm: general automotive pages, low authority."""
    point = mount(thickness_mm=None, place="floor")
    assert (point.thickness_min_mm, point.thickness_max_mm, point.panel) == (0.8, 1.2, Panel.FLOOR)
    found = origins(point)
    assert [found[name] for name in ("thickness_min_mm", "thickness_max_mm", "panel")] == [ASSUMED] * 3
    assert (found["place"], found["material"]) == (GIVEN, GIVEN)


def test_a_given_thickness_goes_before_the_place() -> None:
    point = mount(place="floor")
    assert (point.thickness_min_mm, point.thickness_max_mm, point.panel) == (0.8, 0.8, Panel.FLOOR)
    assert origins(point)["thickness_min_mm"] is GIVEN


def test_a_given_panel_goes_before_the_place() -> None:
    point = mount(place="door", panel=Panel.SIDE)
    assert point.panel is Panel.SIDE
    assert origins(point)["panel"] is GIVEN


def test_a_place_whose_panel_may_face_any_way_leaves_it_unknown() -> None:
    assert mount(place="wheel-arch").panel is Panel.UNKNOWN


def test_one_fixing_has_no_pattern() -> None:
    point = mount(fixings=1)
    assert point.pattern is None
    assert "pattern" not in origins(point)


def test_another_count_than_the_preset_asks_where_they_sit() -> None:
    with pytest.raises(FastenError, match="for 4 fixings, not 3") as caught:
        mount(fixings=3)
    assert caught.value.where == "pattern"
    assert "circle 165 mm" in caught.value.fix


def test_another_count_with_its_pattern_is_taken() -> None:
    point = mount(fixings=3, pattern=Pattern("circle", 165.0, None))
    assert (point.fixings, point.pattern) == (3, Pattern("circle", 165.0, None))


@pytest.mark.parametrize("count", range(2, 101))
def test_the_pattern_offered_fits_the_count(count: int) -> None:
    said = {"item": "amplifier", "onto": "steel 1 mm", "removed": "yearly", "fixings": str(count)}
    try:
        resolve(read_question(said, builtin()), builtin())
    except FastenError as error:
        said["pattern"] = error.fix.removeprefix("say where they sit, such as ")
        assert resolve(read_question(said, builtin()), builtin()).fixings == count
    else:
        assert count == AMPLIFIER.fixings


def test_a_given_pattern_must_fit_the_preset_count() -> None:
    with pytest.raises(FastenError, match="not 2"):
        mount(item="fuse-holder", pattern=Pattern("rectangle", 80.0, 60.0))


@pytest.mark.parametrize(
    ("said", "where"),
    [
        ({"removed": None}, "removed"),
        ({"thickness_mm": None}, "onto"),
        ({"thickness_mm": None, "place": "floor", "material": "aluminium"}, "onto"),
        ({"material": "unobtanium"}, "onto"),
        ({"place": "attic"}, "onto"),
        ({"item": "piano"}, "item"),
    ],
)
def test_what_cannot_be_filled_is_asked_for(said: dict[str, object], where: str) -> None:
    with pytest.raises(FastenError) as caught:
        mount(**said)
    assert caught.value.where == where


@pytest.mark.parametrize("item", [row.item for row in ITEM_ROWS])
def test_every_preset_makes_a_mount_point(item: str) -> None:
    assert mount(item=item).item == item


def test_equal_questions_give_equal_mount_points_that_hash_alike() -> None:
    assert len({mount(between=Between("foam", 3.0)), mount(between=Between("foam", 3.0))}) == 1


def test_a_door_is_taken_for_damp() -> None:
    """A door lets water in past the glass, so what is fastened in one is assumed to live in the damp."""
    fields = {"item": "crossover", "onto": "steel door", "removed": "yearly"}
    mount = resolve(read_question(fields, builtin()), builtin())
    assert mount.where is Where.DOOR
    assert dict(mount.origins)["where"] is Origin.ASSUMED
