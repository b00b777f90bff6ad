"""The text of a job or shelf file as plain data, and its header: what kind of file, of which format."""

import tomllib
from typing import Any

from fasten.catalog.plain_toml import loads
from fasten.errors import FastenError
from fasten.text.shown import shown, visible

SHELF_FORMAT, JOB_FORMAT = 1, 2
HEAD = (
    "# Comments written here by hand are not kept when the program saves: every entry has a `note` for them.\n"
    "# A last line `# end` shows that the file is whole.\n"
)
END = "# end"
MAX_BYTES = 4_000_000  # ten thousand mount points take a quarter of it; reading it stays under 200 MB of memory


def parse(content: bytes, where: str) -> dict[str, Any]:
    """Plain data of a TOML file; raises FastenError with the line where it is broken."""
    if len(content) > MAX_BYTES:
        what = f"the file is over {MAX_BYTES // 1_000_000} MB, too large for a job or a shelf"
        raise FastenError(what, where=where, fix="check that it is the right file")
    try:
        text = content.decode("utf-8-sig")
        if not text.strip():
            raise FastenError("the file is empty", where=where, fix="remove it and begin a new one, or name another")
        data = loads(text)
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise FastenError(f"line {line} is not UTF-8 text", where=where, fix="save it as UTF-8") from error
    except tomllib.TOMLDecodeError as error:
        fix = "mend that line; if the file was cut short, see the previous copy beside it"
        what = str(error).replace("at end of document", f"at its end, line {len(text.splitlines())}")
        raise FastenError(f"not TOML: {visible(what, 100)}", where=where, fix=fix) from error
    except ValueError as error:  # a number of thousands of digits
        raise FastenError("holds a number too long to read", where=where, fix="correct the number") from error
    except RecursionError as error:
        raise FastenError("lists or blocks are nested too deep", where=where, fix="take them out") from error
    _check_whole(text, where)
    return data


def check_size(content: bytes, where: str) -> bytes:
    """The content of a file to be saved; raises FastenError if it would be too large to open again."""
    if len(content) > MAX_BYTES:
        what = f"not saved, it would be over {MAX_BYTES // 1_000_000} MB, too large to open again"
        raise FastenError(f"{what}; nothing was overwritten", where=where, fix="split it, or shorten its notes")
    return content


def _check_whole(text: str, where: str) -> None:
    """Refuse a file that was cut short between two entries: a limit might be lost that nobody would miss."""
    lines = text.splitlines()
    if lines[0] == HEAD.splitlines()[0] and END not in lines:
        what = f"the file was cut short: its last line is {len(lines)}, and '{END}' does not stand there"
        fix = f"see the previous copy beside it; if nothing is missing, write {END} at its end"
        raise FastenError(what, where=where, fix=fix)


def newer_format(data: dict[str, Any], where: str, reads: int) -> int | None:
    """The format of the file where it is newer than the newest that this program reads; else None.

    Raises: FastenError if there is none, or no such one.
    """
    fix = f"write format = {reads} if this is a job or a shelf"
    if "format" not in data:
        raise FastenError("the entry 'format' is missing", where=where, fix=fix)
    found = data["format"]
    if type(found) is not int or found < 1:
        raise FastenError(f"format is {shown(found)}, this program reads {reads}", where=where, fix=fix)
    return found if found > reads else None


def check_kind(data: dict[str, Any], kind: str, where: str) -> None:
    """Check that the file is a job, or a shelf, as its entry `kind` says; raises FastenError."""
    if (found := data.get("kind")) == kind:
        return
    if found is None:
        raise FastenError("the entry 'kind' is missing", where=where, fix=f'write kind = "{kind}" if this is a {kind}')
    what = f"kind is {shown(found)}, wanted '{kind}'"
    raise FastenError(what, where=where, fix=f"give a {kind} file here")


def newer_why(found: int, reads: int, left_out: int, entries: str) -> str:
    """Why a file of a newer format is open for reading only, and what of it is not shown."""
    why = f"format {shown(found)} is newer than this program reads, {reads}: open for reading only"
    missing = f"{left_out} of its {entries} cannot be shown, and " if left_out else ""
    return f"{why}; {missing}what it adds is left out, so that answers may differ"


def newer_refused(found: int, reads: int, error: FastenError) -> FastenError:
    """The refusal of a file of a newer format whose entries are not what they were."""
    what = f"format {shown(found)} is newer than this program reads, {reads}, and is not understood: {error.what}"
    return FastenError(what, where=error.where, fix="bring the program up to date")


def table_text(entries: dict[str, object], head: str = "") -> str:
    """One table as TOML under its head, such as `[[mount]]`; an entry of None, or of empty text, is left out."""
    import tomli_w

    said = {key: value for key, value in entries.items() if value is not None and value != ""}
    return (f"\n{head}\n" if head else "") + tomli_w.dumps(said, multiline_strings=True)


def length_text(length_mm: float | None) -> str | None:
    """A length with its unit and every digit it has, so that reading it gives the same length."""
    if length_mm is None:
        return None
    from decimal import Decimal

    text = format(Decimal(repr(length_mm)), "f")
    return f"{text.removesuffix('.0')} mm"
