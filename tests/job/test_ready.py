"""The verdict: ready only with everything on the shelf and every answer proven; what is missing and what it stops."""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest

from fasten.__main__ import main
from fasten.after.verdict import Verdict as BuiltVerdict
from fasten.catalog.tables import builtin
from fasten.job.assumed import assumed
from fasten.job.choices import choices
from fasten.job.list.hardware import hardware
from fasten.job.list.lists import Verdict
from fasten.job.list.ticks import is_packed, lines_of, tick_of, toggled
from fasten.job.names import file_name
from fasten.job.ready import as_built_of, ready, worn
from fasten.job.store.storage import save_job, save_shelf
from fasten.job.words import Job, Mount, Shelf, ShelfPart, Visit
from fasten.job.work import work_sheet
from fasten.model.line import Sort
from fasten.report.forms.written import written
from fasten.report.job.built import as_advised
from fasten.report.job.hardware import hardware_document, ready_document, reasons
from fasten.report.job.work import work_lead

from .sample_jobs import UNFIT, job, list_of, mount
from .sample_jobs import shelf as shelf_of

TABLES = builtin()
# Told of everything that a check asks for, so that nothing stays open.
PROVEN = job(mount("amp left"), mount("amp right"), mount("bracket"))


def verdict(asked: Job, shelf: Shelf | None) -> Verdict:
    found = choices(asked, TABLES)
    return ready(hardware(asked, found, shelf, TABLES), found)


def full_shelf(asked: Job) -> Shelf:
    """A shelf with all that the list of the job asks for, and not one more."""
    found = hardware(asked, choices(asked, TABLES), None, TABLES)
    return Shelf(
        "Van", "", "", tuple(ShelfPart(line.part, line.total) for line in found.parts),
        tuple(line.name for line in found.bits),
        tuple(f"{line.name} {line.size}".strip() for line in found.tools),
        tuple(line.name for line in found.consumables),
    )  # fmt: skip


def fewer(shelf: Shelf, kind: str, count: int) -> Shelf:
    """The shelf with so many of the parts of this kind."""
    parts = tuple(replace(entry, count=count) if entry.part.kind == kind else entry for entry in shelf.parts)
    return replace(shelf, parts=parts)


def test_all_on_the_shelf_and_all_proven_is_ready() -> None:
    found = verdict(PROVEN, full_shelf(PROVEN))
    assert (found.ready, found.missing, found.unproven, found.unfit) == (True, (), (), ())


@pytest.mark.parametrize(
    ("torque", "holds", "how"),
    [("as planned", True, None), ("2.4 N·m", False, BuiltVerdict.FAILS), ("", False, BuiltVerdict.OPEN)],
)
def test_a_record_that_does_not_hold_or_is_not_proven_is_not_ready(
    torque: str, holds: bool, how: BuiltVerdict | None
) -> None:
    planned = as_advised(choices(PROVEN, TABLES)[0].answer)
    read = planned["torque"] if torque == "as planned" else torque
    done = replace(PROVEN.mounts[0], visits=(Visit("2026-05-03", planned["hole"], "", read, ""),))
    job = replace(PROVEN, mounts=(done, *PROVEN.mounts[1:]))
    found = choices(job, TABLES)
    listed = hardware(job, found, full_shelf(PROVEN), TABLES)
    told = ready(listed, found, as_built=tuple(as_built_of(found, TABLES)))
    assert (told.ready, told.missing, told.unproven) == (holds, (), ())
    assert [(one.mount, one.verdict) for one in told.as_built] == ([] if how is None else [("amp left", how)])
    assert reasons(told) == (() if how is None else (f"1 mount point as built {how}",))
    if how is not None:
        [one], shown = told.as_built, written(ready_document(told), "text", 400)
        assert all(text in shown for text in (*one.do, *one.needs))


def test_without_a_shelf_everything_is_missing() -> None:
    found = verdict(PROVEN, None)
    listed = hardware(PROVEN, choices(PROVEN, TABLES), None, TABLES)
    assert not found.ready
    assert not found.shelf
    things = len(listed.parts) + len(listed.bits) + len(listed.tools) + len(listed.consumables)
    assert len(found.missing) == things


def test_a_mass_that_was_not_given_is_named_and_stops_nothing() -> None:
    asked = job(mount("amp given", mass="4kg"), mount("amp usual"))
    found = choices(asked, TABLES)
    said = ready(hardware(asked, found, full_shelf(asked), TABLES), found, assumed=assumed(found))
    assert (said.ready, [one.mount for one in said.assumed]) == (True, ["amp usual"])


