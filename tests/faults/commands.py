"""Every command that writes or reads a file, in a folder that has what it needs."""

import os
from collections.abc import Callable
from pathlib import Path

from fasten.job.store.storage import save_job, save_shelf
from fasten.job.words import Job, Mount, Shelf

ROOT = Path(__file__).parents[2]
AMP = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"), ("behind", "40 mm"), ("edge", "40 mm"))
COVER = (("item", "trim-panel"), ("onto", "MDF 18 mm"), ("removed", "monthly"), ("edge", "40 mm"))
JOB = Job("Estate", "", "", (Mount("amp", AMP), Mount("cover", COVER)))
ASKED = ("amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly")
# Each writes into the folder `car`; those of a job that is there change it.
INTO_JOB = {
    "pick": ("pick", *ASKED, "--into-job", "car/job.toml", "--name", "other amp"),
    "built": ("built", "car/job.toml", "amp", "--kind", "off"),
    "instead": ("instead", "car/job.toml", "amp", "--length", "20mm", "--pin"),
    "fewest": ("fewest", "car/job.toml", "--keep"),
    "gauge": ("gauge", "car/job.toml", "--tick", "all"),
}
OVER = {
    f"{words[0]} over a file": (*words, "--force", "--out", "car/old")
    for words in (("hardware", "job.toml"), ("work", "job.toml"), ("template", "job.toml", "amp"))
}
ANEW = {
    "pick, a new job": ("pick", *ASKED, "--into-job", "car/new.toml", "--name", "amp"),
    "hardware": ("hardware", "job.toml", "--format", "csv", "--out", "car/new.csv"),
    "work": ("work", "job.toml", "--json", "--out", "car/new.json"),
    "template": ("template", "job.toml", "amp", "--out", "car"),
    "demo": ("demo", "--copy", "car/demo"),
}
WRITING = INTO_JOB | OVER | ANEW
READING = {
    "pick": ("pick", *ASKED, "--name", "other amp", "--into-job"),
    "built": ("built", "--kind=off", "--", "FILE", "amp"),
    "instead": ("instead", "--length", "20mm", "FILE", "amp"), "fewest": ("fewest",), "hardware": ("hardware",),
    "ready": ("ready",), "gauge": ("gauge",), "work": ("work",), "template": ("template", "FILE", "amp"),
    "a shelf": ("ready", "job.toml", "--shelf"), "a shelf to pick from": ("pick", *ASKED, "--shelf"),
}  # fmt: skip
Told = Callable[[tuple[str, ...]], str]


def filled(folder: Path) -> Path:
    """A folder to stand in, with a job of its own, and jobs and documents in the folder `car`."""
    (folder / "car").mkdir()
    for path in (folder / "job.toml", folder / "car" / "job.toml"):
        save_job(JOB, path)
    save_shelf(Shelf("", "", "", (), ("5 mm",), (), ()), folder / "shelf.toml")
    (folder / "car" / "old").write_text("an older document\n", encoding="utf-8")
    return folder


def environment(**more: str) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if name not in ("PYTHONUNBUFFERED", "FASTEN_DEBUG")}
    return kept | {"FASTEN_TABLES": str(ROOT / "no-such-folder"), "PYTHONPATH": str(ROOT)} | more
