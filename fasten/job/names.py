"""Names of files made from what a user wrote: of plain characters, of a sane length, and never out of their folder."""

import unicodedata

MOST = 60
UNNAMED = "unnamed"
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
