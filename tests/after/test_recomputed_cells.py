"""The cells of the repairs: every line of every route again from its JSON alone, by equations that were written apart.

Each cell is tried at one fixing and at all of them, by the joint that can be damaged so there. All of them by hand,
with FASTEN_ALL=1, in a minute.
"""

import json
from collections.abc import Iterator
from functools import cache
from math import hypot, pi, sqrt
from typing import Any

import pytest
from built.few import sample
from recalculation.capacities import CAPACITY
from recalculation.comparing import COMPARED
from recalculation.factors import factor
from recalculation.reading import Line
from recalculation.torque import lower_nm, upper_nm

from fasten.advice.advise import advise
from fasten.after.damage import possible, read_damage
from fasten.after.routes import repaired
from fasten.catalog.repairs import DAMAGES
from fasten.report.job.repair import repair_json
from fasten.report.plain import json_text

from .test_repair import MOUNTS, TABLES, fixed

pytestmark = pytest.mark.slow

AGREE = 0.005
PREFIXES = ("other-fixings/", "plate-rivets/")
CELLS = [(substrate, what, at) for substrate in MOUNTS for what in DAMAGES for at in (2, None)]
Sides = tuple[float | None, float | None]


@cache
def routes(substrate: str, what: str, at: int | None) -> tuple[dict[str, Any], ...]:
    """The routes of a cell as plain data; none where nothing there can be damaged so."""
    mount = fixed(substrate)[1]
    joints = (answer.proposal.joint for answer in advise(mount, TABLES, changes=False).answers)
    joint = next((one for one in joints if what in possible(one)), None)
    if joint is None or (at is not None and mount.fixings < 2):
        return ()
    wide = (joint.hole.diameter_mm if joint.hole is not None else 5.0) + 1.2
    text = {"oversize": f"oversize {wide:.1f} mm", "off": "off 3 mm right", "cracked": "cracked 5 mm"}.get(what, what)
    found = repaired(joint, mount, read_damage(text), at, TABLES)
    plain = json.loads(json_text(repair_json("m", found, ())))
    assert all(one["refused"]["figures"] for one in plain["refused"]), plain["refused"]
    return tuple(plain["routes"])


def again(line: Line) -> Sides | None:
    """Both sides of a line from its inputs; None where this file has no equation for it."""
    stem, given = line.stem, {entry["name"]: entry["value"] for entry in line.raw["inputs"]}
    if stem in CAPACITY and line.kind:
        return None, CAPACITY[stem](line) / factor(stem, line.kind)
    if stem in COMPARED:
        return COMPARED[stem](line)
    if stem == "torque-window":
        error = line.one("tool error")
        return lower_nm(line), upper_nm(line) * (1 - error) / (1 + error)
    if stem.endswith("-together") and "shear capacity" in given:
        ratios = given["shear"] / given["shear capacity"], given["tension"] / given["tension capacity"]
        return (hypot(*ratios) ** 2 if stem in ("shank-together", "board-together") else sum(ratios)), 1.0
    return _of_plate(stem, given)


def _of_plate(stem: str, given: dict[str, float]) -> Sides | None:
    """The lines of a plate over the hole or behind it."""
    if stem == "plate-bends":
        modulus = given["width less hole"] * given["plate"] ** 2 / 6
        return given["pull"] * given["span"] / 4 / modulus, given["yield strength"] / given["factor"]
    if stem == "plate-presses":
        area = pi / 4 * (given["side of the plate"] ** 2 - given["hole in the panel"] ** 2)
        return given["greatest clamp"], area * given["pressure"]
    if stem == "plate-punched":
        low = next(value for name, value in given.items() if name.startswith("low-end strength"))
        shear = low * given.get("share left in heat", 1.0) / sqrt(3)
        return None, pi * given["side of the plate"] * given["thickness of the panel"] * shear / given["factor"]
    return None


def apart(said: float | None, here: float | None) -> bool:
    return said is not None and here is not None and not here * (1 - AGREE) - 1e-9 <= said <= here * (1 + AGREE) + 1e-9


def lines(substrate: str, what: str, at: int | None) -> Iterator[tuple[str, Line]]:
    for route in routes(substrate, what, at):
        for check in route["checks"]:
            identity = check["id"]
            for prefix in PREFIXES:
                identity = identity.removeprefix(prefix)
            yield route["route"], Line({**check, "id": identity})


@pytest.mark.parametrize(("substrate", "what", "at"), sample(CELLS, 24))
def test_every_line_of_a_cell_follows_from_its_inputs(substrate: str, what: str, at: int | None) -> None:
    wrong = []
    for route, line in lines(substrate, what, at):
        sides = again(line) if line.checked else None
        if sides is not None and (apart(line.raw["demand"], sides[0]) or apart(line.raw["allowable"], sides[1])):
            wrong.append((route, line.raw["id"], sides, line.raw["demand"], line.raw["allowable"]))
    assert not wrong, wrong[:3]


def test_a_route_is_proven_where_every_line_holds_and_only_there() -> None:
    met = 0
    for cell in sample(CELLS, 24):
        for route in routes(*cell):
            met += 1
            assert route["proven"] == all(check["status"] == "holds" for check in route["checks"])
            assert route["proven"] or route["needs"]
    assert met > 20
