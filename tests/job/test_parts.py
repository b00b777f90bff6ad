"""Parts of an answer under one spelling, pins that hold a joint, and screws of another length."""

from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from fasten.advice.advise import METHODS, advise
from fasten.advice.parts import form_of, joint_parts
from fasten.advice.screw_length import with_length
from fasten.catalog.parts import PREFERRED_LENGTHS
from fasten.catalog.tables import Tables, builtin, shipped_folder
from fasten.job.choices import Choice, choice, choices, pinned
from fasten.job.list.parts import same_part
from fasten.job.pins import pin_of
from fasten.job.words import Mount, Pin
from fasten.model import Answer, Joint, MountPoint, Refusal, kinds
from fasten.model.known import FarEnd
from fasten.model.line import Part

from .sample_jobs import SAID, UNFIT, job, mount, random_mounts

TABLES = builtin()
SCREW = Part("screw", "M5", "ISO 15071", "8.8", 16.0)


def chosen(name: str, **said: str) -> tuple[Answer, MountPoint]:
    found = choice(mount(name, **said), TABLES)
    assert found.answer is not None, found.reason
    assert found.point is not None
    return found.answer, found.point


def parts(name: str, **said: str) -> dict[str, list[tuple[Part, int]]]:
    found: dict[str, list[tuple[Part, int]]] = {}
    for part, count in joint_parts(chosen(name, **said)[0].proposal.joint, TABLES):
        found.setdefault(part.kind, []).append((part, count))
    return found


# -- parts ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "other",
    [
        Part("Screw", "m5", "iso 15071", "8.8", 16.0),
        Part(" screw", "M 5", "ISO15071", "8.8 ", 16.00001),
        Part("screw", "M5", "ISO-15071", "8.8", 16.0),
        Part("SCREW", "M5", "ISO  15071", "8.8", 16.0),
    ],
)
def test_case_spaces_and_dashes_make_no_other_part(other: Part) -> None:
    assert same_part(other) == same_part(SCREW)


@pytest.mark.parametrize(
    "other",
    [
        replace(SCREW, size="M6"), replace(SCREW, name="ISO 4762"), replace(SCREW, grade="A2-70"),
        replace(SCREW, length_mm=20.0), replace(SCREW, length_mm=None), replace(SCREW, kind="washer"),
    ],
)  # fmt: skip
def test_another_size_standard_grade_or_length_is_another_part(other: Part) -> None:
    assert same_part(other) != same_part(SCREW)


def test_a_rivet_nut_takes_its_screw_and_itself() -> None:
    answer, _ = chosen("amp")
    joint = answer.proposal.joint
    assert joint.receiver is not None
    assert joint.screw is not None
    found = parts("amp")
    [(nut, nuts)], [(screw, screws)] = found["rivet nut"], found["screw"]
    assert (nut.size, nut.name, nut.length_mm, nuts) == ("M5", joint.receiver.series, joint.receiver.length_mm, 1)
    assert (screw.size, screw.grade, screw.length_mm, screws) == ("M5", "8.8", joint.screw.length_mm, 1)


def test_a_rivet_is_one_part_though_it_is_screw_and_receiver() -> None:
    answers = advise(chosen("fuse", removed="never", item_hole="4.9mm")[1], TABLES, changes=False).answers
    rivets = [answer for answer in answers if answer.method == "blind_rivet"]
    assert rivets

    for answer in rivets:
        [(part, count)] = joint_parts(answer.proposal.joint, TABLES)
        assert (part.kind, count) == ("blind rivet", 1)


def test_a_self_drilling_screw_is_no_tapping_screw_though_their_heads_are_one() -> None:
    """Of one size and length they would else stand on one line, and the wrong one be bought."""
    _, point = chosen("fuse", item_hole="4.8mm")
    found = {
        part.kind
        for answer in advise(point, TABLES, changes=False).answers
        if answer.method in {"tapping_screw", "self_drilling_screw"}
        for part, _ in joint_parts(answer.proposal.joint, TABLES)
    }
    assert {"screw", "self-drilling screw"} <= found


def test_washers_of_one_size_on_both_sides_are_two_of_one_part() -> None:
    [(washer, count)] = parts("box")["washer"]
    assert (washer.name, count) == ("ISO 7094", 2)


def test_a_nut_goes_by_its_standard_and_has_no_length() -> None:
    [(nut, _)] = parts("box")["prevailing-torque nut"]
    assert (nut.name, nut.length_mm) == ("ISO 7040", None)


