"""The runs of a job: kept in its file, sized together, and joined to its list, verdict and work sheet."""

from dataclasses import replace
from functools import cache
from itertools import product

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.choices import Choice
from fasten.job.edit import with_run
from fasten.job.entries import entries
from fasten.job.list.hardware import hardware
from fasten.job.list.lists import Verdict
from fasten.job.list.ticks import lines_of, tick_of
from fasten.job.ready import ready
from fasten.job.store.job_toml import job_text, read_job
from fasten.job.wiring.accept import with_accepted
from fasten.job.wiring.lugs import with_runs
from fasten.job.wiring.runs import RunChoice, check_run, named_run, run_choices
from fasten.job.words import CableRun, Job, Mount, Recorded
from fasten.job.work import work_sheet
from fasten.report.forms.written import written
from fasten.report.job.hardware import hardware_document, ready_document
from fasten.report.job.work import work_document
from fasten.report.wire.runs import runs_document, runs_json
from fasten.wiring.current import current_of
from fasten.wiring.sizes import sizes
from fasten.wiring.sizing import Sizing, option
from fasten.wiring.words import Branches, Series, Unsized

TABLES = builtin()
ON = (("onto", "plywood 18 mm"), ("removed", "yearly"))
JOB = Job(
    "Boot stage", "invented", "",
    (
        Mount("mono", (("item", "amplifier"), *ON, ("power", "1000 W class D"))),
        Mount("four", (("item", "amplifier"), *ON, ("power", "4 x 75 W class AB"), ("own-fuses", "2 x 25 A"))),
        Mount("block", (("item", "distribution-block"), *ON)),
        Mount("ground", (("item", "ground-lug"), ("onto", "steel 1.2 mm"), ("removed", "rarely"))),
    ),
    cables=(Recorded("1/0 AWG", (("outside", "14.8 mm"), ("conductor", "10.2 mm"), ("marked", "105 C"))),),
    runs=(
        CableRun("trunk", (("from", "battery stud M8"), ("to", "block"), ("length", "5 m"))),
        CableRun("mono power", (("from", "block"), ("to", "mono, set screw"), ("length", "0.6 m"))),
        CableRun("mono ground", (("from", "mono, set screw"), ("to", "ground"), ("length", "0.45 m"))),
        CableRun("four power", (("from", "block"), ("to", "four, set screw"), ("length", "0.8 m"))),
        CableRun("remote", (("carries", "remote"), ("from", "connector"), ("to", "mono"), ("length", "4 m")), (), (),
                 "blue"),
    ),
)  # fmt: skip


def test_a_limit_over_the_stop_is_not_set() -> None:
    from fasten.job.change import find_run, with_run_fields

    trunk = find_run(JOB, "trunk")
    assert trunk is not None
    with pytest.raises(FastenError) as refused:
        with_run_fields(JOB, trunk, {"limit": "200 %"}, TABLES)
    assert refused.value.where == "limit"
    assert with_run_fields(JOB, trunk, {"limit": "10 %"}, TABLES) != JOB


@cache
def found() -> dict[str, RunChoice]:
    return {one.name: one for one in run_choices(JOB, TABLES)}


def size(name: str) -> Sizing:
    answer = found()[name].answer
    assert answer is not None
    return answer.sizing


# -- sized together ----------------------------------------------------------------------------------------------------


def test_a_trunk_carries_what_its_branches_carry_and_their_fuses() -> None:
    """96.6 and 36.2 A; 96.6/0.8 = 120.8 and the 50 A of its own fuses: 170.8, so 175 A."""
    trunk = size("trunk")
    assert trunk.current is not None
    assert trunk.fuse is not None
    assert trunk.current.full_a == pytest.approx(96.618 + 36.232, abs=0.001)
    assert trunk.current.fuse_floor_a == pytest.approx(170.773, abs=0.001)
    assert trunk.fuse.rating_a == 175


