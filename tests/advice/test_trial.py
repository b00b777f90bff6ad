"""What a method's best is, against the plain way: every joint proved in full, and the best of all of them taken."""

from dataclasses import replace
from functools import cache

import pytest
from built.few import few
from recalculation.questions import any_mounts, any_question

from fasten.advice.advise import METHODS, advise, first_advice, named
from fasten.advice.method import Method, existing_hole_refusal, gates, joints
from fasten.advice.owned import Owned, fitted
from fasten.advice.parts import joint_parts
from fasten.advice.ranking import Place, among_rivals, least_place, order, place_of, rivals, score
from fasten.advice.spread import BEHIND, UNDER_HEAD, but_for_sunk, is_behind, is_worth_it, past_help, short_of, wider
from fasten.advice.trial import Tried, best_of_method, candidates, first_proved
from fasten.catalog.practice import WEIGHTS
from fasten.catalog.tables import builtin
from fasten.geometry.joint import is_spaced_by_screw
from fasten.geometry.stack import spread_forms
from fasten.job.shelf.owned import owned_of
from fasten.job.words import Shelf, ShelfPart
from fasten.methods import rivet_nut, through_bolt
from fasten.model import Joint, MountPoint, Position, Proposal, Reach, Refusal, Spread
from fasten.proof.demands import demands
from fasten.proof.prove import EDGE, Proving, fails_whatever_joint, prove, prove_within, unproved
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
QUESTIONS = few(400, 24)
Proved = tuple[Joint, Proposal | Refusal]


def asked() -> tuple[MountPoint, ...]:
    return any_mounts(QUESTIONS)


@cache
def shelf_of(mount: MountPoint) -> Owned | None:
    """A shelf with all that the last answer is made of, and some bits."""
    parts = [part for answer in advise(mount, TABLES, changes=False).answers[-1:]
             for part in joint_parts(answer.proposal.joint, TABLES)]  # fmt: skip
    kept = tuple(ShelfPart(part, each * mount.fixings) for part, each in parts)
    return owned_of(Shelf("bench", "EUR", "", kept, ("6 mm", "7 mm", "9 mm"), (), ()), TABLES)


def plain(method: Method, mount: MountPoint, on: MountPoint, owned: Owned | None) -> list[Proved]:
    offered = [joint if owned is None else fitted(joint, owned) for joint in joints(method, on, TABLES)]
    loads = demands(mount, TABLES)
    return [(one, existing_hole_refusal(one, mount) or prove(one, mount, method, loads, TABLES)) for one in offered]


def everything(method: Method, mount: MountPoint, owned: Owned | None) -> tuple[list[Proved], list[Proved]]:
    """Every joint with its proof, and after that those with a wider part that are less short of load."""
    found, more = plain(method, mount, mount, owned), list[Proved]()
    least = min((short_of(proof) for _, proof in found), default=0)
    for spread in wider(mount, TABLES) if is_worth_it(least) else ():
        tried = {joint for joint, _ in found}
        better = [
            (joint, proof)
            for joint, proof in plain(method, mount, spread, owned)
            if joint not in tried and short_of(proof) < least
        ]
        more += better
        least = min([least, *(short_of(proof) for _, proof in better)])
        if least == 0:
            break
    return found, more


def nearest(refused: list[Refusal]) -> list[Refusal]:
    def miss(one: Refusal) -> tuple[int, float]:
        known = len(one.figures) > 1 and one.figures[1].value > 0
        return one.fails, one.figures[0].value / one.figures[1].value if known else float("inf")

    return sorted(refused, key=miss)[:1]


