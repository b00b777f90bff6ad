"""Which loudspeakers the leads of an amplifier are proposed to, by the sides that their names say."""

from dataclasses import replace

from fasten.job.wiring.recorded import with_electrics
from fasten.job.words import CableRun, Mount

from .test_proposals import BARE, SAID, offered
from .test_runs import ON, TABLES


def test_an_amplifier_leads_to_the_other_side_where_no_other_has_outputs_for_that() -> None:
    """One of four outputs called right drives all four doors; beside one on the left it drives its own two."""
    four, mono = ("outputs", "4 x 75 W 4 ohm"), ("outputs", "1 x 500 W 2 ohm")
    doors = tuple(
        Mount(f"{at} {side} door driver", (("item", "speaker"), *ON))
        for at in ("front", "rear") for side in ("left", "right")
    )  # fmt: skip

    def led(*left: tuple[str, str]) -> set[str]:
        amps = (
            Mount("left amplifier", (("item", "amplifier"), *ON, *left)),
            Mount("right amplifier", (("item", "amplifier"), *ON, four)),
        )
        job = with_electrics(replace(BARE, mounts=(*amps, *doors)), SAID, TABLES)
        said = (dict(one.run.said) for one in offered(job) if one.run.name.startswith("right amplifier lead"))
        return {run["to"] for run in said}

    every = {one.name for one in doors}
    assert led() == led(mono) == every
    assert led(four) == {name for name in every if "right" in name} | {"loudspeaker"}


def test_an_amplifier_with_more_leads_than_outputs_holds_no_loudspeaker_back_from_another() -> None:
    two = ("outputs", "2 x 75 W 4 ohm")
    amps = tuple(Mount(name, (("item", "amplifier"), *ON, two)) for name in ("front", "rear"))
    doors = tuple(Mount(f"door {at}", (("item", "speaker"), *ON)) for at in range(1, 4))
    lead = ("from", "front"), ("to", "loudspeaker"), ("length", "3 m"), ("carries", "loudspeaker 75 W 4 ohm")
    leads = tuple(CableRun(f"front lead {at}", lead) for at in range(1, 4))
    job = with_electrics(replace(BARE, mounts=(*amps, *doors), runs=leads), SAID, TABLES)
    ends = {one.run.name: dict(one.run.said)["to"] for one in offered(job) if " lead " in one.run.name}
    assert ends == {"rear lead 1": "door 1", "rear lead 2": "door 2"}
