"""Lines of the list are found again by keys and sizes; ticks of format 1, kept by words, are read for ever."""

import json
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from built.rewording import Reworded

from fasten.__main__ import main
from fasten.advice.advise import advise
from fasten.advice.parts import fitted_parts
from fasten.catalog.tables import Tables, builtin
from fasten.job.choices import Choice, choices
from fasten.job.list import format1
from fasten.job.list.hardware import hardware
from fasten.job.list.lists import HardwareList
from fasten.job.list.parts import same_part
from fasten.job.list.ticks import Line, Stray, is_packed, lines_of, tick_of, tick_text, toggled
from fasten.job.ready import ready
from fasten.job.store.storage import job_text, load_job, save_job
from fasten.job.words import Job, Mount
from fasten.model import end_kinds, kinds
from fasten.model.line import LineId, Part, Sort, words_of_line
from fasten.report.forms.written import written
from fasten.report.job.hardware import hardware_document, ready_document

from .sample_jobs import SAID, job, mount
from .test_work import asked

TABLES = builtin()
WORDS: dict[str, str] = json.loads(Path(__file__).with_name("format1_words.json").read_text("utf-8"))
ALL = job(*map(mount, SAID))


@cache
def found_for(wanted: Job) -> tuple[Choice, ...]:
    return choices(wanted, TABLES)


def list_of(wanted: Job, tables: Tables = TABLES) -> HardwareList:
    """The list of a job; its answers do not change with its ticks."""
    return hardware(wanted, found_for(replace(wanted, packed=(), apart=())), None, tables)


def packed(wanted: Job) -> Job:
    return replace(wanted, packed=tuple(map(tick_of, lines_of(list_of(wanted)))))


def old_ticks(wanted: Job) -> tuple[str, ...]:
    """Ticks of all lines of a job as files of format 1 have them, by their recorded words."""
    return tuple(_old_tick(line) for line in lines_of(list_of(wanted)) if line.id.text in WORDS)


def _old_tick(line: Line) -> str:
    words = WORDS[line.id.text]
    count = getattr(line, "total", None)
    return words if count is None else words.replace("Parts: ", f"Parts: {count} x ")


def old_file(path: Path, ticks: tuple[str, ...]) -> Job:
    """A job as a file of format 1 gives it."""
    text = job_text(ALL).replace("format = 2\n", "format = 1\n")
    path.write_text(
        text.replace('note = ""\n', "").replace("\n[[mount]]", f"packed = {json.dumps(ticks)}\n\n[[mount]]", 1)
    )
    return load_job(path, TABLES).value


# -- ids --------------------------------------------------------------------------------------------------------------


def test_an_id_is_made_of_a_key_and_sizes() -> None:
    assert LineId(Sort.PART, "rivet_nut", ("M5", "round, knurled", "steel", "", "13")).text == (
        "part:rivet_nut/M5/round,_knurled/steel/-/13"
    )
    assert LineId(Sort.PART, "washer", ("M5", "ISO 7089", "", "", "")).text == "part:washer/M5/ISO_7089"
    assert LineId(Sort.BIT, "7.6").text == "bit:7.6"
    assert LineId(Sort.TOOL, "a/b = 50%").text == "tool:a%2Fb_%3D_50%25"


def every_list() -> Iterator[HardwareList]:
    """A list of each answer to each question, so that every method has its turn."""
    for name, said in asked().items():
        one = job(Mount(name, tuple(said.items())))
        [entry] = found_for(one)
        assert entry.point is not None
        for answer in advise(entry.point, TABLES, changes=False).answers:
            yield hardware(one, (entry.with_answer(answer, TABLES),), None, TABLES)


@pytest.mark.slow
def test_no_two_lines_share_an_id_and_all_are_worded_as_they_were() -> None:
    """The words are those that the program wrote when files were of format 1, recorded then and never anew."""
    seen: dict[str, str] = {}
    for listed in every_list():
        ids = [line.id.text for line in lines_of(listed)]
        assert len(ids) == len(set(ids))
        for line in lines_of(listed):
            seen[line.id.text] = format1.worded(line)
    known = {line: words for line, words in seen.items() if line in WORDS}
    assert len(known) > 200
    assert known == {line: format1.read(WORDS[line])[0] for line in known}
    assert len(set(seen.values())) == len(seen)


