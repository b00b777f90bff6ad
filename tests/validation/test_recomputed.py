"""Every line of a proof again from what its JSON says and nothing else: inputs, factor, load case and mount.

The equations are typed here from the sources that the formulas name (EN 1993-1-3, EN 1993-1-8, AISI S100 E4,
FED-STD-H28, statics), not taken from the program. It is the same arithmetic from figures of six digits: those of a
difference are as sure as what it is taken from.
"""

import json
import re
from functools import cache
from typing import Any

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_json import advice_json
from fasten.report.plain import json_text

from .recomputed import (
    CAPACITY,
    FITS,
    SHEARED,
    Given,
    window,
)

pytestmark = pytest.mark.slow

AMPLIFIER = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "6kg", "fixings": "4",
    "pattern": "rectangle 240x180", "item-thickness": "3mm", "item-hole": "5.5mm", "reach": "both-sides",
}  # fmt: skip
ASKED: tuple[dict[str, str], ...] = (
    {"behind": "40mm", "edge": "60mm"},
    {},
    {"onto": "steel 6 mm", "grade": "A2-70"},
    {"onto": "steel floor", "between": "carpet 6 mm"},
    {"between": "foam 3 mm", "panel": "seat-back"},
    {"between": "foam 2 mm", "item-thickness": "9mm", "item-material": "aluminium"},
    {"between": "foam 3 mm", "item-material": "abs", "mass": "0.6kg", "item-hole": "4.5mm"},
    {"item": "trim-panel", "mass": "0.8kg", "panel": "floor"},
    {"item": "enclosure", "item-thickness": "18mm", "item-hole": "9mm", "mass": "20kg", "panel": "floor"},
    {"item-hole": "4.5mm", "item-thickness": "1mm", "mass": "1.5kg", "removed": "never"},
    {"onto": "aluminium 2 mm"},
    {"hole-there": "9 mm"},
    {"holes-at": "points 0,0 240,0 239.8,180.1 0.1,180"},
    {"item-hole": "4.5mm", "onto": "aluminium 1.5 mm", "mass": "1kg", "removed": "rarely", "item-material": "abs"},
    {"item-material": "pine", "item-thickness": "22mm", "mass": "2kg"},
    {"item-material": "plywood", "item-thickness": "9mm", "mass": "2kg"},
    {"item-material": "steel", "item-thickness": "0.8mm", "mass": "2kg"},
    {"hole-there": "M5", "between": "carpet 6 mm"},
    {"hole-there": "M5 stud", "between": "foam 3 mm"},
    {"mass": "0.1kg", "removed": "never", "edge": "60mm", "item-material": "mdf"},
    {"item": "bracket", "item-hole": "4.9mm", "mass": "0.5kg", "removed": "never", "edge": "60mm", "panel": "side"},
)


@cache
def documents() -> tuple[dict[str, Any], ...]:
    tables = builtin()
    points = [resolve(read_question(AMPLIFIER | said, tables), tables) for said in ASKED]
    return tuple(json.loads(json_text(advice_json(advise(point, tables)))) for point in points)


def lines() -> list[tuple[dict[str, Any], dict[str, Any], Given]]:
    """Every check of every answer with its document and its inputs by name; a name told twice tells the same."""
    found = []
    for document in documents():
        for answer in document["answers"]:
            for check in answer["checks"]:
                given: Given = {}
                for entry in check["inputs"]:
                    assert given.setdefault(entry["name"], entry["value"]) == entry["value"], entry["name"]
                found.append((document, check, given))
    return found


def same(told: float | None, calculated: float | None) -> bool:
    if told is None or calculated is None:
        return told is calculated
    return told == pytest.approx(calculated, rel=3e-5, abs=1e-9)


# Of a part whose maker prints them on its box, or of a thread the vehicle's maker put there: nothing to calculate from.
ON_THE_BOX = {"rated-pull", "rated-shear", "rated-torque", "maker-load"}


def test_every_kind_of_line_is_met() -> None:
    met = {check["id"].partition(".")[0] for _, check, _ in lines()} - ON_THE_BOX
    assert met == CAPACITY.keys() | FITS.keys() | {"torque-window"}


def test_every_allowable_follows_from_its_inputs() -> None:
    for _, check, given in lines():
        mode = check["id"].partition(".")[0]
        if mode == "dent" and check["status"] == "not_checked":  # of a panel that may be a frame
            assert CAPACITY[mode](given) / given["factor"] < check["demand"], check
        elif mode in CAPACITY:
            assert same(check["allowable"], CAPACITY[mode](given) / given["factor"]), check
            assert check["factor"] == given["factor"]