def test_a_job_of_nothing_is_not_ready() -> None:
    assert not verdict(job(), full_shelf(job())).ready


def test_a_missing_part_stops_the_mount_points_it_does_not_reach() -> None:
    """Four of eight rivet nuts do for the first amplifier, none for the second."""
    [missing] = verdict(PROVEN, fewer(full_shelf(PROVEN), "rivet nut", 4)).missing
    assert (missing.kind, missing.count, missing.stops) == (Sort.PART, 6, ("amp right",))
    assert missing.thing.startswith("rivet nut M5")
    [missing] = verdict(PROVEN, fewer(full_shelf(PROVEN), "rivet nut", 3)).missing
    assert missing.stops == ("amp left", "amp right")


def test_short_spares_stop_nothing_yet_the_job_is_not_ready() -> None:
    found = verdict(PROVEN, fewer(full_shelf(PROVEN), "rivet nut", 8))
    assert not found.ready
    [missing] = found.missing
    assert (missing.count, missing.stops) == (2, ())


@pytest.mark.parametrize("field", ["bits", "tools", "consumables"])
def test_every_single_thing_that_is_missing_is_told_with_what_it_stops(field: str) -> None:
    whole = full_shelf(PROVEN)
    for name in getattr(whole, field):
        rest = tuple(other for other in getattr(whole, field) if other != name)
        found = verdict(PROVEN, replace(whole, **{field: rest}))  # type: ignore[arg-type]
        assert not found.ready
        assert found.missing
        for entry in found.missing:
            assert name in entry.thing
            assert entry.stops


def packed(asked: Job, against: Shelf | None = None) -> Job:
    """The job with every line of its list ticked."""
    listed = hardware(asked, choices(asked, TABLES), against, TABLES)
    return replace(asked, packed=tuple(map(tick_of, lines_of(listed))))


def test_what_is_packed_is_at_hand_whatever_the_shelf_says() -> None:
    """Where every line is packed nothing is missing, and nothing is to buy; the shelf need not say so again."""
    asked = packed(PROVEN)
    for shelf in (None, fewer(full_shelf(PROVEN), "rivet nut", 3)):
        found = choices(asked, TABLES)
        listed = hardware(asked, found, shelf, TABLES)
        assert ready(listed, found).ready
        assert all(map(is_packed, lines_of(listed)))
        assert {line.to_buy for line in listed.parts} == {0}


def test_a_line_that_is_not_packed_is_missing_and_told() -> None:
    asked = packed(PROVEN)
    for at, tick in enumerate(asked.packed):
        less = replace(asked, packed=asked.packed[:at] + asked.packed[at + 1 :])
        [missing] = verdict(less, None).missing
        assert missing.kind.value == tick.partition(":")[0]


def test_a_tick_of_a_part_is_of_as_many_as_were_packed() -> None:
    """A mount point more asks for more of them: the tick of the fewer must not say that all are there."""
    more = replace(packed(job(mount("amp left"))), mounts=PROVEN.mounts[:2])
    short = [entry for entry in verdict(more, None).missing if entry.kind is Sort.PART]
    assert [(entry.count, entry.stops) for entry in short] == [(4, ("amp right",)), (4, ("amp right",))]
    assert all(entry.kind is Sort.PART for entry in verdict(more, None).missing)


def test_a_tick_without_a_number_is_of_the_whole_line() -> None:
    listed = hardware(PROVEN, choices(PROVEN, TABLES), None, TABLES)
    asked = replace(PROVEN, packed=tuple(line.id.text for line in listed.parts))
    assert {entry.kind for entry in verdict(asked, None).missing} == {Sort.BIT, Sort.TOOL, Sort.CONSUMABLE}


def test_a_line_is_ticked_and_unticked_and_ticked_anew_where_more_is_wanted() -> None:
    listed = hardware(PROVEN, choices(PROVEN, TABLES), None, TABLES)
    line, other = listed.parts[0], tick_of(listed.bits[0])
    once = toggled(replace(PROVEN, packed=(other,)), line, listed)
    assert once.packed == (other, tick_of(line))
    assert toggled(once, line, listed).packed == (other,)
    more = replace(line, total=line.total + 4)
    assert toggled(once, more, replace(listed, parts=(more,))).packed == (other, tick_of(more))