def test_a_kind_goes_by_one_key_however_it_is_called() -> None:
    keys: dict[str, set[str]] = {}
    for kind in (*kinds.ALL, *end_kinds.ALL):
        keys.setdefault(kind.line, set()).add(kind.key)
        for text in (kind.line, kind.key, kind.line.upper()):
            assert same_part(Part(text, "", "", "", None)).kind == same_part(Part(kind.key, "", "", "", None)).kind
    assert all(len(found) == 1 for found in keys.values()), "two kinds of one name are two lines of one name"


def test_the_same_screw_of_two_mount_points_is_one_line() -> None:
    listed = list_of(job(mount("amp left"), mount("amp right")))
    assert len([line for line in listed.parts if line.id.key == "screw"]) == 1
    assert len({line.id for line in listed.parts}) == len(listed.parts)


# -- rewording --------------------------------------------------------------------------------------------------------


def test_reworded_tables_leave_every_tick_where_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    """Tools, consumables, spares, kinds of parts: whatever people read may say something else."""
    wanted = packed(ALL)
    before = [line.id for line in lines_of(list_of(wanted))]
    tables = Reworded()
    fresh = choices(ALL, tables)
    for number, kind in enumerate(kinds.ALL):
        for field in {"name", "line"} & set(vars(kind)):
            monkeypatch.setitem(vars(kind), field, f"thing {number}")
    planned = tuple(choice.with_answer(choice.answer, tables) for choice in fresh)
    listed = hardware(wanted, planned, None, tables)
    assert [line.id for line in lines_of(listed)] == before
    assert all(map(is_packed, lines_of(listed)))
    assert listed.apart == ()
    assert "Quite otherwise" in listed.tools[0].name
    assert listed.parts[0].part.kind.startswith("thing")


# -- format 1 ---------------------------------------------------------------------------------------------------------


def test_ticks_of_format_1_are_matched_and_kept_by_id_when_the_next_line_is_ticked(tmp_path: Path) -> None:
    ticks = old_ticks(ALL)
    assert len(ticks) > 60
    old = old_file(tmp_path / "car.toml", ticks)
    assert (old.packed, old.apart) == ((), ticks)
    listed = list_of(old)
    known = [line for line in lines_of(listed) if line.id.text in WORDS]
    assert all(map(is_packed, known))
    assert listed.apart == ()
    after = toggled(old, known[0], listed)
    assert after.apart == ()
    kept = {tick.partition(" = ")[0] for tick in after.packed}
    assert kept == {line.id.text for line in known[1:]}
    saved = save_job(after, tmp_path / "new.toml")
    assert "format = 2" in saved.path.read_text("utf-8")
    assert load_job(saved.path, TABLES).value == after


def test_the_oldest_ticks_said_no_number_and_are_of_all_that_was_wanted_when_the_list_is_made() -> None:
    listed = list_of(ALL)
    part = next(line for line in listed.parts if line.id.text in WORDS)
    old = replace(ALL, apart=(WORDS[part.id.text],))
    assert is_packed(list_of(old).parts[listed.parts.index(part)])
    assert toggled(old, listed.bits[0], list_of(old)).packed[0] == tick_of(part)


def test_ticks_that_match_no_line_are_kept_apart_and_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    strange = ("Parts: 4 x Left-handed wingnut M5", "Bits: 99 mm")
    old = old_file(tmp_path / "car.toml", (*strange, *old_ticks(ALL)[:1]))
    listed = list_of(old)
    assert listed.apart == strange
    assert toggled(old, listed.bits[0], listed).apart == strange
    for document in (hardware_document(listed), ready_document(ready(listed, found_for(ALL)))):
        text = " ".join(written(document, "text", 120).split())
        assert "packed, but not on this list" in text.casefold()
        assert "4 x Left-handed wingnut M5" in text
    assert main(["ready", str(tmp_path / "car.toml")]) == 1
    assert "99 mm" in capsys.readouterr().out
    save_job(old, tmp_path / "new.toml")
    assert load_job(tmp_path / "new.toml", TABLES).value.apart == old.apart


