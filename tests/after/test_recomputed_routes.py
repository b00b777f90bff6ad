"""Every line of a repair's proof again from what its JSON says, by the equations typed from print for other answers."""

import json
from functools import cache
from typing import Any

import pytest
from validation.recomputed import CAPACITY, FITS, SHEARED, Given, window

from fasten.advice.advise import advise
from fasten.after.damage import possible, read_damage
from fasten.after.routes import repaired
from fasten.catalog.tables import builtin
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.job.repair import repair_json
from fasten.report.plain import json_text

G = 9.80665
SKIN = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "behind": "60 mm", "edge": "60 mm",
    "support": "firm", "panel": "floor", "far-side": "dry",
}  # fmt: skip
TRIM = {
    "item": "trim-panel", "onto": "abs 3 mm", "mass": "0.3 kg", "removed": "rarely", "edge": "60 mm", "behind": "60 mm",
    "panel": "side", "reach": "both-sides", "support": "firm",
}  # fmt: skip
CASES = (
    (SKIN, "oversize 8.2 mm", 3), (SKIN, "off 3 mm right", 1), (SKIN, "spun", 2), (SKIN, "stripped", None),
    (SKIN | {"onto": "steel 1.2 mm", "reach": "both-sides"}, "oversize 9 mm", 4), (SKIN, "cracked", 1),
    (SKIN, "cracked 15 mm", 1), (TRIM, "stripped", 2), (TRIM, "cracked 5 mm", 2),
)  # fmt: skip
PREFIXES = ("other-fixings/", "plate-rivets/")


@cache
def lines() -> tuple[tuple[str, dict[str, Any], Given], ...]:
    """Every check of every route, its id without what says whose it is, and its inputs by name."""
    tables, found = builtin(), []
    for said, what, at in CASES:
        advice = advise(resolve(read_question(said, tables), tables), tables, changes=False)
        damage, joint = read_damage(what), advice.answers[0].proposal.joint
        assert damage.what in possible(joint)
        plain = json.loads(json_text(repair_json("m", repaired(joint, advice.mount, damage, at, tables), ())))
        for route in plain["routes"]:
            for check in route["checks"]:
                identity = check["id"]
                for prefix in PREFIXES:
                    identity = identity.removeprefix(prefix)
                given: Given = {}
                for entry in check["inputs"]:
                    given.setdefault(entry["name"], entry["value"])
                if "hole" in given:  # an edge of plastic counts from the hole
                    given.setdefault("diameter", given["hole"])
                found.append((identity, check, given))
    return tuple(found)


def same(told: float | None, here: float | None) -> bool:
    if told is None or here is None:
        return told is here
    return told == pytest.approx(here, rel=1e-4, abs=1e-9)


def test_every_allowable_follows_from_its_inputs() -> None:
    met = set()
    for identity, check, given in lines():
        mode = identity.partition(".")[0]
        if mode in CAPACITY and check["status"] != "not_checked":
            met.add(mode)
            assert same(check["allowable"], CAPACITY[mode](given) / given["factor"]), check
    assert {"receiver-thread", "sheet-bearing", "pull-through", "screw-tension"} <= met


def test_every_fit_follows_from_its_inputs() -> None:
    for identity, check, given in lines():
        mode = identity.partition(".")[0]
        if mode in FITS and check["status"] != "not_checked":
            demand, allowable = FITS[mode](given)
            assert same(check["demand"], demand), check
            assert same(check["allowable"], allowable), check


def test_every_window_follows_from_its_inputs() -> None:
    windows = [(check, given) for identity, check, given in lines() if identity == "torque-window"]
    assert windows
    for check, given in windows:
        named = {**check, "title": check["title"].removeprefix("The other fixings: ")}
        demand, allowable = window(given, named)
        assert same(check["demand"], demand), check
        assert same(check["allowable"], allowable), check


def test_every_load_on_a_fixing_is_an_even_share_times_what_the_odd_one_makes_of_it() -> None:
    """m a / n across, m a / n + m a h / lever along; then the shares of unlike fixings, then those of a rivet."""
    met = set()
    for identity, check, given in lines():
        mode = identity.partition(".")[0]
        if mode not in CAPACITY or "lever of the pattern" not in given or mode == "dent":
            continue
        even = given["mass"] * G / given["fixings"]
        shear = even * given["acceleration across the fixings"] * given.get("shear over an even share", 1.0)
        tips = given["mass"] * G * given["acceleration across the fixings"] * given["centre of gravity off the panel"]
        pull = even * given["acceleration pulling"] * given.get("pull over an even share", 1.0)
        pull += tips / given["lever of the pattern"]
        if "rivets" in given:
            pull = pull / 4 + shear * given["plate"] / (given["pitch of the rivets"] * 2)
            shear /= 4
        if "share of thread" in given:
            pull /= given["share of thread"]
        met.add(("rivets" in given, "pull over an even share" in given))
        assert same(check["demand"], shear if mode in SHEARED else pull), check
    assert (False, True) in met


def test_a_new_hole_is_as_far_from_the_old_one_as_from_an_edge() -> None:
    found = [(check, given) for identity, check, given in lines() if identity == "old-hole"]
    assert found
    for check, given in found:
        wanted = given["least distance"] if "least distance" in given else (
            given["ratio"] * given["diameter"] + given["old hole"] / 2
        )  # fmt: skip
        assert same(check["demand"], wanted)
        assert same(check["allowable"], given["distance"])


def test_a_cover_plate_bends_as_a_beam_between_its_rivets() -> None:
    """F L / 4 over b t² / 6."""
    found = [(check, given) for identity, check, given in lines() if identity.startswith("plate-bends")]
    assert found
    for check, given in found:
        modulus = given["width less hole"] * given["plate"] ** 2 / 6
        assert same(check["demand"], given["pull"] * given["span"] / 4 / modulus)
        assert same(check["allowable"], given["yield strength"] / given["factor"])


def test_a_plate_behind_is_pressed_and_punched_as_its_inputs_say() -> None:
    """Clamp on pi/4 (side² - hole²), and pi side t strength / sqrt 3 over the factor."""
    from math import pi, sqrt

    pressed = [(check, given) for identity, check, given in lines() if identity == "plate-presses"]
    punched = [(check, given) for identity, check, given in lines() if identity.startswith("plate-punched")]
    assert pressed
    assert punched
    for check, given in pressed:
        area = pi / 4 * (given["side of the plate"] ** 2 - given["hole in the panel"] ** 2)
        assert same(check["demand"], given["greatest clamp"])
        assert same(check["allowable"], area * given["pressure"])
    for check, given in punched:
        low = next(value for name, value in given.items() if name.startswith("low-end strength"))
        strength = low * given.get("share left in heat", 1.0)
        bears = pi * given["side of the plate"] * given["thickness of the panel"] * strength / sqrt(3)
        assert same(check["allowable"], bears / given["factor"])
