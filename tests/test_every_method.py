"""The properties of the main job, for every method: mounts of every item on every family of material."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from random import Random

import pytest
from built.few import few, sample

from fasten.advice.advise import METHODS, advise
from fasten.advice.method import Method, gates, joints
from fasten.advice.parts import joint_parts
from fasten.advice.plan import plan_of
from fasten.advice.ranking import size
from fasten.advice.screw_length import screw_end_of, with_length
from fasten.catalog.job_parts import SPARES
from fasten.catalog.materials import ITEMS, MATERIALS
from fasten.catalog.named import material
from fasten.catalog.parts import LENGTH_RANGES, PREFERRED_LENGTHS
from fasten.catalog.practice import METHOD_WORDS
from fasten.catalog.tables import builtin
from fasten.job.list.consumables import consumables
from fasten.job.list.needs import bits, tools
from fasten.job.shelf.check import troubles
from fasten.job.shelf.view import ShelfView
from fasten.job.words import Shelf, ShelfPart
from fasten.methods.screw_end import no_shorter, own_length
from fasten.model import Advice, Joint, MountPoint, Reach, Refusal, Removal, Screw, Status
from fasten.model.kinds import Spares
from fasten.proof.demands import demands
from fasten.question.read import read_question
from fasten.question.resolve import resolve

pytestmark = pytest.mark.slow

THICK = {
    "sheet": ("0.7 mm", "0.8 mm", "1.5 mm", "4 mm"), "board": ("12 mm", "18 mm", "25 mm"), "wood": ("20 mm",),
    "plastic": ("3 mm", "12 mm"), "laminate": ("3 mm",),
}  # fmt: skip
COUNT = few(160, 50)
# What neither mass nor space changes in this question: a thread that is there and a boss have to be told of.
TOLD: tuple[dict[str, str], ...] = (
    {}, {}, {}, {"hole-there": "M5"}, {"hole-there": "M6 stud"}, {"boss": "16x24 mm", "mass": "0.3kg"},
    {"mass": "0.3kg", "item-hole": "4.5mm"},
)  # fmt: skip

# What a random draw seldom meets.
SELDOM = (
    {
        "item": "trim-panel",
        "onto": "steel 0.8 mm",
        "removed": "weekly",
        "behind": "30mm",
        "edge": "40mm",
        "mass": "0.5kg",
        "item-hole": "6.5mm",
        "item-thickness": "2mm",
    },
    {
        "item": "crossover",
        "onto": "plywood 18 mm",
        "removed": "monthly",
        "reach": "both-sides",
        "edge": "60mm",
        "behind": "60mm",
    },
    {"item": "crossover", "onto": "steel 1 mm", "removed": "rarely", "edge": "10mm", "behind": "60mm", "mass": "0.3kg"},
    {
        "item": "trim-panel",
        "onto": "ABS 3 mm",
        "removed": "rarely",
        "edge": "60mm",
        "behind": "60mm",
        "item-hole": "6.6mm",
    },
    {
        "item": "fuse-holder",
        "onto": "steel 1 mm",
        "removed": "never",
        "edge": "60mm",
        "behind": "60mm",
        "item-hole": "4.9mm",
        "panel": "side",
    },
    {
        "item": "trim-panel",
        "onto": "abs 3 mm",
        "removed": "rarely",
        "boss": "16x24 mm",
        "mass": "0.3 kg",
        "item-hole": "4.5 mm",
        "edge": "60 mm",
        "behind": "60 mm",
        "panel": "side",
    },
    {"item": "fuse-holder", "onto": "MDF 18 mm", "removed": "never", "edge": "60mm", "behind": "60mm"},
)


@cache
def mounts() -> tuple[MountPoint, ...]:
    """Questions drawn by a seed, so that every run asks the same."""
    rng, tables = Random(20), builtin()
    items = [row.item for row in tables.rows(ITEMS) if row.sort != "ground"]
    materials = [row for row in tables.rows(MATERIALS) if row.family in THICK and row.anodic != "tin plate"]
    found = [resolve(read_question(said, tables), tables) for said in SELDOM]
    for _ in range(COUNT):
        material = rng.choice(materials)
        said = {
            "item": rng.choice(items), "onto": f"{material.material} {rng.choice(THICK[material.family])}",
            "removed": rng.choice(list(Removal)).value, "panel": rng.choice(("floor", "side", "seat-back")),
            "reach": rng.choice(list(Reach)).value, "behind": "60mm", "edge": rng.choice(("10mm", "15mm", "60mm")),
            **rng.choice(TOLD),
        }  # fmt: skip
        if said.get("item") == "wire-clamp":
            said.pop("mass", None)
        found.append(resolve(read_question(said, tables), tables))
    return tuple(found)


def advised(mount: MountPoint) -> Advice:
    return advise(mount, builtin(), changes=False)


@pytest.fixture(scope="module")
def asked() -> tuple[tuple[MountPoint, Advice], ...]:
    return tuple((mount, advised(mount)) for mount in mounts())


def test_every_method_is_met_with_an_answer(asked: tuple[tuple[MountPoint, Advice], ...]) -> None:
    met = {answer.method for _, advice in asked for answer in advice.answers}
    unmet = sorted({method.NAME for method in METHODS} - met)
    assert not unmet, f"no question here ends in {', '.join(unmet)}: add one that does to SELDOM"


def test_methods_that_are_listed_are_those_that_have_words() -> None:
    listed, worded = {method.NAME for method in METHODS}, {row.method for row in builtin().rows(METHOD_WORDS)}
    assert not listed - worded, f"no row in catalogs/methods.toml: {', '.join(sorted(listed - worded))}"
    assert not worded - listed, f"not in METHODS of fasten/advice/advise.py: {', '.join(sorted(worded - listed))}"


def test_every_method_answers_every_mount(asked: tuple[tuple[MountPoint, Advice], ...]) -> None:
    for mount, advice in asked:
        told = {answer.method for answer in advice.answers} | {refusal.method for refusal in advice.refusals}
        assert told == {method.NAME for method in METHODS}, mount


def test_whatever_a_list_asks_for_is_known_of_a_shelf(asked: tuple[tuple[MountPoint, Advice], ...]) -> None:
    """A line of a shelf that is exactly what a list asks for is never told as one that matches nothing."""
    tables, view = builtin(), ShelfView(None, builtin())
    for mount, advice in asked:
        plans = tuple(plan_of("one", answer, mount, tables) for answer in advice.answers)
        parts = [part for answer in advice.answers for part, _ in joint_parts(answer.proposal.joint, tables)]
        tool_names = (f"{line.name} {line.size}".strip() for line in tools(plans, view))
        used = (f"{line.name}, {line.detail}".removesuffix(", ") for line in consumables(plans, view, tables))
        drilled = (line.name for line in bits(plans, view))
        owned = tuple(ShelfPart(part, 1) for part in parts)
        lines = Shelf("", "", "", owned, tuple(drilled), tuple(tool_names), tuple(used))
        assert troubles(lines, tables) == (), f"add it to fasten/job/list/stock.py: {mount}"


def test_no_answer_holds_a_failed_check_and_proven_is_what_all_of_them_say(
    asked: tuple[tuple[MountPoint, Advice], ...],
) -> None:
    for _, advice in asked:
        for answer in advice.answers:
            statuses = {check.status for check in answer.proposal.checks}
            assert Status.FAILS not in statuses
            assert answer.proposal.proven == (statuses == {Status.HOLDS})


def test_every_figure_has_a_source_that_is_listed(asked: tuple[tuple[MountPoint, Advice], ...]) -> None:
    for _, advice in asked:
        listed = {source.id for source in advice.sources}
        for answer in advice.answers:
            assert all(check.from_ and set(check.from_) <= listed for check in answer.proposal.checks)


def test_more_mass_never_brings_a_method_that_less_did_not(asked: tuple[tuple[MountPoint, Advice], ...]) -> None:
    for mount, advice in sample(asked, 30):
        heavier = advised(replace(mount, mass_kg=mount.mass_kg * 1.7))
        few = {(answer.method, size(answer.proposal.joint)) for answer in heavier.answers}
        assert {method for method, _ in few} <= {answer.method for answer in advice.answers}, mount


def test_less_space_behind_never_brings_a_method(asked: tuple[tuple[MountPoint, Advice], ...]) -> None:
    for mount, advice in sample(asked, 30):
        tighter = advised(replace(mount, behind_mm=12.0))
        assert {a.method for a in tighter.answers} <= {a.method for a in advice.answers}, mount


def test_more_mass_asks_no_less_of_the_worst_fixing() -> None:
    for mount in mounts():
        least = demands(mount, builtin())
        most = demands(replace(mount, mass_kg=mount.mass_kg * 2), builtin())
        assert max(d.shear_n for d in most) >= max(d.shear_n for d in least)
        assert max(d.tension_n for d in most) >= max(d.tension_n for d in least)


# -- parts ------------------------------------------------------------------------------------------------------------


def offered(method: Method) -> Iterator[tuple[Joint, MountPoint]]:
    """Every joint of a method for the questions here, proved or not."""
    for mount in mounts():
        if gates(method, mount, builtin()) is None:
            yield from ((joint, mount) for joint in joints(method, mount, builtin()))


@pytest.mark.parametrize("method", METHODS, ids=lambda method: method.NAME)
def test_every_part_of_a_method_has_its_own_spares(method: Method) -> None:
    """The last row of the table is for parts that nobody thought of; a method's own are thought of."""
    parts = (part for joint, _ in offered(method) for part in (joint.receiver, joint.screw))
    kinds = {part.kind for part in parts if part is not None}
    known = {row.kind for row in builtin().rows(SPARES)} - {Spares.ANY.value}
    left = sorted(kind.key for kind in kinds if kind.spares.value not in known)
    assert not left, f"fasten/model/kinds.py must say which row of spares.toml is for {', '.join(left)}"


