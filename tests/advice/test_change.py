"""Small changes that turn a refusal: where none can, none is tried."""

import pytest
from recalculation.questions import any_question

from fasten.advice.advise import _changes, first_advice, method_of
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.model import MountPoint, OtherMaterial, Refusal
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()


@pytest.mark.parametrize("onto", ["steel 1 mm", "mdf 6 mm", "abs 3 mm", "fibreglass 3 mm", "plywood 5 mm"])
def test_no_small_change_makes_another_material_of_the_substrate(onto: str) -> None:
    """All changes of what nothing fits, tried by hand: none turns what is refused for its material."""
    found = 0
    for number in range(400):
        try:
            mount = resolve(read_question({**any_question(number), "onto": onto}, TABLES), TABLES)
        except FastenError:
            continue
        advice = first_advice(mount, TABLES)
        for refused in () if advice.answers else advice.refusals:
            if isinstance(refused.cure, OtherMaterial):
                found += 1
                assert tried(refused, advice.mount) == [], (number, refused.because)
        if found > 60:
            break
    assert found > 20


def tried(refused: Refusal, mount: MountPoint) -> list[str]:
    method = method_of(refused.method)
    assert method is not None
    return _changes(refused, method, mount, TABLES)
