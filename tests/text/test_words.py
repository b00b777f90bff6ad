"""Names of the tables in plain words."""

import pytest

from fasten.catalog.materials import MATERIALS
from fasten.catalog.tables import builtin
from fasten.text.figures import words


@pytest.mark.parametrize(
    ("name", "said"),
    [("birch_plywood", "birch plywood"), ("mdf", "MDF"), ("pvc_foam", "PVC foam"), ("rivet_nut", "rivet nut")],
)
def test_a_name_is_said_as_it_is_written(name: str, said: str) -> None:
    assert words(name) == said


def test_a_material_that_its_table_titles_by_its_letters_is_said_so() -> None:
    for row in builtin().rows(MATERIALS):
        if row.title == row.material.upper():
            assert words(row.material) == row.title
