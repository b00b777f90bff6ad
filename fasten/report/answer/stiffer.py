"""What would make the panel stiff enough, and what to ask instead: by the command line, or by the words of the form."""

from collections.abc import Iterator

from fasten.model import Remedy
from fasten.question.fields import FIELDS
from fasten.report.wrap import wrapped
from fasten.text.names import capital
from fasten.text.rounding import rounded_down

_Said = tuple[tuple[str, str], ...]
_LABELS = {field.name: field.label.lower() for field in FIELDS}


def stiffer(remedies: tuple[Remedy, ...], width: int, *, in_form: bool = False) -> Iterator[str]:
    """Each with how fast the item then sways, the fields of the question that say it, and what goes with it."""
    for one in remedies:
        sways = "" if one.sways_hz is None else f": it then sways at {rounded_down(one.sways_hz, 1)} Hz or faster"
        yield from wrapped(f"{capital(one.text)}{sways}", width, first="- ", rest="  ")
        if one.said:
            by_name = f"ask again with --take {one.name}, which is {_options(one.said)}"
            yield from wrapped(_in_form(one.said) if in_form else by_name, width, first="  > ", rest="    ")
        if one.beside is not None:
            (_, item), *others = one.beside.said
            said = tuple(others)
            asked = f"new, {item}: {_in_form(said)}" if in_form else f"fasten pick {item} {_options(said)}"
            each = f"and for each {one.beside.name}, {one.beside.count} in all: {asked}"
            yield from wrapped(each, width, first="  > ", rest="    ")


def _options(said: _Said) -> str:
    """Fields that change, as options of the command line; one that goes is named without a text."""
    given = [f"--{name} '{text}'" if " " in text else f"--{name} {text}" for name, text in said if text]
    gone = [f"without --{name}" for name, text in said if not text]
    return " ".join((*given, *gone))


def _in_form(said: _Said) -> str:
    """The same by the labels of the form."""
    given = [f"{_LABELS[name]} {text}" for name, text in said if text]
    gone = [_LABELS[name] for name, text in said if not text]
    return "; ".join((f"say {', '.join(given)}", *([f"clear {', '.join(gone)}"] if gone else [])))
