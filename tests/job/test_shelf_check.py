"""Lines of a shelf that match nothing are named with what they lack or the nearest thing; every other line counts."""

from dataclasses import replace

import pytest
from built.few import sample

from fasten.advice.tools import tool_names
from fasten.catalog.tables import builtin
from fasten.commands.demo import SHELF, demo_folder
from fasten.job.shelf.check import part_trouble, troubles
from fasten.job.shelf.view import ShelfView
from fasten.job.store.storage import load_shelf
from fasten.job.words import Shelf, ShelfPart
from fasten.model import Visible
from fasten.model.line import Part

from .sample_jobs import SAID, job, list_of, mount

TABLES = builtin()
EMPTY = Shelf("", "", "", (), (), (), ())
M5 = Part("screw", "M5", "ISO 15071", "8.8", 16.0)


def told(**lines: tuple[str, ...]) -> list[str]:
    return [str(trouble.error) for trouble in troubles(replace(EMPTY, **lines), TABLES)]  # type: ignore[arg-type]


def of_part(part: Part) -> str:
    trouble = part_trouble(part, TABLES)
    return "" if trouble is None else str(trouble.error)


def test_what_a_list_asks_for_counts_and_is_not_told() -> None:
    for more in sample(({}, {"visible": Visible.YES.value}, {"grade": "10.9"}, {"grade": "A2-70"}), 2):
        listed = list_of(job(*(mount(name, **more) for name in SAID)))
        shelf = Shelf(
            "", "", "", tuple(ShelfPart(line.part, 1) for line in listed.parts),
            tuple(line.name for line in listed.bits),
            tuple(f"{line.name} {line.size}".strip() for line in listed.tools),
            tuple(f"{line.name}, {line.detail}".removesuffix(", ") for line in listed.consumables),
        )  # fmt: skip
        assert listed.parts
        assert troubles(shelf, TABLES) == ()


def test_the_example_shelf_has_no_line_that_matches_nothing() -> None:
    assert troubles(load_shelf(demo_folder() / SHELF).value, TABLES) == ()


def test_a_kind_that_is_none_is_told_with_the_nearest() -> None:
    assert of_part(replace(M5, kind="bolt")) == (
        "part: 'bolt M5 x 16 mm, ISO 15071, 8.8' matches nothing; the nearest is screw M5 x 16 mm, ISO 15071, 8.8"
    )
    assert "the nearest is screw M6 x" in of_part(Part("bolt", "M6", "", "", None))
    assert "no part is a 'sprocket'; write such as screw" in of_part(Part("sprocket", "M6", "", "", None))


@pytest.mark.parametrize(
    ("part", "lacks"),
    [
        (Part("rivet nut", "M5", "", "", None), "does not say its standard or series, grade and length"),
        (replace(M5, length_mm=None), "does not say its length, so it matches nothing; write such as screw M5 x 20 mm"),
        (replace(M5, grade=""), "does not say its grade, so it matches nothing; write such as screw M5 x 16 mm"),
        (replace(M5, size=""), "does not say its size"),
        (Part("washer", "M5", "", "", None), "does not say its standard or series"),
    ],
)  # fmt: skip
def test_what_a_part_lacks_is_told_with_an_example(part: Part, lacks: str) -> None:
    trouble = part_trouble(part, TABLES)
    assert trouble is not None
    assert trouble.lacks
    assert lacks in str(trouble.error)


def test_a_length_that_is_not_made_is_told_with_the_nearest_that_is() -> None:
    """A screw may have any length, for every one may do instead of another; a rivet nut has that of its series."""
    nut = next(line.part for line in list_of(job(mount("amp"))).parts if line.part.kind == "rivet nut")
    assert nut.length_mm is not None
    assert of_part(nut) == ""
    assert f"the nearest is rivet nut M5 x {nut.length_mm:g} mm" in of_part(replace(nut, length_mm=nut.length_mm + 0.2))
    assert of_part(replace(M5, length_mm=17.0)) == ""


def test_a_hyphen_makes_no_other_thing_and_is_told() -> None:
    shelf = replace(EMPTY, tools=("rivet nut setter", "M5 rivet nut mandrel"), consumables=("Bare edge primer",))
    assert [str(trouble.error) for trouble in troubles(shelf, TABLES)] == [
        "tool: 'rivet nut setter' is taken for rivet-nut setter",
        "tool: 'M5 rivet nut mandrel' is taken for rivet-nut mandrel",
        "consumable: 'Bare edge primer' is taken for bare-edge primer",
    ]
    view = ShelfView(shelf, TABLES)
    assert view.has_tool(tool_names("rivet-nut setter", ""))
    assert view.has_tool(tool_names("rivet-nut mandrel", "M5"))
    assert view.has_consumable(("bare-edge primer",), "")
    assert of_part(Part("Push_in clip", "6mm", "barbed-stem", "plastic", 14.0)) == ""


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ({"tools": ("rivet-nut mandrel",)}, "its size, so it matches nothing; write such as rivet-nut mandrel M5"),
        ({"tools": ("torque wrnch",)}, "matches nothing; did you mean torque wrench?"),
        ({"tools": ("welder",)}, "matches nothing; no list asks for anything like it"),
        ({"tools": ("eye protection, large",)}, "did you mean eye protection?"),
        ({"consumables": ("primer",)}, "did you mean bare-edge primer?"),
        ({"consumables": ("spare screws",)}, "matches nothing"),
        ({"bits": ("seven",)}, "is no size of a bit; write such as 5 mm"),
        ({"bits": ("7",)}, "is no size of a bit"),
        ({"bits": ("#7", "no 7", "7,3 mm", "1/4", "F")}, ""),
    ],
)  # fmt: skip
def test_bits_tools_and_consumables_that_match_nothing_are_told(lines: dict[str, tuple[str, ...]], says: str) -> None:
    [sentence] = told(**lines) or [""]
    assert says in sentence
    assert bool(says) == bool(sentence)