def test_the_drop_of_a_branch_is_over_the_whole_path() -> None:
    trunk, branch = size("trunk").conductor, size("mono power").conductor
    assert trunk is not None
    assert branch is not None
    own_v = 96.618 * branch.resistance_mohm_per_m * (0.6 + 0.45) / 1000
    assert branch.drop_v == pytest.approx(trunk.drop_v + own_v, rel=1e-4)
    assert branch.drop_v <= 0.414


def test_of_all_sizes_the_least_copper_is_taken() -> None:
    """Every trunk with every pair of branches tried one by one."""
    known = sizes(Series.AWG, TABLES)
    trunk, branches = size("trunk").run, [size("mono power").run, size("four power").run]
    load = trunk.carries
    assert isinstance(load, Branches)
    best = float("inf")
    for whole in known:
        one = option(whole, current_of(load, trunk, TABLES), replace(trunk, least_mm2=0.0), TABLES)
        if one is None or not one.fits or one.fuse is None:
            continue
        copper = whole.area_mm2 * trunk.length_mm
        for branch in branches:
            assert not isinstance(branch.carries, Unsized)
            behind = replace(branch, before_v=one.conductor.drop_v, upstream_fuse_a=one.fuse.rating_a)
            tried = ((part, option(part, current_of(branch.carries, behind, TABLES), behind, TABLES)) for part in known)
            fits = [part.area_mm2 for part, got in tried if got is not None and got.fits]
            copper += min(fits, default=float("inf")) * (branch.length_mm + branch.return_mm)
        best = min(best, copper)
    taken = [size("trunk"), size("mono power"), size("four power")]
    assert sum(one.size.area_mm2 * (one.run.length_mm + one.run.return_mm) for one in taken) == pytest.approx(best)


def test_a_ground_run_is_no_thinner_than_the_plus_of_its_load() -> None:
    assert size("mono ground").size.area_mm2 >= size("mono power").size.area_mm2
    assert size("mono ground").fuse is None


def test_a_branch_has_its_fuse_in_the_block_unless_it_carries_the_one_before() -> None:
    answer = found()["mono power"].answer
    assert answer is not None
    assert answer.sizing.fuse is not None
    assert [piece.route_mm for piece in answer.done.made.pieces] == [600], "no holder on the way"
    assert "block" in {check.id for check in answer.checks}
    near = replace(
        JOB,
        runs=(
            *JOB.runs[:1],
            replace(JOB.runs[1], said=(*JOB.runs[1].said, ("cable", "1/0 AWG"), ("insulation", "105 C"))),
        ),
    )
    thick = named_run(run_choices(near, TABLES), "mono power").answer
    assert thick is not None
    assert thick.sizing.fuse is None
    assert not thick.fails


def test_a_measured_cable_settles_what_was_open() -> None:
    answer = found()["trunk"].answer
    assert answer is not None
    assert answer.sizing.size.name == "1/0 AWG"
    assert {"shrink-pass", "shrink-grip"} <= {check.id for check in answer.checks}
    assert "outside" not in {check.id for check in answer.checks}


def test_a_run_that_nothing_is_said_of_gets_a_reason() -> None:
    bare = replace(JOB, mounts=(replace(JOB.mounts[0], said=JOB.mounts[0].said[:-1]), *JOB.mounts[1:]))
    reasons = {one.name: one.reason for one in run_choices(bare, TABLES)}
    assert reasons["mono power"] == (
        "nothing is said of what it carries: give the power of the item it feeds, or what it carries"
    )
    lost = replace(
        JOB, runs=(CableRun("x", (("carries", "5 A"), ("from", "nobody"), ("to", "mono"), ("length", "1 m"))),)
    )
    [one] = run_choices(lost, TABLES)
    assert "'nobody' is no end of a run" in one.reason
    assert "mono, four, block" in one.reason


def test_a_24_volt_job_halves_the_currents() -> None:
    heavy = run_choices(replace(JOB, electrics=(("system", "24 V"),)), TABLES)
    answer = named_run(heavy, "mono power").answer
    assert answer is not None
    assert answer.sizing.current is not None
    assert answer.sizing.current.full_a == pytest.approx(48.31, abs=0.01)


# -- joined ------------------------------------------------------------------------------------------------------------


