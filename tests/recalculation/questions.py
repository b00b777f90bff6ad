"""Random questions, the same every run, and what the program answers in JSON: all that is known of it here."""

import json
import random
from functools import cache
from typing import Any

from built.few import few

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.model import MountPoint
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_json import advice_json
from fasten.report.plain import json_text

SEED, QUESTIONS = 77, few(240, 72)

_ITEMS = (
    "amplifier", "signal-processor", "crossover", "speaker-adapter", "speaker", "trim-panel", "enclosure",
    "equipment-board", "fuse-holder", "distribution-block", "wire-clamp", "ground-lug",
)  # fmt: skip
_LIGHT = ("crossover", "trim-panel", "fuse-holder", "distribution-block", "wire-clamp", "signal-processor")
_ONTO = {
    "sheet": (
        ("steel", "galvanised steel", "stainless steel", "aluminium"),
        ("0.7 mm", "0.8 mm", "1 mm", "1.2 mm", "1.5 mm", "2 mm"),
    ),
    "plate": (("steel plate", "aluminium"), ("3 mm", "4 mm", "5 mm", "6 mm")),
    "place": (("steel",), ("floor", "seat-back", "door", "side", "roof", "wheel-arch")),
    "board": (
        ("mdf", "particleboard", "plywood", "birch plywood", "OSB"),
        ("12 mm", "15 mm", "18 mm", "22 mm", "25 mm"),
    ),
    "wood": (("pine", "hardwood"), ("18 mm", "25 mm", "30 mm")),
    "plastic": (("abs", "pp", "hdpe", "pc", "pa", "acrylic", "pvc foam"), ("2.5 mm", "3 mm", "4 mm", "6 mm", "10 mm")),
    "laminate": (("fibreglass",), ("2 mm", "3 mm", "5 mm")),
}
_PATTERNS = (
    ("4", "rectangle 200x120"), ("6", "rectangle 300x200"), ("8", "rectangle 160x160"), ("4", "circle 140"),
    ("6", "circle 165"), ("3", "circle 100"), ("2", "row 80"), ("3", "row 120"), ("4", "row 150"),
)  # fmt: skip
# Some of what chance seldom brings: a stud that is there, an insert in the edge of a board, rings without their cable.
_ALWAYS: tuple[dict[str, str], ...] = (
    {
        "item": "crossover", "onto": "steel seat-back", "removed": "never", "reach": "both-sides", "behind": "20 mm",
        "edge": "12 mm", "panel": "side", "mass": "0.3 kg", "item-hole": "6.6 mm", "hole-there": "M6 stud",
    },
    {
        "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "reach": "both-sides", "behind": "40 mm",
        "edge": "40 mm", "panel": "floor", "hole-there": "9 mm", "item-hole": "5.5 mm",
        "holes-at": "points 0,0 240,0 239.8,180.1 0.1,180",
    },
    {
        "item": "signal-processor", "onto": "hardwood 25 mm", "removed": "rarely", "reach": "one-side",
        "panel": "roof", "into": "edge",
    },
    {
        "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "reach": "one-side", "behind": "40 mm",
        "edge": "40 mm", "mass": "5 kg", "support": "push 100 N 0.5 mm", "panel": "floor",
    },
    {
        "item": "ground-lug", "onto": "steel 0.8 mm", "removed": "rarely", "ring": "M6", "rings": "2", "edge": "30 mm",
    },
    {"item": "speaker-adapter", "onto": "steel 0.8 mm", "removed": "rarely", "between": "foam 2 mm", "panel": "door"},
    *(
        {"item": "ground-lug", "onto": f"steel {sheet} mm", "removed": "rarely", "cable": cable, "current": "90 A",
         "edge": "60 mm", "behind": "60 mm", "reach": reach}
        for sheet, cable, reach in (("0.8", "16 mm2", "one-side"), ("1.2", "25 mm2", "both-sides"),
                                    ("1.2", "1/0 AWG", "one-side"))
    ),
)  # fmt: skip
# Each way to say what stiffens the panel that comes to a figure, on what it is said of.
_SUPPORTS = {
    "sheet": (
        "frame", "firm", "push 150 N 0.25 mm", "push 60 N 0.4 mm, 150 N 0.85 mm", "tapped 31 Hz", "bay 300x500",
        "bay 260x300", "ribs 8 mm",
    ),
    "board": ("span 400 mm", "firm", "push 400 N 0.5 mm"),
}  # fmt: skip
# How often a field is said, and what may be said there.
_SOMETIMES: dict[str, tuple[float, tuple[str, ...]]] = {
    "behind": (0.7, ("10 mm", "20 mm", "30 mm", "50 mm", "80 mm")),
    "edge": (0.8, ("8 mm", "10 mm", "12 mm", "20 mm", "30 mm", "40 mm", "60 mm")),
    "panel": (0.6, ("floor", "seat-back", "side", "roof", "door")),
    "between": (0.2, ("foam 3 mm", "foam 2 mm", "carpet 12 mm, deadener 2 mm", "mat 3 mm", "foam 6 mm")),
    "where": (0.4, ("cabin", "door", "underfloor")),
    "visible": (0.2, ("yes",)),
    "mass": (0.3, ("0.1 kg", "0.3 kg", "0.8 kg", "2 kg", "4 kg", "8 kg")),
    "cg": (0.25, ("15 mm", "25 mm", "40 mm", "90 mm")),
    "grade": (0.3, ("4.8", "5.8", "8.8", "10.9", "A2-70")),
    "item-thickness": (0.3, ("1.5 mm", "2 mm", "4 mm", "6 mm", "12 mm")),
    "item-hole": (0.3, ("4 mm", "4.5 mm", "5.5 mm", "6.6 mm", "9 mm")),
    "item-material": (0.3, ("steel", "aluminium", "abs", "mdf", "plywood", "stainless steel", "pine", "fibreglass")),
    "case": (0.15, ("ambulance", "road", "hard-stop")),
    "hole-there": (0.1, ("5.1 mm", "6.2 mm", "M6", "M6 stud", "M5", "M8 stud", "8.1 mm")),
    "carries": (0.08, ("amplifier 2 kg", "fuse-holder, crossover 0.5 kg")),
}


