"""Amounts of consumables on a shelf: counted against the need, cable by reels that a run must be cut from in one."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.list.consumables import consumables
from fasten.job.list.lists import ConsumableLine
from fasten.job.shelf.amounts import Amount, split, together, written
from fasten.job.shelf.check import CONSUMABLE, name_trouble
from fasten.job.shelf.reels import reel_of, with_reels
from fasten.job.shelf.view import ShelfView
from fasten.job.words import Job, Shelf
from fasten.model.line import LineId, Sort
from fasten.model.plan import ConsumableNeed, Label, Plan, Work
from fasten.wiring.words import Material

EMPTY = Shelf("", "", "", (), (), (), ())
RED = ("8 AWG", "copper", "105", "red")
NOTHING = Label(bit=None, target_nm=None, least_nm=None, by_feel=False, past_driving=False, held_by="")


def need(key: str, amount: float | None, unit: str, sizes: tuple[str, ...] = (), detail: str = "") -> ConsumableNeed:
    line_id = LineId(Sort.CONSUMABLE, key, sizes)
    return ConsumableNeed(line_id, (key,), detail, None, amount, unit, 0.0, 0.0, shared=False)


def line(there: tuple[str, ...], *needs: ConsumableNeed) -> ConsumableLine:
    named = ((f"run {at}", one) for at, one in enumerate(needs))
    plans = (Plan(name, "", (), (), (), (), (one,), Work(tuple), (), (), NOTHING) for name, one in named)
    view = ShelfView(replace(EMPTY, consumables=there), builtin())
    [found] = consumables(tuple(plans), view, builtin())
    return found


@pytest.mark.parametrize(
    ("text", "name", "amount"),
    [("masking tape: 10 m", "masking tape", Amount(10_000.0, "mm")),
     ("sealant: 0,3 l", "sealant", Amount(300.0, "ml")),
     ("wire marker: 30 pieces", "wire marker", Amount(30.0, "piece")),
     ("heat-shrink, 9/3 mm, 3:1, adhesive", "heat-shrink, 9/3 mm, 3:1, adhesive", None),
     ("tape: some", "tape: some", None)],
)  # fmt: skip
def test_an_amount_stands_after_the_name(text: str, name: str, amount: Amount | None) -> None:
    assert split(text) == (name, amount)
    assert amount is None or split(written(name, amount)) == (name, amount)


def test_amounts_of_one_unit_add_up() -> None:
    assert together("masking tape: 10 m", "masking tape: 5 m") == "masking tape: 15 m"
    assert together("masking tape", "masking tape: 5 m") == "masking tape: 5 m"
    assert together("primer: 20 ml", "primer: 3 pieces") == "primer: 20 ml"


def test_what_is_there_is_counted_against_the_need() -> None:
    tape = need("masking tape", 5200.0, "mm")
    assert line(("masking tape: 10 m",), tape).on_shelf
    short = line(("masking tape: 4 m",), tape)
    assert (short.on_shelf, short.at_hand, short.short) == (False, 4000.0, 1200.0)
    uncounted = line(("masking tape",), tape)
    assert (uncounted.on_shelf, uncounted.at_hand, uncounted.short) == (True, None, None)
    absent = line((), tape)
    assert (absent.on_shelf, absent.at_hand, absent.short) == (False, None, None)


def test_drops_come_out_of_a_bottle() -> None:
    """20 drops a millilitre, common practice, no source."""
    assert line(("cutting oil: 1 ml",), need("cutting oil", 20.0, "drop")).on_shelf
    assert line(("cutting oil: 1 ml",), need("cutting oil", 23.0, "drop")).short == 3.0


def test_what_is_counted_in_another_unit_is_there_and_not_compared() -> None:
    found = line(("bare-edge primer: 12 ml",), need("bare-edge primer", 16.0, "hole edge"))
    assert (found.on_shelf, found.at_hand) == (True, None)


# -- reels -------------------------------------------------------------------------------------------------------------


def test_a_reel_says_what_was_measured_and_read_on_it() -> None:
    reel = reel_of("cable, 8 AWG, red, 7.2 mm outside, 4.2 mm conductor, marked 105 °C, copper-clad: 10 m", builtin())
    assert (reel.size.name, reel.colour, reel.material) == ("8 AWG", "red", Material.CLAD)
    assert (reel.outside_mm, reel.conductor_mm, reel.marked_c, reel.length_mm) == (7.2, 4.2, 105.0, 10_000.0)


@pytest.mark.parametrize("text", ["cable, 8 AWG: 10 m", "cable, red: 10 m", "cable, 8 AWG, red, 7.2: 10 m", "cable"])
def test_a_reel_that_says_too_little_is_named(text: str) -> None:
    with pytest.raises(FastenError):
        reel_of(text, builtin())
    trouble = name_trouble(CONSUMABLE, text, builtin())
    assert trouble is not None
    assert trouble.lacks


def test_cable_is_short_by_what_is_not_there() -> None:
    power = need("cable", 7500.0, "mm", RED)
    assert line(("cable, 8 AWG, red, marked 105 C: 10 m",), power).on_shelf
    assert line(("cable, 8 AWG, red, marked 105 C: 6 m",), power).short == 7500.0, "no run of it can be cut from 6 m"
    two = need("cable", 3000.0, "mm", RED), need("cable", 2500.0, "mm", RED)
    assert line(("cable, 8 AWG, red, marked 105 C: 5 m",), *two).short == 2500.0


@pytest.mark.parametrize(
    "other",
    ["cable, 8 AWG, black, marked 105 C: 10 m", "cable, 4 AWG, red, marked 105 C: 10 m", "cable, 8 AWG, red: 10 m",
     "cable, 8 AWG, red, marked 105 C, copper-clad: 10 m", "cable, 8 AWG, pair, marked 105 C: 10 m"],
)  # fmt: skip
def test_other_cable_takes_no_part(other: str) -> None:
    """Unmarked cable counts for 75 °C, and this is asked for at 105."""
    assert not line((other,), need("cable", 5000.0, "mm", RED)).on_shelf


def test_a_run_is_cut_from_one_reel() -> None:
    """4 and 3 m are 7 in all, and give no 5 m; what no reel gives is missing whole."""
    both = ("cable, 8 AWG, red, marked 105 C: 4 m", "cable, 8 AWG, red, marked 105 C: 3 m")
    assert line(both, need("cable", 5000.0, "mm", RED)).short == 5000.0
    assert line(both, need("cable", 4000.0, "mm", RED), need("cable", 3000.0, "mm", RED)).on_shelf


def test_what_reels_say_of_a_size_counts_where_the_job_says_nothing_of_it() -> None:
    there = ("cable, 8 AWG, red, 7.2 mm outside, marked 105 C, copper: 10 m",
             "cable, 8 AWG, black, copper, 7.2 mm outside, 4.2 mm conductor, marked 125 C: 2 m")  # fmt: skip
    job = with_reels(Job("", "", "", ()), replace(EMPTY, consumables=there), builtin())
    said = (("colour", "any colour"), ("outside", "7.2 mm"), ("marked", "105 C"), ("material", "copper"))
    assert [(one.name, one.said) for one in job.cables] == [("8 AWG", said)]
    known = with_reels(job, replace(EMPTY, consumables=("cable, 8 AWG, red, 8 mm outside, marked 105 C",)), builtin())
    assert with_reels(known, replace(EMPTY, consumables=there), builtin()) == known


@pytest.mark.parametrize("colour", ["red", "pair"])
def test_a_reel_of_which_the_metal_is_not_said_is_not_copper(colour: str) -> None:
    """It says nothing of it to the job either, whatever is measured; all reels of a size must say it."""
    plain, copper = (f"cable, 8 AWG, {colour}, marked 105 C{more}: 9 m" for more in ("", ", copper"))
    for there in ((plain,), (plain, copper), (copper, plain)):
        job = with_reels(Job("", "", "", ()), replace(EMPTY, consumables=there), builtin())
        assert [(one.name, "material" in dict(one.said)) for one in job.cables] == [("8 AWG", False)]
    assert with_reels(Job("", "", "", ()), replace(EMPTY, consumables=(copper,)), builtin()).cables == ()


@pytest.mark.parametrize("more", ["", ", marked 90 C", ", copper-clad, marked 105 C"])
def test_a_reel_that_is_not_as_cable_is_bought_says_nothing_of_it(more: str) -> None:
    job, there = Job("", "", "", ()), (f"cable, 8 AWG, red, 8 mm outside{more}: 9 m",)
    assert with_reels(job, replace(EMPTY, consumables=there), builtin()) == job
