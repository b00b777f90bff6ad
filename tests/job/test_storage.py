"""Job and shelf files: opened, saved, opened again."""

from pathlib import Path

from fasten.catalog.tables import builtin
from fasten.job.storage import load_job, load_shelf, save_job, save_shelf
from fasten.job.words import Built, Job, Mount, Part, Pin, Shelf, ShelfPart

SAID = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"), ("item-thickness", "1/8 in"))
PIN = Pin("rivet_nut", "M6", "hexagon", 15.5, 20.0)
BUILT = Built("2024-05-01", "9.1 mm", "hexagon body", "5 N·m", "")
JOB = Job("Estate", "blue estate", "first line\nsecond", (Mount("left amp", SAID, "hot side", PIN, BUILT),))
SCREW = Part("screw", "M6", "ISO 4762", "8.8", 20.0)
SHELF = Shelf("Van", "EUR", "", (ShelfPart(SCREW, 12, 50, 3.5, "top box"),), ("5.1 mm",), (), ("tape",))


def test_a_job_is_what_it_was_when_opened_again(tmp_path: Path) -> None:
    saved = save_job(JOB, tmp_path / "car.toml")
    loaded = load_job(tmp_path / "car.toml", builtin())
    assert loaded == saved
    assert (loaded.value, loaded.read_only, loaded.why) == (JOB, False, "")


def test_a_shelf_is_what_it_was_when_opened_again(tmp_path: Path) -> None:
    saved = save_shelf(SHELF, tmp_path / "shelf.toml")
    loaded = load_shelf(tmp_path / "shelf.toml")
    assert loaded == saved
    assert (loaded.value, loaded.read_only, loaded.why) == (SHELF, False, "")
