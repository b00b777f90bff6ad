"""Runs as they are asked for in these tests."""

from fasten.catalog.tables import builtin
from fasten.wiring.fields import read_run
from fasten.wiring.read import read_system
from fasten.wiring.resolve import resolve
from fasten.wiring.sizing import NoSize, Sizing, sized
from fasten.wiring.words import Run

TABLES = builtin()
MAIN = {"carries": "1000 W class D", "from": "battery stud M8", "to": "set screw", "length": "5 m", "ground": "0.45 m"}


def asked(**said: str) -> Run:
    """The main run of these tests with some fields said otherwise; `own_fuses` is the field own-fuses."""
    main = {name: text for name, text in MAIN.items() if name != "ground" or "speaker" not in said.get("carries", "")}
    fields = main | {name.rstrip("_").replace("_", "-"): text for name, text in said.items()}
    return resolve(read_run(fields, TABLES, read_system(fields.pop("system", "12 V"), "system")), TABLES)


def sizing(**said: str) -> Sizing:
    """What such a run gets."""
    found = sized(asked(**said), TABLES)
    assert isinstance(found, Sizing), found
    return found


def no_size(**said: str) -> NoSize:
    """Why such a run gets nothing."""
    found = sized(asked(**said), TABLES)
    assert isinstance(found, NoSize), found
    return found
