"""What must hold of any mount point: how proofs grow, what never changes an answer, and every gate recomputed."""

from dataclasses import replace
from itertools import combinations
from math import hypot
from random import Random

import pytest
from built.few import few
from built.receivers import figures
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from fasten.advice.advise import METHODS, advise
from fasten.advice.method import Method
from fasten.advice.ranking import order, size
from fasten.catalog.parts import RIVET_NUTS
from fasten.catalog.tables import builtin
from fasten.geometry.joint import drilled
from fasten.geometry.patterns import positions_mm, spacing_mm
from fasten.model import (
    Answer,
    Between,
    Demand,
    ExistingThread,
    Joint,
    JointKind,
    MountPoint,
    Panel,
    Pattern,
    Position,
    Proposal,
    Question,
    Reach,
    Refusal,
    Removal,
    Status,
    Visible,
    Where,
    kinds,
)
from fasten.model.check import STIFFNESS
from fasten.model.kinds import Thread
from fasten.proof.demands import demands
from fasten.proof.dent import DENT
from fasten.proof.modes import common as modes
from fasten.proof.prove import prove
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.require import Points

pytestmark = pytest.mark.slow
TABLES = builtin()
quick = settings(max_examples=few(60), deadline=None, suppress_health_check=[HealthCheck.filter_too_much])

PATTERNS = st.one_of(
    st.tuples(st.sampled_from((4, 6, 8)), st.builds(Pattern, st.just("rectangle"), *[st.floats(60, 500)] * 2)),
    st.tuples(st.integers(2, 8), st.builds(Pattern, st.just("circle"), st.floats(80, 300), st.none())),
    st.tuples(st.integers(2, 5), st.builds(Pattern, st.just("row"), st.floats(40, 200), st.none())),
    st.just((1, None)),
)
THREADS_THERE = tuple(ExistingThread(size, kind) for size in ("M5", "M6", "M8") for kind in ("tapped", "stud"))
NO_TORQUE = {"blind_rivet", "expanding_nut", "clip_nut", "push_in_clip", "ball_stud", "factory_thread"}
NO_TORQUE |= {"hook_and_loop", "magnet_and_plate", "adhesive"}
MATERIALS = ("steel", "galvanised_steel", "stainless_steel", "aluminium")


@st.composite
def mounts(draw: st.DrawFn) -> MountPoint:
    """A mount point as a question may ask for it, in sheet or plate."""
    fixings, pattern = draw(PATTERNS)
    place = draw(st.sampled_from((None, None, None, "floor", "door", "roof")))
    return resolve(
        Question(
            item="amplifier",
            material=draw(st.sampled_from(MATERIALS[:2] if place else MATERIALS)),
            thickness_mm=None if place else draw(st.sampled_from((0.5, 0.7, 0.8, 1.0, 1.2, 1.5, 2.0, 3.0, 4.0, 6.0))),
            place=place,
            removed=draw(st.sampled_from(Removal)),
            mass_kg=draw(st.floats(0.05, 30)),
            fixings=fixings,
            pattern=pattern,
            item_thickness_mm=draw(st.sampled_from((1.0, 2.0, 3.0, 5.0, 18.0))),
            item_hole_mm=draw(st.sampled_from((3.4, 4.5, 5.0, 5.5, 6.6, 8.0, 9.0, 11.0))),
            item_material=draw(st.sampled_from(("aluminium", "steel", "mdf", "abs"))),
            cg_mm=draw(st.floats(5, 200)),
            panel=draw(st.sampled_from(Panel)),
            between=draw(st.sampled_from((None, None, Between("foam", 3.0), Between("carpet", 6.0)))),
            behind_mm=draw(st.one_of(st.none(), st.floats(0, 60))),
            edge_mm=draw(st.one_of(st.none(), st.floats(3, 80))),
            reach=draw(st.sampled_from(Reach)),
            where=draw(st.sampled_from(Where)),
            visible=draw(st.sampled_from(Visible)),
            grade=draw(st.sampled_from(("8.8", "10.9", "A2-70"))),
            existing_thread=draw(st.sampled_from((None, None, *THREADS_THERE))),
        ),
        TABLES,
    )


