"""A file with a cover of the car, mount points under it and a visit reads as written, and comes back the same."""

from fasten.catalog.tables import builtin
from fasten.job.after.covered import cover_times
from fasten.job.choices import choices
from fasten.job.store.job_toml import job_text, read_job

TABLES = builtin()
ASKED = 'item = "speaker-adapter"\nonto = "steel 0.7 mm"\nbehind = "60 mm"\n'
TEXT = f"""format = 2
kind = "job"

[[cover]]                       # something of the vehicle that is undone, nothing of ours holds it
name = "door card"
removed = "rarely"
fixings = 9
renewed = "push-in clip"
renew-every = 3
rated = 20

[[mount]]
name = "left door adapter"
{ASKED}removed = "yearly"
covered-by = ["left speaker"]

[[mount]]
name = "left speaker"
{ASKED}removed = "yearly"
covered-by = ["door card"]

[[mount]]
name = "left door crossover"
{ASKED}removed = "rarely"
covered-by = ["door card"]

[[mount.visit]]                 # append only; the newest last; kind: fitted, off, checked, repaired, told
date = "2026-11-28"
kind = "fitted"
hole = "7 mm"
sheet = "0.7 mm"
hardware = "M5 rivet nut 19 closed; M5x20"
torque = "1.1 N·m"
tool = "torque screwdriver"
by = "M."
note = ""
photos = ["photos/left-door-1.jpg"]
"""


def test_it_loads_with_its_cover_and_its_visit_and_comes_back_the_same() -> None:
    job, _ = read_job(TEXT.encode(), "visits.toml", TABLES)
    visit = job.mounts[2].visits[0]
    assert (visit.date, visit.kind, visit.torque, visit.tool, visit.by) == (
        "2026-11-28", "fitted", "1.1 N·m", "torque screwdriver", "M.",
    )  # fmt: skip
    assert visit.photos == ("photos/left-door-1.jpg",)
    assert [mount.covered_by for mount in job.mounts] == [("left speaker",), ("door card",), ("door card",)]
    assert read_job(job_text(job).encode(), "visits.toml", TABLES)[0] == job


def test_its_door_card_comes_off_15_times_at_most_30_over_its_5_and_takes_5_sets_of_clips() -> None:
    job, _ = read_job(TEXT.encode(), "visits.toml", TABLES)
    (found,) = cover_times(job, TABLES)
    assert (found.times.once, found.times.most, found.made, found.sets, found.pieces) == (15, 30, 5, 5, 45)
    assert not found.is_over
    assert all(choice.answer is not None for choice in choices(job, TABLES))
