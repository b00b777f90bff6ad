"""One whole mount point by hand: an amplifier of 6 kg on a floor of 0.8 mm steel, from its weight to its torque.

Sources: accelerations by analogy with FMVSS 207 (20 g) and common practice; forces by statics, tipping about the
centroid of the fixings; bearing in thin sheet EN 1993-1-3 table 8.4 (from memory), pull-through table 8.2; screw
EN 1993-1-8 table 3.4 (from memory) and ISO 898-1; torque T = K d F with the scatter of NASA-STD-5020B (from memory);
spin-out share, friction of painted faces and breakaway of threadlocker common practice or from memory. Strengths of
sheet and rivet nut are the tables' own, typed again. Tolerance 1e-4: the numbers are written with five figures.
"""

from functools import cache

import pytest
from built.receivers import figures

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Answer, Check, Status
from fasten.question.read import read_question
from fasten.question.resolve import resolve

ASKED = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "6kg", "fixings": "4",
    "pattern": "rectangle 240x180", "item-thickness": "3mm", "item-hole": "5.5mm", "behind": "40mm",
    "reach": "one-side", "panel": "floor", "far-side": "dry", "cg": "30mm", "edge": "60mm",
    "support": "firm",
}  # fmt: skip
CLOSE = 1e-4

# Weight: 6 x 9.80665
WEIGHT_N = 58.8399

# Service, braking on the rebound, 1 g along the floor and 2 g off it; a bump presses and pulls less.
SERVICE_SHEAR_N = 14.70998  # 58.8399 x 1 / 4
SERVICE_PULL_N = 29.41995  # 58.8399 x 2 / 4
LEVER_MM = 288.0  # 2 / sqrt(1/240^2 + 1/180^2): whichever way it tips, for the worst corner, half of 1/240 and of 1/180
SERVICE_TILT_N = 6.12916  # 58.8399 x 30 / 288
SERVICE_TENSION_N = 35.54911  # 29.41995 + 6.12916

# Hard stop forward, 20 g along the floor; upward, 10 g off it.
STOP_SHEAR_N = 294.1995  # 58.8399 x 20 / 4
STOP_TILT_N = 122.58313  # 58.8399 x 20 x 30 / 288
STOP_UP_N = 147.0998  # 58.8399 x 10 / 4

# The rivet nut: M5, hole 7, bulge 8.8, flange 10 x 1, 13 long, grip 0.5 to 3.
BEARING_N = 3235.68  # 2.5 alpha kt fu d t = 2.5 x 1 x 0.856 x 270 x 7 x 0.8; kt = (0.8 x 0.8 + 1.5) / 2.5
PULL_THROUGH_N = 1900.8  # dw t fu = 8.8 x 0.8 x 270
PULL_OVER_N = 7182.0  # the head, 11.4 x 3 x 210, aluminium
ITEM_N = (
    3937.5  # 2.5 x 0.5 x 210 x 5 x 3, 1.5 d from the item's edge assumed; EN 1999-1-4 gives 1.5 x 210 x 5 x 3 = 4725
)
THREAD_N = 11500.0
NUT_SHEAR_N = 2000.0  # a supplier's sheet of set steel nuts in thick plate, M5

# The screw: M5 of 8.8, stress area 14.2 as ISO 898-1 prints it: pi/4 x ((4.480385 + 4.018505) / 2)^2 = 14.183, with
# d2 = 5 - 0.649519 x 0.8 and d3 = 5 - 1.226869 x 0.8
PROOF_N = 8236.0  # 14.2 x 580
TENSION_N = 10224.0  # 0.9 x 800 x 14.2
SHEAR_N = 6816.0  # 0.6 x 800 x 14.2

