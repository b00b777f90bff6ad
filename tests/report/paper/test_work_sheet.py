"""The work sheet on two pages of paper: what stands on it, to which side it is rounded, and how wide it is."""

import re
from dataclasses import replace
from functools import cache

import pytest

from fasten.catalog.tables import builtin
from fasten.commands.demo import demo_folder
from fasten.job.choices import choices
from fasten.job.entries import entries
from fasten.job.gauge.gauge import measuring_pass
from fasten.job.store.storage import load_job
from fasten.job.ticked import with_tick
from fasten.job.wiring.runs import run_choices
from fasten.job.words import Job, Mount
from fasten.job.work import WorkSheet, work_sheet
from fasten.report.job.gauge import gauge_json
from fasten.report.job.work_json import work_json
from fasten.report.paper.letters import bag_letter
from fasten.report.paper.work_sheet import work_sheet_html
from fasten.text.rounding import rounded_up

AMP = (
    ("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"), ("behind", "40 mm"), ("edge", "40 mm"),
    ("support", "frame"),
)  # fmt: skip
BAD = (("item", "enclosure"), ("onto", "abs 2 mm"), ("removed", "weekly"))
HOSTILE = '</style><script>"\\[M8]&'
JOB = Job("Estate", "blue estate", "invented", (Mount("amp", AMP), Mount("bad", BAD), Mount(HOSTILE, AMP)))


@cache
def sheet(title: str = "Estate") -> WorkSheet:
    job = replace(JOB, title=title)
    return work_sheet(job, choices(job, builtin()), None, builtin())


def test_letters_of_bags_cannot_be_read_as_figures() -> None:
    letters = [bag_letter(place) for place in range(1, 51)]
    assert letters[:9] == ["A", "B", "C", "D", "E", "F", "G", "H", "J"]
    assert letters[23:26] == ["Z", "AA", "AB"]
    assert len(set(letters)) == len(letters)
    with pytest.raises(ValueError, match="place"):
        bag_letter(0)


def test_each_mount_point_has_its_hole_hardware_and_torque() -> None:
    """The hole is the body's of the series that was chosen: 7.6 mm, with 4 screws and 4 nuts of M5."""
    plan = sheet().entries[0].plan
    assert plan is not None
    row = work_sheet_html(sheet()).split("<tr>")[2]
    hole = max(bit.hole_mm for bit in plan.bits)
    assert f"4 × <b>{hole:g}</b>" in row
    assert row.count("<b>4</b> ") == 2
    assert row.count('class="box"') == 4
    assert plan.label.target_nm is not None
    assert plan.label.least_nm is not None
    target, least = re.findall(r"<b>([0-9.]+)</b><small>from ([0-9.]+)</small>", row)[0]
    assert float(target) <= plan.label.target_nm < float(target) + 0.1
    assert float(least) - 0.1 < plan.label.least_nm <= float(least)


@pytest.mark.parametrize(("nm", "printed"), [(4.29, "4.2"), (0.759, "0.75"), (12.0, "12")])
def test_the_most_is_rounded_down_and_the_least_up(nm: float, printed: str) -> None:
    first = sheet().entries[0]
    assert first.plan is not None
    label = replace(first.plan.label, target_nm=nm, least_nm=nm)
    entry = replace(first, plan=replace(first.plan, label=label))
    html = work_sheet_html(replace(sheet(), entries=(entry,)))
    target, least = re.findall(r"<b>([0-9.]+)</b><small>from ([0-9.]+)</small>", html)[0]
    assert target == printed
    assert nm <= float(least) <= nm + 0.1


def test_what_fits_nothing_says_so_and_has_no_boxes() -> None:
    row = work_sheet_html(sheet()).split("<tr>")[3]
    assert "Nothing fits: do not drill." in row
    assert 'class="box"' not in row


def test_a_tick_of_the_job_is_filled_on_paper() -> None:
    entry = sheet().entries[0]
    ticked: tuple[str, ...] = ()
    for state in entry.steps:
        if state.step.phase.value in {"pilot", "open up"}:
            for place in state.task.holes or (0,):
                ticked = with_tick(ticked, state.task, place)
    job = replace(JOB, mounts=(replace(JOB.mounts[0], ticked=ticked), *JOB.mounts[1:]))
    html = work_sheet_html(work_sheet(job, choices(job, builtin()), None, builtin()))
    assert html.count('class="box done"') == work_sheet_html(sheet()).count('class="box done"') + 1


