"""Ends and pieces of a run: which part, how much is stripped and covered, what must be confirmed, what it takes."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_ends import HEAT_SHRINK
from fasten.catalog.wiring_work import RUN_CAUTIONS, RUN_STEPS, RUN_TOOLS
from fasten.model import Status, end_kinds
from fasten.wiring.blanks import BLANKS
from fasten.wiring.check import problems
from fasten.wiring.conditions import CONDITIONS
from fasten.wiring.covers import cut_mm, shrink_over, splice_shrink
from fasten.wiring.end_parts import battery_clamp
from fasten.wiring.ends import Bare, EndFit
from fasten.wiring.lines import CONFIRM, lines_of
from fasten.wiring.parts import MARKER
from fasten.wiring.plan import plan_of
from fasten.wiring.read import read_end
from fasten.wiring.wired import Wired, wired
from fasten.wiring.words import BatteryPost, Pole, SpliceEnd, StudEnd, TerminalEnd

from .asked import TABLES, asked


def answer(**said: str) -> Wired:
    return measured(None, None, **said)


def measured(outside_mm: float | None, conductor_mm: float | None, /, **said: str) -> Wired:
    run = replace(asked(**said), outside_mm=outside_mm, conductor_mm=conductor_mm)
    found = wired(run, TABLES)
    assert isinstance(found, Wired)
    return found


def ends(**said: str) -> dict[str, EndFit]:
    return {end.label: end for end in answer(**said).done.made.ends}


def opened(found: Wired) -> set[str]:
    return {check.id for check in found.checks if check.status is Status.NOT_CHECKED}


# -- parts -------------------------------------------------------------------------------------------------------------


def test_a_set_screw_has_a_figure_of_torque_only_where_one_is_printed() -> None:
    """Grub screws of amplifiers: 8 to 4 AWG 2 to 3 N·m, 1/0 AWG 3 to 4 N·m; nothing of any other cable."""
    printed = {"8 AWG": (2, 3), "6 AWG": (2, 3), "4 AWG": (2, 3), "25 mm2": (2, 3), "1/0 AWG": (3, 4), "50 mm2": (3, 4)}
    for cable in ("18 AWG", "10 AWG", "2 AWG", "2/0 AWG", "4/0 AWG", "35 mm2", "6 mm2", *printed):
        turn = ends(carries="5 A", length="0.8 m", cable=cable)["set screw +"].turn
        assert (turn.least_nm, turn.most_nm) == printed.get(cable, (None, None)), cable


def test_the_ground_lead_of_a_second_battery_is_at_its_minus() -> None:
    post, stud = ends(from_="stud M8", to="battery post +"), ends(from_="stud M8", to="battery stud M8")
    assert post["battery +"].part == battery_clamp(Pole.PLUS)
    assert post["battery -"].part == battery_clamp(Pole.MINUS)
    assert stud["battery -"].part == stud["battery +"].part
    assert stud["battery -"].place != stud["battery +"].place


def test_the_main_run_has_every_end_equipped() -> None:
    found = ends()
    assert list(found) == ["battery +", "fuse in", "fuse out", "set screw +", "set screw -", "body"]
    lug, sleeve = found["fuse in"], found["set screw +"]
    assert lug.part is not None
    assert (lug.part.kind, lug.part.size, lug.part.stud) == (end_kinds.TUBE_LUG, "2 AWG", "M8")
    assert (lug.strip_mm, lug.pull_n, lug.turn.whose) == (18, 801, "holder's figure")
    assert lug.shrink is not None
    assert (lug.shrink.row.size, round(lug.shrink.cut_mm, 1)) == ("19/6", 54.1), "(16 + 30)/0.85"
    assert sleeve.part is not None
    assert (sleeve.part.size, sleeve.part.colour, sleeve.strip_mm, sleeve.shrink) == ("35 mm²", "red", 20, None)
    assert (found["battery +"].turn.least_nm, found["battery +"].turn.most_nm) == (6.6, 8.5)
    assert found["body"].turn.whose == "see its mount point"


@pytest.mark.parametrize(
    ("end", "cable", "part", "size", "strip_mm"),
    [
        ("stud M6", "4 AWG", end_kinds.TUBE_LUG, "4 AWG", 12),
        ("stud M6", "16 mm2", end_kinds.TUBE_LUG, "16 mm²", 22),
        ("stud M5", "10 AWG", end_kinds.RING_TERMINAL, "to 6 mm²", 9),
        ("set screw", "18 AWG", end_kinds.END_SLEEVE, "1 mm²", 10),  # 0.75 is too tight
        ("set screw", "1/0 AWG", end_kinds.END_SLEEVE, "50 mm²", 24),
        ("set screw takes 8 AWG", "4 AWG", end_kinds.REDUCING_PIN, "4 AWG", None),
        ("set screw bore 5 mm", "4 AWG", end_kinds.REDUCING_PIN, "4 AWG", None),
        ("tab 6.3x0.8", "14 AWG", end_kinds.RECEPTACLE, "6.3x0.8", 7),
        ("butt", "14 AWG", end_kinds.BUTT_SPLICE, "to 2.5 mm²", 7),
        ("butt", "4 AWG", end_kinds.BUTT_CONNECTOR, "4 AWG", None),
        ("connector", "18 AWG", end_kinds.CONTACT, "18 AWG", None),
        ("battery post +", "4 AWG", end_kinds.BATTERY_CLAMP, "post +", None),
    ],
)
def test_an_end_gets_the_part_of_its_kind_and_cable(
    end: str, cable: str, part: end_kinds.EndKind, size: str, strip_mm: float | None
) -> None:
    found = answer(carries="1 A", to=end, cable=cable, ground="").done.made.ends[-1]
    assert found.part is not None
    assert (found.part.kind, found.part.size, found.strip_mm) == (part, size, strip_mm)


@pytest.mark.parametrize(
    ("end", "bare"),
    [
        ("clamp plate", Bare.STRAND), ("push-in", Bare.STRAND), ("bare", Bare.STRAND), ("plug 14 mm", Bare.PLUGGED),
        ("lap", Bare.SOLDERED), ("set screw bore 7.5 mm", Bare.RETIGHTENED),
    ],
)  # fmt: skip
def test_an_end_without_a_part_says_what_its_strand_comes_to(end: str, bare: Bare) -> None:
    """The sleeve of 4 AWG is 7.9 mm outside, its strand 5.9 mm."""
    found = answer(carries="1 A", to=end, cable="4 AWG", ground="").done.made.ends[-1]
    assert (found.part, found.bare) == (None, bare)


def test_the_body_stud_is_m8_from_4_awg_and_25_mm2() -> None:
    studs = {cable: answer(carries="1 A", from_="stud M6", to="body", ground="", cable=cable).done.made.ends[-1].part
             for cable in ("6 AWG", "4 AWG", "16 mm2", "25 mm2")}  # fmt: skip
    assert [part and part.stud for part in studs.values()] == ["M6", "M8", "M6", "M8"]


@pytest.mark.parametrize(
    ("text", "kind"),
    [("battery post -", BatteryPost), ("Battery Stud m8", StudEnd), ("body m6", StudEnd), ("butt", SpliceEnd),
     ("tab 4.8 x 0,5", TerminalEnd), ("set screw bore 8mm", TerminalEnd)],
)  # fmt: skip
def test_ends_are_read_however_they_are_written(text: str, kind: type) -> None:
    assert isinstance(read_end(text, TABLES, "from"), kind)


# -- heat-shrink -------------------------------------------------------------------------------------------------------


def test_the_shrink_over_a_butt_splice_is_the_strict_one() -> None:
    """A barrel of 5.5 over wire of 2.4 mm: 0.9 x 8 passes and 2/0.85 grips; 25 mm and 10 on each side make 53 mm."""
    found = splice_shrink(TABLES)
    assert (found.row.size, found.row.ratio, round(found.cut_mm)) == ("8/2", "4:1", 53)
    assert 0.9 * found.row.supplied_mm >= 5.5
    assert found.row.recovered_mm <= 0.85 * 2.4
    assert cut_mm(45, TABLES) == pytest.approx(45 / 0.85)


def test_the_series_over_lugs_leaves_no_gap_from_1_9_to_35_mm() -> None:
    rows = [row for row in TABLES.rows(HEAT_SHRINK) if row.over == "lug"]
    for tenth in range(19, 351):
        size = tenth / 10
        assert any(size <= 0.9 * row.supplied_mm and row.recovered_mm <= 0.85 * size for row in rows), size


def test_a_palm_that_does_not_pass_wants_the_shrink_on_first() -> None:
    found = answer(cable="4 AWG", insulation="105", to="stud M10", ground="").done.made.ends[-1]
    assert found.shrink is not None
    assert not found.shrink.before_crimp, "14 mm pass 17.1"
    metric = answer(cable="50 mm2", insulation="105", to="stud M8", ground="").done.made.ends[-1]
    assert metric.shrink is not None
    assert metric.shrink.before_crimp, "20 mm do not pass 17.1"
    unknown = ends()["battery +"]
    assert unknown.shrink is not None
    assert unknown.shrink.before_crimp, "no palm is known of 2 AWG M8"
    assert shrink_over(None, 10.0, 40.0, 10.0, TABLES) is None


# -- what must be confirmed --------------------------------------------------------------------------------------------


def test_what_is_from_memory_stays_open_until_it_is_measured() -> None:
    found = answer()
    assert found.to_measure == ("Own fuses of the amplifier", "Outside of the cable", "Bore of the set screw", "Palm")
    assert opened(found) == {"own-fuses.1000 W class D", "outside", "bore", "palm.M8"}
    at_hand = measured(12.0, None, to="set screw bore 9 mm", own_fuses="3 x 35 A")
    assert opened(at_hand) == {"palm.M8"}
    assert {"shrink-pass", "shrink-grip", "bore"} <= {check.id for check in at_hand.checks}
    assert not at_hand.fails


def test_a_measured_cable_that_nothing_covers_stays_open() -> None:
    assert "shrink" in opened(measured(37.0, None))


@pytest.mark.parametrize(
    ("said", "open_"),
    [
        ({"carries": "600 W class AB"}, "holder"),  # wafer fuses are of no standard
        ({"carries": "1 A", "cable": "16 AWG", "to": "tab 2.8x0.5"}, "tab.2.8x0.5"),
        ({"carries": "1 A", "cable": "4 AWG", "to": "stud M5"}, "lug.M5"),
        ({"carries": "1 A", "cable": "1/0 AWG"}, "conductor"),
        ({"carries": "250 A"}, "pull"),  # no force is published for 3/0
        ({"carries": "1 A", "cable": "3/0 AWG"}, "sleeve"),
        ({"carries": "1 A", "from": "battery post +"}, "battery-clamp"),
        ({"carries": "1 A", "where": "exhaust"}, "exhaust"),
        ({"carries": "1 A", "to": "connector"}, "connector"),
    ],
)
def test_what_nothing_is_known_of_is_a_check_that_stays_open(said: dict[str, str], open_: str) -> None:
    assert open_ in opened(answer(**said))


def test_rope_strand_takes_the_next_sleeve() -> None:
    found = measured(None, 10.4, carries="1 A", cable="1/0 AWG", ground="").done.made.ends[-1]
    assert found.part is not None
    assert found.part.size == "70 mm²"


# -- pieces and lists --------------------------------------------------------------------------------------------------


def test_the_pieces_are_the_route_with_a_bit_for_each_end() -> None:
    cuts = [(piece.colour, round(piece.cut_mm)) for piece in answer().done.made.pieces]
    assert cuts == [("red", 600), ("red", 4800), ("black", 650)]
    thin = answer(carries="5 A", ground="").done.made.pieces
    assert sum(piece.cut_mm for piece in thin) == pytest.approx(5000 + 4 * 150)
    two = answer(carries="100 A", to="battery post +", ground="").done.made.pieces
    assert [piece.route_mm for piece in two] == [400, 4200, 400]
    at_device = answer(through_device="isolator stud M8", ground="").done.made
    assert [piece.route_mm for piece in at_device.pieces] == [400, None, None]
    assert sum(piece.cut_mm for piece in at_device.pieces) == pytest.approx(5000 + 6 * 100)


def test_the_list_has_spares_trials_and_packs() -> None:
    found = answer()
    lines = {
        (line.part, line.size, line.colour): line for line in lines_of(plan_of("", found), found.done.made.ends, TABLES)
    }
    lug, sleeve, fuse = lines["lug", "2 AWG", ""], lines["wire-end sleeve", "35 mm²", "red"], lines["fuse", "125 A", ""]
    assert [(line.needed, line.spare, line.trial) for line in (lug, sleeve, fuse)] == [(4, 1, 1), (2, 5, 0), (1, 1, 0)]
    assert (lug.state, fuse.state) == (CONFIRM, "proposed")
    red, black = lines["cable", "2 AWG", "red"], lines["cable", "2 AWG", "black"]
    assert [line.cut_m for line in (red, black)] == pytest.approx([5.4, 0.65])
    assert [line.pack_m for line in (red, black)] == [6.0, 1.5]
    shrink = lines["heat-shrink", "19/6", ""]
    assert shrink.cut_m is not None
    assert (round(shrink.cut_m, 3), shrink.pack_m) == (0.216, 0.5)


# -- work --------------------------------------------------------------------------------------------------------------


def test_every_condition_and_blank_of_the_work_is_known_and_used() -> None:
    steps, cautions = TABLES.rows(RUN_STEPS), TABLES.rows(RUN_CAUTIONS)
    tools = [row for row in TABLES.rows(RUN_TOOLS) if row.of == "wire"]
    asked_for = (*(row.only_if for row in steps), *(row.only_if for row in tools), *(row.only_if for row in cautions))
    assert {name.removeprefix("not ") for names in asked_for for name in names} == set(CONDITIONS)
    texts = " ".join((*(row.text for row in steps), *(row.text for row in cautions)))
    assert {blank for blank in BLANKS if f"{{{blank}}}" in texts} == set(BLANKS)
    assert list(problems(TABLES)) == []


def test_a_row_that_names_nothing_known_or_is_out_of_order_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    first, second, *rest = TABLES.rows(RUN_STEPS)
    wrong = (second, replace(first, only_if=("not raining",)), replace(first, step=9, text="{nothing}"), *rest)
    rows = {RUN_STEPS.name: wrong}
    monkeypatch.setattr(Tables, "rows", lambda self, table: rows.get(table.name, self.table(table.name).rows))
    found = [problem.what for problem in problems(TABLES)]
    assert found[:2] == ["there is no condition 'raining'", "there is no blank 'nothing'"]
    assert set(found[2:]) == {"the row is out of order"}


@pytest.mark.parametrize(
    ("said", "caution"),
    [
        ({}, "body path"),
        ({"ground": "0.6 m"}, "long ground"),
        ({"from": "body", "to": "set screw", "length": "0.6 m", "ground": ""}, "long ground"),
        ({"cable": "4 AWG", "insulation": "105"}, "over limit"),
        ({"material": "copper-clad"}, "clad"),
        ({"where": "engine-bay"}, "engine bay"),
        ({"to": "lap"}, "solder"),
        ({"carries": "101 A"}, "battery minus"),
        ({"to": "battery post +"}, "two batteries"),
        ({"from": "stud M8"}, "start unfused"),
        ({"from": "battery post -", "to": "body", "ground": ""}, "battery sensor"),
        ({"carries": "loudspeaker 100 W 4 ohm", "from": "set screw", "ground": ""}, "tab poles"),
    ],
)
def test_a_caution_is_given_where_it_applies(said: dict[str, str], caution: str) -> None:
    plan = plan_of("", answer(**said))
    assert caution in [one.key for one in plan.cautions]
    assert plan.cautions[0].key == "airbag"
    texts = [*(step.text for step in plan.steps), *(one.text for one in plan.cautions)]
    assert not [text for text in texts if "{" in text]


@pytest.mark.parametrize(
    ("length", "count", "step"),
    [
        ("3 m", 2, "Put a marker on both ends of the run."),
        ("3.1 m", 3, "Put a marker on both ends of the run, and one in the middle."),
    ],
)
def test_as_many_markers_are_listed_as_the_step_puts_on(length: str, count: int, step: str) -> None:
    """However many pieces fuse and ground lead make of the run."""
    plan = plan_of("main power", answer(length=length))
    assert len(plan.markers) == count
    assert [need.amount for need in plan.consumables if need.names == (MARKER,)] == [count]
    assert step in [one.text for one in plan.steps]


def test_a_joint_on_the_body_has_what_makes_it_bright_and_coats_it() -> None:
    """Of a run to a mount point that is its body stud the list of that has it."""
    grease, scraper = "primer or sealing grease for the lug", "scraper or abrasive paper"
    for said, wanted in (({}, True), ({"ground": ""}, False), ({"to": "body", "from_": "stud M8", "ground": ""}, True)):
        found = wired(asked(**said), TABLES)
        assert isinstance(found, Wired)
        plan = plan_of("run", found)
        assert (grease in {need.names[0] for need in plan.consumables}) is wanted
        assert (scraper in {need.key for need in plan.tools}) is wanted


@pytest.mark.parametrize(("to", "minus", "fuses"), [
    ("battery stud M8", "minus off both batteries", "put both fuses of 125 A in"),
    ("set screw", "battery minus off", "put the 125 A fuse in"),
])  # fmt: skip
def test_between_two_batteries_both_are_off_and_both_fuses_go_in(to: str, minus: str, fuses: str) -> None:
    found = wired(asked(carries="100 A", from_="battery stud M8", to=to, length="4 m", ground="0.4 m"), TABLES)
    assert isinstance(found, Wired)
    text = " ".join(step.text for step in plan_of("run", found).steps)
    assert minus in text
    assert fuses in text
