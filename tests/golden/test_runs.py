"""Thirty runs of cable as a table to be read: cable, fuse, drop and what is open. FASTEN_REWRITE=1 writes it anew."""

import os
from pathlib import Path

from built.asked_runs import FEED, RUNS

from fasten.catalog.tables import builtin
from fasten.model import Status
from fasten.report.wire.as_text import open_titles
from fasten.text.figures import figure
from fasten.text.rounding import rounded_down, rounded_up
from fasten.wiring.fields import read_run
from fasten.wiring.resolve import resolve
from fasten.wiring.sizing import NoSize
from fasten.wiring.wired import Wired, wired

TABLE = Path(__file__).with_name("runs.md")
HEAD = """# Runs of cable

Thirty runs as they are asked for: cable, fuse, voltage drop of its limit, and what is still to be measured. From a
battery stud M8 to a set screw unless it says otherwise. `!` is a check that fails, `no` a run that nothing does for.

| asked | cable | fuse | drop | open |
|---|---|---|---|---|
"""


def row(said: dict[str, str]) -> str:
    fields = FEED | said
    system_v = int(fields.pop("system", "12 V").split()[0])
    found = wired(resolve(read_run(fields, builtin(), system_v), builtin()), builtin())
    shown = {name: text for name, text in said.items() if name != "ground"}
    asked = ", ".join(text if name == "carries" else f"{name} {text}" for name, text in shown.items())
    if isinstance(found, NoSize):
        return f"| {asked} | no | | | {found.because} |"
    return f"| {asked} | {' | '.join(cells(found))} |"


def cells(found: Wired) -> tuple[str, str, str, str]:
    sizing = found.sizing
    one, wire = sizing.fuse, sizing.conductor
    fuse = "" if one is None else f"{one.count} x {figure(one.rating_a)} A {one.family.family}"
    drop = "" if wire is None else f"{rounded_up(wire.drop_v, 3)} of {rounded_down(sizing.run.limit_v, 3)} V"
    lead = "" if sizing.lead is None else f"{rounded_up(sizing.lead.share_of_z_pct, 1)} % of Z"
    failing = [f"! {check.id}" for check in found.checks if check.status is Status.FAILS]
    return sizing.size.name, fuse, lead or drop, ", ".join((*failing, *(title.lower() for title in open_titles(found))))


def test_thirty_runs_are_answered_as_they_were_read() -> None:
    assert len(RUNS) == 30
    text = HEAD + "\n".join(map(row, RUNS)) + "\n"
    if os.environ.get("FASTEN_REWRITE"):
        TABLE.write_text(text, encoding="utf-8")
    assert TABLE.read_text(encoding="utf-8") == text
