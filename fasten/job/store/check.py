"""What a job or shelf file may hold, as pydantic models: strict, and nothing but the entries named here.

Read only when a file is opened or saved: pydantic is slow to load.
"""

from difflib import get_close_matches
from functools import cache
from typing import Annotated, Any, Literal, TypeVar

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    FailFast,
    Field,
    ValidationError,
    create_model,
)
from pydantic_core import PydanticCustomError

from fasten.errors import FastenError
from fasten.job.store.plain import MAX_LINE
from fasten.job.words import OLD, VISIT_KINDS
from fasten.question.fields import NAMES
from fasten.text import units
from fasten.text.letters import JOINERS, NARROW_SPACES, is_text
from fasten.text.shown import shown, visible
from fasten.text.units import Dimension
from fasten.wiring.fields import NAMES as RUN_NAMES

MAX_NOTE = 10_000
MAX_KEY = 1_000
MAX_COUNT = 1_000_000
MAX_PRICE = 1e9
UNSEEN = NARROW_SPACES + JOINERS


def _line(text: str) -> str:
    return _plain(text.strip(), "", MAX_LINE)


def _named(text: str) -> str:
    if not text.strip(UNSEEN).strip():
        raise _wrong("is empty", "write it, or take the entry out")
    return _line(text)


def _note(text: str) -> str:
    return _plain(text, "\n\t", MAX_NOTE)


def _plain(text: str, allowed: str, most: int) -> str:
    if len(text) > most:
        raise _wrong(f"is {shown(text)}, {len(text)} characters long, at most {most}", "shorten it")
    if not text.isprintable() and not all(is_text(char) or char in NARROW_SPACES or char in allowed for char in text):
        raise _wrong(f"is {shown(text)}, with a control or hidden character in it", "write it in plain characters")
    return text


def _key(text: str) -> str:
    return _plain(text, "", MAX_KEY)


def _length(text: object) -> float:
    if not isinstance(text, str):
        raise _wrong(f"is {shown(text)}, not text", 'write it in quotes with its unit, such as "20 mm"')
    try:
        return units.read(text, Dimension.LENGTH, "")
    except FastenError as error:
        raise _wrong(error.what, error.fix) from error


def _wrong(what: str, fix: str) -> PydanticCustomError:
    # The words go in as a value: pydantic would take braces in them for places to fill.
    return PydanticCustomError("fasten", "{what}", {"what": what, "fix": fix})


Line = Annotated[str, AfterValidator(_line)]
Name = Annotated[str, AfterValidator(_named)]
Note = Annotated[str, AfterValidator(_note)]
Key = Annotated[str, AfterValidator(_key)]
Length = Annotated[float, BeforeValidator(_length)]
Count = Annotated[int, Field(ge=0, le=MAX_COUNT)]
Pack = Annotated[int, Field(ge=1, le=MAX_COUNT)]
Price = Annotated[float, Field(ge=0, le=MAX_PRICE, allow_inf_nan=False)]
Item = TypeVar("Item")
# Only the first thing wrong is reported: keeping all of them would take the memory of many times the file.
Listed = Annotated[list[Item], FailFast()]


class _Entry(BaseModel):
    model_config = ConfigDict(
        strict=True, extra="forbid", frozen=True, alias_generator=lambda name: name.replace("_", "-")
    )


class PinEntry(_Entry):
    method: Name
    thread: Line = ""
    series: Line = ""
    receiver_length: Length | None = None
    screw_length: Length | None = None


class BuiltEntry(_Entry):
    date: Line = ""
    hole: Line = ""
    hardware: Line = ""
    torque: Line = ""
    note: Note = ""


def _kind(text: str) -> str:
    if text not in ("", *VISIT_KINDS):
        raise _wrong(f"is {shown(text)}, no kind of visit", f"write one of {', '.join(VISIT_KINDS)}")
    return text or OLD


class VisitEntry(_Entry):
    date: Line = ""
    kind: Annotated[str, AfterValidator(_kind)] = OLD
    hole: Line = ""
    sheet: Line = ""
    hardware: Line = ""
    length: Line = ""
    torque: Line = ""
    turning: Line = ""
    held: Line = ""
    drop: Line = ""
    tool: Line = ""
    renewed: Line = ""
    by: Line = ""
    note: Note = ""
    photos: Listed[Name] = []
    spin_out: Line = ""
    pull_out: Line = ""
    drive: Line = ""
    strip: Line = ""
    retorque: Line = ""