def test_every_fit_follows_from_its_inputs() -> None:
    for _, check, given in lines():
        mode = check["id"].partition(".")[0]
        if mode in FITS:
            demand, allowable = FITS[mode](given)
            assert same(check["demand"], demand), check
            if (check["needs"] or "").startswith("needs the panel"):  # it may be a roof, which holds none by practice
                allowable = None
            assert same(check["allowable"], allowable), check


def test_every_torque_window_follows_from_its_inputs() -> None:
    met = set()
    for _, check, given in lines():
        if check["id"] == "torque-window":
            met.add(check["title"])
            demand, allowable = window(given, check)
            assert same(check["demand"], demand), check
            assert same(check["allowable"], allowable), check
    assert len(met) >= 4


def test_every_shear_follows_from_its_inputs() -> None:
    for _, check, given in lines():
        if check["id"].partition(".")[0] in SHEARED:
            shear = given["mass"] * 9.80665 * given["acceleration across the fixings"] / given["fixings"]
            assert same(check["demand"], shear), check


def tipping(given: Given) -> float:
    """Moments about the edge of a spacer, V h = T D/2; 0 where none stands there."""
    if "height of the spacer" not in given:
        return 0.0
    shear = given["mass"] * 9.80665 * given["acceleration across the fixings"] / given["fixings"]
    return 2 * shear * given["height of the spacer"] / given["outside of the spacer"]


def test_every_tension_follows_from_its_inputs() -> None:
    """Share and tilting over the lever; on a rectangle of four the worst way to tip is 2 / sqrt(1/a^2 + 1/b^2)."""
    for document, check, given in lines():
        mode, pattern = check["id"].partition(".")[0], document["mount"]["pattern"]["value"]
        if mode in CAPACITY.keys() - SHEARED:
            assert pattern["kind"] == "rectangle"
            weight = given["mass"] * 9.80665
            tilt = weight * given["acceleration across the fixings"] * given["centre of gravity off the panel"]
            pull = weight * given["acceleration pulling"] / given["fixings"]
            lever = 2 / (pattern["a_mm"] ** -2 + pattern["b_mm"] ** -2) ** 0.5
            assert same(given["lever of the pattern"], lever), check
            assert same(check["demand"], pull + tilt / lever + tipping(given)), check


def test_a_tension_needs_nothing_but_its_own_inputs() -> None:
    names = {name for _, check, given in lines() if check["id"] == "pull-through.service" for name in given}
    assert any("lever" in name for name in names)


def test_a_line_holds_exactly_where_its_figures_say_so() -> None:
    for _, check, _ in lines():
        assert check["status"] in {"holds", "not_checked"}
        assert (check["status"] == "not_checked") == (check["needs"] is not None)
        if check["status"] == "holds":
            assert check["demand"] <= check["allowable"] * (1 + 1e-9)
            assert same(check["utilisation"], check["demand"] / check["allowable"] if check["allowable"] else 0.0)
        else:
            assert check["utilisation"] is None


def test_every_source_that_is_named_is_told() -> None:
    for document in documents():
        told = {source["id"]: source for source in document["sources"]}
        for answer in document["answers"]:
            torque = answer["torque"]["from"] if answer["torque"] else []
            named = [source for check in answer["checks"] for source in check["from"]] + torque
            assert set(named) <= told.keys()
            for check in answer["checks"]:
                assert check["from"], check["id"]
        assert all(source["basis"] and source["text"] for source in told.values())


@pytest.mark.parametrize(
    ("identity", "tables"),
    [
        ("spacing", {"rules"}),
        ("removals", {"methods", "removals"}),
        ("torque-window", {"finishes", "tightening", "faces", "factors", "rules", "load-cases"}),
        ("pull-through.service", {"load-cases", "materials", "strength-formulas", "factors"}),
        ("sheet-together.hard_stop", {"load-cases", "materials", "strength-formulas", "factors"}),
        ("head-cover", {"heads", "rules"}),
        ("space-behind", {"rivet-nuts", "rules"}),
        ("lock-breakaway", {"rivet-nuts", "rules"}),
    ],
)
def test_a_line_names_every_table_it_was_calculated_from(identity: str, tables: set[str]) -> None:
    answer = next(answer for answer in documents()[0]["answers"] if answer["method"] == "rivet_nut")
    check = next(entry for entry in answer["checks"] if entry["id"] == identity)
    assert tables <= {re.split(":", source)[0] for source in check["from"]}
