"""Materials that people name: what is known of each by a published figure, and what is refused with its reason."""

import pytest

from fasten.advice.advise import advise
from fasten.catalog import materials, parts
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.model import Advice
from fasten.question.read import read_question
from fasten.question.read_onto import read_material, read_onto
from fasten.question.resolve import resolve

TABLES = builtin()


def asked(item: str, onto: str, **said: str) -> Advice:
    fields = {"item": item, "onto": onto, "panel": "floor", "edge": "60mm", "behind": "60mm", "removed": "monthly"}
    fields |= {name.replace("_", "-"): text for name, text in said.items()}
    return advise(resolve(read_question(fields, TABLES), TABLES), TABLES, changes=False)


@pytest.mark.parametrize(
    ("text", "material"),
    [
        ("steel plate 3 mm", "structural_steel"), ("S235 3 mm", "structural_steel"), ("steel 3 mm", "steel"),
        ("birch plywood 12 mm", "birch_plywood"), ("multiplex 18 mm", "birch_plywood"), ("plywood 12 mm", "plywood"),
        ("marine plywood 12 mm", "marine_plywood"), ("OSB 18 mm", "osb"), ("foamed PVC 10 mm", "pvc_foam"),
        ("acrylic 8 mm", "acrylic"), ("PETG 4 mm", "petg"), ("ASA 4 mm", "asa"), ("HDPE 18 mm", "hdpe"),
    ],
)  # fmt: skip
def test_each_is_known_by_its_name(text: str, material: str) -> None:
    assert read_onto(text, TABLES, "onto")[0] == material


@pytest.mark.parametrize(
    ("text", "because"),
    [("PLA 4 mm", "softens at 55 to 60"), ("sandwich 20 mm", "soft core"), ("honeycomb panel 15 mm", "soft core")],
)
def test_what_nothing_is_fastened_to_is_refused_with_the_reason_and_a_way_out(text: str, because: str) -> None:
    with pytest.raises(FastenError, match=because) as error:
        read_onto(text, TABLES, "onto")
    assert error.value.fix
    name = text.rsplit(" ", 2)[0]
    with pytest.raises(FastenError, match=because):
        read_material(name, TABLES, "item-material")


def test_a_steel_plate_is_s235() -> None:
    """EN 10025-2 (from memory): S235JR, 360 MPa at least, yield 235 up to 16 mm."""
    row = TABLES.need(materials.MATERIALS, "structural_steel")
    assert (row.ultimate_mpa, row.yield_mpa) == (360, 235)


def test_birch_plywood_is_dense_and_drilled_wide() -> None:
    """680 kg/m³ (the Finnish plywood handbook, from memory); pilots of 85 to 90 % of the root, common practice."""
    assert TABLES.need(materials.MATERIALS, "birch_plywood").density_g_cm3 == 0.68
    kind = TABLES.need(materials.BOARD_KINDS, "birch_plywood")
    assert (kind.pilot_min, kind.pilot_max) == (0.85, 0.90)
    answer = next(
        a for a in asked("fuse-holder", "birch plywood 18 mm", removed="never").answers
        if a.method == "screw_into_board"
    )  # fmt: skip
    hole, screw = answer.proposal.joint.hole, answer.proposal.joint.screw
    assert hole is not None
    assert screw is not None
    root = next(row.root_mm for row in TABLES.rows(parts.BOARD_SCREWS) if row.size == screw.thread)
    assert 0.85 * root <= hole.diameter_mm <= 0.90 * root + 1e-9


def test_screws_for_wood_and_board_are_modern() -> None:
    """As sold: hexalobular and case-hardened; no slotted round heads."""
    assert all(row.drive.startswith("hexalobular") for row in TABLES.rows(parts.BOARD_SCREWS))
    for onto in ("MDF 18 mm", "birch plywood 18 mm", "pine 20 mm"):
        answers = asked("fuse-holder", onto, removed="never").answers
        screws = [a.proposal.joint.screw for a in answers if a.method == "screw_into_board"]
        assert screws
        assert {screw.class_ for screw in screws if screw} == {"case-hardened"}


@pytest.mark.parametrize("onto", ["MDF 12 mm", "birch plywood 12 mm", "plywood 12 mm", "marine plywood 12 mm"])
@pytest.mark.parametrize(("item", "thread", "outside"), [("signal-processor", "M4", 6.0), ("bracket", "M5", 8.0)])
def test_a_board_of_12_mm_takes_a_short_insert(onto: str, item: str, thread: str, outside: float) -> None:
    """Common practice: inserts 6 and 8 mm across, 8 mm long, leave 3 mm of 12 behind them."""
    answers = asked(item, onto).answers
    receivers = [a.proposal.joint.receiver for a in answers if a.method == "screw_in_insert"]
    found = [(r.thread, getattr(r.body, "outside_mm", None), r.length_mm) for r in receivers if r is not None]
    assert (thread, outside, 8.0) in found


def test_thick_hdpe_takes_a_bolt() -> None:
    found = asked("signal-processor", "HDPE 18 mm", reach="both-sides", removed="monthly")
    assert "through_bolt" in {answer.method for answer in found.answers}