class RepairEntry(_Entry):
    at: Count = 0
    what: Name
    route: Name
    method: Line = ""
    thread: Line = ""
    series: Line = ""
    receiver_length: Length | None = None
    screw_length: Length | None = None


class _MountEntry(_Entry):
    name: Name
    preset: Listed[Name] = []
    install: Line = ""
    twin: Line = ""
    covered_by: Listed[Name] = []
    note: Note = ""
    ticked: Listed[Key] = []
    pin: PinEntry | None = None
    built: BuiltEntry | None = None
    visit: Listed[VisitEntry] = []
    repair: Listed[RepairEntry] = []


_QUESTION: dict[str, Any] = {name.replace("-", "_"): (Line, "") for name in NAMES}
MountEntry = create_model("MountEntry", __base__=_MountEntry, **_QUESTION)


class _RunEntry(_Entry):
    name: Name
    sections: Listed[Name] = []
    holes: Listed[Name] = []
    accepted: Listed[Key] = []
    preset: Listed[Name] = []
    ticked: Listed[Key] = []
    note: Note = ""


_RUN: dict[str, Any] = {
    f"{name.replace('-', '_')}_": (Line, Field("", alias=name)) for name in RUN_NAMES
}  # `from` is a word of the language
RunEntry = create_model("RunEntry", __base__=_RunEntry, **_RUN)


class _WayEntry(_Entry):
    name: Name
    accepted: Listed[Key] = []
    ticked: Listed[Key] = []
    note: Note = ""


class SectionEntry(_WayEntry):
    where: Line = ""
    length: Line = ""
    cover: Line = ""
    preset: Listed[Name] = []


class HoleEntry(_WayEntry):
    through: Line = ""
    existing: Line = ""


class CoverEntry(_Entry):
    name: Name
    removed: Line = ""
    fixings: Pack | None = None
    renewed: Line = ""
    renew_every: Pack | None = None
    rated: Pack | None = None
    note: Note = ""


class CableEntry(_Entry):
    size: Name
    outside: Line = ""
    conductor: Line = ""
    marked: Line = ""
    material: Line = ""
    note: Note = ""


class JobFile(_Entry):
    format: Literal[1, 2]
    kind: Literal["job"]
    title: Line = ""
    vehicle: Line = ""
    note: Note = ""
    packed: Listed[Key] = []
    packed_apart: Listed[Key] = []
    ticked: Listed[Key] = []
    system: Line = ""
    battery: Line = ""
    to_amplifiers: Line = ""
    to_dash: Line = ""
    to_doors: Line = ""
    preset: Listed[Name] = []
    cover: Listed[CoverEntry] = []
    mount: Listed[MountEntry] = []  # type: ignore[valid-type]
    cable: Listed[CableEntry] = []
    section: Listed[SectionEntry] = []
    hole: Listed[HoleEntry] = []
    run: Listed[RunEntry] = []  # type: ignore[valid-type]


class PartEntry(_Entry):
    kind: Name
    size: Line = ""
    name: Line = ""
    grade: Line = ""
    length: Length | None = None
    count: Count
    pack: Pack | None = None
    price: Price | None = None
    note: Note = ""


class ShelfFile(_Entry):
    format: Literal[1]
    kind: Literal["shelf"]
    title: Line = ""
    currency: Line = ""
    note: Note = ""
    bits: Listed[Name] = []
    tools: Listed[Name] = []
    consumables: Listed[Name] = []
    asked: Listed[Note] = []
    part: Listed[PartEntry] = []


_INNER: dict[str, type[BaseModel]] = {
    "mount": MountEntry, "part": PartEntry, "pin": PinEntry, "built": BuiltEntry, "visit": VisitEntry,
    "repair": RepairEntry,
    "run": RunEntry,
    "section": SectionEntry, "hole": HoleEntry, "cable": CableEntry,
    "cover": CoverEntry,
}  # fmt: skip
_NAMED = ("mount", "run", "section", "hole", "cover")
_WANTED = {
    "model": "a table", "dict": "a table", "list": "a list", "int": "a whole number", "float": "a number",
    "finite": "a number",
}  # fmt: skip


def checked(data: dict[str, Any], model: type[BaseModel], where: str) -> dict[str, Any]:
    """The data as the model holds it, every text stripped and every length in mm.

    Raises: FastenError, its `where` the file, the table with its name, and the key.
    """
    try:
        return model.model_validate(_few(data, model)).model_dump(by_alias=True)
    except ValidationError as error:
        raise _first_fault(error, data, model, where) from error