def test_a_stud_that_is_there_takes_a_nut_and_a_thread_that_is_there_a_screw() -> None:
    stud, weld = (
        next(a for a in advise(chosen(name)[1], TABLES, changes=False).answers if a.method == "factory_thread")
        for name in ("stud", "weld")
    )
    assert stud.proposal.joint.screw is None
    assert {part.kind for part, _ in joint_parts(stud.proposal.joint, TABLES)} == {"hexagon nut", "washer"}
    assert "screw" in [part.kind for part, _ in joint_parts(weld.proposal.joint, TABLES)]


def test_foam_in_the_load_path_takes_a_stop_of_its_stop_height_at_each_screw() -> None:
    """0.6 of 3 mm of foam is left when it is stopped: the table's gasket page."""
    [(limiter, count)] = parts("speaker")["compression limiter"]
    assert (limiter.length_mm, count) == (1.8, 1)
    assert "compression limiter" not in parts("speaker", between="carpet 6 mm cut out")


def test_a_spacer_through_carpet_is_on_the_list_by_its_outside_and_length() -> None:
    """0.75 of 6 mm is 4.5, and 5 mm is sold; on plastic or board as wide as the large washer of M4, 12 mm."""
    [(spacer, count)] = parts("speaker", between="carpet 6 mm")["compression limiter"]
    assert (spacer.size, spacer.name, spacer.length_mm, count) == ("M4", "12 mm outside", 5.0, 1)


def test_inserts_of_one_thread_and_several_outsides_are_several_parts() -> None:
    """A fine M6 insert comes 9 and 10 mm wide, a coarse one 12, each with its own hole."""
    _, point = chosen("rack", onto="hardwood 25 mm", item_hole="6.6mm", item_material="steel", item_thickness="3mm")
    module = next(method for method in METHODS if method.NAME == "screw_in_insert")
    answer, _ = chosen("speaker")
    names = set()
    for joint in module.joints(point, TABLES):
        held = replace(answer, proposal=replace(answer.proposal, joint=joint))
        names |= {
            part.name
            for part, _ in joint_parts(held.proposal.joint, TABLES)
            if (part.kind, part.size) == ("screw-in insert", "M6")
        }
    assert {name.rpartition(", ")[2] for name in names} == {"9 mm outside", "10 mm outside", "12 mm outside"}


def test_the_form_tells_what_the_standard_leaves_to_look_up() -> None:
    assert form_of(SCREW, kinds.MACHINE_SCREW, TABLES) == "hexagon flange head"
    assert form_of(Part("screw", "ST4.2", "ISO 14585", "", 13.0), kinds.TAPPING_SCREW, TABLES) == "pan head"
    assert form_of(Part("washer", "M5", "ISO 7089", "", None), kinds.WASHER, TABLES) == "5.3 x 10 x 1 mm"
    assert form_of(Part("rivet nut", "M5", "anything", "", 13.0), kinds.RIVET_NUT, TABLES) == ""


# -- choices ----------------------------------------------------------------------------------------------------------


def test_what_nothing_fits_or_nobody_understands_is_kept_with_its_reason() -> None:
    found = choices(
        job(
            Mount("box", tuple(UNFIT.items())),
            Mount("odd", (("item", "spoon"), ("onto", "steel 1 mm"), ("removed", "never"))),
        ),
        TABLES,
    )
    assert [entry.answer for entry in found] == [None, None]
    assert found[0].reason.startswith("nothing fits: ")
    assert "'spoon' is not a known item" in found[1].reason
    assert found[1].point is None


def test_equal_questions_get_equal_answers_under_their_own_names() -> None:
    first, second = choices(job(mount("amp left"), mount("amp right")), TABLES)
    assert (first.name, second.name) == ("amp left", "amp right")
    assert first.answer is second.answer


# -- pins -------------------------------------------------------------------------------------------------------------


@cache
def answered() -> list[tuple[MountPoint, Answer]]:
    points = [chosen(name)[1] for name in SAID]
    points += [chosen("amp", reach="both-sides")[1], chosen("rack", reach="both-sides")[1]]
    return [(point, answer) for point in points for answer in advise(point, TABLES, changes=False).answers]


def test_every_answer_can_be_pinned_and_comes_back_as_it_was() -> None:
    told = answered()
    assert len({answer.method for _, answer in told}) >= 8
    for point, answer in told:
        held = pinned(pin_of(answer), point, TABLES)
        assert isinstance(held, Answer), (answer.title, held)
        assert held.proposal == answer.proposal
        assert (held.title, held.steps, held.tools) == (answer.title, answer.steps, answer.tools)