def test_a_ground_lug_takes_cable_and_current_from_the_run_that_ends_there() -> None:
    taken = with_runs(JOB, tuple(found().values()))
    assert dict(taken.mounts[3].said)["cable"] == size("mono ground").size.name
    assert dict(taken.mounts[3].said)["current"] == "96.6 A"
    given = replace(
        JOB, mounts=(*JOB.mounts[:3], replace(JOB.mounts[3], said=(*JOB.mounts[3].said, ("cable", "50 mm2"))))
    )
    assert dict(with_runs(given, tuple(found().values())).mounts[3].said)["cable"] == "50 mm2"


def test_list_verdict_and_work_sheet_hold_mount_points_and_runs() -> None:
    both = entries(JOB, TABLES)
    listed = hardware(JOB, both, None, TABLES)
    assert (listed.mounts, listed.runs) == (9, 5)
    assert {"tube_lug", "fuse", "wire_end_sleeve", "screw_in_insert"} <= {line.id.key for line in listed.parts}
    trunk = [line for line in listed.consumables if line.key == "cable" and "1/0" in line.detail]
    assert [line.amount for line in trunk] == [6000.0], "5.4 m cut and a tenth more, by the half metre"
    assert "4 mount points, 5 runs of cable" in written(hardware_document(listed), "text", 100)
    verdict = ready(listed, both)
    assert not verdict.ready
    assert {"trunk", "mono power"} <= {one.mount for one in verdict.unproven}
    assert "9 mount points or runs not proven" in written(ready_document(verdict), "text", 100)
    sheet = written(work_document(work_sheet(JOB, both, None, TABLES), 80), "text", 80)
    assert "put the 175 A fuse in." in sheet
    markers = sheet.partition("WIRE MARKERS")[2]
    shown = [line.split(maxsplit=2) for line in markers.splitlines() if "trunk" in line]
    assert shown == [["5A", "trunk", "Battery +"], ["5B", "trunk", "Block"], ["5C", "trunk", "The middle"]]
    amount = next(line.amount for line in listed.consumables if line.key == "wire marker")
    assert amount == sum(len(one.plan.markers) for one in both if one.plan is not None)


def test_the_runs_are_listed_and_one_is_found_by_its_name() -> None:
    text = written(runs_document(JOB, tuple(found().values())), "text", 120)
    assert "1/0 AWG" in text
    assert "in the block" in text
    plain = runs_json(tuple(found().values()))["runs"]
    assert [one["name"] for one in plain] == [run.name for run in JOB.runs]
    assert plain[0]["fuse"]["rating_a"] == 175.0
    assert named_run(tuple(found().values()), "TRUNK").name == "trunk"
    with pytest.raises(FastenError, match="no run 'nothing'"):
        named_run(tuple(found().values()), "nothing")


# -- in the file -------------------------------------------------------------------------------------------------------


def test_runs_are_written_and_read_again() -> None:
    whole = replace(
        JOB, electrics=(("system", "24 V"), ("to-dash", "3 m")), sections=(Recorded("sill", (("where", "channel"),)),),
        holes=(Recorded("bulkhead", (("through", "steel 0.9 mm"), ("existing", "20 mm"))),),
        runs=(replace(JOB.runs[0], sections=("sill",), holes=("bulkhead",)), *JOB.runs[1:]),
    )  # fmt: skip
    text = job_text(whole)
    again, why = read_job(text.encode(), "job.toml", TABLES)
    assert (again, why) == (whole, "")
    assert job_text(again) == text
    own, _ = read_job(text.encode(), "job.toml", TABLES, own=True)
    assert own == whole


def test_what_a_later_version_added_to_runs_is_kept() -> None:
    text = job_text(JOB).replace('length = "5 m"', 'length = "5 m"\nbraid = "tinned"')
    text = text.replace('marked = "105 C"', 'marked = "105 C"\nreel = 3')
    again, _ = read_job(text.encode(), "job.toml", TABLES)
    assert job_text(again).count('braid = "tinned"') == 1
    assert job_text(again).count("reel = 3") == 1


