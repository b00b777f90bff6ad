"""A plan says all that list, verdict, work sheet and labels know of an entry: one that is no mount point joins them."""

from dataclasses import dataclass, replace

import pytest

from fasten.catalog.tables import Tables, builtin
from fasten.job.choices import choices
from fasten.job.entry import Entry
from fasten.job.list.hardware import hardware
from fasten.job.ready import ready
from fasten.job.shelf.owned import owned_of
from fasten.job.words import Shelf, ShelfPart, Visit
from fasten.job.work import work_sheet
from fasten.model import Caution, Check, Phase, Status, Task, WorkStep
from fasten.model.kinds import Listed, Spares
from fasten.model.line import LineId, Part, Sort
from fasten.model.plan import BitNeed, ConsumableNeed, Label, PartNeed, Plan, ToolNeed, Work
from fasten.report.forms.written import written
from fasten.report.job.hardware import hardware_document, ready_document
from fasten.report.job.work import work_document
from fasten.report.job.work_json import work_json

from .sample_jobs import SAID, job, mount

TABLES = builtin()
LUG = Part("terminal", "M6", "ring, crimped", "copper", None)
CRIMP = ToolNeed(LineId(Sort.TOOL, "crimper"), "other", "crimper", "crimper", "16 mm2", frozenset({"crimper 16 mm2"}))
CHECKED = Check("drop", "voltage drop", Status.HOLDS, 0.2, 0.5, "V", 0.4, None, None, (), "", ("own",))
CRIMPED = WorkStep(Phase.FIT, 1, "Crimp both ends.", "run/fit/1")
OPEN = replace(CHECKED, id="fuse", title="fuse", status=Status.NOT_CHECKED, needs="needs the current of the amplifier")


@dataclass(frozen=True)
class Run:
    """A run of cable that is made of nothing but its plan."""

    plan: Plan | None
    reason: str = ""
    name: str = "power"
    note: str = "under the sill"
    built: Visit | None = None
    ticked: tuple[str, ...] = ()
    is_said: bool = True

    def explained(self, tables: Tables) -> "Run":
        return self


RUN = Run(Plan(
    name="power", title="16 mm2, fused", checks=(CHECKED, OPEN),
    parts=(PartNeed(LineId(Sort.PART, "terminal", ("M6",)), LUG, "crimped", Listed.OTHER, Spares.ANY, 2, 0),),
    bits=(BitNeed("9 mm", 9.0, "hole", 9.0, None, 1, ream=False, within=None),), tools=(CRIMP,),
    consumables=(ConsumableNeed(
        LineId(Sort.CONSUMABLE, "wire", ("16",)), ("wire",), "16 mm2", None, 4200.0, "mm", 0.0, 0.1, shared=False,
    ),),
    work=Work(lambda: (Task(CRIMPED, "Fit", None, (), "fitted"),)),
    cautions=(Caution("battery", "Battery off first.", False),),
    remarks=("Fused at the battery",), label=Label(None, None, None, by_feel=False, past_driving=False, held_by=""),
))  # fmt: skip


def entries(run: Run = RUN) -> tuple[Entry, ...]:
    return (*choices(job(mount("amp")), TABLES), run)


def test_a_run_of_cable_joins_the_list() -> None:
    listed = hardware(job(mount("amp")), entries(), None, TABLES)
    terminals = next(line for line in listed.parts if line.part == LUG)
    assert (terminals.needed, terminals.form, terminals.places[0].mount) == (2, "crimped", "power")
    assert terminals.spares > 0
    cable = next(line for line in listed.consumables if line.key == "wire")
    assert (cable.amount, cable.used[0].mount) == (4620.0, "power"), "a tenth more for waste"
    assert "power" in [used.mount for line in listed.tools if line.key == "crimper" for used in line.used]
    assert "power" in [work.mount for line in listed.bits if line.name == "9 mm" for work in line.drills]
    assert [remark.text for remark in listed.remarks if remark.mount == "power"] == ["Fused at the battery"]
    assert "ring, crimped" in written(hardware_document(listed), "text", 120)