def test_a_pin_holds_against_a_better_answer() -> None:
    _, point = chosen("amp")
    second = advise(point, TABLES, changes=False).answers[1]
    found = choice(replace(mount("amp"), pin=pin_of(second)), TABLES)
    assert found.answer is not None
    assert found.answer.proposal == second.proposal


def test_a_pin_that_holds_nothing_but_the_method_takes_the_best_of_it() -> None:
    _, point = chosen("amp", reach="both-sides")
    answers = advise(point, TABLES, changes=False).answers
    best = next(answer for answer in answers if answer.method == "rivet_nut")
    held = pinned(Pin("rivet_nut", "", "", None, None), point, TABLES)
    assert isinstance(held, Answer)
    assert held.proposal == best.proposal


@pytest.mark.parametrize(
    ("pin", "why"),
    [
        (Pin("glue_gun", "", "", None, None), "there is no method of this name"),
        (Pin("rivet_nut", "M12", "", None, None), "is the one that is pinned"),
        (Pin("rivet_nut", "M5", "no such series", None, None), "is the one that is pinned"),
        (Pin("rivet_nut", "M5", "", 99.0, None), "is the one that is pinned"),
        (Pin("rivet_nut", "M5", "", None, 8.0), "its end does not reach far enough"),
        (Pin("through_bolt", "M5", "", None, None), "you reach only one side"),
        (Pin("tapping_screw", "ST4.2", "", None, None), "too little thread to take out yearly"),
    ],
)
def test_a_pin_that_does_not_do_is_told_and_nothing_takes_its_place(pin: Pin, why: str) -> None:
    found = choice(replace(mount("amp"), pin=pin), TABLES)
    assert found.answer is None
    assert found.reason.startswith(f"the pinned {pin.method.replace('_', ' ')}")
    assert why in found.reason


def test_a_pinned_joint_is_proved_anew_where_the_question_changed() -> None:
    """Pinned where there is room behind; where there is none, the space it needs refuses it."""
    pin = pin_of(chosen("amp")[0])
    found = choice(replace(mount("amp", behind="6mm"), pin=pin), TABLES)
    assert found.answer is None
    assert "space behind" in found.reason


# -- another length ---------------------------------------------------------------------------------------------------


def without_length(folder: Path, family: str, length_mm: float) -> Tables:
    """The tables of someone whose shop does not keep one length: the methods then take the next by themselves."""
    row = TABLES.find(PREFERRED_LENGTHS, family, length_mm)
    assert row is not None
    folder.mkdir()
    (folder / "lengths.toml").write_text(
        'format = 1\ntable = "preferred-lengths"\ntitle = "kept here"\nstandard = "none"\nlimits = "mine"\n'
        '[[source]]\nid = "mine"\nbasis = "user\'s own"\ntext = "shelf"\n[data]\n'
        'columns = ["family", "length", "choice", "from"]\nunits = ["", "mm", "", ""]\n'
        f'rows = [["{family}", {length_mm}, "second", "mine"]]\n',
        encoding="utf-8",
    )
    tables = Tables(shipped_folder(), folder)
    assert not tables.problems
    return tables


