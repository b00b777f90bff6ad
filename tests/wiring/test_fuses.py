"""The kinds of fuse: which is taken for which cable, and what the leads of its holder must take."""

from fasten.model import Status
from fasten.wiring.plan import plan_of

from .test_ends import answer


def cautions(**said: str) -> str:
    found = answer(**said)
    return " ".join(one.text for one in plan_of("", found).cautions)


def test_a_fuse_that_is_for_the_cable_alone_says_so() -> None:
    """5 A want 6.25 A: of ISO 8820-3 C that is 7.5 A. No blade goes on 4 AWG, and strips begin at 60 A."""
    for cable, family, rating in (("8 AWG", "blade", 7.5), ("4 AWG", "wafer", 20), ("2 AWG", "SF51", 60)):
        said = {"carries": "5 A", "length": "1 m", "cable": cable}
        fuse = answer(**said).sizing.fuse
        assert fuse is not None
        assert (fuse.family.family, fuse.rating_a) == (family, rating)
        assert ("7.5 A would do for the current" in cautions(**said)) == (family != "blade")


def test_a_fuse_by_the_current_says_nothing_of_another() -> None:
    assert "for the cable alone" not in cautions()
    assert "for the cable alone" not in cautions(carries="5 A", length="1 m", cable="2 AWG", holder="SF51")


def test_the_leads_of_a_blade_holder_are_seen_against_the_splice() -> None:
    """As sold 2.5 to 6 mm²; a red splice takes 1, a blue one 2.5, a yellow one 6 mm², and no thinner lead."""
    for amps, cable, takes in ((5, "18 AWG", "1 mm²"), (10, "14 AWG", "2.5 mm²"), (20, "10 AWG", "6 mm²")):
        found = answer(carries=f"{amps} A", length="0.5 m", cable=cable, insulation="105 C", to="stud M6")
        line = next(check for check in found.checks if check.id == "holder")
        assert line.status is Status.NOT_CHECKED
        assert "2.5 to 6 mm²" in (line.needs or "")
        assert f"up to {takes}" in (line.needs or "")
