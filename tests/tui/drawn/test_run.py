"""A run is drawn to scale along its length: each piece as long as it is, every end named, at every width."""

import pytest
from wiring.asked import TABLES, asked

from fasten.text.rounding import rounded_up
from fasten.tui.drawn.cells import FULL, NONE
from fasten.tui.drawn.run import Lie, run_lines
from fasten.tui.drawn.runs import columns, plain
from fasten.wiring.pieces import Made
from fasten.wiring.wired import Wired, wired

WIDTHS = (42, 44, 76, 96)
SECTIONS = (Lie(("bonnet 1.2 m, engine-bay, tube", "bonnet 1.2 m", "bonnet"), 1200.0),
            Lie(("left sill 3.5 m, channel", "left sill 3.5 m", "left sill"), 3500.0))  # fmt: skip


def made_up(**said: str) -> Made:
    answer = wired(asked(**said), TABLES)
    assert isinstance(answer, Wired)
    return answer.done.made


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("tones", [FULL, NONE])
def test_the_run_keeps_to_its_columns_and_names_ends_and_fuse(width: int, tones: str) -> None:
    lines = run_lines(made_up(), SECTIONS, width, 4, tones)
    assert max(map(columns, lines)) <= width
    text = "\n".join(map(plain, lines))
    for name in ("battery +", "fuse", "set screw +", "body", "not to scale", "bonnet", "left sill", "red"):
        assert name in text, name


def test_pieces_are_as_long_beside_each_other_as_they_are() -> None:
    lines = list(map(plain, run_lines(made_up(ground="2 m"), (), 96, 4, NONE)))
    row = lines[next(at for at, line in enumerate(lines) if "├" in line) - 2]
    cables = [len(piece) for piece in row.replace("▓", " ").replace("·", " ").split()]
    assert len(cables) == 3
    near, far, ground = cables
    assert far / ground == pytest.approx(4.6 / 2, rel=0.06)
    assert near / ground == pytest.approx(0.4 / 2, abs=0.06)


def test_an_end_whose_terminal_is_not_said_shows_it() -> None:
    lead = made_up(carries="loudspeaker 100 W 4 ohm", from_="set screw", to="loudspeaker", ground="")
    text = "\n".join(map(plain, run_lines(lead, (), 60, 4, NONE)))
    assert "??" in text
    assert "pair" in text


def test_a_screen_that_is_too_narrow_lists_the_pieces() -> None:
    text = "\n".join(map(plain, run_lines(made_up(), (), 16, 4, FULL)))
    assert "0.4 m red\n4.6 m red\n0.45 m black" in text


def test_a_device_on_the_way_says_that_the_place_is_about() -> None:
    text = "\n".join(map(plain, run_lines(made_up(through_device="isolator stud M8"), (), 96, 4, FULL)))
    assert "about" in text


@pytest.mark.parametrize("width", WIDTHS)
def test_every_piece_says_how_long_it_is_and_the_bar_that_it_is_the_scale(width: int) -> None:
    """The first of three pieces, 0.4 m of 9, has no room for its length in the drawing of a phone."""
    made = made_up(length="9 m")
    lines = list(map(plain, run_lines(made, (), width, 4, NONE, ("bulkhead",))))
    text = " ".join(" ".join(lines).split())
    assert all(f"{length} m" in text for length in ("0.4", "8.6", "0.45"))
    assert next(line for line in lines if "ends not to scale" in line).startswith("scale ├")
    assert "through bulkhead" in text
    assert max(map(len, lines)) <= width


def test_where_it_is_cut_each_piece_says_how_long_it_is_cut() -> None:
    made = made_up()
    text = "\n".join(map(plain, run_lines(made, (), 96, 4, NONE, is_cut=True)))
    assert all(f"{rounded_up(piece.cut_mm / 1000, 2)} m {piece.colour}" in text for piece in made.pieces)