def by_proving_all(method: Method, mount: MountPoint, owned: Owned | None) -> Tried:
    refused = gates(method, mount, TABLES)
    if refused is not None:
        return Tried((), (refused,), None)
    found = [proof for proofs in everything(method, mount, owned) for _, proof in proofs]
    best: dict[str, tuple[Place, Proposal]] = {}
    bare: list[tuple[Place, Proposal]] = []
    for one in found:
        if isinstance(one, Proposal):
            plainly = order(score(one, mount, TABLES, owned), one)
            place = among_rivals(plainly, one, mount, TABLES, owned)
            held = best.get(rivals(one.joint))
            best[rivals(one.joint)] = held if held is not None and held[0] <= place else (place, one)
            bare.append((order(score(one, mount, TABLES), one), one))
    refusals = [one for one in found if isinstance(one, Refusal)]
    holes = [one for one in refusals if one.check == "hole-there"]
    misses = [] if best else nearest([one for one in refusals if one not in holes])
    largest = sorted(holes, key=lambda one: -one.figures[1].value)[:1]
    without = min(bare, key=lambda one: one[0], default=None) if owned is not None else None
    return Tried(tuple(one for _, one in best.values()), (*misses, *largest), without)


@pytest.mark.slow
@pytest.mark.parametrize("on_shelf", [False, True], ids=["without a shelf", "on a shelf"])
def test_the_best_of_a_method_is_the_best_of_all_its_joints(on_shelf: bool) -> None:
    kept = 0
    for mount in asked():
        owned, loads = shelf_of(mount) if on_shelf else None, demands(mount, TABLES)
        for method in METHODS:
            wanted = by_proving_all(method, mount, owned)
            found = best_of_method(method, mount, loads, TABLES, owned)
            if wanted.kept or wanted.refused:  # else it says in words that nothing is stocked
                assert found == wanted, (method.NAME, mount)
            kept += len(found.kept)
    assert kept > QUESTIONS


@pytest.mark.slow
def test_a_proof_that_is_given_up_is_one_that_fails_as_often() -> None:
    """With so many failures allowed, a joint is proved as without a limit, or given up where it fails more often."""
    seen = set()
    for mount in asked()[::3]:
        loads = demands(mount, TABLES)
        for method in METHODS:
            if gates(method, mount, TABLES) is not None:
                continue
            for joint in joints(method, mount, TABLES):
                whole = prove(joint, mount, method, loads, TABLES)
                fails = whole.fails if isinstance(whole, Refusal) else 0
                for most in (0, 1, 2):
                    found = prove_within(most, joint, mount, method, loads, TABLES)
                    assert found == (whole if fails <= most else None), (method.NAME, most, mount)
                assert fails or not fails_whatever_joint(mount, method, TABLES)
                seen.add(fails)
    assert {0, 1, 2} <= seen


@pytest.mark.slow
def test_the_first_that_is_proved_and_the_candidates_are_those_of_the_plain_way() -> None:
    for mount in asked():
        for method in METHODS:
            if gates(method, mount, TABLES) is None:
                found, more = everything(method, mount, None)
                proved = [
                    proof for joint, proof in found
                    if isinstance(proof, Proposal) and Proving(mount, method, (), TABLES).fits(joint)
                ]  # fmt: skip
                assert first_proved(method, mount, TABLES) == (proved[0] if proved else None)
                assert candidates(method, mount, TABLES) == [joint for joint, _ in (*found, *more)]


def test_no_proof_makes_a_joint_rank_before_what_is_known_without_one() -> None:
    """What cannot come first is not proved; this is what says so."""
    weights = {row.name_: row.points for row in TABLES.rows(WEIGHTS)}
    assert weights["not_checked"] >= 0
    assert weights["tight_margin"] >= 0
    for mount in asked()[:8]:
        for answer in advise(mount, TABLES, changes=False).answers:
            bare = unproved(answer.proposal.joint, mount, TABLES)
            assert order(score(bare, mount, TABLES), bare) <= order(answer.score, answer.proposal)


@pytest.mark.slow
def test_the_first_answer_alone_is_the_first_of_all() -> None:
    """With what it says of itself; and where nothing fits, why, as far as that is named."""
    for mount in asked():
        for owned in (None, shelf_of(mount)):
            whole, alone = advise(mount, TABLES, owned, changes=False), first_advice(mount, TABLES, owned)
            assert (alone.mount, alone.answers) == (whole.mount, whole.answers[:1]), mount
            if not whole.answers:
                nearest = sorted(whole.refusals, key=lambda one: (one.change is None, one.check is None))
                assert named(alone, 3, TABLES) == tuple(nearest[:3]), mount


