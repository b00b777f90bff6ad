"""The lengths of sections against those of the runs that lie in them and of the clamps that hold them."""

from dataclasses import replace

import pytest

from fasten.job.entries import entries
from fasten.job.wiring.runs import named_run, run_choices
from fasten.job.words import Mount, Recorded

from .test_runs import JOB, TABLES, THROUGH


def test_sections_that_are_longer_than_their_run_stay_open_until_one_is_seen_to_be_left() -> None:
    """4.5 m and 0.5 m lie in 5 m; 9.5 m do not. What was seen lapses with another length."""

    def open_of(length: str, *accepted: str) -> list[str]:
        sill = Recorded("sill", (("where", "underfloor"), ("length", length)))
        trunk = replace(JOB.runs[0], sections=("sill", "tunnel"), accepted=accepted)
        tunnel = Recorded("tunnel", (("where", "channel"), ("length", "0.5 m")))
        job = replace(JOB, sections=(sill, tunnel), runs=(trunk, *JOB.runs[1:]))
        answer = named_run(run_choices(job, TABLES), "trunk").answer
        assert answer is not None
        return [one.id for one in answer.confirms if one.check.startswith("sections") and not one.accepted]

    assert open_of("4.5 m") == []
    assert open_of("9 m") == ["sections:trunk-9500-5000"]
    assert open_of("9 m", "sections:trunk-9500-5000") == []
    assert open_of("8 m", "sections:trunk-9500-5000") == ["sections:trunk-8500-5000"]


@pytest.mark.parametrize(
    ("runs", "where", "open_"),
    [(("1.2 m",), "engine-bay", False), (("0.7 m", "0.5 m"), "engine-bay", False), (("1.1 m",), "engine-bay", True),
     (("1.1 m",), "channel", False)],
)  # fmt: skip
def test_clamps_for_less_than_their_section_stay_open(runs: tuple[str, ...], where: str, open_: bool) -> None:
    clamps = tuple(
        Mount(
            f"bonnet clamps {at}", (("item", "wire-clamp"), ("onto", "steel 1 mm"), ("removed", "rarely"), ("run", run))
        )
        for at, run in enumerate(runs)
    )
    bonnet = Recorded("bonnet", (("where", where), ("length", "1.2 m")))
    job = replace(THROUGH, mounts=(*clamps, *JOB.mounts), sections=(bonnet,))
    plan = next(entry.plan for entry in entries(job, TABLES) if entry.name == "bonnet")
    assert plan is not None
    assert ("clamps" in {check.id for check in plan.checks}) is open_
