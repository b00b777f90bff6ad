"""A device that a run of a job goes through, such as an isolator: it is on no list, so it waits for a look."""

from dataclasses import replace

from fasten.job.wiring.runs import named_run, run_choices

from .test_runs import JOB, TABLES


def open_of(through: str, *accepted: str, check: str = "device") -> list[str]:
    """The ids by which the devices on the way of the trunk are still open."""
    trunk = replace(JOB.runs[0], said=(*JOB.runs[0].said, ("through-device", through)), accepted=accepted)
    answer = named_run(run_choices(replace(JOB, runs=(trunk, *JOB.runs[1:])), TABLES), "trunk").answer
    assert answer is not None
    return [one.id for one in answer.confirms if one.check.startswith(check) and not one.accepted]


def test_a_device_on_the_way_of_a_run_waits_until_it_is_seen() -> None:
    assert open_of("") == []
    assert open_of("isolator stud M8") == ["device:trunk-isolator-with-studs-m8"]
    assert open_of("isolator stud M8", "device:trunk-isolator-with-studs-m8") == []
    assert open_of("isolator stud M10", "device:trunk-isolator-with-studs-m8") != []
    assert open_of("stud M8") == ["device:trunk-device-with-studs-m8"]


def test_what_a_device_carries_waits_until_its_rating_is_read() -> None:
    """The fuse protects the cable: an isolator of 100 A burns behind one of 150 A. Another current asks again."""
    (rated,) = open_of("isolator stud M8", check="rated")
    assert rated.startswith("rated:isolator-with-studs-m8-")
    assert open_of("isolator stud M8", rated, check="rated") == []
    assert open_of("isolator stud M8", rated.replace("1", "2"), check="rated") == [rated]
    assert open_of("", check="rated") == []
