"""What is first where all room is known, found without proving all that may be proposed."""

from fasten.catalog.tables import builtin
from fasten.commands.demo import JOB as DEMO
from fasten.commands.demo import demo_folder
from fasten.errors import FastenError
from fasten.job.boards import placed
from fasten.job.gauge.first import ROOM, First, field_of, is_open, roomy
from fasten.job.gauge.needs import same_as
from fasten.job.gauge.point import examined
from fasten.job.store.storage import load_job

from .passes import JOBS, job


def test_it_is_the_first_of_all_that_may_be_proposed() -> None:
    tried = 0
    for name in JOBS:
        asked = job(name)
        for mount in asked.mounts:
            try:
                point = roomy(placed(mount, asked, builtin()), builtin())
            except FastenError:
                continue
            every, first = (field_of(point, None, builtin(), None, is_open=is_open_) for is_open_ in (True, False))
            assert same_as(first.first(point)) == same_as(every.first(point)), mount.name
            tried += 1
    assert tried > 10


def test_where_no_room_is_to_be_measured_nothing_else_is_proved() -> None:
    asked = load_job(demo_folder() / DEMO, builtin()).value
    points = [placed(mount, asked, builtin()) for mount in asked.mounts if mount.pin is None]
    known = [point for point in points if not any(is_open(point, asks) for asks in ROOM)]
    assert known
    for point in known:
        assert isinstance(examined(point, None, builtin(), with_hole=False).field, First)