def test_a_job_is_not_ready_while_a_check_of_a_run_is_open() -> None:
    shelf = Shelf("", "", "", (ShelfPart(LUG, 9),), ("9 mm",), ("crimper 16 mm2",), ("wire",))
    listed = hardware(job(), (RUN,), shelf, TABLES)
    verdict = ready(listed, (RUN,))
    assert not verdict.ready
    assert verdict.missing == ()
    [open_] = verdict.unproven
    assert (open_.mount, open_.needs) == ("power", ("the current of the amplifier",))
    assert "the current of the amplifier" in written(ready_document(verdict), "text", 120)
    assert RUN.plan is not None
    proven = Run(replace(RUN.plan, checks=(CHECKED,)))
    assert ready(hardware(job(), (proven,), shelf, TABLES), (proven,)).ready


def test_a_plan_without_any_check_is_not_proven() -> None:
    assert RUN.plan is not None
    bare = Run(replace(RUN.plan, checks=()))
    verdict = ready(hardware(job(), (bare,), None, TABLES), (bare,))
    assert [open_.mount for open_ in verdict.unproven] == ["power"]
    text = written(work_document(work_sheet(job(), (bare,), None, TABLES), 80), "text", 80)
    assert "Something is not checked." in text


def test_a_plan_of_a_mount_point_is_proven_where_its_proposal_is() -> None:
    for name in SAID:
        [found] = choices(job(mount(name)), TABLES)
        assert (found.plan is None) == (found.answer is None)
        if found.plan is not None and found.answer is not None:
            assert found.plan.proven == found.answer.proposal.proven


def test_a_run_without_a_plan_is_left_out_with_its_reason() -> None:
    run = Run(None, "no cable is thick enough")
    listed = hardware(job(), (run,), None, TABLES)
    assert [(unfit.mount, unfit.reason) for unfit in listed.unfit] == [("power", "no cable is thick enough")]
    assert not ready(listed, (run,)).ready
    assert "No cable is thick enough" in written(work_document(work_sheet(job(), (run,), None, TABLES), 80), "text", 80)


def test_a_run_has_its_page_and_its_label() -> None:
    sheet = work_sheet(job(mount("amp")), entries(), None, TABLES)
    assert [entry.name for entry in sheet.entries] == ["amp", "power"]
    text = written(work_document(sheet, 80), "text", 80)
    page = text.partition("2 OF 2: POWER")[2]
    for said in ("Note: under the sill", "Fused at the battery.", "! The current of the amplifier", "Crimp both ends.",
                 "Battery off first.", "2 x terminal M6, ring, crimped, copper (crimped)"):  # fmt: skip
        assert said in page, said
    assert [entry["name"] for entry in work_json(sheet)["mounts"]] == ["amp"], "runs are no mounts"


def test_a_list_and_a_verdict_ask_for_no_work() -> None:
    """Its steps are worked out for who does it: here they cannot be."""
    plan = choices(job(mount("amp")), TABLES)[0].plan
    assert plan is not None
    idle = Run(replace(plan, work=Work(lambda: pytest.fail("nobody reads it"))))
    ready(hardware(job(), (idle,), None, TABLES), (idle,))
    assert plan.work == Work(lambda: plan.tasks) != Work(tuple)
    assert hash(plan.work) == hash(Work(lambda: plan.tasks))


def test_an_answer_is_owned_by_what_its_plan_needs() -> None:
    """The shelf that holds every need of a plan is asked for nothing."""
    [amp] = choices(job(mount("amp")), TABLES)
    assert amp.plan is not None
    parts = tuple(ShelfPart(need.part, need.count + need.renewed + 20) for need in amp.plan.parts)
    tools = tuple(f"{need.name} {need.size}".strip() for need in amp.plan.tools)
    consumables = tuple(f"{need.names[-1]}, {need.detail}".removesuffix(", ") for need in amp.plan.consumables)
    shelf = Shelf("", "", "", parts, tuple(need.name for need in amp.plan.bits), tools, consumables)
    assert owned_of(shelf, TABLES) is not None
    assert ready(hardware(job(mount("amp")), (amp,), shelf, TABLES), (amp,)).missing == ()