# Torque: K 0.2, friction 0.15, scatter 0.35, kept 0.5 with a locker tightened again while wet; 1.2 against separation,
# 1.2 against slip where a locker keeps the screw from turning.
NEEDED_N = 160.33877  # 1.2 x 35.54911 + 1.2 x 14.70998 / 0.15 = 42.65893 + 117.67984
LOWER_NM = 0.493350  # 0.2 x 5 x 160.33877 / (0.65 x 0.5) / 1000
TURNS_NM = 2.0  # the least of a data sheet: it does not grow with the sheet
SPIN_OUT_NM = 1.3  # 0.65 x 2
UNDONE_NM = 1.0625  # 2 - 0.75 / 0.8: 0.8 of the torque and 0.75 of the locker under 0.8 of what turns it
SURELY_NM = 0.942217  # 1.0625 x 0.94 / 1.06, a tool off by 6 %
BREAKING_NM = 5.525  # 0.65 x 8.5
PROOF_NM = 6.177  # 0.2 x 5 x 0.75 x 8236 / 1000


# The panel: 100 N by the heel of a hand, 20 less, move it 0.3 and 0.05 mm: 80 / 0.35 / (1 + 1.43 (0.35 / 0.8)^2)
# = 228.5714 / 1.2737109 = 179.4531 N/mm, on which 6 kg sways at sqrt(179453.1 / 6) / (2 pi). It rocks no slower: the
# fixings reach 90 mm, 4 x (30 / 90)^2 is under 2. A push of the heel of a hand: common practice, errors too.
SWAYS_HZ = 27.5246
# The flange, 10 wide: 6 pi x 140 x 0.8^2 / 4 / (3 - 2 x 5 / 100), over 1.5; limit load: Hopkins and Prager
DENT_N = 97.065


BY_HAND = "M5 rivet nut, round, flat head"


@cache
def best() -> Answer:
    return advise(resolve(read_question(ASKED, builtin()), builtin()), builtin(), changes=False).answers[0]


def first() -> Answer:
    """The first answer, where it is the one that the hand calculated; else the first test says which it is."""
    if best().title != BY_HAND:
        pytest.skip(f"by hand the first is {BY_HAND}, and {best().title} is first")
    return best()


def check(identity: str) -> Check:
    return next(entry for entry in first().proposal.checks if entry.id == identity)


def test_it_is_the_rivet_nut_that_was_calculated_by_hand() -> None:
    told = f"{best().title} is first now: should it be? If so calculate this sheet anew by hand, else mend the row"
    assert best().title == BY_HAND, told
    receiver = first().proposal.joint.receiver
    assert receiver is not None
    assert (receiver.thread, receiver.length_mm, *(figures(receiver).bulge_mm, figures(receiver).flange_mm)) == (
        "M5",
        13.0,
        8.8,
        10.0,
    )
    assert first().proposal.proven


LINES = [
    ("sheet-bearing.service", SERVICE_SHEAR_N, BEARING_N / 3),
    ("sheet-bearing.hard_stop", STOP_SHEAR_N, BEARING_N / 1.25),
    ("pull-through.service", SERVICE_TENSION_N, PULL_THROUGH_N / 3),
    ("pull-through.hard_stop", STOP_UP_N, PULL_THROUGH_N / 1.25),
    ("item-pull-over.service", SERVICE_TENSION_N, PULL_OVER_N / 3),
    ("item-pull-over.hard_stop", STOP_UP_N, PULL_OVER_N / 1.25),
    ("item-bearing.service", SERVICE_SHEAR_N, ITEM_N / 3),
    ("item-bearing.hard_stop", STOP_SHEAR_N, ITEM_N / 1.25),
    ("receiver-thread.service", SERVICE_TENSION_N, THREAD_N / 1.25),
    ("receiver-thread.hard_stop", STOP_UP_N, THREAD_N / 1.25),
    ("screw-proof.service", SERVICE_TENSION_N, PROOF_N),
    ("screw-tension.hard_stop", STOP_UP_N, TENSION_N / 1.25),
    ("screw-shear.hard_stop", STOP_SHEAR_N, SHEAR_N / 1.25),
    # 14.70998 / 1078.56 + 35.54911 / 633.6 = 0.013639 + 0.056107
    ("sheet-together.service", 0.069745, 1.0),
    # forward, 294.1995 / 2588.544 + 122.5831 / 1520.64 = 0.113655 + 0.080613; upward is 0.0967
    ("sheet-together.hard_stop", 0.194268, 1.0),
    ("nut-shear.service", SERVICE_SHEAR_N, NUT_SHEAR_N / 3),
    ("nut-shear.hard_stop", STOP_SHEAR_N, NUT_SHEAR_N / 1.25),
    # forward, (294.1995 / 1600)^2 + (122.5831 / 8179.2)^2 = 0.0338106 + 0.0002246
    ("shank-together.hard_stop", 0.0340352, 1.0),
    ("torque-window", LOWER_NM, SURELY_NM),
    ("lock-breakaway", 0.75, SPIN_OUT_NM),  # 6 x (5/10)^3
    ("space-behind", 15.5, 40.0),  # 13 + 2.5 of mandrel
    ("edge-distance", 14.0, 60.0),  # 2 x 7
    ("spacing", 21.0, 180.0),  # 3 x 7
    ("jacking-out", 6.5, 10.0),  # 5.5 + 1
    ("head-cover", 6.5, 11.4),
    ("grip-min", 0.5, 0.8),
    ("grip-max", 0.8, 3.0),
    ("removals", 10, 600),
    ("hole", 0.0, 0.1),
    ("panel-stiffness", 25.0, SWAYS_HZ),
    ("dent.service", SERVICE_TENSION_N, DENT_N),
]