@pytest.mark.parametrize(("place", "laid_by"), [(Position.NUT, BEHIND), (Position.HEAD, UNDER_HEAD)])
def test_what_lays_nothing_wider_at_a_place_offers_the_same_whatever_is_tried_there(
    place: Position, laid_by: frozenset[str]
) -> None:
    tried = 0
    for mount in asked()[:12]:
        for form in spread_forms(TABLES):
            wide = replace(mount, reach=Reach.BOTH_SIDES, spread=Spread(form, (place,)))
            for method in METHODS:
                if method.NAME not in laid_by and gates(method, wide, TABLES) is None:
                    plainly = list(joints(method, replace(wide, spread=None), TABLES))
                    assert list(joints(method, wide, TABLES)) == plainly, method.NAME
                    tried += len(plainly)
    assert tried > 100


@pytest.fixture(scope="module")
def heavy() -> list[MountPoint]:
    """Some that overload a screw of every method that lays something wider, or stand too near an edge for it."""
    return [resolve(read_question(any_question(number), TABLES), TABLES) for number in (26, 29, 31, 40, 61, 98, 107)]


def wide(method: Method, mount: MountPoint) -> list[Joint]:
    """The joints of a method with a screw and each wider part."""
    places = wider(mount, TABLES, method.NAME)
    return [joint for place in places for joint in joints(method, place, TABLES) if joint.screw is not None]


def test_what_follows_from_the_screw_alone_is_the_same_whatever_lies_there_and_receives_it(
    heavy: list[MountPoint],
) -> None:
    """Its modes, and its distance to an edge where that counts from it: one joint of a thread says it of all."""
    known: dict[tuple[MountPoint, str, str, str], list[float | None]] = {}
    for mount in (*asked()[:12], *heavy):
        for method in (method for method in METHODS if gates(method, mount, TABLES) is None):
            modes = [mode for mode in method.modes(mount, TABLES) if mode.by_screw]
            for joint in (*joints(method, mount, TABLES), *wide(method, mount)):
                if joint.screw is None:
                    continue
                found: dict[str, float | None] = {
                    mode.id: mode.capacity(joint, mount, TABLES).load_n for mode in modes if mode.applies(joint)
                }
                if is_spaced_by_screw(joint):
                    edges = (check for check in method.fit(joint, mount, TABLES) if check.id == EDGE)
                    found |= {check.id: check.demand for check in edges}
                for name, figure in found.items():
                    known.setdefault((mount, method.NAME, joint.screw.thread, name), []).append(figure)
    assert all(len(set(figures)) == 1 for figures in known.values())
    assert sum(len(figures) > 5 for figures in known.values()) > 50


def test_no_joint_of_a_thread_past_help_is_proved_with_anything_wider(heavy: list[MountPoint]) -> None:
    refused = set()
    for mount in heavy:
        loads = demands(mount, TABLES)
        for method in (method for method in METHODS if gates(method, mount, TABLES) is None):
            past = past_help(joints(method, mount, TABLES), Proving(mount, method, loads, TABLES))
            for joint in wide(method, mount):
                if joint.screw is not None and joint.screw.thread in past.but_for:
                    assert isinstance(prove(joint, mount, method, loads, TABLES), Refusal)
                    refused.add(method.NAME)
    assert refused >= {"through_bolt", "rivet_nut", "tapped_hole", "screw_in_insert", "tee_nut"}


