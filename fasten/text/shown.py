"""Values that somebody else wrote, fit for one line of a message."""

MAX_INT = 2**63 - 1
ABSENT = "-"


def visible(text: str, most: int = 60) -> str:
    """`text` fit for one line of a message: control characters written out, the middle left out of what is long."""
    if len(text) > most:
        text = f"{text[: most * 2 // 3]}…{text[-(most // 3 - 1) :]}"
    written = "".join(
        char if char.isprintable() else char.encode("unicode_escape", "surrogatepass").decode("ascii") for char in text
    )
    return written if len(written) <= 2 * most else f"{written[: 2 * most]}…"


def shown(value: object) -> str:
    """A value as a message shows it. What is not text or a number is named by its kind: it may be of any depth."""
    if isinstance(value, str):
        return f"'{visible(value, 40)}'"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int):
        return str(value) if -MAX_INT <= value <= MAX_INT else "a number too large to show"
    if isinstance(value, float):
        return repr(value).removesuffix(".0")
    if value is None:
        return f"'{ABSENT}'"
    return "a list" if isinstance(value, list | tuple) else "a block" if isinstance(value, dict) else "a date or time"