@pytest.mark.parametrize(("identity", "demand", "allowable"), LINES)
def test_each_line_of_the_proof_is_that_of_the_hand(identity: str, demand: float, allowable: float) -> None:
    found = check(identity)
    assert found.status is Status.HOLDS
    assert found.demand == pytest.approx(demand, rel=CLOSE)
    assert found.allowable == pytest.approx(allowable, rel=CLOSE)
    assert found.utilisation == pytest.approx(demand / allowable, rel=2 * CLOSE)


def test_the_hand_left_no_line_of_the_proof_out() -> None:
    assert {identity for identity, _, _ in LINES} == {entry.id for entry in first().proposal.checks}


def test_the_weight_and_the_forces_follow_from_one_another() -> None:
    """The hand against itself, so that a slip of typing shows."""
    assert pytest.approx(6 * 9.80665, rel=1e-6) == WEIGHT_N
    assert pytest.approx(SERVICE_PULL_N + SERVICE_TILT_N, rel=1e-6) == SERVICE_TENSION_N
    assert pytest.approx(1.2 * SERVICE_TENSION_N + 1.2 * SERVICE_SHEAR_N / 0.15, rel=1e-6) == NEEDED_N


def test_the_torque_is_that_of_the_hand() -> None:
    torque = first().proposal.torque
    assert torque is not None
    assert torque.min_nm == pytest.approx(LOWER_NM, rel=CLOSE)
    assert torque.max_nm == pytest.approx(UNDONE_NM, rel=CLOSE)
    assert torque.target_nm == pytest.approx(1.002358, rel=CLOSE)  # 1.0625 / 1.06
    assert min(BREAKING_NM, PROOF_NM, SPIN_OUT_NM) > UNDONE_NM, "it is undone before body, thread or screw gives"
    assert torque.limited_by == "loosening with threadlocker"
    assert torque.target_inlbf == pytest.approx(8.87162, rel=CLOSE)  # 1.002358 x 8.85075
    # 1 - (35.54911 + 14.70998 / 0.15) / (0.65 x 1000 x 1.002358 / (0.2 x 5)) = 1 - 133.61564 / 651.5327
    assert torque.clamp_reserve == pytest.approx(0.794921, rel=CLOSE)


def test_the_screw_is_as_long_as_the_hand_says() -> None:
    """Over the sheet 3 + 1; the body set is 13 - (3 - 0.8) - 2 = 8.8 long; one pitch past it:
    4 + 8.8 + 0.8 = 13.6, of which 16 is the next length of first choice. Behind the sheet 16 - 4 - 0.8.
    """
    joint = first().proposal.joint
    assert joint.screw is not None
    assert joint.screw.length_mm == 16.0
    assert joint.screw.protrusion_mm == pytest.approx(16 - 4 - 8.8)
    assert joint.behind_done_mm == pytest.approx(11.2)
    assert joint.behind_set_mm == pytest.approx(15.5)