def test_a_job_of_format_1_is_saved_as_format_2_and_its_file_stays_as_the_previous_copy(tmp_path: Path) -> None:
    path = tmp_path / "car.toml"
    old_file(path, old_ticks(ALL))
    before = path.read_bytes()
    loaded = load_job(path, TABLES)
    save_job(replace(loaded.value, title="renamed"), path, loaded.stamp)
    assert path.with_name("car.toml.previous").read_bytes() == before
    assert load_job(path, TABLES).value == replace(loaded.value, title="renamed")


# -- jobs that change -------------------------------------------------------------------------------------------------


def missing(wanted: Job) -> dict[Sort, int]:
    """How many lines of each sort are missing, with the answers that the job has now."""
    verdict = ready(list_of(wanted), found_for(replace(wanted, packed=(), apart=())))
    return {sort: len([entry for entry in verdict.missing if entry.kind is sort]) for sort in Sort}


NONE = dict.fromkeys(Sort, 0)


def test_more_of_a_part_than_was_packed_is_not_packed() -> None:
    one = packed(job(mount("amp left")))
    assert missing(one) == NONE
    two = replace(one, mounts=(mount("amp left"), mount("amp right")))
    assert missing(two) == NONE | {Sort.PART: 2}
    assert missing(replace(two, mounts=two.mounts[:1])) == NONE


def test_more_gasket_tape_than_was_packed_is_not_packed_and_a_bottle_is() -> None:
    one = packed(job(mount("speaker left")))
    two = replace(one, mounts=(mount("speaker left"), mount("speaker right")))
    lines = {line.key: line.packed for line in list_of(two).consumables}
    assert lines["gasket tape"] is False
    assert all(line.packed for line in list_of(one).consumables)
    drops = [line for line in list_of(two).consumables if line.unit == "drop"]
    assert all(line.packed for line in drops)


def test_a_screw_of_another_length_is_another_line_and_the_old_tick_is_told() -> None:
    was = packed(job(mount("amp left")))
    now = replace(was, mounts=(mount("amp left", item_thickness="8mm"),))
    listed = list_of(now)
    screws = [line for line in listed.parts if line.id.key == "screw"]
    assert not any(map(is_packed, screws))
    assert any("screw M5 ISO 15071" in tick_text(tick) for tick in listed.apart)


@pytest.mark.parametrize(("tick", "said"), [
    ("part:tube_lug/1%2F0_AWG/M8/copper_tube = 5", "5 x tube lug 1/0 AWG M8 copper tube"),
    ("consumable:cable/1%2F0_AWG/copper/105/red = 6500", "6.5 m cable 1/0 AWG copper 105 red"),
    ("consumable:heat-shrink/19%2F6/3:1 = 1000", "1 m heat-shrink 19/6 3:1"),
    ("consumable:cable_tie/200_x_4.8_mm = 50", "50 x cable tie 200 x 4.8 mm"),
    ("consumable:hook-and-loop/25 = 5000", "0.2 m hook-and-loop 25"),
    ("consumable:hook-and-loop/wide = 5000", "5000 x hook-and-loop wide"),
    ("part:screw/50%25_%3D_half = 2", "2 x screw 50% = half"), ("consumable:- = 1", "1 x"),
])  # fmt: skip
def test_what_is_of_no_line_by_now_is_said_as_a_person_buys_it(tick: str, said: str) -> None:
    assert tick_text(tick).strip() == said


def test_the_words_of_an_id_are_those_that_it_was_made_of() -> None:
    made = LineId(Sort.PART, "tube_lug", ("1/0 AWG", "M8", "", "50% = 2F"))
    assert words_of_line(made.text) == ("tube lug", "1/0 AWG", "M8", "50% = 2F")


def test_what_a_list_measures_is_told_in_metres_once_it_is_of_no_line() -> None:
    lines = [line for line in list_of(ALL).consumables if line.unit in ("mm", "mm2") and line.id.sizes and line.amount]
    assert lines
    for line in lines:
        assert tick_text(tick_of(line)).partition(" m ")[1], f"{line.id.text} is measured"


def test_a_renamed_mount_point_changes_no_tick() -> None:
    was = packed(job(mount("amp left")))
    assert missing(replace(was, mounts=(mount("amp of the tailgate"),))) == NONE


