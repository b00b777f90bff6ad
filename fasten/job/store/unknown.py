"""What a job file holds that this version does not know: kept as it is and written again, and reported when it is read.

Later versions add entries under the same format.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from fasten.job.words import CableRun, Cover, Job, Recorded, Unknown
from fasten.question.fields import NAMES
from fasten.text.shown import visible

PIN, VISIT, REPAIR = "pin", "visit", "repair"  # the tables of a mount point
_NAMED = 3
_LIKE = 0.7  # the share of letters from which two names are alike


def unknown_of(data: Mapping[str, Any], known: tuple[str, ...], table: str, head: str) -> tuple[Unknown, ...]:
    """The entries of a table that are none of the `known`; `head` is how its own tables begin, such as `mount.`."""
    entries = {name: value for name, value in data.items() if name not in known}
    return (Unknown(table, tuple(entries), *_texts(entries, head)),) if entries else ()


def visit_place(number: int) -> str:
    """How what is not known of a visit is filed: by its number, from 1."""
    return f"{VISIT} {number}"


def repair_place(number: int) -> str:
    """How what is not known of a repair is filed: by its number, from 1."""
    return f"{REPAIR} {number}"


def unknown_text(job: Job) -> str:
    """A sentence that names what is not known of a file; empty where all is."""
    others: tuple[Recorded | CableRun | Cover, ...] = (*job.covers, *job.cables, *job.sections, *job.holes, *job.runs)
    found = [
        *_names("", job.unknown),
        *(name for mount in job.mounts for name in _names(f'mount "{visible(mount.name, 40)}"', mount.unknown)),
        *(name for entry in others for name in _names(f'"{visible(entry.name, 40)}"', entry.unknown)),
    ]
    if not found:
        return ""
    more = f" and {len(found) - _NAMED} more" if len(found) > _NAMED else ""
    them = "it is" if len(found) == 1 else "they are"
    return f"this version does not know {', '.join(found[:_NAMED])}{more}: {them} kept in the file and not used"


def _names(of: str, unknown: tuple[Unknown, ...]) -> Iterator[str]:
    at = f" of {of}" if of else ""
    for entry in unknown:
        inside = f" in {entry.table}" if entry.table else ""
        nearest = _nearest if of.startswith("mount") and not entry.table else _no_other
        yield from (f"the entry '{visible(name, 40)}'{inside}{at}{nearest(name)}" for name in entry.names)


def _nearest(name: str) -> str:
    """The field of a question that may be meant: a slip in its name must not take a limit away unseen."""
    from difflib import get_close_matches

    close = get_close_matches(name[:40].lower(), NAMES, n=1, cutoff=_LIKE)
    return f" (did you mean {close[0]}?)" if close else ""


def _no_other(_name: str) -> str:
    return ""


def _texts(entries: dict[str, Any], head: str) -> tuple[str, str]:
    """The entries as TOML: those that go among others of their table, and the tables of it, which come after."""
    import tomli_w

    plain = {name: value for name, value in entries.items() if not _is_table(value)}
    tables = (_table(f"{head}{_key(name)}", value) for name, value in entries.items() if _is_table(value))
    return tomli_w.dumps(plain, multiline_strings=True), "".join(tables)


def _table(name: str, value: Any) -> str:
    if isinstance(value, dict):
        return f"\n[{name}]\n{''.join(_texts(value, f'{name}.'))}"
    return "".join(f"\n[[{name}]]\n{''.join(_texts(entry, f'{name}.'))}" for entry in value)


def _is_table(value: Any) -> bool:
    """Whether a value is a table, or a list of tables and nothing else."""
    return isinstance(value, dict) or (isinstance(value, list) and bool(value) and all(map(_is_dict, value)))


def _is_dict(value: Any) -> bool:
    return isinstance(value, dict)


def _key(name: str) -> str:
    """A name as TOML writes it, in quotes where it needs them."""
    import tomli_w

    return tomli_w.dumps({name: 0}).removesuffix(" = 0\n")
