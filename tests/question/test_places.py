"""Places of a body by name: what their sheet measures, what they are wet and hot with, and what bare steel is there."""

import pytest

from fasten.advice.advise import advise
from fasten.catalog.materials import MATERIALS
from fasten.catalog.tables import builtin
from fasten.model import Advice, MountPoint, Origin, Panel, Position, Where
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()


def mounted(**said: str) -> MountPoint:
    fields = {"item": "fuse-holder", "removed": "rarely", "edge": "60mm", "behind": "60mm"}
    fields |= {name.replace("_", "-"): text for name, text in said.items()}
    return resolve(read_question(fields, TABLES), TABLES)


def asked(**said: str) -> Advice:
    return advise(mounted(**said), TABLES, changes=False)


@pytest.mark.parametrize("text", ["steel engine-bay", "steel engine bay", "engine bay, painted steel"])
def test_an_engine_bay_is_a_place_and_is_shown_as_assumed(text: str) -> None:
    mount = mounted(onto=text)
    assert (mount.place, mount.where, mount.thickness_min_mm) == ("engine-bay", Where.ENGINE_BAY, 0.6)
    assert dict(mount.origins)["where"] is Origin.ASSUMED
    assert mounted(onto="steel 1 mm", where="engine bay").where is Where.ENGINE_BAY


def test_a_spare_wheel_well_is_a_floor() -> None:
    mount = mounted(onto="steel spare wheel well")
    assert (mount.panel, mount.where) == (Panel.FLOOR, Where.CABIN)


def test_plastic_in_an_engine_bay_is_refused_by_its_heat() -> None:
    """ISO 16750-4 (memory): 105 °C and up away from the engine; ABS bears 62 °C for long, nylon 110."""
    softens = asked(onto="steel engine-bay")
    assert not softens.answers
    assert {refusal.check for refusal in softens.refusals} & {"heat-abs"}
    assert asked(onto="steel engine-bay", item_material="pa").answers
    assert asked(onto="steel engine-bay", item_material="aluminium").answers
    assert asked(onto="steel side").answers


def test_no_bond_that_lets_go_at_105_degrees_holds_in_an_engine_bay() -> None:
    found = asked(onto="steel engine-bay", item_material="aluminium", mass="0.1kg")
    assert not [answer for answer in found.answers if answer.proposal.joint.patch is not None]


def test_an_engine_bay_has_its_caution_and_wants_a_closed_end() -> None:
    answer = asked(onto="steel engine-bay", item_material="aluminium").answers[0]
    assert any("exhaust" in caution.text for caution in answer.cautions)


def test_bare_steel_of_a_body_is_painted_galvanised_sheet() -> None:
    """Zinc-plated screws in it are of its own metal, and need no caution even in a door."""
    assert TABLES.need(MATERIALS, "steel").anodic == "galvanised steel"
    assert mounted(onto="painted steel 0.8 mm").material == "steel"
    answer = asked(onto="steel door", item_material="aluminium", grade="8.8").answers[0]
    assert not [caution for caution in answer.cautions if "zinc on carbon steel" in caution.text]


@pytest.mark.parametrize(
    "text", ["carpet 12 mm cut out", "Carpet, 12 mm, cut-out", "foam 6mm cut out", "mat 3 mm cut out"]
)
def test_a_soft_layer_that_is_cut_out_leaves_hard_layers_and_a_step(text: str) -> None:
    mount = mounted(item="amplifier", onto="steel 1 mm", between=text, panel="floor", item_hole="5.5mm")
    assert mount.between is not None
    assert mount.between.cut_out
    answer = next(a for a in advise(mount, TABLES, changes=False).answers if a.method == "rivet_nut")
    bare = mounted(item="amplifier", onto="steel 1 mm", panel="floor", item_hole="5.5mm")
    same = next(a for a in advise(bare, TABLES, changes=False).answers if a.method == "rivet_nut")
    assert answer.proposal.joint.screw == same.proposal.joint.screw
    assert answer.proposal.joint.kind is same.proposal.joint.kind
    assert [step.text for step in answer.steps if "over the whole footprint" in step.text]
    assert not [step.text for step in answer.steps if "round each fixing" in step.text]


def test_foam_that_stays_has_its_limiter() -> None:
    stays = mounted(item="amplifier", onto="steel 1 mm", between="foam 3 mm", panel="floor")
    assert stays.between is not None
    assert not stays.between.cut_out
    assert [
        a
        for a in advise(stays, TABLES, changes=False).answers
        if any(w.place is Position.LIMITER for w in a.proposal.joint.washers)
    ]
