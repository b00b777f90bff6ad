"""A trunk is open as long as it is not known what each of its branches carries: their sum is not the whole."""

from dataclasses import replace

from fasten.catalog.tables import builtin
from fasten.job.wiring.runs import run_choices
from fasten.job.words import CableRun, Job, Mount
from fasten.model import Status
from fasten.wiring.accepted import UNLOADED
from fasten.wiring.wired import Wired

TABLES = builtin()
ON = (("onto", "plywood 18 mm"), ("removed", "yearly"))
JOB = Job(
    "Boot stage", "invented", "",
    (
        Mount("mono", (("item", "amplifier"), *ON, ("power", "1000 W class D"))),
        Mount("four", (("item", "amplifier"), *ON)),
        Mount("block", (("item", "distribution-block"), *ON)),
    ),
    runs=(
        CableRun("trunk", (("from", "battery stud M8"), ("to", "block"), ("length", "5 m"))),
        CableRun("mono power", (("from", "block"), ("to", "mono, set screw"), ("length", "0.6 m"))),
        CableRun("four power", (("from", "block"), ("to", "four, set screw"), ("length", "0.8 m"))),
    ),
)  # fmt: skip


def answer_of_trunk(job: Job) -> Wired:
    answer = next(one for one in run_choices(job, TABLES) if one.name == "trunk").answer
    assert answer is not None
    return answer


def test_a_branch_without_a_load_leaves_its_trunk_open_and_nothing_accepts_that() -> None:
    answer = answer_of_trunk(JOB)
    (check,) = (one for one in answer.checks if one.id == UNLOADED)
    assert check.status is Status.NOT_CHECKED
    assert UNLOADED not in [one.check for one in answer.confirms]


def test_it_is_whole_once_each_is_given() -> None:
    four = replace(JOB.mounts[1], said=(*JOB.mounts[1].said, ("power", "4 x 75 W class AB")))
    answer = answer_of_trunk(replace(JOB, mounts=(JOB.mounts[0], four, JOB.mounts[2])))
    assert UNLOADED not in [one.id for one in answer.checks]
