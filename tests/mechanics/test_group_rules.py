"""Rules of the elastic group at its corners: single fixings, rows, and what tilting may not take away."""

import pytest

from fasten.geometry.patterns import circle, rectangle, row
from fasten.mechanics.group import (
    centroid_mm,
    in_plane_forces_n,
    shear_magnitudes_n,
    tension_about_centroid_n,
    tension_about_edge_n,
    tilting_moment_nm,
    tipping_lever_mm,
)

SINGLE = ((30.0, 20.0),)


def test_one_fixing_carries_a_load_in_line_with_it() -> None:
    """A force whose line passes through the only fixing, wherever on that line it acts, makes no moment."""
    assert in_plane_forces_n(points_mm=SINGLE, force_n=(0, 50), at_mm=(30, 900)) == ((0, 50),)


def test_in_line_is_judged_within_round_off() -> None:
    """A slanting line of thirds through the fixing is in line with it for all that its moment rounds to 1e-15."""
    forces = in_plane_forces_n(points_mm=((0.1, 0.3),), force_n=(1, 3), at_mm=(0.1 + 1 / 3, 0.3 + 1))
    assert forces == ((1, 3),)


def test_force_turns_with_the_load() -> None:
    """A load to the right of a row turns it anticlockwise: the right fixing is pushed up, the left one down."""
    left, right = in_plane_forces_n(points_mm=row(2, 100), force_n=(0, 100), at_mm=(200, 0))
    assert left == pytest.approx((0, -150))
    assert right == pytest.approx((0, 250))


def test_group_may_lie_anywhere() -> None:
    """Points need not be centred: the whole picture moved by (500, -40) carries the same forces."""
    square = rectangle(4, 200, 150)
    moved = tuple((x + 500, y - 40) for x, y in square)
    here = in_plane_forces_n(points_mm=square, force_n=(70, 100), at_mm=(90, 30))
    there = in_plane_forces_n(points_mm=moved, force_n=(70, 100), at_mm=(590, -10))
    assert centroid_mm(points_mm=moved) == pytest.approx((500, -40))
    for one, other in zip(here, there, strict=True):
        assert one == pytest.approx(other)


def test_magnitudes() -> None:
    """By hand: 3, 4, 5."""
    assert shear_magnitudes_n(forces_n=((3, -4), (0, 0))) == (5, 0)


def test_tilting_moment() -> None:
    """By hand: 200 N at 50 mm is 10 N·m."""
    assert tilting_moment_nm(force_n=200, height_mm=50) == pytest.approx(10)


def test_one_fixing_with_a_foot_tips_about_the_foot() -> None:
    """One fixing 40 mm from the edge of a foot carries M / l: 8 N·m make 200 N, on top of the pull."""
    tensions = tension_about_edge_n(points_mm=SINGLE, pull_n=30, moment_nm=8, toward=(1, 0), edge_mm=40)
    assert tensions == pytest.approx((230,))


def test_row_with_a_foot_tips_about_the_foot() -> None:
    """A row tipped about a foot 25 mm beside it shares evenly: 15 N·m / (3 x 25 mm) = 200 N each."""
    tensions = tension_about_edge_n(points_mm=row(3, 80), pull_n=0, moment_nm=15, toward=(0, -1), edge_mm=25)
    assert tensions == pytest.approx((200, 200, 200))


def test_row_tipped_along_itself() -> None:
    """Along its own length a row has a lever arm: 16 N·m over arms of 80 and 80 mm is 100 N, on the far end only."""
    tensions = tension_about_centroid_n(points_mm=row(3, 80), pull_n=0, moment_nm=16, toward=(1, 0))
    assert tensions == pytest.approx((100, 0, 0))


def test_no_moment_needs_no_lever_arm() -> None:
    """A straight pull is shared evenly even by fixings that could not hold a tilt."""
    assert tension_about_centroid_n(points_mm=SINGLE, pull_n=90, moment_nm=0, toward=(1, 0)) == (90,)
    tensions = tension_about_edge_n(points_mm=row(3, 80), pull_n=90, moment_nm=0, toward=(0, 1), edge_mm=0)
    assert tensions == (30, 30, 30)


def test_pressed_side_keeps_its_share() -> None:
    """Tilting never lowers a fixing's tension under the direct share: 400 N on four leave 100 N on the pressed side."""
    square = rectangle(4, 200, 100)
    tensions = tension_about_centroid_n(points_mm=square, pull_n=400, moment_nm=20, toward=(0, -1))
    assert sorted(tensions) == pytest.approx([100, 100, 200, 200])


