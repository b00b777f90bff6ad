"""A shelf as the text of its file, and back."""

from collections.abc import Mapping
from typing import Any

from fasten.errors import FastenError
from fasten.job.store.parse import (
    END,
    HEAD,
    SHELF_FORMAT,
    check_kind,
    length_text,
    newer_format,
    newer_refused,
    newer_why,
    parse,
    table_text,
)
from fasten.job.words import Shelf, ShelfPart
from fasten.model.line import Part

KIND = "shelf"
LISTS = ("bits", "tools", "consumables")
ASKED = "asked"  # lines that leave a question; left out where there is none


def shelf_text(shelf: Shelf) -> str:
    """The text of a shelf's file: stable order, lengths with their unit."""
    data = shelf_data(shelf)
    parts = data.pop("part")
    return HEAD + table_text(data) + "".join(table_text(part, "[[part]]") for part in parts) + f"\n{END}\n"


def shelf_data(shelf: Shelf) -> dict[str, Any]:
    """A shelf as plain data in the order of its file."""
    return {
        "format": SHELF_FORMAT,
        "kind": KIND,
        "title": shelf.title,
        "currency": shelf.currency,
        "note": shelf.note,
        **{name: list(getattr(shelf, name)) for name in LISTS},
        **({ASKED: list(shelf.asked)} if shelf.asked else {}),
        "part": [_part_data(part) for part in shelf.parts],
    }


def checked_shelf(shelf: Shelf, where: str) -> Shelf:
    """The shelf as its file would give it back; raises FastenError if it could not be read again."""
    from fasten.job.store.check import ShelfFile, checked

    return _shelf(checked(shelf_data(shelf), ShelfFile, where))


def read_shelf(content: bytes, where: str, *, own: bool = False) -> tuple[Shelf, str]:
    """The shelf of a file's content, and why it may only be read: empty where nothing is against changing it.

    Where the content is the program's `own`, as it wrote it, it is not checked again.
    Raises: FastenError if the content is broken; it says where.
    """
    data = parse(content, where)
    newer = newer_format(data, where, SHELF_FORMAT)
    check_kind(data, KIND, where)
    if newer is not None:
        return _newer_shelf(data, newer, where)
    if own:
        return _shelf(_as_written(data)), ""
    from fasten.job.store.check import ShelfFile, checked

    return _shelf(checked(data, ShelfFile, where)), ""


def _as_written(data: dict[str, Any]) -> dict[str, Any]:
    """What checking makes of a file that the program wrote: every entry there is, lengths as numbers."""
    texts, rest = dict.fromkeys(("size", "name", "grade", "note"), ""), dict.fromkeys(("length", "pack", "price"))
    parts = [{**texts, **rest, **part} for part in data.get("part", ())]
    sized = [{**part, "length": part["length"] and float(part["length"].removesuffix(" mm"))} for part in parts]
    return {"title": "", "currency": "", "note": "", **{name: [] for name in (*LISTS, ASKED)}, **data, "part": sized}


def _newer_shelf(data: dict[str, Any], newer: int, where: str) -> tuple[Shelf, str]:
    """What can be understood of a shelf that a newer version wrote."""
    from fasten.job.store.check import ShelfFile, checked, known_only

    parts = data.get("part", [])
    kept = parts if not isinstance(parts, list) else []  # what is no list is refused with the rest
    try:
        head = checked(known_only({**data, "format": SHELF_FORMAT, "part": kept}, ShelfFile), ShelfFile, where)
    except FastenError as error:
        raise newer_refused(newer, SHELF_FORMAT, error) from error
    found = [part for entry in parts if (part := _newer_part(entry, where)) is not None]
    shelf = _shelf({**head, "part": found})
    return shelf, newer_why(newer, SHELF_FORMAT, len(parts) - len(found), "parts")


def _newer_part(entry: Any, where: str) -> dict[str, Any] | None:
    from fasten.job.store.check import PartEntry, checked, known_only

    try:
        return checked(known_only(entry, PartEntry), PartEntry, where)
    except FastenError:
        return None


def _shelf(data: Mapping[str, Any]) -> Shelf:
    """The shelf of checked data."""
    lists = {name: tuple(data[name]) for name in (*LISTS, ASKED)}
    parts = tuple(_part(entry) for entry in data["part"])
    return Shelf(data["title"], data["currency"], data["note"], parts, **lists)


def _part(data: Mapping[str, Any]) -> ShelfPart:
    part = Part(data["kind"], data["size"], data["name"], data["grade"], data["length"])
    return ShelfPart(part, data["count"], data["pack"], data["price"], data["note"])


def _part_data(owned: ShelfPart) -> dict[str, Any]:
    part = owned.part
    what = {"kind": part.kind, "size": part.size, "name": part.name, "grade": part.grade}
    counts = {"count": owned.count, "pack": owned.pack, "price": owned.price, "note": owned.note}
    return {**what, "length": length_text(part.length_mm), **counts}
