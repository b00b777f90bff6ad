"""The JSON of advice: its shape is a promise, so it is written out here key by key."""

import json
from dataclasses import fields, replace
from typing import Any

import pytest

from fasten.model import Advice, MountPoint
from fasten.model.asked import NOT_ASKED
from fasten.report.answer.as_json import advice_json
from fasten.report.json_keys import KEPT

from .sample import NOTHING_FITS, PROVEN, THROUGH_BOLT, UNPROVEN
from .sample_joints import RIVET_NUT_JOINT

NUMBER, TEXT, FLAG = "number", "text", "flag"
ANSWER = {
    "rank": NUMBER,
    "method": TEXT,
    "title": TEXT,
    "status": TEXT,
    "proven": FLAG,
    "receiver": {
        "part": TEXT,
        "series": TEXT,
        "thread": TEXT,
        "length_mm": NUMBER,
        "grip_mm": {"min": NUMBER, "max": NUMBER},
        "material": TEXT,
    },
    "hole": {
        "diameter_mm": NUMBER,
        "tolerance_mm": {"minus": NUMBER, "plus": NUMBER},
        "depth_mm": None,
        "shape": TEXT,
        "bit": {"name": TEXT, "diameter_mm": NUMBER, "deviation_mm": NUMBER, "holds": FLAG},
    },
    "patch": None,
    "screw": {
        "thread": TEXT,
        "length_mm": NUMBER,
        "head": TEXT,
        "standard": TEXT,
        "class": TEXT,
        "finish": TEXT,
        "engagement_mm": NUMBER,
        "protrusion_mm": NUMBER,
    },
    "washers": [],
    "lock": TEXT,
    "layers": [{"role": TEXT, "material": TEXT, "thickness_mm": NUMBER}],
    "grip_mm": NUMBER,
    "behind": {"needed_mm": NUMBER, "available_mm": NUMBER},
    "joint_kind": TEXT,
    "torque": {
        "target_nm": NUMBER,
        "min_nm": NUMBER,
        "max_nm": NUMBER,
        "target_inlbf": NUMBER,
        "limited_by": TEXT,
        "nut_factor": {"min": NUMBER, "max": NUMBER},
        "from": [TEXT],
    },
    "checks": [
        {
            "id": TEXT,
            "title": TEXT,
            "status": TEXT,
            "demand": NUMBER,
            "allowable": NUMBER,
            "unit": TEXT,
            "utilisation": NUMBER,
            "factor": NUMBER,
            "load_case": None,
            "inputs": [{"name": TEXT, "value": NUMBER, "unit": TEXT}],
            "formula": TEXT,
            "from": [TEXT],
            "needs": None,
            "asks": None,
        }
    ],
    "exempt": [],
    "removals": {"wanted": NUMBER, "rated": NUMBER, "replace": [TEXT], "renewed": []},
    "score": {"total": NUMBER, "parts": [{"name": TEXT, "points": NUMBER, "why": TEXT}]},
    "steps": [TEXT],
    "tools": [TEXT],
    "consumables": [TEXT],
    "cautions": [TEXT],
    "remarks": [],
}


def shape(value: Any) -> Any:
    """The value with its leaves replaced by their kind, and of a list its first entry only."""
    if isinstance(value, dict):
        return {key: shape(entry) for key, entry in value.items()}
    if isinstance(value, list):
        return [shape(entry) for entry in value[:1]]
    if value is None:
        return None
    return FLAG if isinstance(value, bool) else TEXT if isinstance(value, str) else NUMBER


def first(advice: Advice) -> Any:
    return advice_json(advice)["answers"][0]


def test_top_of_the_answer() -> None:
    found = advice_json(PROVEN)
    assert list(found) == ["format", "mount", "answers", "refusals", "sources", "ground", "remedies", "on_holes"]
    assert found["format"] == 1
    assert list(found["sources"][0]) == ["id", "basis", "text"]


def test_shape_of_an_answer_key_by_key_in_order() -> None:
    found = shape(first(PROVEN))
    assert json.dumps(found, indent=1) == json.dumps(ANSWER, indent=1)


def test_what_is_absent_is_null_not_missing() -> None:
    no_parts = replace(RIVET_NUT_JOINT, receiver=None, screw=None, hole=None)
    proposal = replace(PROVEN.answers[0].proposal, joint=no_parts, torque=None)
    answer = first(replace(PROVEN, answers=(replace(PROVEN.answers[0], proposal=proposal),)))
    assert list(answer) == list(ANSWER)
    assert [answer[key] for key in ("receiver", "hole", "patch", "screw", "torque")] == [None] * 5


def test_every_field_of_the_mount_has_a_value_and_an_origin() -> None:
    mount = advice_json(UNPROVEN)["mount"]
    assert list(mount) == [KEPT.get(field.name, field.name) for field in fields(MountPoint)
                           if field.name not in NOT_ASKED]  # fmt: skip
    assert {"hole_there_mm", "holes_there_mm", "thread_there"} <= set(mount)
    assert mount["mass_kg"] == {"value": 6.0, "origin": "given"}
    assert mount["item_material"] == {"value": "aluminium", "origin": "preset"}
    assert mount["panel"] == {"value": "unknown", "origin": "assumed"}
    assert mount["behind_mm"] == {"value": None, "origin": None}
    sides = {"kind": "rectangle", "a_mm": 240.0, "b_mm": 180.0, "points_mm": [], "survey": None}
    assert mount["pattern"] == {"value": sides, "origin": "given"}


def test_between_is_an_object() -> None:
    assert advice_json(THROUGH_BOLT)["mount"]["between"]["value"] == {
        "material": "carpet",
        "thickness_mm": 4.0,
        "cut_out": False,
        "under": None,
    }


def test_space_needed_is_the_greater_of_setting_and_done() -> None:
    assert first(PROVEN)["behind"] == {"needed_mm": 15.2, "available_mm": 40.0}
    assert first(THROUGH_BOLT)["behind"] == {"needed_mm": 14.2, "available_mm": 40.0}
    assert first(UNPROVEN)["behind"]["available_mm"] is None


def test_numbers_are_not_rounded_and_enums_are_their_text() -> None:
    checks = first(UNPROVEN)["checks"]
    assert [check["status"] for check in checks] == ["holds", "not_checked", "holds", "not_checked"]
    assert checks[2]["demand"] == 62.3456789
    assert first(PROVEN)["joint_kind"] == "clamped"
    assert first(PROVEN)["torque"]["target_inlbf"] == 16.816418


def test_refusal_keeps_its_figures_and_its_change() -> None:
    refusal = advice_json(NOTHING_FITS)["refusals"][0]
    assert list(refusal)[:4] == ["method", "because", "figures", "change"]
    assert refusal["figures"][0] == {"name": "available", "value": 9.0, "unit": "mm"}
    assert refusal["change"] == "a receiver 6.8 mm long"


@pytest.mark.parametrize("advice", [PROVEN, THROUGH_BOLT, UNPROVEN, NOTHING_FITS])
def test_survives_a_trip_through_json_text(advice: Advice) -> None:
    found = advice_json(advice)
    assert json.loads(json.dumps(found, allow_nan=False)) == found