def test_tension_side_takes_half_the_moment_about_the_centroid() -> None:
    """About the centroid of a symmetrical group the pulled half balances half the moment, contact the other half."""
    points = circle(8, 160)
    tensions = tension_about_centroid_n(points_mm=points, pull_n=0, moment_nm=30, toward=(0.6, 0.8))
    behind = [-(0.6 * x + 0.8 * y) for x, y in points]
    pulled = sum(tension * arm for tension, arm in zip(tensions, behind, strict=True))
    assert pulled == pytest.approx(15_000)


def test_length_of_the_direction_does_not_matter() -> None:
    """Direction (0, -7) is the direction (0, -1)."""
    square = rectangle(4, 200, 100)
    one = tension_about_edge_n(points_mm=square, pull_n=0, moment_nm=20, toward=(0, -1), edge_mm=60)
    other = tension_about_edge_n(points_mm=square, pull_n=0, moment_nm=20, toward=(0, -7), edge_mm=60)
    assert one == pytest.approx(other)


@pytest.mark.parametrize(("way_x", "way_y"), [(1, 1), (-1, 1), (1, -1), (-1, -1)])
@pytest.mark.parametrize("thirds", [1 / 3, 2 / 3, -1 / 3, -2 / 3])
def test_in_line_is_judged_within_round_off_on_either_side(way_x: int, way_y: int, thirds: float) -> None:
    """In whichever quarter the slanting line lies, and on whichever side of the fixing the load acts on it."""
    at_mm = (0.1 + way_x * thirds, 0.3 + way_y * 3 * thirds)
    force_n = (way_x, 3.0 * way_y)
    assert in_plane_forces_n(points_mm=((0.1, 0.3),), force_n=force_n, at_mm=at_mm) == (force_n,)


@pytest.mark.parametrize(("along", "across"), [(0, 1), (1, 0)])
def test_a_short_arm_far_from_the_origin_still_turns(along: int, across: int) -> None:
    """How far the origin lies is no part of the arm: 100 N at 1 mm turns a row 100 mm long by 1 N a fixing."""
    far = 1e9

    def point(mm: float) -> tuple[float, float]:
        return (far + mm, 0.0) if along == 0 else (0.0, far + mm)

    force_n = (0.0, 100.0) if along == 0 else (100.0, 0.0)
    near, other = in_plane_forces_n(points_mm=(point(0), point(100)), force_n=force_n, at_mm=point(51))
    assert (near[across], other[across]) == pytest.approx((49, 51))


@pytest.mark.parametrize(("scale", "last"), [(0.1, 11), (1e7, 11), (0.7, 8)])
def test_a_slanting_row_lies_on_its_own_edge(scale: float, last: int) -> None:
    """A row along (3, 1) tipped across itself lies on an edge 0 mm away, though its arms round to either side of 0.

    The last of the three rows has a fixing in its middle.
    """
    points = tuple((3 * scale * third / 3, scale * third / 3) for third in (1, 2, 4, 5, last))
    tensions = tension_about_edge_n(points_mm=points, pull_n=50, moment_nm=0, toward=(-1, 3), edge_mm=0)
    assert tensions == pytest.approx((10,) * 5)


def test_the_least_moment_needs_a_lever() -> None:
    """Half a newton metre is refused where no fixing has an arm, as a great one is."""
    across = {"points_mm": row(3, 80), "pull_n": 90.0, "moment_nm": 0.5, "toward": (0.0, 1.0)}
    with pytest.raises(ValueError, match="no lever arm"):
        tension_about_centroid_n(**across)  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="no lever arm"):
        tension_about_edge_n(**across, edge_mm=0)  # type: ignore[arg-type]


def test_the_tipping_lever_is_the_same_wherever_the_group_lies() -> None:
    """Three fixings in no symmetry, moved by (500, -40): one lever, by hand over the spread about their own middle."""
    points = ((0.0, 0.0), (90.0, 0.0), (30.0, 60.0))
    moved = tuple((x + 500, y - 40) for x, y in points)
    here = tipping_lever_mm(points_mm=points, foot_mm=5)
    # About (40, 20): sxx = 4200, syy = 2400, sxy = -600; A^-1 p of (-10, 40) is (0, 162000) / 9720000.
    assert here == pytest.approx(9720 / 162)
    assert tipping_lever_mm(points_mm=moved, foot_mm=5) == pytest.approx(here)


def test_fixings_that_spread_as_far_as_the_foot_lever_on_themselves() -> None:
    """A row reaching 40 mm on a foot of 40 mm: by its own spread along (40 / 2600), by the foot across (3 x 40 mm)."""
    lever = tipping_lever_mm(points_mm=((40.0, 0.0), (-10.0, 0.0), (-30.0, 0.0)), foot_mm=40)
    assert lever == pytest.approx(1 / ((40 / 2600) ** 2 + (1 / 120) ** 2) ** 0.5)
