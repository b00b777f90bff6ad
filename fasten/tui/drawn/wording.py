"""How the question reads as one sentence: what stands before and after each field of it, in the order of the form."""

from fasten.question import fields
from fasten.question.fields import FORM, Field
from fasten.record import record

_SHEET, _BOARD, _PLASTIC = ("sheet",), ("board", "wood"), ("plastic",)
_ELECTRIC = ("gear", "box")  # sorts of items that may have a current of their own


@record
class Phrase:
    """What stands round a field in the sentence, and which question it concerns.

    `one` stands after it instead where it is one of something.
    `means` is added where what was understood is read back. It concerns substrates of the `families` and items of the
    `sorts`; none named is all. `always` is of a field that stands in the sentence though it is preset; any other does
    once it was given or a check asks for it.
    """

    before: str
    after: str = ""
    one: str = ""
    means: str = ""
    families: tuple[str, ...] = ()
    sorts: tuple[str, ...] = ()
    always: bool = False


_SAID: dict[Field, Phrase] = {
    fields.ITEM: Phrase("Fasten ", always=True),
    fields.ONTO: Phrase(" to ", always=True),
    fields.REMOVED: Phrase(", off ", always=True),
    fields.BEHIND: Phrase(", ", " behind", means="free behind the panel"),
    fields.EDGE: Phrase(", edge ", " off", means="centre to edge"),
    fields.SUPPORT: Phrase(", support "),
    fields.MASS: Phrase(", ", always=True),
    fields.FIXINGS: Phrase(", ", " fixings", one=" fixing", always=True),
    fields.PATTERN: Phrase(", ", always=True),
    fields.ITEM_THICKNESS: Phrase(", ", " thick", means="where the screw goes through"),
    fields.ITEM_HOLE: Phrase(", its holes "),
    fields.BOSS: Phrase(", boss ", families=_PLASTIC),
    fields.INTO: Phrase(", into its ", families=_BOARD),
    fields.REACH: Phrase(", from ", always=True),
    fields.PANEL: Phrase(", on ", always=True),
    fields.BETWEEN: Phrase(", in between "),
    fields.WHERE: Phrase(", in "),
    fields.FAR_SIDE: Phrase(", far side "),
    fields.VISIBLE: Phrase(", heads seen "),
    fields.EXISTING_HOLE: Phrase(", existing hole "),
    fields.HOLES_AT: Phrase(", the existing holes at "),
    fields.ITEM_MATERIAL: Phrase(", made of "),
    fields.CG: Phrase(", centre of mass ", " off"),
    fields.DOUBLER: Phrase(", doubler ", families=_SHEET),
    fields.RAILS: Phrase(", rails ", families=_SHEET),
    fields.BOARD: Phrase(", on board ", families=_BOARD),
    fields.GRADE: Phrase(", screw class "),
    fields.BODY: Phrase(", nut body "),
    fields.CASE: Phrase(", load case "),
    fields.CARRIES: Phrase(", carries "),
    fields.RUN: Phrase(", a cable run of "),
    fields.RING: Phrase(", ring for "),
    fields.RINGS: Phrase(", rings on it "),
    fields.CABLE: Phrase(", cable "),
    fields.CURRENT: Phrase(", full current "),
    fields.POWER: Phrase(", power ", sorts=_ELECTRIC),
    fields.OWN_FUSES: Phrase(", own fuses ", sorts=_ELECTRIC),
    fields.OUTPUTS: Phrase(", outputs ", sorts=_ELECTRIC),
}
PHRASES = {field.name: _SAID[field] for field in FORM}
"""By the name of the field, in the order in which they stand."""


def called(name: str) -> tuple[str, ...]:
    """How a field is called: as the sentence does, by its label, and by its name."""
    phrase = PHRASES[name]
    return f"{phrase.before} {phrase.after}", fields.field_named(name).label, name
