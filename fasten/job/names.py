"""Names of files made from what a user wrote: of plain characters, of a sane length, and never out of their folder."""

import unicodedata
from collections.abc import Iterable
from hashlib import sha256

from fasten.job.words import Job

MOST = 60
UNNAMED = "unnamed"
_MARK = 8  # characters of what tells two names apart that would share a file
# Names that one widespread system keeps for devices, whatever stands behind the dot.
_DEVICES = frozenset({"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))})


def file_name(text: str) -> str:
    """A file's name without folder or ending: letters and digits of any script, everything else one dash.

    There is no dot, slash or colon in it, so it names nothing but a file in the folder it is put in.
    """
    plain = unicodedata.normalize("NFKC", text)
    words = "".join(char if char.isalnum() else " " for char in plain).split()
    name = "-".join(words)[:MOST].strip("-")
    if not name:
        return UNNAMED
    return f"{name}-file" if name.casefold() in _DEVICES else name


def papers_of(job: Job, file: str) -> str:
    """What the papers of a job are called: by its title, else its vehicle, else its own file, without the ending."""
    return file_name(job.title or job.vehicle or file)


def own_file_name(text: str, among: Iterable[str]) -> str:
    """The same, and a mark of its own where another of the names `among` would go by the same file: `a/b` and `a|b`.

    The mark is made of the name alone, so that it stays whatever is added or taken out.
    """
    name = file_name(text)
    if all(other == text or file_name(other).casefold() != name.casefold() for other in among):
        return name
    return f"{name}-{sha256(text.encode(errors='surrogatepass')).hexdigest()[:_MARK]}"