def test_what_the_shelf_lists_nothing_of_is_missing_and_said_not_to_be_known() -> None:
    """One bit on the shelf says of bits what is there, and nothing of rivet nuts; ready the job is not."""
    asked = job(mount("amp left"))
    found = choices(asked, TABLES)
    listed = hardware(asked, found, Shelf("Van", "", "", (), ("7 mm",), ("trim tools",), ()), TABLES)
    said = ready(listed, found)
    assert not said.ready
    assert {entry.kind for entry in said.missing if entry.known} == {Sort.BIT, Sort.TOOL}
    assert {entry.kind for entry in said.missing if not entry.known} == {Sort.PART, Sort.TOOL, Sort.CONSUMABLE}
    told = " ".join(written(ready_document(said), "text", 120).split())
    assert "8.8, not known to be here" in told
    rows = written(hardware_document(listed), "text", 120)
    assert re.search(r"^3 mm +no ", rows, re.MULTILINE)
    assert re.search(r"^Rivet-nut setter +not known ", rows, re.MULTILINE)
    assert re.search(r"^Calliper +no ", rows, re.MULTILINE)
    assert re.search(r"^Bare-edge primer .* not known ", rows, re.MULTILINE)


def test_an_unproven_answer_keeps_the_job_from_being_ready_and_says_what_it_needs() -> None:
    asked = job(mount("amp", edge=""), mount("bracket"))
    found = verdict(asked, full_shelf(asked))
    assert not found.ready
    assert found.missing == ()
    [unproven] = found.unproven
    assert unproven.mount == "amp"
    assert any(need.endswith("hole centre to any edge") for need in unproven.needs)


def test_what_nothing_fits_keeps_the_job_from_being_ready() -> None:
    asked = job(mount("amp"), replace(mount("box"), said=tuple(UNFIT.items())))
    found = verdict(asked, full_shelf(asked))
    assert (found.ready, found.missing, found.unproven) == (False, (), ())
    assert [entry.mount for entry in found.unfit] == ["box"]


# -- the commands -----------------------------------------------------------------------------------------------------


@pytest.fixture
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[str, str]:
    """A job and the shelf that is full for it, in a folder of their own; the user has no other."""
    monkeypatch.setenv("FASTEN_DATA", str(tmp_path / "none"))
    monkeypatch.setenv("FASTEN_TABLES", str(tmp_path / "none"))
    save_job(PROVEN, tmp_path / "car.toml")
    save_shelf(full_shelf(PROVEN), tmp_path / "shelf.toml")
    return str(tmp_path / "car.toml"), str(tmp_path / "shelf.toml")


