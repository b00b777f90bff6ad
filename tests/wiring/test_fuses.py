"""The kinds of fuse: which is taken for which cable, and what the leads of its holder must take."""

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
