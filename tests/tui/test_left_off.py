"""Which mount point a job is opened at: what its owner goes on with, without calculating anything."""

from fasten.job.words import Job, Mount, Visit
from fasten.tui.state.job_files import left_off

SAID = (("item", "amplifier"), ("onto", "steel 0.8 mm"))
WHOLE, UNSAID = Mount("whole", SAID), Mount("unsaid", SAID[:1])
PROPOSED = Mount("proposed", SAID, preset=("onto",))
BEGUN = Mount("begun", SAID, ticked=("hole:1 = 7 mm",))
BUILT = Mount("built", SAID, visits=(Visit("2026-05-01", "7 mm", "", "", ""),), ticked=("hole:1 = 7 mm",))


def opened(*mounts: Mount) -> str | None:
    at = left_off(Job("Car", "", "", mounts))
    return None if at is None else mounts[at].name


def test_a_job_is_opened_at_what_is_to_be_gone_on_with() -> None:
    assert opened() is None
    assert opened(WHOLE, WHOLE, BUILT) == "whole"
    assert opened(BUILT, WHOLE, UNSAID, PROPOSED) == "unsaid"
    assert opened(BUILT, WHOLE, PROPOSED) == "proposed"
    assert opened(UNSAID, BEGUN, WHOLE) == "begun", "the work is gone on with first"
    assert opened(BUILT, BUILT) == "built"