def known_only(data: Any, model: type[BaseModel]) -> Any:
    """The data without entries that the model does not know, in its tables as well."""
    if isinstance(data, list):
        return [known_only(entry, model) for entry in data]
    if not isinstance(data, dict):
        return data
    kept = {key: value for key, value in data.items() if key in _keys(model)}
    return {key: known_only(value, _INNER[key]) if key in _INNER else value for key, value in kept.items()}


def keys_of(table: str = "") -> tuple[str, ...]:
    """The entries that are checked of a job, or of a table of it: mount, pin or built."""
    return _keys(_INNER.get(table, JobFile))


def _few(data: Any, model: type[BaseModel]) -> Any:
    """The data with one unknown entry of each table that has more entries than are known: only one is reported."""
    if isinstance(data, list):
        return [_few(entry, model) for entry in data]
    if not isinstance(data, dict):
        return data
    keys = _keys(model)
    if len(data) > len(keys):
        unknown = next(key for key in data if key not in keys)
        data = {key: value for key, value in data.items() if key in keys or key == unknown}
    return {key: _few(value, _INNER[key]) if key in _INNER else value for key, value in data.items()}


def entry_place(kind: str, number: int, entry: Any) -> str:
    """How a message names a table of a list: a mount point by its name; what has no name by its number from 1."""
    keys = ("name",) if kind in _NAMED else ("kind", "size")
    found = [entry.get(key) for key in keys] if isinstance(entry, dict) else []
    said = visible(" ".join(word.strip() for word in found if isinstance(word, str)), 40)
    if not said:
        return f"{kind} {number}"
    return f'{kind} "{said}"' if kind in _NAMED else f"{kind} {number} ({said})"


def _first_fault(error: ValidationError, data: dict[str, Any], model: type[BaseModel], where: str) -> FastenError:
    first = error.errors(include_url=False)[0]
    *way, key = first["loc"]
    table, name = _places(tuple(way), data), visible(str(key), 40)
    at = ", ".join([where, *table])
    if first["type"] == "extra_forbidden":
        return FastenError(f"the entry '{name}' is not known", where=at, fix=_known_keys(name, _model(way, model)))
    if first["type"] == "missing":
        return FastenError(f"the entry '{name}' is missing", where=at, fix="add it")
    what, fix = _wrong_value(first)
    return FastenError(what, where=", ".join([where, *_places(first["loc"], data)]), fix=fix)


def _wrong_value(first: Any) -> tuple[str, str]:
    kind, value = first["type"], shown(first["input"])
    context = first.get("ctx", {})
    if kind == "fasten":
        return context["what"], context["fix"]
    if kind == "string_type":
        return f"is {value}, not text", "put it in quotes, with its unit where it has one"
    if kind == "list_type" and (table := _table_of(first["loc"])):
        return f"is {value}, not a list", f"write [[{table}]] above each, with two brackets"
    if kind in ("greater_than_equal", "less_than_equal"):
        bound = f"at least {context['ge']}" if "ge" in context else f"at most {context['le']:.0f}"
        return f"is {value}, it must be {bound}", "correct the number"
    for start, wanted in _WANTED.items():
        if kind.startswith(start):
            return f"is {value}, not {wanted}", f"write {wanted}"
    return f"is {value}: {visible(first['msg'], 100)}", "correct the value"


def _table_of(way: tuple[int | str, ...]) -> str:
    """The table whose list is meant, as it stands above each; empty where it is a list of something else."""
    if way[-1] in ("visit", "repair"):
        return f"mount.{way[-1]}"
    return str(way[0]) if way[0] in _INNER else ""


def _known_keys(name: str, model: type[BaseModel]) -> str:
    keys = _keys(model)
    close = get_close_matches(name.lower(), keys, n=3)
    return f"did you mean {' or '.join(close)}?" if close else f"the entries are {', '.join(keys)}"


def _places(way: tuple[int | str, ...], data: Any) -> list[str]:
    """The steps from the whole file to an entry, as a message names them."""
    places: list[str] = []
    for step in way:
        data = data.get(step) if isinstance(data, dict) else data[step] if isinstance(step, int) else None
        if isinstance(step, int):
            places[-1] = entry_place(places[-1], step + 1, data)
        else:
            places.append(visible(step, 40))
    return places


def _model(way: list[int | str], model: type[BaseModel]) -> type[BaseModel]:
    """The model of the table that an entry stands in."""
    return next((_INNER[step] for step in reversed(way) if isinstance(step, str) and step in _INNER), model)


@cache
def _keys(model: type[BaseModel]) -> tuple[str, ...]:
    return tuple(field.alias or name for name, field in model.model_fields.items())