def same(first: Joint, second: Joint) -> None:
    """The two joints alike in all that a length decides."""
    assert first.screw is not None
    assert second.screw is not None
    for name in ("length_mm", "engagement_mm", "protrusion_mm"):
        assert getattr(first.screw, name) == pytest.approx(getattr(second.screw, name)), name
    assert (first.hole is None) == (second.hole is None)
    if first.hole is not None and second.hole is not None:
        assert first.hole.depth_mm == pytest.approx(second.hole.depth_mm)
    assert first.grip_mm == pytest.approx(second.grip_mm)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "said", "method", "family"),
    [
        ("amp", {}, "rivet_nut", "machine"),
        ("seen", {}, "rivet_nut", "machine"),
        ("box", {}, "through_bolt", "machine"),
        ("rack", {"reach": "both-sides"}, "through_bolt", "machine"),
        ("rack", {"reach": "both-sides"}, "tee_nut", "machine"),
        ("speaker", {}, "screw_in_insert", "machine"),
        ("bracket", {}, "tapped_hole", "machine"),
        ("trim", {}, "tapping_screw", "tapping"),
        ("crossover", {"removed": "monthly"}, "heat_set_insert", "machine"),
        ("crossover", {"removed": "monthly"}, "self_tapping_insert", "machine"),
        ("crossover", {}, "thread_forming_screw", "machine"),
        ("fuse", {"edge": "8mm"}, "clip_nut", "machine"),
    ],
)
def test_a_longer_screw_stacks_up_as_the_method_itself_would_stack_it(
    tmp_path: Path, name: str, said: dict[str, str], method: str, family: str
) -> None:
    """Where the shop lacks the length, the method sizes the joint with the next one: that is what must come out."""
    point = _point(name, **said)
    module = next(found for found in METHODS if method == found.NAME)
    compared = 0
    for number, joint in enumerate(module.joints(point, TABLES)):
        assert joint.screw is not None
        tables = without_length(tmp_path / str(number), family, joint.screw.length_mm)
        key = (joint.screw.thread, joint.receiver.series if joint.receiver else "", joint.kind, laid(joint))
        for wanted in module.joints(point, tables):
            assert wanted.screw is not None
            series = wanted.receiver.series if wanted.receiver else ""
            length = wanted.receiver.length_mm if wanted.receiver else None
            alike = (wanted.screw.thread, series, wanted.kind, laid(wanted)) == key
            if alike and length == (joint.receiver.length_mm if joint.receiver else None):
                changed = with_length(joint, wanted.screw.length_mm, point, TABLES)
                assert isinstance(changed, Joint), changed
                same(changed, wanted)
                assert wanted.behind_done_mm - 1e-9 <= changed.behind_done_mm
                compared += 1
    assert compared


def laid(joint: Joint) -> tuple[tuple[str, str], ...]:
    """What lies in its stack, whatever the screw."""
    return tuple((washer.standard, washer.size) for washer in joint.washers)


def _point(name: str, **said: str) -> MountPoint:
    found = choice(mount(name, **said), TABLES)
    assert found.point is not None
    return found.point


def test_the_length_that_is_there_changes_nothing() -> None:
    for point, answer in answered():
        joint = answer.proposal.joint
        if joint.screw is not None and answer.method not in {"blind_rivet", "ball_stud"}:
            assert with_length(joint, joint.screw.length_mm, point, TABLES) is joint


def test_no_length_reaches_less_than_the_method_itself_asks() -> None:
    """Millimetre by millimetre shorter, each screw is refused before its end leaves what holds it."""
    for point, answer in answered():
        joint = answer.proposal.joint
        if joint.screw is None or answer.method in {"blind_rivet", "ball_stud"}:
            continue
        for less in range(1, int(joint.screw.length_mm)):
            changed = with_length(joint, joint.screw.length_mm - less, point, TABLES)
            if isinstance(changed, Joint):
                assert changed.screw is not None
                assert 0 < changed.screw.engagement_mm <= joint.screw.engagement_mm
        short = with_length(joint, 1.0, point, TABLES)
        assert isinstance(short, Refusal), answer.title
        assert short.because.startswith(joint.screw.thread)


def test_a_closed_end_refuses_the_screw_that_bottoms_out() -> None:
    point = _point("amp", where="door", mass="2kg", panel="floor")
    closed = [
        a
        for a in advise(point, TABLES, changes=False).answers
        if a.proposal.joint.receiver and a.proposal.joint.receiver.end is FarEnd.CLOSED
    ]
    assert closed
    joint = closed[0].proposal.joint
    assert joint.screw is not None
    refused = with_length(joint, joint.screw.length_mm + 10, point, TABLES)
    assert isinstance(refused, Refusal)
    assert "bottoms out" in refused.because


def test_the_length_of_a_rivet_is_not_changed() -> None:
    point = _point("fuse", removed="never", item_hole="4.9mm")
    rivet = next(a for a in advise(point, TABLES, changes=False).answers if a.method == "blind_rivet").proposal.joint
    assert rivet.screw is not None
    refused = with_length(rivet, rivet.screw.length_mm + 2, point, TABLES)
    assert isinstance(refused, Refusal)


@pytest.mark.slow
def test_random_mount_points_have_parts_with_plain_names() -> None:
    found = choices(job(*random_mounts(3, 60)), TABLES)
    kinds: Counter[str] = Counter()
    for entry in found:
        assert isinstance(entry, Choice)
        if entry.answer is None or entry.point is None:
            continue
        for part, count in joint_parts(entry.answer.proposal.joint, TABLES):
            assert count >= 1
            assert "_" not in part.kind + part.size + part.name + part.grade
            kinds[part.kind] += 1
    assert {"screw", "washer", "rivet nut", "screw-in insert"} <= set(kinds)