def proved(mount: MountPoint) -> list[tuple[Method, Proposal]]:
    """Every proposal of every method, best or not, with the modes it was proved in."""
    loads = demands(mount, TABLES)
    found: list[tuple[Method, Proposal]] = []
    for method in METHODS:
        if method.gates(mount, TABLES) is None:
            results = (prove(joint, mount, method, loads, TABLES) for joint in method.joints(mount, TABLES))
            found.extend((method, result) for result in results if isinstance(result, Proposal))
    return found


def used(proposal: Proposal) -> dict[str, float | None]:
    return {check.id: check.utilisation for check in proposal.checks}


# -- how proofs grow --------------------------------------------------------------------------------------------------


@quick
@given(mounts(), st.floats(1.01, 5))
def test_more_mass_never_lowers_a_utilisation(mount: MountPoint, times: float) -> None:
    """Of a panel that practice holds, more must be measured."""
    heavier = replace(mount, mass_kg=mount.mass_kg * times)
    loads = demands(heavier, TABLES)
    for method, light in proved(mount):
        heavy = prove(light.joint, heavier, method, loads, TABLES)
        if isinstance(heavy, Refusal):
            continue
        after = used(heavy)
        assert after.keys() == used(light).keys()
        for (identity, before), now in zip(used(light).items(), after.values(), strict=True):
            assert (before is None) == (now is None) or (now is None and identity in {STIFFNESS, DENT}), identity
            assert before is None or now is None or now >= before * (1 - 1e-9), identity


@quick
@given(mounts(), st.floats(1.01, 5))
def test_more_mass_never_turns_a_refusal_into_a_proposal(mount: MountPoint, times: float) -> None:
    heavier = replace(mount, mass_kg=mount.mass_kg * times)
    joints = {proposal.joint for _, proposal in proved(mount)}
    assert {proposal.joint for _, proposal in proved(heavier)} <= joints


SHEET_MODES = (
    modes.SHEET_BEARING, modes.BACK_PULL, modes.PULL_OUT, modes.PULL_OUT_EN, modes.TAPPING_SHEAR,
    modes.TAPPING_BEARING_EN,
)  # fmt: skip


@quick
@given(mounts(), st.floats(1.001, 4))
def test_thicker_sheet_never_lowers_a_sheet_capacity(mount: MountPoint, times: float) -> None:
    for method, proposal in proved(mount):
        thicker = replace(proposal.joint, sheet_mm=proposal.joint.sheet_mm * times)
        for mode in (mode for mode in method.modes(mount, TABLES) if mode in SHEET_MODES):
            before = mode.capacity(proposal.joint, mount, TABLES).load_n
            assert mode.capacity(thicker, mount, TABLES).load_n >= before * (1 - 1e-9), mode.id


@quick
@given(mounts(), st.floats(1.001, 4))
def test_a_thicker_item_bears_no_less(mount: MountPoint, times: float) -> None:
    """Every joint through an item is proved in what the item bears beside the shank; more of it never bears less."""
    thicker = replace(mount, item_thickness_mm=mount.item_thickness_mm * times)
    for method, proposal in proved(mount):
        if proposal.method in {"hook_and_loop", "magnet_and_plate", "adhesive"}:
            continue  # nothing goes through the item, or what does carries no shear
        bearing = [mode for mode in method.modes(mount, TABLES) if mode.id.startswith("item-bearing")]
        assert len(bearing) == 1, proposal.method
        before = bearing[0].capacity(proposal.joint, mount, TABLES).load_n
        assert bearing[0].capacity(proposal.joint, thicker, TABLES).load_n >= before * (1 - 1e-9)
        assert {f"{bearing[0].id}.{kind}" for kind in ("service", "hard_stop")} <= used(proposal).keys()