def test_paper_is_the_printers_own_and_nothing_is_too_wide_for_a4_and_letter() -> None:
    """A4 is 210 mm and Letter 215.9 mm wide: within margins of 12 mm both hold 186 mm."""
    html = work_sheet_html(sheet())
    assert "size:" not in re.findall(r"@page\{.*?\n?.*?\}\}", html, re.DOTALL)[0].replace("font-size:", "")
    widths = [float(mm) for mm in re.findall(r"(?<!-)width:([0-9.]+)mm", html)]
    assert max(widths) <= 210 - 24
    for columns in re.findall(r"<colgroup>(.*?)</colgroup>", html):
        assert sum(float(share) for share in re.findall(r"width:([0-9.]+)%", columns)) == pytest.approx(100)
    assert "counter(page)" in html
    assert "counter(pages)" in html


def test_what_a_person_wrote_is_text_and_never_markup() -> None:
    html = work_sheet_html(sheet(HOSTILE))
    assert "<script" not in html
    assert html.count("</style>") == 1
    assert "[M8]" in html


def test_every_bag_and_every_bit_stands_on_the_second_page() -> None:
    second = work_sheet_html(sheet()).split("<section>")[2]
    assert all(f"<b>{line.name}</b>" in second for line in sheet().box.bits)
    assert second.count('scope="row"') == sum(entry.plan is not None for entry in sheet().entries)
    assert "As built" in second


def test_a_measuring_pass_has_a_page_of_its_own_where_something_is_cut_for_it() -> None:
    known = tuple((name, text) for name, text in AMP if name not in ("behind", "edge"))
    open_, plain = (Job("Van", "", "", (Mount("amp", said),)) for said in (known, AMP))
    for job, pages in ((open_, 3), (plain, 2)):
        found = measuring_pass(job, builtin())
        of = work_sheet(job, choices(job, builtin()), None, builtin())
        html = work_sheet_html(of, found)
        assert html.count("<section>") == pages
        assert work_sheet_html(of).count("<section>") == 2, "not asked for"
        assert work_json(of, found)["measuring"]["gauges"] == gauge_json(found)["gauges"]
        assert work_json(of)["measuring"] is None
        if pages > 2:
            gauges = html.split("<section>")[3]
            assert "Cut a probe of" in gauges
            assert "goes in behind</td>" in gauges


def test_runs_with_their_sections_and_holes_have_a_page_of_their_own() -> None:
    """Cut lengths are printed by colour, up to the next centimetre; mV and A are written in."""
    job = load_job(demo_folder() / "job.toml", builtin()).value
    html = work_sheet_html(work_sheet(job, entries(job, builtin()), None, builtin()))
    work, cable, box = html.split("<section>")[1:]
    assert [name in work for name in ("left amplifier", "left power", "seat back")] == [True, False, False]
    rows = {row.split('scope="row">')[1].split("<")[0]: row for row in cable.split("<tr>") if 'scope="row">' in row}
    ways = [*(hole.name for hole in job.holes), *(section.name for section in job.sections)]
    assert list(rows) == [*ways, *(run.name for run in job.runs)], "in the order of work"
    assert rows["seat back"].count('class="tick"') == 2, "made, and closed once the cable is through"
    assert len(rows) == len(job.runs) + len(job.sections) + len(job.holes)
    power = next(one for one in run_choices(job, builtin()) if one.name == "left power").answer
    assert power is not None
    pieces = [rounded_up(piece.cut_mm / 1000, 2) for piece in power.done.made.pieces]
    assert f"<b>{' + '.join(pieces)} m</b> red" in rows["left power"]
    assert "by power cable, seat back" in rows["left power"]
    assert "<i>nothing</i>" in rows["left signal"], "it comes with its plugs"
    assert '<tr class="open"><td></td><td colspan="5"><b>NOT PROVEN: the grommet' in rows["seat back"]
    built = box.split("As built")[1]
    assert "left amplifier" in built
    assert "left power" not in built, "no hole and no sheet is written down of a run"
    for columns in re.findall(r"<colgroup>(.*?)</colgroup>", html):
        assert sum(float(share) for share in re.findall(r"width:([0-9.]+)%", columns)) == pytest.approx(100)