def test_a_mount_point_that_goes_leaves_more_packed_than_is_wanted_and_what_it_alone_took_apart() -> None:
    was = packed(job(mount("amp left"), mount("box")))
    listed = list_of(replace(was, mounts=was.mounts[:1]))
    assert all(map(is_packed, lines_of(listed)))
    assert any(tick.startswith("part:prevailing_torque_nut/") for tick in listed.apart)
    again = list_of(was)
    assert again.apart == ()
    assert all(map(is_packed, lines_of(again)))


def test_a_tick_taken_back_after_words_were_matched_is_gone() -> None:
    """Else the words of format 1 would tick the line again."""
    line = next(line for line in list_of(ALL).parts if line.id.text in WORDS)
    old = replace(ALL, apart=(_old_tick(line),))
    without = toggled(old, line, list_of(old))
    assert (without.packed, without.apart) == ((), ())
    assert not list_of(without).parts[list_of(ALL).parts.index(line)].packed


def test_spare_parts_and_washers_have_ids_of_their_own() -> None:
    joint = found_for(job(mount("box")))[0].answer
    assert joint is not None
    found = {fitted.id.key: each for fitted, each in fitted_parts(joint.proposal.joint, TABLES)}
    assert found["washer"] == 2


# -- what later versions add ------------------------------------------------------------------------------------------

LATER = """format = 2
kind = "job"
title = "Estate"
seats = 5
"odd key" = ["a", "b"]

[[hose]]
name = "power"
cable = "20 mm2"
screw_end = [{at = "battery"}, {at = "amp"}]

[hose.cover]
kind = "loom"

[[mount]]
name = "amp"
item = "amplifier"
onto = "steel 0.8 mm"
removed = "yearly"
cousin = "left"

[mount.pin]
method = "rivet_nut"
why = "have them"

[[mount.call]]
date = 2027-05-01
what = "looked"

[[mount]]
name = "other"
item = "amplifier"
onto = "steel 0.8 mm"
removed = "yearly"
# end
"""


def test_what_later_versions_add_is_kept_and_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    import tomllib

    path = tmp_path / "car.toml"
    path.write_text(LATER)
    loaded = load_job(path, TABLES)
    assert not loaded.read_only
    assert "this version does not know the entry 'seats', the entry 'odd key', the entry 'hose'" in loaded.why
    assert "and 3 more: they are kept in the file and not used" in loaded.why
    save_job(replace(loaded.value, title="Van"), path, loaded.stamp)
    assert tomllib.loads(path.read_text("utf-8")) == tomllib.loads(LATER) | {"title": "Van"}
    assert load_job(path, TABLES).value == replace(loaded.value, title="Van")
    assert main(["hardware", str(path)]) == 0
    assert "does not know the entry 'seats'" in capsys.readouterr().err


def test_one_unknown_entry_is_told_with_its_mount_point(tmp_path: Path) -> None:
    path = tmp_path / "car.toml"
    path.write_text(job_text(job(mount("amp"))).replace("\n# end\n", 'weather = "wet"\n# end\n'))
    assert load_job(path, TABLES).why == (
        "car.toml: this version does not know the entry 'weather' of mount \"amp\": it is kept in the file and not used"
    )


def test_a_slip_in_the_name_of_a_field_is_told_with_the_field_that_is_meant(tmp_path: Path) -> None:
    """It takes no part in the answer: a mass that is not read must not go unseen."""
    path = tmp_path / "car.toml"
    path.write_text(job_text(job(mount("amp"))).replace("\n# end\n", 'maas = "9 kg"\n# end\n'))
    assert "the entry 'maas' of mount \"amp\" (did you mean mass?)" in load_job(path, TABLES).why


def test_a_tick_of_no_line_can_be_taken_away() -> None:
    old = replace(ALL, packed=("bit:3",), apart=("Parts: 4 x Left-handed wingnut M5", "Bits: 99 mm"))
    after = toggled(old, Stray("Bits: 99 mm"), list_of(old))
    assert (after.packed, after.apart) == (("bit:3",), ("Parts: 4 x Left-handed wingnut M5",))


def test_in_a_file_of_format_1_an_unknown_entry_is_a_slip(tmp_path: Path) -> None:
    path = tmp_path / "car.toml"
    path.write_text('format = 1\nkind = "job"\nvehicel = "blue"\n')
    with pytest.raises(Exception, match="the entry 'vehicel' is not known") as caught:
        load_job(path, TABLES)
    assert "did you mean vehicle?" in str(caught.value)