@quick
@given(mounts(), st.floats(0, 60), st.floats(0, 60))
def test_less_space_behind_never_adds_a_proposal(mount: MountPoint, one: float, other: float) -> None:
    less, more = (replace(mount, behind_mm=behind) for behind in sorted((one, other)))
    assert {found.joint for _, found in proved(less)} <= {found.joint for _, found in proved(more)}
    unknown = replace(mount, behind_mm=None)
    assert {found.joint for _, found in proved(more)} <= {found.joint for _, found in proved(unknown)}


# -- what never changes an answer -------------------------------------------------------------------------------------

AMPLIFIER = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "6kg", "fixings": "4",
    "pattern": "rectangle 254x180", "item-thickness": "3.175mm", "item-hole": "5.5mm", "behind": "40mm",
}  # fmt: skip


@pytest.mark.parametrize(
    ("field", "text", "same"),
    [
        ("onto", "steel 1/16 in", "steel 1.5875 mm"),
        ("onto", "steel 20 ga", "steel 0.0359 in"),
        ("mass", "6 kg", "6000 g"),
        ("pattern", "rectangle 254x180", "rectangle 10 in x 180 mm"),
        ("item-thickness", "3.175mm", "1/8 in"),
        ("behind", "38.1 mm", "1 1/2 in"),
        ("behind", "40 mm", "4 cm"),
        ("cg", "76.2 mm", "3 in"),
        ("edge", "25.4mm", "1 in"),
        ("between", "foam 3.175 mm", "foam 1/8 in"),
        ("hole-there", "6.35 mm", "1/4 in"),
    ],
)
def test_the_unit_of_an_input_never_changes_the_answer(field: str, text: str, same: str) -> None:
    one, other = (resolve(read_question(AMPLIFIER | {field: said}, TABLES), TABLES) for said in (text, same))
    assert advise(one, TABLES) == advise(other, TABLES)


def _greatest(points: Points, toward: tuple[float, float], pull_n: float = 10.0, moment_nm: float = 5.0) -> float:
    """Ti = P/n + M yi / sum y^2 at the worst fixing (AISC case II, neutral axis at the centroid, from memory)."""
    arms = [-(x * toward[0] + y * toward[1]) / hypot(*toward) for x, y in points]
    return pull_n / len(arms) + moment_nm * 1000 * max(arms) / sum(arm * arm for arm in arms)


@quick
@given(mounts(), st.randoms(use_true_random=False))
def test_the_order_of_fixings_never_changes_what_is_asked_of_the_worst(mount: MountPoint, rng: Random) -> None:
    points = positions_mm(mount.pattern, mount.fixings)
    assume(len(points) > 2 and mount.pattern is not None and mount.pattern.kind != "row")
    shuffled = list(points)
    rng.shuffle(shuffled)
    assert spacing_mm(tuple(shuffled)) == pytest.approx(spacing_mm(points), rel=1e-12)
    for toward in ((1.0, 0.0), (0.0, 1.0), (0.6, 0.8)):
        assert _greatest(tuple(shuffled), toward) == pytest.approx(_greatest(points, toward), rel=1e-9)


@quick
@given(mounts())
def test_turning_a_rectangle_by_a_quarter_changes_no_demand(mount: MountPoint) -> None:
    pattern = mount.pattern
    assume(pattern is not None and pattern.b_mm is not None)
    assert pattern is not None
    assert pattern.b_mm is not None
    turned = replace(mount, pattern=Pattern("rectangle", pattern.b_mm, pattern.a_mm))

    def loads(found: tuple[Demand, ...]) -> list[float]:
        return [value for demand in found for value in (demand.shear_n, demand.tension_n)]

    assert loads(demands(turned, TABLES)) == pytest.approx(loads(demands(mount, TABLES)), rel=1e-9)


SIDEWAYS = ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (0.7071, 0.7071), (-0.7071, 0.7071))


