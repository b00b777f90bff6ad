"""A measuring pass as JSON, to be read: keys are only ever added. FASTEN_REWRITE=1 writes it anew."""

import os
from pathlib import Path

import pytest

from fasten.catalog.tables import builtin
from fasten.job.gauge.gauge import measuring_pass
from fasten.job.words import Job, Mount
from fasten.report.job.gauge import gauge_json
from fasten.report.plain import json_text

pytestmark = pytest.mark.slow

FILE = Path(__file__).with_name("gauge.json")
MOUNTS = {
    "left amplifier": {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "panel": "floor"},
    "left crossover": {"item": "crossover", "onto": "plywood 18 mm", "removed": "rarely", "panel": "floor"},
    "measured": {
        "item": "crossover", "onto": "plywood 18 mm", "removed": "rarely", "panel": "floor", "edge": "at least 18 mm",
        "item-hole": "4.5 mm",
    },
    "enclosure": {"item": "enclosure", "onto": "steel floor", "removed": "rarely"},
}  # fmt: skip


def test_the_json_of_a_measuring_pass() -> None:
    job = Job("Estate", "blue estate", "", tuple(Mount(name, tuple(said.items())) for name, said in MOUNTS.items()))
    text = f"{json_text(gauge_json(measuring_pass(job, builtin())))}\n"
    if os.environ.get("FASTEN_REWRITE"):
        FILE.write_text(text, encoding="utf-8")
    assert text == FILE.read_text(encoding="utf-8")
