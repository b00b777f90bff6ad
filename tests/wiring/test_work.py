"""The steps of the work on a run: their order, and what they say of the cable in hand."""

import pytest

from fasten.text.rounding import rounded_up
from fasten.wiring.plan import plan_of
from fasten.wiring.wired import Wired, wired

from .asked import TABLES, asked


def steps(**said: str) -> list[str]:
    found = wired(asked(**said), TABLES)
    assert isinstance(found, Wired), found
    return [task.step.text for task in plan_of("", found).tasks]


@pytest.mark.parametrize(
    ("carries", "cable", "weighs"),
    [
        ("72 A", "4 AWG", "4 AWG copper weighs 19.0 g"),  # 21.15 mm² by 8.96 g/cm³
        ("10 A", "10 AWG", "10 AWG copper weighs 4.71 g"),
        ("150 A", "1/0 AWG", "1/0 AWG copper weighs 47.9 g"),
        ("40 A", "16 mm2", "16 mm² copper weighs 14.3 g"),
    ],
)
def test_a_chosen_cable_is_weighed_by_its_own_area(carries: str, cable: str, weighs: str) -> None:
    said = steps(carries=carries, cable=cable, length="1 m", insulation="105 C")
    assert [weighs in text for text in said if "weighs" in text] == [True], said


def test_a_trial_piece_is_pulled_before_any_end_is_crimped() -> None:
    said = steps(carries="72 A", cable="4 AWG", insulation="105 C")
    pulled = next(at for at, text in enumerate(said) if "a minute" in text)
    crimped = next(at for at, text in enumerate(said) if text.startswith("Crimp battery +"))
    assert pulled == crimped - 1
    assert said[pulled].startswith("Crimp a trial piece with the same die and cable, and pull it: it holds 623 N")


def test_a_step_has_a_figure_where_one_says_all_of_it() -> None:
    answer = wired(asked(), TABLES)
    assert isinstance(answer, Wired)
    figures = {task.step.id: task.figure for task in plan_of("main power", answer).tasks}
    cut, pull, fuse = (figures[f"run/{step}/1"] for step in ("cut", "pull", "verify"))
    assert cut is not None
    assert pull is not None
    assert fuse is not None
    first, *others = answer.done.made.pieces
    assert cut.text.startswith(f"{rounded_up(first.cut_mm / 1000, 2)} m, {first.colour}, then ")
    assert cut.text.count("then") == len(others)
    assert float(pull.value) >= max(end.pull_n or 0 for end in answer.done.made.ends)
    assert answer.sizing.fuse is not None
    assert (float(fuse.value), fuse.unit) == (answer.sizing.fuse.rating_a, "A")
    assert figures["run/mark/1"] is None
