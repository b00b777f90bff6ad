"""Lines of a hardware list found by their ids and packed."""

import pytest

from fasten.errors import FastenError
from fasten.job.list.lists import HardwareList
from fasten.job.list.pack import find_line, packed
from fasten.job.list.ticks import is_packed, lines_of, with_ticks
from fasten.job.words import Job

from .sample_jobs import job as job_of
from .sample_jobs import list_of, mount

AMP = job_of(mount("amp"))


def packed_ids(job: Job, found: HardwareList) -> set[str]:
    return {line.id.text for line in lines_of(with_ticks(found, job)) if is_packed(line)}


def test_lines_are_packed_by_id_once_and_taken_out_again() -> None:
    job, found = AMP, list_of(AMP)
    ids = [line.id.text for line in lines_of(found)]
    wanted = [ids[0], ids[-1], ids[0]]
    job, lines = packed(job, found, wanted, is_packed_now=True)
    assert [line.id.text for line in lines] == wanted
    assert packed_ids(job, found) == set(wanted)
    assert packed(job, found, wanted, is_packed_now=True)[0] == job
    assert packed_ids(packed(job, found, wanted, is_packed_now=False)[0], found) == set()


def test_a_line_is_found_by_the_beginning_that_is_its_own_alone() -> None:
    found = list_of(AMP)
    one = lines_of(found)[0]
    assert find_line(one.id.text, found) is one
    with pytest.raises(FastenError, match="lines begin with"):
        find_line("part:", found)
    for text in ("kayak", "", "[/b]"):
        with pytest.raises(FastenError):
            find_line(text, found)