def _random_question(chance: random.Random) -> dict[str, str]:
    kind = chance.choice(list(_ONTO))
    material, size = (chance.choice(choices) for choices in _ONTO[kind])
    said = {"item": chance.choice(_ITEMS), "onto": f"{material} {size}"}
    said["removed"] = chance.choice(("never", "rarely", "rarely", "yearly", "monthly", "weekly"))
    said["reach"] = chance.choice(("one-side", "both-sides"))
    said |= {name: chance.choice(texts) for name, (odds, texts) in _SOMETIMES.items() if chance.random() < odds}
    if kind in ("board", "wood") and chance.random() < 0.25:
        said["into"] = "edge"
    if kind == "plastic" and chance.random() < 0.7:
        said["boss"] = chance.choice(("8x14 mm", "10x16 mm", "12x20 mm", "9x12 mm"))
    if chance.random() < 0.3:
        said["fixings"], said["pattern"] = chance.choice(_PATTERNS)
    elif chance.random() < 0.08:
        said["fixings"] = "1"
    if supports := _SUPPORTS.get(kind):
        said |= _supported(said, supports)
    return said


def _supported(said: dict[str, str], supports: tuple[str, ...]) -> dict[str, str]:
    """A support for half of them; drawn by what they say, so that the questions after it are the same without it."""
    chance = random.Random(repr(sorted(said.items())))
    return {"support": chance.choice(supports)} if chance.random() < 0.5 else {}


def _rarer(chance: random.Random, at: int) -> dict[str, str]:
    """Questions that the rarer methods answer."""
    item, removed = chance.choice(_LIGHT), chance.choice(("never", "rarely"))
    plastic = {"onto": f"{chance.choice(('abs', 'pp', 'pc', 'pa'))} 3 mm", "boss": "12x20 mm", "edge": "40 mm"}
    metal = f"{chance.choice(('steel', 'galvanised steel', 'aluminium'))} {chance.choice(('1 mm', '1.5 mm', '2 mm'))}"
    recipes: tuple[dict[str, str], ...] = (
        plastic | {"removed": removed, "item-hole": chance.choice(("3.4 mm", "4.5 mm")), "mass": "0.3 kg"},
        plastic | {"removed": "yearly", "item-hole": chance.choice(("3.4 mm", "4.5 mm")), "mass": "0.3 kg"},
        {
            "onto": metal,
            "removed": "never",
            "edge": "30 mm",
            "behind": "30 mm",
            "mass": "0.2 kg",
            "item-hole": "4.9 mm",
        },
        {"onto": metal, "removed": "rarely", "edge": chance.choice(("9 mm", "10 mm", "11 mm")), "behind": "30 mm"},
        {"onto": "plywood 18 mm", "removed": "monthly", "reach": "both-sides", "behind": "60 mm", "edge": "60 mm"},
        {"onto": metal, "removed": removed, "hole-there": chance.choice(("M5", "M6", "M6 stud"))},
    )
    panel = chance.choice(("floor", "side", "roof"))
    return {"item": item, "reach": "one-side", "panel": panel} | recipes[at % len(recipes)]


def any_question(number: int) -> dict[str, str]:
    """One of endlessly many questions, the same for the same number."""
    chance = random.Random(number)
    said = _random_question(chance) if number % 3 else _rarer(chance, number // 3)
    least = ("behind", "edge") if number % 5 == 4 else ()  # of these as much is known, and there may be more
    return said | {name: f"at least {said[name]}" for name in least if name in said}


@cache
def any_mounts(count: int) -> tuple[MountPoint, ...]:
    """The mount points of the first so many of them, without those whose question is refused."""
    return tuple(filter(None, (_mount_of(any_question(number)) for number in range(count))))


def _mount_of(said: dict[str, str]) -> MountPoint | None:
    """The mount point of a question; None where that is refused, as a stud for two fixings is."""
    try:
        return resolve(read_question(said, builtin()), builtin())
    except FastenError:
        return None


@cache
def answered() -> tuple[tuple[dict[str, str], dict[str, Any]], ...]:
    """Each question that could be read, with its advice as it comes back from JSON text."""
    chance = random.Random(SEED)
    asked = [_random_question(chance) if at % 3 else _rarer(chance, at // 3) for at in range(QUESTIONS)]
    return tuple((said, advice) for said in [*asked, *_ALWAYS] if (advice := ask(said)) is not None)


def ask(said: dict[str, str]) -> dict[str, Any] | None:
    """The advice as JSON; nothing where the question itself is refused."""
    mount = _mount_of(said)
    if mount is None:
        return None
    advice: dict[str, Any] = json.loads(json_text(advice_json(advise(mount, builtin()))))
    return advice