def test_ready_ends_with_0_and_not_ready_with_1(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    car, shelf = files
    assert main(["ready", car, "--shelf", shelf]) == 0
    assert capsys.readouterr().out.startswith("READY: Estate\n")
    assert main(["ready", car]) == 1
    out = capsys.readouterr().out
    assert out.startswith("NOT READY: Estate\n")
    assert "To buy: " in out
    assert "No shelf was given, so all that is not packed counts as missing" in " ".join(out.split())


def test_ready_as_json(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ready", files[0], "--json"]) == 1
    found = json.loads(capsys.readouterr().out)
    assert (found["format"], found["ready"], found["shelf"]) == (1, False, False)
    assert {"kind", "thing", "count", "stops", "known", "short", "unit"} == set(found["missing"][0])


@pytest.mark.parametrize(
    ("format_", "start"), [("text", "Hardware"), ("csv", "Section,What,"), ("md", "# "), ("html", "<!")]
)
def test_the_list_in_every_format(
    files: tuple[str, str], format_: str, start: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["hardware", files[0], "--shelf", files[1], "--format", format_]) == 0
    assert capsys.readouterr().out.startswith(start)


def test_the_list_as_json_has_its_totals(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["hardware", files[0], "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    nut = next(line for line in found["parts"] if line["part"]["kind"] == "rivet nut")
    assert (found["format"], nut["needed"], nut["total"], nut["to_buy"]) == (1, 8, 10, 10)
    assert nut["places"] == [{"mount": "amp left", "count": 4}, {"mount": "amp right", "count": 4}]


@pytest.mark.slow
def test_a_file_that_is_there_is_not_replaced_unless_told(
    files: tuple[str, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "list.csv"
    command = ["hardware", files[0], "--format", "csv", "--out", str(out)]
    assert main(command) == 0
    assert capsys.readouterr().out == ""
    first = out.read_bytes()
    assert first.startswith(b"\xef\xbb\xbfSection,What,")
    out.write_text("mine", encoding="utf-8")
    assert main(command) == 2
    assert out.read_text(encoding="utf-8") == "mine"
    assert "--force" in capsys.readouterr().err
    assert main([*command, "--force"]) == 0
    assert out.read_bytes() == first


def test_into_a_folder_the_list_goes_by_the_name_of_the_job(files: tuple[str, str], tmp_path: Path) -> None:
    save_job(replace(PROVEN, title="../../etc/My car"), tmp_path / "sly.toml")
    folder = tmp_path / "out"
    folder.mkdir()
    assert main(["hardware", str(tmp_path / "sly.toml"), "--format", "html", "--out", str(folder)]) == 0
    assert [path.name for path in folder.iterdir()] == ["etc-My-car-hardware.html"]


@pytest.mark.parametrize("command", ["hardware", "ready"])
def test_what_is_no_job_is_refused_in_a_sentence(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([command, str(tmp_path / "none.toml")]) == 2
    assert "the file is not there" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Estate", "Estate"),
        ("../../etc/passwd", "etc-passwd"),
        ("C:\\Windows\\x", "C-Windows-x"),
        ("..", "unnamed"),
        ("", "unnamed"),
        ("a\x00b\nc", "a-b-c"),
        ("NUL", "NUL-file"),
        ("con", "con-file"),
        ("my car\u202e.exe", "my-car-exe"),
        ("Käfer 1303", "Käfer-1303"),
        ("／etc／x", "etc-x"),
        ("~root", "root"),
        ("-rf", "rf"),
    ],
)
def test_a_name_of_a_file_stays_in_its_folder(text: str, name: str) -> None:
    assert file_name(text) == name


def test_a_long_name_is_cut() -> None:
    assert len(file_name("x" * 1000)) == 60


def test_without_a_shelf_parts_and_bits_are_to_buy_and_what_is_worn_is_one_line() -> None:
    found = choices(PROVEN, builtin())
    listed = hardware(PROVEN, found, None, builtin())
    told = ready(listed, found, worn(builtin()))
    parts, bits = (sum(entry.kind is kind for entry in told.missing) for kind in (Sort.PART, Sort.BIT))
    assert reasons(told)[0] == f"to buy: {parts} parts, {bits} bits"
    gear = [entry for entry in told.missing if entry.thing.startswith("safety gear")]
    names = [line.name for line in listed.tools if line.key in worn(builtin())]
    assert len(names) > 1
    assert [entry.thing for entry in gear] == [f"safety gear: {', '.join(names)}"]
    assert not {entry.thing for entry in told.missing} & set(names)


def test_with_a_shelf_each_thing_counts_for_itself() -> None:
    found, shelf = choices(PROVEN, builtin()), Shelf("", "", "", (), (), (), ())
    told = ready(hardware(PROVEN, found, shelf, builtin()), found, worn(builtin()))
    assert reasons(told)[0].endswith("things missing")
    assert not [entry for entry in told.missing if entry.thing.startswith("safety gear")]


def test_a_torque_tool_that_does_not_reach_a_torque_is_missing_for_it() -> None:
    """By hand: 1 N·m at the amplifier is under the 1.2 N·m from which the one screwdriver there reads."""
    for tool, is_there in (
        ("torque screwdriver", True), ("torque screwdriver, 0.5 to 5 N\u00b7m", True),
        ("torque screwdriver, up to 5 N\u00b7m", True), ("torque screwdriver, 4 to 20 N\u00b7m", False),
    ):  # fmt: skip
        listed = list_of(job(mount("amp")), shelf_of(tools=(tool,)))
        line = next(line for line in listed.tools if line.key == "torque screwdriver")
        assert (line.on_shelf, [use.mount for use in line.beyond]) == (is_there, [] if is_there else ["amp"]), tool
        missing = [one.thing for one in ready(listed, choices(job(mount("amp")), TABLES)).missing]
        assert any(thing.startswith("torque screwdriver") for thing in missing) != is_there
    assert any(thing.startswith("torque screwdriver that reaches 1.") for thing in missing)


def test_what_is_not_said_yet_is_told_apart_from_what_nothing_fits() -> None:
    asked = job(mount("amp left"), Mount("bad", tuple(UNFIT.items())), Mount("head unit", (("item", "amplifier"),)))
    found = choices(asked, TABLES)
    listed = hardware(asked, found, None, TABLES)
    chapters = {one.heading: one.rows for one in ready_document(ready(listed, found)).sections}
    assert [row[0] for row in chapters["Nothing fits"]] == ["bad"]
    assert [row[0] for row in chapters["Still to say"]] == ["head unit"]
    shown = written(hardware_document(listed), "text", 120)
    assert "1 mount point not on this list: nothing fits there as it stands." in shown
    assert "1 mount point not on this list: not enough is said yet." in shown
    lead = " ".join(work_lead(work_sheet(asked, found, None, TABLES)))
    assert "NOTHING FITS at bad: drill nothing there." in lead
    assert "STILL TO SAY at head unit: drill nothing there." in lead