@pytest.mark.parametrize(
    ("fixings", "pattern"), [(3, Pattern("circle", 165.0, None)), (4, Pattern("rectangle", 200.0, 200.0))]
)
def test_the_worst_fixing_is_found_whichever_way_the_item_tips(fixings: int, pattern: Pattern) -> None:
    """How the item lies in the vehicle is not asked, and service loads in two directions act together on a side panel.

    Three on a circle: 2 M / 3 R on the one opposite, M / sqrt 3 R where tipping is tried one way only. Four on a square
    of side b, tipped over a corner: M sqrt 2 / 2 b against M / 2 b along a side.
    """
    mount = resolve(
        Question("amplifier", "steel", 0.8, removed=Removal.YEARLY, fixings=fixings, pattern=pattern, panel=Panel.SIDE),
        TABLES,
    )
    points = positions_mm(pattern, fixings)
    for demand in demands(mount, TABLES):
        given_ = {entry.name: entry.value for entry in demand.inputs}
        weight = given_["mass"] * 9.80665
        moment = weight * given_["acceleration across the fixings"] * given_["centre of gravity off the panel"] / 1000
        load = weight * given_["acceleration pulling"], moment
        assert demand.tension_n >= max(_greatest(points, way, *load) for way in SIDEWAYS) * (1 - 1e-9)


# -- every gate again, from the answer alone --------------------------------------------------------------------------


@settings(max_examples=few(150), deadline=None)
@given(mounts())
def test_every_proposal_satisfies_every_gate_recomputed_from_its_own_output(mount: MountPoint) -> None:
    advice = advise(mount, TABLES)
    assert {answer.method for answer in advice.answers} | {refusal.method for refusal in advice.refusals} == {
        method.NAME for method in METHODS
    }
    assert len({(answer.method, size(answer.proposal.joint)) for answer in advice.answers}) == len(advice.answers)
    places = [order(answer.score, answer.proposal) for answer in advice.answers]
    assert places == sorted(places)
    known = {source.id for source in advice.sources}
    for answer in advice.answers:
        _gates_hold(answer, mount)
        assert answer.score.total == pytest.approx(sum(part.points for part in answer.score.parts))
        for check in answer.proposal.checks:
            assert check.from_
            assert set(check.from_) <= known
            assert check.inputs or check.status is Status.NOT_CHECKED
            assert check.formula


def _gates_hold(answer: Answer, mount: MountPoint) -> None:
    proposal, joint = answer.proposal, answer.proposal.joint
    assert joint.screw is not None or joint.receiver is not None or joint.patch is not None
    assert all(check.status is not Status.FAILS for check in proposal.checks)
    assert proposal.proven == all(check.status is Status.HOLDS for check in proposal.checks)
    for check in proposal.checks:
        if check.status is Status.HOLDS:
            assert check.demand is not None
            assert check.allowable is not None
            assert check.demand <= check.allowable * (1 + 1e-9), check.id
            if check.allowable:
                assert check.utilisation == pytest.approx(check.demand / check.allowable)
    _behind_holds(joint, mount)
    _stack_holds(joint, mount)
    if answer.method == "rivet_nut":
        _rivet_nut_holds(joint, mount)
    if proposal.torque is not None:
        assert proposal.torque.min_nm <= proposal.torque.target_nm <= proposal.torque.max_nm
        assert proposal.torque.target_nm > 0
    assert proposal.removals.wanted <= proposal.removals.rated
    assert proposal.torque is not None or answer.method in NO_TORQUE
    if answer.method == "push_in_clip":
        _clip_holds(joint, mount)
    if answer.method in {"push_in_clip", "ball_stud"}:
        assert mount.mass_kg <= min(3.0, 0.3 * mount.fixings) * (1 + 1e-9), "heavy items never on clips alone"
    if joint.patch is not None:
        _face_holds(joint, mount)
    if answer.method == "factory_thread":
        assert (proposal.proven, joint.hole) == (False, None), "what it was made for nobody but its maker knows"
    assert joint.kind is JointKind.CLAMPED or joint.lock is not kinds.NO_LOCK


def _behind_holds(joint: Joint, mount: MountPoint) -> None:
    needed = max(joint.behind_set_mm, joint.behind_done_mm)
    assert needed > 0 or joint.hole is None
    assert mount.behind_mm is None or needed <= mount.behind_mm + 1e-9


