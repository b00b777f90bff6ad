"""The pin, visits and repairs of a mount point as plain data, and back."""

from collections.abc import Mapping
from typing import Any

from fasten.job.store.parse import length_text
from fasten.job.words import Pin, Repair, Visit

LENGTHS = ("receiver-length", "screw-length")
PIN_KEYS = ("method", "thread", "series", *LENGTHS)
REPAIR_KEYS = ("at", "what", "route", *PIN_KEYS)  # of the joint that a route came to, where it is one
BUILT_KEYS = ("date", "hole", "hardware", "torque", "note")  # of a record of an older version, the first visit
VISIT_KEYS = (
    "date",
    "kind",
    "hole",
    "sheet",
    "hardware",
    "length",
    "torque",
    "turning",
    "held",
    "drop",
    "tool",
    "renewed",
    "by",
    "note",
    "photos",
    "spin-out",
    "pull-out",
    "drive",
    "strip",
    "retorque",
)


def read_pin(data: Mapping[str, Any]) -> Pin:
    """The pin of checked data."""
    return Pin(data["method"], data["thread"], data["series"], data["receiver-length"], data["screw-length"])


def pin_data(pin: Pin) -> dict[str, Any]:
    """A pin as plain data."""
    lengths = {"receiver-length": length_text(pin.receiver_length_mm), "screw-length": length_text(pin.screw_length_mm)}
    return {"method": pin.method, "thread": pin.thread, "series": pin.series, **lengths}


def pin_as_written(entry: dict[str, Any]) -> dict[str, Any]:
    """What checking makes of a pin, or of a repair with its own, that the program wrote."""
    return {**dict.fromkeys(PIN_KEYS, ""), **entry, **{name: _written_mm(entry.get(name)) for name in LENGTHS}}


def _written_mm(text: str | None) -> float | None:
    """A length as `length_text` writes it."""
    return None if text is None else float(text.removesuffix(" mm"))


def read_repair(data: Mapping[str, Any]) -> Repair:
    """The repair of checked data."""
    return Repair(data["at"] or None, data["what"], data["route"], read_pin(data) if data["method"] else None)


def repair_data(repair: Repair) -> dict[str, Any]:
    """A repair as plain data; one of all fixings does not say which."""
    at = {} if repair.at is None else {"at": repair.at}
    return {**at, "what": repair.what, "route": repair.route, **({} if repair.pin is None else pin_data(repair.pin))}


def read_visit(data: Mapping[str, Any]) -> Visit:
    """The visit of checked data."""
    return Visit(**{**{_attribute(name): data[name] for name in VISIT_KEYS}, "photos": tuple(data["photos"])})


def visit_data(visit: Visit) -> dict[str, Any]:
    """A visit as plain data."""
    data: dict[str, Any] = {name: getattr(visit, _attribute(name)) for name in VISIT_KEYS}
    photos = list(data.pop("photos"))
    return {**data, **({"photos": photos} if photos else {})}


def _attribute(name: str) -> str:
    return name.replace("-", "_")


def visit_as_written(entry: dict[str, Any]) -> dict[str, Any]:
    """What checking makes of a visit that the program wrote."""
    return {**{name: entry.get(name, "") for name in VISIT_KEYS}, "photos": entry.get("photos", [])}