@pytest.mark.parametrize("behind", ["10 mm", "14 mm", "18 mm", "at least 14 mm"])
def test_no_rivet_nut_too_long_for_the_space_behind_is_proved_with_anything_wider(behind: str) -> None:
    """Those that are too long by themselves are not made; each of the others is. Space that may be more is enough."""
    said = {"item": "enclosure", "onto": "steel 1.4 mm", "removed": "rarely", "edge": "30 mm", "behind": behind}
    mount = resolve(read_question(said, TABLES), TABLES)
    loads = demands(mount, TABLES)
    past = replace(
        past_help(joints(rivet_nut, mount, TABLES), Proving(mount, rivet_nut, loads, TABLES)), but_for=frozenset()
    )
    places = wider(mount, TABLES, rivet_nut.NAME, past)
    made = [joint for place in places for joint in joints(rivet_nut, place, TABLES)]
    left = []
    for joint in wide(rivet_nut, mount):
        assert joint.receiver is not None
        if (joint.receiver.series, joint.receiver.thread, joint.receiver.length_mm) in past.too_long:
            assert isinstance(prove(joint, mount, rivet_nut, loads, TABLES), Refusal)
        else:
            left.append(joint)
    assert made == left
    assert bool(past.too_long) == (not behind.startswith("at least"))
    assert bool(left) == (behind != "10 mm")


@pytest.mark.parametrize("onto", ["steel 4.6 mm", "aluminium 5.4 mm"])
def test_no_bolt_whose_head_sinks_in_is_proved_with_anything_wider_behind(onto: str) -> None:
    """Those of a thread that are left out are refused each; of the others all are made."""
    said = {"item": "enclosure", "onto": onto, "removed": "never", "edge": "30 mm", "behind": "40 mm"}
    mount = resolve(read_question({**said, "reach": "both-sides"}, TABLES), TABLES)
    loads = demands(mount, TABLES)
    proving = Proving(mount, through_bolt, loads, TABLES)
    plain = at_head = list(joints(through_bolt, mount, TABLES))
    left_out = behind = 0
    for joint in plain:
        proving.within(0, joint)
    for place in wider(mount, TABLES, through_bolt.NAME):
        left = but_for_sunk(place, plain, at_head, proving.sinks_in)
        whole, made = (list(joints(through_bolt, one, TABLES)) for one in (place, left))
        for joint in whole:
            proving.within(0, joint)
            if joint not in made:
                assert is_behind(place)
                assert isinstance(prove(joint, mount, through_bolt, loads, TABLES), Refusal)
                left_out += 1
        at_head = at_head if is_behind(place) else whole
        behind += len(whole) * is_behind(place)
    assert 0 < left_out < behind


def test_what_a_proof_keeps_in_mind_turns_no_other(heavy: list[MountPoint]) -> None:
    """Of joints that are proved in turn each is refused or not as by itself: what sank in under a head as well."""
    kept = 0
    for mount in (*asked()[:12], *heavy):
        loads = demands(mount, TABLES)
        for method in (method for method in METHODS if gates(method, mount, TABLES) is None):
            proving = Proving(mount, method, loads, TABLES)
            for joint in (*joints(method, mount, TABLES), *wide(method, mount)):
                alone = prove_within(0, joint, mount, method, loads, TABLES)
                assert proving.within(0, joint) == alone
                kept += alone is None
    assert kept > 500


def test_what_is_so_of_every_joint_of_a_method_is_and_none_comes_before_its_least_place(
    heavy: list[MountPoint],
) -> None:
    tried = set()
    for mount in (*asked(), *heavy):
        for method in (method for method in METHODS if gates(method, mount, TABLES) is None):
            for joint in joints(method, mount, TABLES):
                assert (joint.hole is not None) is method.ALWAYS.in_hole
                assert (joint.patch is None) is (method.ALWAYS.patches == ())
                assert joint.patch is None or joint.patch.kind in method.ALWAYS.patches
                for owned in (None, shelf_of(mount)):
                    place = place_of(unproved(joint, mount, TABLES), mount, TABLES, owned)
                    assert least_place(method.NAME, method.ALWAYS, mount, TABLES, owned) <= place
                tried.add(method)
    assert len(tried) > 17