@pytest.mark.parametrize(
    ("was", "now", "where"),
    [
        ('length = "5 m"', 'length = "5 kg"', 'job.toml, run "trunk", length'),
        ('length = "5 m"', "length = 5", 'job.toml, run "trunk", length'),
        ('to = "block"', 'to = "stud M7"', 'job.toml, run "trunk", to'),
        ('name = "remote"', 'name = "Trunk"', 'job.toml, run "Trunk"'),
        ('size = "1/0 AWG"\n', "", "job.toml, cable 1"),
    ],
)
def test_a_broken_run_is_refused_with_its_place(was: str, now: str, where: str) -> None:
    with pytest.raises(FastenError) as refused:
        read_job(job_text(JOB).replace(was, now, 1).encode(), "job.toml", TABLES)
    assert refused.value.where == where
    assert refused.value.fix


def test_a_run_is_added_and_asked_anew() -> None:
    run = CableRun("second", (("carries", "5 A"), ("from", "block"), ("to", "stud M6"), ("length", "1 m")))
    more = with_run(JOB, run)
    assert more.runs[-1] == run
    with pytest.raises(FastenError, match="already, nothing was saved"):
        with_run(more, run)
    noted = replace(more, runs=(*JOB.runs, replace(run, note="kept")))
    asked = replace(run, name="SECOND", said=run.said[:3])
    again = with_run(noted, asked, replace_it=True).runs[-1]
    assert (again.name, again.said, again.note) == ("second", run.said[:3], "kept")
    with pytest.raises(FastenError, match="mount point 'mono' already"):
        with_run(JOB, replace(run, name="mono"))
    with pytest.raises(FastenError):
        check_run(replace(run, said=(("from", "nowhere"),)), JOB, TABLES)


def test_every_end_of_the_job_reads_its_mount_by_any_case() -> None:
    for name, terminal in product(("mono", "MONO"), ("", ", set screw", ", stud M6")):
        run = CableRun("x", (("carries", "5 A"), ("from", "block"), ("to", f"{name}{terminal}"), ("length", "1 m")))
        check_run(run, JOB, TABLES)


# -- sections and holes ------------------------------------------------------------------------------------------------

BONNET = Recorded("bonnet", (("where", "engine-bay"), ("length", "1.2 m"), ("cover", "tube")))
THROUGH = replace(
    JOB, sections=(BONNET,), holes=(Recorded("bulkhead", (("through", "steel 0.9 mm"),)),),
    runs=(replace(JOB.runs[0], sections=("Bonnet",), holes=("bulkhead",)), *JOB.runs[1:]),
)  # fmt: skip


def test_a_run_through_the_engine_bay_carries_less_on_its_whole_length() -> None:
    hot = named_run(run_choices(THROUGH, TABLES), "trunk").answer
    assert hot is not None
    assert hot.sizing.conductor is not None
    assert hot.sizing.conductor.ampacity_a == pytest.approx(hot.sizing.conductor.free_a * 0.85)


def test_three_loaded_cables_in_one_section_warm_one_another() -> None:
    runs = tuple(
        CableRun(
            f"feed {at}",
            (("carries", "100 A"), ("from", "battery stud M8"), ("to", "stud M8"), ("length", "1 m")),
            ("sill",),
        )
        for at in range(3)
    )
    three = replace(JOB, mounts=(), sections=(Recorded("sill", (("length", "1 m"),)),), runs=runs)
    answer = run_choices(three, TABLES)[0].answer
    assert answer is not None
    assert answer.sizing.conductor is not None
    assert ("bundle", 0.7) in [(one.name, one.value) for one in answer.sizing.conductor.factors]
    two = run_choices(replace(three, runs=runs[:2]), TABLES)[0].answer
    assert two is not None
    assert two.sizing.conductor is not None
    assert "bundle" not in [one.name for one in two.sizing.conductor.factors]


