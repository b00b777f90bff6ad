"""Jobs of many kinds of mount point that the tests of the job share. Invented vehicles, nobody's."""

from random import Random

from fasten.catalog.tables import builtin
from fasten.job.choices import choices
from fasten.job.list.hardware import hardware
from fasten.job.list.lists import HardwareList
from fasten.job.words import Job, Mount, Shelf, ShelfPart

# One question that ends in each of many methods; what a test does not care about is left to the presets.
SAID: dict[str, dict[str, str]] = {
    "amp": {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "behind": "40mm", "edge": "30mm",
            "support": "firm"},
    "rack": {"item": "equipment board", "onto": "mdf 18 mm", "removed": "yearly", "behind": "60mm", "edge": "40mm"},
    "speaker": {
        "item": "speaker", "onto": "mdf 18 mm", "removed": "yearly", "edge": "30mm", "between": "foam 3 mm",
        "pattern": "circle 165 mm", "fixings": "4",
    },
    "crossover": {"item": "crossover", "onto": "abs 3 mm", "removed": "rarely", "boss": "10x20mm", "edge": "30mm"},
    "box": {
        "item": "enclosure", "onto": "steel floor", "removed": "yearly", "behind": "60mm", "edge": "50mm",
        "reach": "both-sides", "support": "frame",
    },
    "trim": {"item": "trim panel", "onto": "steel 0.8 mm", "removed": "never", "behind": "40mm", "edge": "20mm"},
    "bracket": {"item": "amplifier", "onto": "aluminium 5 mm", "removed": "yearly", "behind": "40mm", "edge": "30mm"},
    "fuse": {"item": "fuse holder", "onto": "steel 1.5 mm", "removed": "rarely", "behind": "40mm", "edge": "30mm"},
    "seen": {"item": "processor", "onto": "steel 1 mm", "removed": "monthly", "behind": "30mm", "visible": "yes"},
    "adapter": {"item": "speaker adapter", "onto": "steel door", "removed": "yearly", "behind": "50mm", "edge": "15mm"},
    "cover": {
        "item": "trim panel", "onto": "steel 0.8 mm", "removed": "yearly", "behind": "40mm", "edge": "20mm",
        "mass": "0.6kg", "item-hole": "6.6mm",
    },
    "stud": {"item": "amplifier", "onto": "steel 1.5 mm", "removed": "yearly", "hole-there": "M6 stud",
             "item-hole": "6.6mm"},
    "weld": {"item": "amplifier", "onto": "steel 1.5 mm", "removed": "yearly", "hole-there": "M6", "behind": "40mm",
             "item-hole": "6.6mm"},
    "lug": {"item": "ground lug", "onto": "steel 1.5 mm", "removed": "yearly", "behind": "40mm", "edge": "30mm",
            "reach": "both-sides"},
    "cable": {"item": "wire clamp", "onto": "steel 1 mm", "removed": "rarely", "behind": "40mm", "edge": "30mm",
              "run": "1.2 m"},
}  # fmt: skip
UNFIT = {"item": "enclosure", "onto": "abs 2 mm", "removed": "weekly"}


def mount(name: str, **said: str) -> Mount:
    """A mount point of one of the questions above, whose first word is its name, with what is said otherwise."""
    fields = SAID[name.split(maxsplit=1)[0]] | {key.replace("_", "-"): text for key, text in said.items()}
    return Mount(name, tuple(fields.items()))


def job(*mounts: Mount) -> Job:
    return Job("Estate", "blue estate", "", mounts)


def random_mounts(seed: int, count: int) -> tuple[Mount, ...]:
    """So many mount points that differ in what is asked, some of them alike but for their names."""
    random = Random(seed)
    found = []
    for number in range(count):
        name = random.choice(tuple(SAID))
        more = random.choice(({}, {"removed": "never"}, {"reach": "both-sides"}, {"visible": "yes"}, {"mass": "0.4kg"}))
        if name in {"amp", "fuse", "seen"} and random.random() < 0.5:
            more = more | {"onto": random.choice(("steel 0.7 mm", "steel 1.2 mm", "aluminium 2 mm", "plywood 15 mm"))}
        found.append(mount(f"{name} {number}", **more))
    return tuple(found)


def list_of(asked: Job, against: Shelf | None = None) -> HardwareList:
    return hardware(asked, choices(asked, builtin()), against, builtin())


def shelf(
    *parts: ShelfPart, bits: tuple[str, ...] = (), tools: tuple[str, ...] = (), consumables: tuple[str, ...] = ()
) -> Shelf:
    return Shelf("Van", "EUR", "", parts, bits, tools, consumables)
