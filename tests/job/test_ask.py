"""What is asked next: what the first answer waits for, then the install, then what decides most, and nothing else."""

import pytest

from fasten.catalog.installs import INSTALLS
from fasten.catalog.materials import ITEMS, Item
from fasten.catalog.tables import builtin
from fasten.job.choices import choice
from fasten.job.start.ask import asked_next
from fasten.job.start.start import started
from fasten.job.start.wanted import read_wanted
from fasten.job.words import Job, Mount
from fasten.question.fields import NAMES

TABLES = builtin()
EMPTY = Job("", "", "", ())


def ask(mount: Mount, job: Job = EMPTY) -> tuple[str, ...]:
    return asked_next(choice(mount, TABLES), job, TABLES)


def first(text: str) -> tuple[Mount, Job]:
    job = started(EMPTY, read_wanted(text, TABLES), TABLES)
    return job.mounts[0], job


def test_the_order_is_needs_of_the_answer_then_the_install_then_the_item() -> None:
    mount, job = first("amplifier")
    install = TABLES.need(INSTALLS, "seat-amplifier")
    asked = ask(mount, job)
    assert asked[:3] == ("support", "behind", "edge")  # what is measured at the vehicle last of what it waits for
    rest = [name for name in install.ask if name != "support"]
    assert list(asked[3 : 3 + len(rest)]) == rest
    usual = TABLES.need(ITEMS, "amplifier").asks
    assert list(asked[3 + len(rest) :]) == [name for name in usual if name not in install.ask]


def test_what_is_said_is_not_asked_and_what_is_left_out_never_is() -> None:
    mount, job = first("amplifier")
    said = (*mount.said, ("support", "firm"), ("item-hole", "5 mm"))
    asked = ask(Mount(mount.name, said, preset=("removed",), install=mount.install), job)
    assert not {"support", "item-hole", "onto", "visible", "cg", "grade"} & set(asked)


def test_a_mount_point_of_no_install_is_asked_what_its_answer_waits_for_and_what_decides_most() -> None:
    mount = Mount("amp", (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly")))
    asked = ask(mount)
    usual = TABLES.need(ITEMS, "amplifier").asks
    waits = asked[: -len(usual)]
    assert asked[-len(usual) :] == usual
    assert {"behind", "edge"} <= set(waits) <= {"behind", "edge", "support"}


def test_the_power_of_an_amplifier_comes_first_where_its_cable_waits_for_it() -> None:
    mount, job = first("amplifier, power")
    assert ask(mount, job)[0] == "power"
    powered = Mount(mount.name, (*mount.said, ("power", "600 W class D")), preset=mount.preset, install=mount.install)
    assert "power" not in ask(powered, job)


@pytest.mark.parametrize("item", TABLES.rows(ITEMS), ids=lambda item: item.item)
def test_every_item_asks_questions_that_are_there_each_once(item: Item) -> None:
    assert item.asks
    assert set(item.asks) <= set(NAMES)
    assert len(set(item.asks)) == len(item.asks)
