"""What is measured or accepted of a run: ids, that an accepted check holds, that it lapses with what it was of."""

import pytest

from fasten.errors import FastenError
from fasten.model import Status
from fasten.report.answer.proof import proof
from fasten.report.wire.as_json import wire_json
from fasten.report.wire.as_text import wire_text
from fasten.wiring.accepted import with_accepted
from fasten.wiring.wired import Wired, wired

from .asked import TABLES, asked


def answer(accepted: tuple[str, ...] = (), /, **said: str) -> Wired:
    found = wired(asked(**said), TABLES, accepted)
    assert isinstance(found, Wired)
    return found


def ids(**said: str) -> tuple[str, ...]:
    return tuple(one.id for one in answer(**said).confirms)


OWN = "own-fuses:1000-w-class-d"
MAIN_IDS = (
    "outside:2-awg:copper", "bore:2-awg:8.7:set-screw", "palm:m8:2-awg:battery+fuse-sf51-device+body",
)  # fmt: skip


def test_every_open_check_of_the_main_run_has_an_id_of_keys() -> None:
    assert ids() == (OWN, *MAIN_IDS)


def test_what_is_accepted_holds_by_your_word_and_the_run_is_proven() -> None:
    found = answer((OWN, *MAIN_IDS))
    assert (found.needs, found.to_measure, found.lapsed) == ((), (), ())
    palm = next(check for check in found.checks if check.id == "palm.M8")
    assert (palm.status, palm.from_[-1]) == (Status.HOLDS, "accepted")
    assert "measured or accepted by you" in " ".join(" ".join(proof((palm,), found.sources, 200)).split())
    data = wire_json(found)
    assert (data["proven"], data["open"], data["lapsed"]) == (True, [], [])
    assert [one["accepted"] for one in data["confirms"]] == [True] * 4
    assert {part["state"] for part in data["parts"]} == {"proposed"}
    assert "calliper" not in data["tools"]
    assert "TO ACCEPT" not in wire_text(found, 80)


def test_one_that_is_accepted_leaves_the_others_open_and_the_text_says_how() -> None:
    found = answer(MAIN_IDS[2:])
    assert len(found.needs) == 3
    text = wire_text(found, 120)
    assert "add --accept with its id, or all" in text
    assert "- Bore of the set screw: bore:2-awg:8.7:set-screw\n" in text
    assert MAIN_IDS[2] not in text


@pytest.mark.parametrize(
    ("said", "lapses"),
    [
        ({"cable": "1/0 AWG"}, set(MAIN_IDS)),  # another size: all three
        ({"from_": "battery stud M10"}, {MAIN_IDS[2]}),  # the lug is another one at one of its places
        ({"from_": "stud M8"}, {MAIN_IDS[2]}),  # the same lug, at another place
        ({"to": "set screw bore 9 mm"}, {MAIN_IDS[1]}),  # it is measured now
        ({"material": "copper-clad", "cable": "2 AWG"}, {MAIN_IDS[0]}),
    ],
)
def test_it_lapses_with_what_it_was_of(said: dict[str, str], lapses: set[str]) -> None:
    found = answer(MAIN_IDS, **said)
    assert lapses <= set(found.lapsed)
    assert wire_json(found)["lapsed"] == list(found.lapsed)
    assert "ACCEPTED BEFORE" in wire_text(found, 80)


LEAD = {"carries": "loudspeaker 100 W 4 ohm", "from_": "set screw", "to": "loudspeaker", "ground": ""}


@pytest.mark.parametrize(
    ("said", "left"),
    [(LEAD, "terminal.loudspeaker"), ({"where": "exhaust"}, "exhaust"), ({"cable": "4/0 AWG"}, "outside")],
)
def test_what_no_look_settles_stays_open(said: dict[str, str], left: str) -> None:
    """An end or heat-shrink that would be on no list, and a way along which nothing is known."""
    found = answer(ids(**said), **said)
    assert [check.id for check in found.checks if check.status is Status.NOT_CHECKED] == [left]
    assert found.lapsed == ()


def test_an_id_that_is_not_open_is_refused_with_those_that_are() -> None:
    confirms = answer().confirms
    with pytest.raises(FastenError, match="by the id 'palm:x'") as found:
        with_accepted((), "palm:x", confirms)
    assert OWN in str(found.value)
    with pytest.raises(FastenError, match="nothing of it is to be accepted"):
        with_accepted((), "all", ())
    assert with_accepted(("old",), f" {MAIN_IDS[0].upper()} , {MAIN_IDS[0]}", confirms) == ("old", MAIN_IDS[0])
    assert with_accepted(("old",), "all", confirms) == ("old", OWN, *MAIN_IDS)
    assert with_accepted(MAIN_IDS, "none", confirms) == ()


def test_what_is_open_at_one_end_does_not_hold_by_another() -> None:
    """A bore that is known at one end says nothing of the other."""
    for from_, to in (("set screw bore 12 mm", "set screw"), ("set screw", "set screw bore 12 mm")):
        found = answer(carries="20 A", from_=from_, to=to)
        assert "bore" in {check.id for check in found.checks if check.status is Status.NOT_CHECKED}


def of_kind(kind: str, found: Wired) -> list[Status]:
    return [check.status for check in found.checks if check.id.partition(".")[0] == kind]


def test_own_fuses_are_open_until_they_are_said_or_accepted_whatever_the_cable() -> None:
    assert of_kind("own-fuses", answer()) == [Status.NOT_CHECKED]
    assert of_kind("own-fuses", answer((OWN,), cable="1/0 AWG")) == [Status.HOLDS]
    assert of_kind("own-fuses", answer((OWN,), carries="500 W class D")) == [Status.NOT_CHECKED]
    assert of_kind("own-fuses", answer(own_fuses="3 x 35 A")) == of_kind("own-fuses", answer(carries="96 A")) == []


@pytest.mark.parametrize(
    ("said", "open_"),
    [
        ({"cable": "4 AWG"}, True),  # 125 A at 75 °C, and the fuse is 125 A: one for 60 °C carries less
        ({"cable": "1/0 AWG"}, False),  # 195 A and more, whatever it is made for
        ({"cable": "8 AWG"}, False),  # too small, whatever it is made for
        ({"cable": "4 AWG", "insulation": "75 C"}, False),
        ({}, False),  # it is bought as the list says
        ({"carries": "remote", "from": "connector", "cable": "18 AWG", "ground": ""}, False),
    ],
)
def test_what_is_printed_on_a_cable_is_open_where_it_decides(said: dict[str, str], open_: bool) -> None:
    assert of_kind("insulation", answer(**said)) == ([Status.NOT_CHECKED] if open_ else [])


def test_a_printed_temperature_that_was_looked_at_holds() -> None:
    seen = next(id_ for id_ in ids(cable="4 AWG") if id_.startswith("insulation"))
    assert seen == "insulation:4-awg:75:copper"
    assert of_kind("insulation", answer((seen,), cable="4 AWG")) == [Status.HOLDS]
    assert seen in answer((seen,), cable="4 AWG", insulation="90 C").lapsed
