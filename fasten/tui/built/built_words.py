"""What is written down of a visit, word by word: which words a joint has, how each reads, and what is understood."""

from collections.abc import Collection, Mapping

from fasten.after.judge import has_body
from fasten.after.measured import READINGS, field_name
from fasten.after.own_tests import readable
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.after.built import KIND, PHOTOS, TEXTS, WHEN, understood
from fasten.job.after.said import FIELDS, PHOTO
from fasten.job.choices import Choice
from fasten.model.known import MostTorque
from fasten.record import record
from fasten.report.safe import safe
from fasten.text.names import capital
from fasten.tui.drawn.sentence import MORE, NOT_GIVEN, Kind, Word
from fasten.tui.state.outcome import Reading


@record
class Phrase:
    """How a field reads in the sentence: what stands before it and after it."""

    before: str
    after: str = ""


_PHRASES = {
    WHEN: Phrase("As built on "), "hole": Phrase(": hole "), "sheet": Phrase(" in sheet "),
    "hardware": Phrase(", with "), "length": Phrase(", screw length "), "torque": Phrase(", tightened to "),
    "turning": Phrase(", the nut turned at "), "held": Phrase(", held at "), "retorque": Phrase(", moved again at "),
    "drop": Phrase(", drop "), "spin_out": Phrase(", test pieces turned at "),
    "pull_out": Phrase(", test pieces pulled out at "), "drive": Phrase(", test pieces driven at "),
    "strip": Phrase(", test pieces stripped at "),
    "note": Phrase("; note "), "tool": Phrase(", measured with "), "renewed": Phrase(", new "), "by": Phrase(", by "),
    KIND: Phrase(", it was "), PHOTOS: Phrase(", photo "),
}  # fmt: skip
_SELDOM = ("held", "retorque", *READINGS, "tool", "renewed", "by", KIND, PHOTOS)  # folded away until they are said
_HINTS = {**FIELDS, PHOTOS: PHOTO}
_PHOTO = "Photo"


def names_of(choice: Choice, tables: Tables) -> tuple[str, ...]:
    """The fields that concern the joint of a mount point, in the order of the sentence."""
    if choice.answer is None or choice.point is None:
        return tuple(_PHRASES)
    proposal = choice.answer.proposal
    joint, receiver = proposal.joint, proposal.joint.receiver
    none = {
        "hole": joint.hole is None, "sheet": joint.hole is None, "length": joint.screw is None,
        "torque": proposal.torque is None, "held": not has_body(joint), "drop": proposal.ground is None,
        "turning": receiver is None or not isinstance(receiver.prevailing, MostTorque),
    }  # fmt: skip
    read_there = readable(joint, choice.point, tables)
    none |= {name: name not in read_there for name in READINGS} | {"retorque": none["torque"]}
    return tuple(name for name in _PHRASES if not none.get(name, False))


def words_of(
    choice: Choice, said: Mapping[str, str], current: str | None, tables: Tables, planned: Collection[str] = (), *,
    unfolded: bool,
) -> list[Word]:  # fmt: skip
    """The sentence; the last word tells how many are folded away, or folds them again.

    What is only `planned` is a preset.
    """
    names = names_of(choice, tables)
    folded = [name for name in names if name in _SELDOM and not said.get(name) and name != current]
    shown = [name for name in names if unfolded or name not in folded]
    words = [_word(name, said.get(name, "").strip(), is_planned=name in planned) for name in shown]
    more = "" if not folded else "fewer" if unfolded else f"{len(folded)} more"
    return [*words, *([Word(MORE, more, Kind.MORE, ". ")] if more else [])]


def _word(name: str, text: str, *, is_planned: bool) -> Word:
    phrase = _PHRASES[name]
    kind = Kind.OPEN if not text else Kind.MISREAD if read(name, text).why else Kind.GIVEN
    kind = Kind.PRESET if is_planned and kind is Kind.GIVEN else kind
    return Word(name, safe(text) or NOT_GIVEN, kind, phrase.before, phrase.after)


def label_of(name: str) -> str:
    """What a field is called in the entry line."""
    return _PHOTO if name == PHOTOS else capital(field_name(name))


def hint_of(name: str) -> str:
    """What stands in the entry line while the field is empty."""
    return _HINTS.get(field_name(name), "").replace("'", "")


def read(name: str, text: str) -> Reading:
    """One field read by itself."""
    if name not in TEXTS:
        return Reading(text, text)
    try:
        return Reading(text, understood(name, text))
    except FastenError as error:
        return Reading(text, why=safe(f"{error.what}; {error.fix}" if error.fix else error.what))