def _stack_holds(joint: Joint, mount: MountPoint) -> None:
    """The screw is as long as layers, receiver and end together, and stands out behind the thinnest sheet."""
    if (screw := joint.screw) is None:
        return
    over = sum(layer.thickness_mm for layer in joint.layers if layer.role not in {"nut", "substrate"})
    if joint.patch is not None:
        assert joint.receiver is not None
        under = sum(layer.thickness_mm for layer in joint.layers if layer.role not in {"patch", "substrate"})
        assert screw.length_mm == pytest.approx(under + joint.receiver.length_mm + screw.protrusion_mm)
        assert screw.protrusion_mm >= screw.pitch_mm - 1e-9
        return
    if joint.method == "through_bolt":
        nut = next(layer.thickness_mm for layer in joint.layers if layer.role == "nut")
        assert screw.length_mm == pytest.approx(over + joint.sheet_max_mm + nut + screw.protrusion_mm)
        assert screw.protrusion_mm >= screw.pitch_mm - 1e-9
        return
    past_flange = screw.length_mm - over - (figures(joint.receiver).flange_thickness_mm or 0.0)
    assert joint.behind_done_mm >= past_flange - mount.thickness_min_mm - 1e-9
    if screw.kind.thread is Thread.FORMS_IN_SHEET:
        assert screw.length_mm - over - joint.sheet_max_mm >= 2 * screw.pitch_mm - 1e-9
    if joint.method == "tapped_hole":
        assert screw.length_mm - over - joint.sheet_max_mm >= screw.pitch_mm - 1e-9
        assert screw.engagement_mm == mount.thickness_min_mm


def _face_holds(joint: Joint, mount: MountPoint) -> None:
    """Light things only, nothing drilled, and no face laid over its neighbour, one way or the other."""
    patch = joint.patch
    assert patch is not None
    assert joint.hole is None
    assert mount.mass_kg <= 2.0, "heavy items never on hook-and-loop, magnets or adhesive alone"
    points = positions_mm(mount.pattern, mount.fixings)
    pairs = [(abs(a[0] - b[0]), abs(a[1] - b[1])) for a, b in combinations(points, 2)]
    ways = ((patch.length_mm, patch.width_mm), (patch.width_mm, patch.length_mm))
    assert any(all(x >= along - 1e-6 or y >= across - 1e-6 for x, y in pairs) for along, across in ways)
    assert mount.edge_mm is None or patch.width_mm / 2 <= mount.edge_mm + 1e-9
    if mount.removed not in {Removal.NEVER, Removal.RARELY}:
        assert joint.method != "adhesive"


def _clip_holds(joint: Joint, mount: MountPoint) -> None:
    clip = joint.receiver
    assert clip is not None
    grip = figures(clip).grip_mm
    assert grip is not None
    assert joint.screw is None
    under = sum(layer.thickness_mm for layer in joint.layers)
    thinner = mount.thickness_max_mm - mount.thickness_min_mm
    assert grip.min <= under - thinner + 1e-9
    assert under <= grip.max + 1e-9
    assert joint.behind_done_mm == pytest.approx(clip.length_mm - under + thinner)
    assert mount.removed in {Removal.NEVER, Removal.RARELY, Removal.YEARLY}


def _rivet_nut_holds(joint: Joint, mount: MountPoint) -> None:
    receiver, screw = joint.receiver, joint.screw
    assert receiver is not None and screw is not None  # noqa: PT018
    row = TABLES.find(RIVET_NUTS, receiver.series, receiver.thread, receiver.length_mm)
    assert row is not None
    assert row.grip_min_mm <= mount.thickness_min_mm <= mount.thickness_max_mm <= row.grip_max_mm
    assert drilled(joint).diameter_mm == row.hole_mm
    assert joint.behind_set_mm >= row.length_mm + 2.0
    if row.end == "open":
        assert screw.protrusion_mm >= screw.pitch_mm - 1e-9
    else:
        assert screw.engagement_mm > 0
    over = (w.hole_mm for w in joint.washers if w.place in {Position.BETWEEN, Position.LIMITER})
    assert min([mount.item_hole_mm, *over]) + 1.0 <= row.flange_mm
