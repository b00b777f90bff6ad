"""Sections, holes and measured cables are put in, changed under another name and taken out; bad ones change nothing."""

from dataclasses import replace

import pytest

from fasten.errors import FastenError
from fasten.job.wiring.recorded import with_electrics, with_recorded
from fasten.job.words import CableRun, Job, Recorded

from .test_runs import TABLES

RUN = CableRun("main", (("carries", "72 A"),), ("bonnet", "left sill"), ("bulkhead",))
JOB = Job("", "", "", (), runs=(RUN,), sections=(Recorded("Bonnet", (("length", "1.2 m"),)),),
          holes=(Recorded("bulkhead", ()),))  # fmt: skip


def test_one_is_put_in_and_changed_in_its_place() -> None:
    job = with_recorded(JOB, "section", "", {"name": "sill", "where": "channel", "length": "3.5 m"}, TABLES)
    assert [one.name for one in job.sections] == ["Bonnet", "sill"]
    job = with_recorded(job, "section", "bonnet", {"name": "Bonnet", "length": "1.4 m", "cover": "tube"}, TABLES)
    assert job.sections[0] == Recorded("Bonnet", (("length", "1.4 m"), ("cover", "tube")))


def test_runs_follow_a_new_name_and_lose_one_that_is_taken_out() -> None:
    named = with_recorded(JOB, "section", "bonnet", {"name": "engine bay", "length": "1 m"}, TABLES)
    assert named.runs[0].sections == ("engine bay", "left sill")
    gone = with_recorded(JOB, "hole", "bulkhead", {"name": " "}, TABLES)
    assert (gone.holes, gone.runs[0].holes, gone.runs[0].sections) == ((), (), RUN.sections)


@pytest.mark.parametrize(
    ("table", "filled"),
    [
        ("section", {"name": "sill"}), ("section", {"name": "sill", "length": "far"}),
        ("section", {"name": "sill", "length": "1 m", "where": "roof"}),
        ("section", {"name": "BONNET", "length": "1 m"}), ("hole", {"name": "door", "existing": "round"}),
        ("cable", {"size": "4"}), ("cable", {"size": "4 AWG", "outside": "thick"}),
        ("cable", {"size": "4 AWG", "marked": "hot"}), ("cable", {"size": "4 AWG", "material": "gold"}),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_not_kept(table: str, filled: dict[str, str]) -> None:
    with pytest.raises(FastenError):
        with_recorded(JOB, table, "", filled, TABLES)


def test_a_cable_goes_by_its_size() -> None:
    job = with_recorded(JOB, "cable", "", {"size": "4 AWG", "outside": "9.8 mm", "marked": "105 C"}, TABLES)
    assert job.cables == (Recorded("4 AWG", (("outside", "9.8 mm"), ("marked", "105 C"))),)
    assert job.runs == JOB.runs


def test_what_is_said_of_the_vehicle_is_read_before_it_is_kept() -> None:
    kept = with_electrics(JOB, {"to-dash": "4 m", "system": "24 V", "battery": "battery stud M8"}, TABLES)
    assert kept.electrics == (("system", "24 V"), ("battery", "battery stud M8"), ("to-dash", "4 m"))
    assert with_electrics(kept, {"to-dash": " "}, TABLES) == kept
    for said in ({"to-dash": "far"}, {"system": "48 V"}, {"battery": "tab x"}):
        with pytest.raises(FastenError):
            with_electrics(replace(JOB), said, TABLES)


@pytest.mark.parametrize(
    ("size", "said", "where"),
    [
        ("18 AWG", {"outside": "0.5 mm"}, "outside"), ("4 AWG", {"conductor": "20 mm"}, "conductor"),
        ("4 AWG", {"outside": "9.8 mm", "conductor": "20 mm"}, "conductor"),
        ("25 mm2", {"outside": "6 mm", "conductor": "6.5 mm"}, "conductor"), ("25 mm2", {"outside": "5 mm"}, "outside"),
    ],
)  # fmt: skip
def test_cable_that_cannot_be_is_refused(size: str, said: dict[str, str], where: str) -> None:
    """Solid copper of 18 AWG is 1.02 mm thick, of 4 AWG 5.19 and of 25 mm² 5.64: the root of 4 A / pi."""
    with pytest.raises(FastenError) as caught:
        with_recorded(JOB, "cable", "", {"size": size, **said}, TABLES)
    assert caught.value.where == where


@pytest.mark.parametrize(
    ("size", "said"),
    [
        ("18 AWG", {"outside": "2.6 mm", "conductor": "1.2 mm"}),
        ("4 AWG", {"outside": "9.8 mm", "conductor": "6.9 mm"}), ("4 AWG", {"conductor": "5 mm"}),
        ("1/0 AWG", {"outside": "15 mm", "conductor": "11 mm"}),
    ],
)  # fmt: skip
def test_cable_as_it_is_sold_is_taken(size: str, said: dict[str, str]) -> None:
    """Rope strand of 1/0 AWG is 10 to 11 mm; areas of SAE are up to 12 % under AWG."""
    assert with_recorded(JOB, "cable", "", {"size": size, **said}, TABLES).cables
