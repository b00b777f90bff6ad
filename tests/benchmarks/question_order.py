"""In which order questions decide an answer: writes the column `asks` of `catalogs/items.toml` anew. By hand.

Mounts are drawn at random, each with true values that are hidden at first. Of the fields that are not known yet, the
one is asked next whose true value brings the most mounts to the answer that all true values give; where two do the
same, the one that was asked first before. An item is not asked what it cannot have.

    .venv/bin/python tests/benchmarks/question_order.py [--mounts 90] [--seed 1] [--write]
"""

import argparse
import random
import re
from pathlib import Path

from fasten.advice.advise import advise
from fasten.catalog.materials import ITEMS, Item
from fasten.catalog.tables import Tables, builtin, shipped_folder
from fasten.errors import FastenError
from fasten.model import Advice
from fasten.question.read import read_question
from fasten.question.resolve import resolve

FIELDS = ("item-hole", "reach", "item-thickness", "mass", "between", "where", "panel")
SHEETS = ("steel 0.7 mm", "steel 0.8 mm", "steel 1 mm", "steel 1.2 mm", "steel 1.5 mm")
BOARDS = ("mdf 18 mm", "plywood 12 mm", "plywood 18 mm")
OF_CABLE = ("fuse-holder", "wire-clamp", "ground-lug")
ON_PLASTIC = ("speaker", "tweeter", "crossover", "trim-panel")
Said = dict[str, str]


def main() -> None:
    """Print the order with the share of mounts that are in place after each question; write it where that is said."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--mounts", type=int, default=90)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--write", action="store_true")
    args = parser.parse_args()
    tables, draw = builtin(), random.Random(args.seed)
    rows = tables.rows(ITEMS)
    drawn = [_drawn(rows[number % len(rows)], draw) for number in range(args.mounts)]
    order = _order(drawn, tables)
    if args.write:
        _write(order, tables)


def _drawn(item: Item, draw: random.Random) -> tuple[Said, Said]:
    """What is known of a mount at first, and its hidden true values."""
    plastic = ("abs 3 mm",) if item.item in ON_PLASTIC else ()
    known = {
        "item": item.item, "onto": draw.choice((*SHEETS, *BOARDS, *plastic)),
        "removed": draw.choice(("rarely", "yearly", "monthly")),
    }  # fmt: skip
    holes = [hole for hole in (3.5, 4.5, 5.5, 6.6, 9.0) if 0.6 <= hole / item.hole_mm <= 1.5]
    truth = {
        "item-hole": f"{draw.choice(holes)} mm", "reach": draw.choice(("one-side", "one-side", "both-sides")),
        "item-thickness": f"{round(item.thickness_mm * draw.uniform(0.5, 2.0), 1)} mm",
        "mass": f"{round(item.mass_kg * draw.uniform(0.4, 2.0), 2)} kg",
        "between": draw.choice(("", "", "", "", "", "foam 3 mm", "carpet 8 mm")),
        "where": draw.choice(_places(item)),
        "panel": draw.choice(("floor", "side", "door", "seat-back")),
    }  # fmt: skip
    return known, truth


def _places(item: Item) -> tuple[str, ...]:
    """Where an item is, as often as it is there: mostly in the cabin, and only what is of cable under the bonnet."""
    is_of_cable = item.item in OF_CABLE
    return (*("cabin",) * 12, "door", "underfloor", *(("engine-bay",) * 2 if is_of_cable else ()))


def _order(drawn: list[tuple[Said, Said]], tables: Tables) -> tuple[str, ...]:
    final = [_first(known | truth, tables) for known, truth in drawn]
    order: list[str] = []
    while len(order) < len(FIELDS):
        shares = {name: _in_place(drawn, [*order, name], final, tables) for name in FIELDS if name not in order}
        best = max(shares, key=lambda name: (shares[name], -FIELDS.index(name)))
        order.append(best)
        print(f"{best:16}{shares[best]:4.0%}", flush=True)
    return tuple(order)


def _in_place(drawn: list[tuple[Said, Said]], asked: list[str], final: list[str], tables: Tables) -> float:
    """The share of mounts whose first answer is the final one once these fields are known."""
    found = (
        _first(known | {name: truth[name] for name in asked}, tables) == last
        for (known, truth), last in zip(drawn, final, strict=True)
    )
    return sum(found) / len(drawn)


_known: dict[tuple[tuple[str, str], ...], str] = {}


def _first(said: Said, tables: Tables) -> str:
    """The first answer by its hardware; why there is none where the question cannot be, or nothing fits."""
    key = tuple(sorted(said.items()))
    if key not in _known:
        _known[key] = _answered(said, tables)
    return _known[key]


def _answered(said: Said, tables: Tables) -> str:
    try:
        asked = {name: text for name, text in said.items() if text}
        advice: Advice = advise(resolve(read_question(asked, tables), tables), tables, changes=False)
    except FastenError as error:
        return f"refused: {error.where}"
    if not advice.answers:
        return "nothing"
    first = advice.answers[0]
    screw = first.proposal.joint.screw
    return f"{first.title} {'' if screw is None else screw.length_mm}"


def _may_ask(item: Item, name: str, tables: Tables) -> bool:
    """Whether an item can have anything in a field: a ground lug has no soft layer under it."""
    draws = (_drawn(item, random.Random(seed)) for seed in range(8))
    tried = [known | {name: truth[name]} for known, truth in draws if truth[name]]
    return any(_first(said, tables) != f"refused: {name}" for said in tried)


def _write(order: tuple[str, ...], tables: Tables) -> None:
    path = Path(shipped_folder()) / "items.toml"
    text = path.read_text(encoding="utf-8")
    for item in tables.rows(ITEMS):
        asks = ", ".join(f'"{name}"' for name in order if _may_ask(item, name, tables))
        text = re.sub(rf'(?m)^( *\["{re.escape(item.item)}", .*?)\["[^]]*\](, +"[^"]+"\],?)$', rf"\1[{asks}]\2", text)
    path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