def test_sections_and_holes_join_the_list_and_name_their_clamps() -> None:
    both = entries(THROUGH, TABLES)
    at = len(THROUGH.mounts)
    assert [entry.name for entry in both][at : at + 2] == ["bulkhead", "bonnet"], "holes are drilled before cable lies"
    assert [entry.name for entry in both][at + 2 :] == [run.name for run in THROUGH.runs]
    listed = hardware(THROUGH, both, None, TABLES)
    assert {"lined_clamp", "grommet"} <= {line.id.key for line in listed.parts}
    open_ = {one.mount: one.needs for one in ready(listed, both).unproven}
    assert any("bonnet clamps" in need for need in open_["bonnet"])
    clamps = Mount(
        "bonnet clamps", (("item", "wire-clamp"), ("onto", "steel 0.8 mm"), ("removed", "rarely"), ("run", "1.2 m"))
    )
    held = entries(replace(THROUGH, mounts=(*JOB.mounts, clamps)), TABLES)
    plan = next(entry.plan for entry in held if entry.name == "bonnet")
    assert plan is not None
    assert "clamps" not in {check.id for check in plan.checks}
    listed = hardware(THROUGH, held, None, TABLES)
    assert "wire clamp" not in {line.id.key for line in listed.consumables}, "listed by the bundle they hold"
    [line] = [line for line in listed.parts if line.id.key == "lined_clamp"]
    clamped = held[len(JOB.mounts)]
    assert isinstance(clamped, Choice)
    assert clamped.point is not None
    assert line.needed == clamped.point.fixings


def test_a_section_that_cannot_be_read_gets_its_reason() -> None:
    wrong = replace(THROUGH, sections=(replace(BONNET, said=(("length", "2 kg"),)),))
    reason = next(entry.reason for entry in entries(wrong, TABLES) if entry.name == "bonnet")
    assert "length: 2 kg is a mass" in reason


# -- measured or accepted ----------------------------------------------------------------------------------------------


ONE = Job("One run", "invented", "", (), runs=(CableRun("feed", (
    ("carries", "20 A"), ("from", "battery stud M8"), ("to", "set screw"), ("length", "3 m"), ("ground", "0.4 m"),
)),))  # fmt: skip


def packed(job: Job) -> Job:
    """The job with all of its list packed."""
    ticks = map(tick_of, lines_of(hardware(job, entries(job, TABLES), None, TABLES)))
    return replace(job, packed=tuple(ticks))


def verdict_of(job: Job) -> Verdict:
    got = entries(job, TABLES)
    return ready(hardware(job, got, None, TABLES), got)


def test_a_job_is_ready_once_what_is_open_of_its_run_is_accepted() -> None:
    before = verdict_of(packed(ONE))
    assert [entry.mount for entry in before.unproven] == ["feed"]
    accepted = with_accepted(ONE, "Feed", "all", TABLES)
    assert accepted.runs[0].accepted
    assert verdict_of(packed(accepted)).ready


def test_what_is_accepted_stands_in_the_file_and_what_is_no_longer_open_is_kept_and_shown() -> None:
    job = with_accepted(ONE, "feed", "all", TABLES)
    job = replace(job, runs=(replace(job.runs[0], accepted=("palm:gone", *job.runs[0].accepted)),))
    text = job_text(job)
    assert 'accepted = [\n    "palm:gone",\n' in text
    for own in (False, True):
        read, why = read_job(text.encode(), "car.toml", TABLES, own=own)
        assert (read.runs, why) == (job.runs, "")
    again = with_run(job, replace(job.runs[0], accepted=()), replace_it=True)
    assert again.runs == job.runs, "asked anew it keeps what was accepted"
    shown = written(runs_document(job, run_choices(job, TABLES)), "text", 80)
    assert "ACCEPTED BEFORE, BUT NOT OPEN NOW" in shown
    assert "palm:gone" in shown
    assert runs_json(run_choices(job, TABLES))["runs"][0]["lapsed"] == ["palm:gone"]


def test_nothing_is_accepted_of_a_run_without_an_answer() -> None:
    none = replace(ONE, runs=(replace(ONE.runs[0], said=(("carries", "350 A"), *ONE.runs[0].said[1:])),))
    with pytest.raises(FastenError, match="nothing of 'feed' can be accepted"):
        with_accepted(none, "feed", "all", TABLES)