# What its box or its table rates as a whole, pull through the sheet with it.
RATED_AS_SET = {"rated"}


@pytest.mark.parametrize("method", METHODS, ids=lambda method: method.NAME)
def test_what_sits_behind_sheet_can_be_pulled_through_it(method: Method) -> None:
    for joint, mount in offered(method):
        if joint.receiver is None or joint.hole is None or material(builtin(), mount.material).family != "sheet":
            continue
        pulled = {mode.family.name for mode in method.modes(mount, builtin()) if mode.load == "tension"}
        told = f"`modes` of methods/{method.NAME}.py has no pull through the sheet, such as BACK_PULL"
        assert pulled & {"sheet", *RATED_AS_SET}, told


# -- the screw's end --------------------------------------------------------------------------------------------------

LONGEST = {"screw_into_board"}  # takes the longest that fits, so that a shorter one may do


@pytest.mark.parametrize("method", METHODS, ids=lambda method: method.NAME)
def test_the_screw_of_a_method_is_the_shortest_that_its_own_screw_end_allows(method: Method) -> None:
    """What `screw_end` asks and what the method sizes its screw by are one: the next shorter one reaches too little."""
    for joint, mount in offered(method):
        if screw_end_of(joint, mount, builtin()) is None:
            unasked = method.screw_end in {own_length, no_shorter}
            assert unasked or joint.screw is None, f"say in methods/{method.NAME}.py what `screw_end` asks"
            continue
        assert joint.screw is not None
        assert not isinstance(with_length(joint, joint.screw.length_mm + 0.01, mount, builtin()), Refusal)
        shorter_mm = next_shorter_mm(joint.screw)
        if shorter_mm is not None and method.NAME not in LONGEST:
            told = f"`screw_end` of methods/{method.NAME}.py lets {joint.screw.thread} x {shorter_mm:g} do in {mount}"
            assert isinstance(with_length(joint, shorter_mm, mount, builtin()), Refusal), told


def next_shorter_mm(screw: Screw) -> float | None:
    """The next shorter screw that is stocked, by the tables."""
    stocked = builtin().find(LENGTH_RANGES, screw.standard, screw.thread)
    family = "tapping" if screw.thread.startswith("ST") else "machine"
    rows = builtin().rows(PREFERRED_LENGTHS)
    made = [row.length_mm for row in rows if (row.family, row.choice) == (family, "first")]
    least_mm = stocked.min_mm if stocked is not None else screw.length_mm
    return max((mm for mm in made if least_mm <= mm < screw.length_mm), default=None)
