"""What is said of damage word by word: what happened, how far, where, and whether it is safe. No widgets here."""

from collections.abc import Iterator
from enum import Enum

from fasten.after.damage import OFF, OVERSIZE, WAYS, Damage, check_possible, is_possible, possible, read_damage
from fasten.after.routes import asks_first
from fasten.catalog.repairs import DAMAGES
from fasten.errors import FastenError
from fasten.job.after.damaged import Planned
from fasten.record import record, replace
from fasten.report.safe import safe
from fasten.tui.drawn.sentence import NOT_GIVEN, Kind, Word
from fasten.tui.state.outcome import Reading


class Ask(Enum):
    """A word that is asked for; its label in the entry line."""

    WHAT = "What happened"
    SIZE = "How far"
    AT = "Which fixing"
    SOUND = "Is it safe"


@record
class Offer:
    """A thing that can be said: as it is typed, what its row calls it, and what stands beneath."""

    value: str
    name: str
    beneath: str = ""


EVERY, SOUND, STOP = "every", "sound", "stop"
_SIZED = frozenset({OVERSIZE, OFF})
_SEVERAL = 2
_WIDE = "How wide"
_EXAMPLES = {
    (Ask.SIZE, OVERSIZE): "how wide it is now: 8.2 mm", (Ask.SIZE, OFF): "how far, and which way: 3 mm right",
    (Ask.AT, ""): "its number, or every", (Ask.WHAT, ""): "such as oversize 8.2 mm",
    (Ask.SOUND, ""): "Down, then Enter",
}  # fmt: skip
_PLAIN = {
    "spun": "it turns in its hole and does not tighten", "stripped": "its thread holds no more",
    OVERSIZE: "the hole is wider than planned; its size is asked", OFF: "the hole is not where the item wants it",
    "snapped": "the screw broke off in it", "cross-threaded": "the screw went in askew",
    "cracked": "a crack runs from it, or a face is split", "corroded": "rust, or a board that swells",
}  # fmt: skip
_AFTER = {OVERSIZE: " to ", OFF: " by "}


@record
class Story:
    """What is said by now, word by word, at a mount point as it was planned."""

    planned: Planned
    said: tuple[tuple[Ask, str], ...] = ()

    def get(self, ask: Ask) -> str:
        """What is said of a word; empty where nothing is."""
        return dict(self.said).get(ask, "")

    def say(self, ask: Ask, value: str) -> "Story":
        """The same with this said; of another kind of damage no size is known yet, and safe is asked anew."""
        said = {**dict(self.said), ask: value}
        if value != self.get(ask):
            for other in {Ask.WHAT: (Ask.SIZE, Ask.SOUND), Ask.AT: (Ask.SOUND,)}.get(ask, ()):
                said.pop(other, None)
        return replace(self, said=tuple(said.items()))

    def now(self, planned: Planned | None) -> "Story":
        """The same of what is there now."""
        return self if planned is None else replace(self, planned=planned)

    @property
    def asks(self) -> tuple[Ask, ...]:
        """The words that there are, by what is said."""
        return tuple(self._asks())

    def _asks(self) -> Iterator[Ask]:
        yield Ask.WHAT
        if self.get(Ask.WHAT) in _SIZED:
            yield Ask.SIZE
        if self.planned.fixings >= _SEVERAL:
            yield Ask.AT
        damage = self.damage
        is_placed = self.planned.fixings < _SEVERAL or self.get(Ask.AT)
        if damage is not None and is_placed and asks_first(damage, self.at, self.planned.fixings):
            yield Ask.SOUND

    @property
    def next(self) -> Ask | None:
        """The first word that is still to say; None where all is said."""
        return next((ask for ask in self.asks if not self.get(ask)), None)

    @property
    def damage(self) -> Damage | None:
        """What happened; None where it is not said to its end."""
        what, size = self.get(Ask.WHAT), self.get(Ask.SIZE)
        if not what or (what in _SIZED and not size):
            return None
        return read_damage(f"{what} {size}".strip())

    @property
    def at(self) -> int | None:
        """The fixing, from 1; None stands for all of them."""
        if self.planned.fixings < _SEVERAL:
            return 1
        said = self.get(Ask.AT)
        return int(said) if said.isdecimal() else None

    @property
    def is_stopped(self) -> bool:
        """Whether nothing is repaired here: it is a structure, or nobody sees what is behind."""
        return self.get(Ask.SOUND) == STOP

    def words(self, name: str) -> list[Word]:
        """The sentence."""
        return [self._word(ask, name) for ask in self.asks]

    def _word(self, ask: Ask, name: str) -> Word:
        value = self.get(ask)
        before = {
            Ask.WHAT: f"Repair of {safe(name)}: ", Ask.SIZE: _AFTER.get(self.get(Ask.WHAT), " "),
            Ask.AT: " at " if value == EVERY else " at fixing ", Ask.SOUND: "; ",
        }[ask]  # fmt: skip
        text = {EVERY: "every fixing", SOUND: "no structure or safety part", STOP: "structure, or not seen"}.get(
            value, value
        )
        return Word(ask.name, text or NOT_GIVEN, Kind.GIVEN if value else Kind.OPEN, before)

    def offers(self, ask: Ask) -> tuple[Offer, ...]:
        """What can be said of a word."""
        planned = self.planned
        if ask is Ask.WHAT:
            return tuple(Offer(what, what, _PLAIN[what]) for what in self._possible)
        if ask is Ask.AT:
            each = (Offer(str(number), f"fixing {number}") for number in range(1, planned.fixings + 1))
            return (*each, Offer(EVERY, "every fixing", f"all {planned.fixings} of them, the same"))
        if ask is Ask.SOUND:
            no = Offer(SOUND, "Neither: it is none of these, and I see what is behind", "on to the routes")
            return no, Offer(STOP, "One of these, or I cannot see behind", "stop here")
        if self.get(Ask.WHAT) != OFF:
            return ()
        return Offer("", "which way is not said"), *(Offer(way, way, "seen from the drill") for way in WAYS)

    def label(self, ask: Ask) -> str:
        """What a word is called in the entry line."""
        return _WIDE if (ask, self.get(Ask.WHAT)) == (Ask.SIZE, OVERSIZE) else ask.value

    def example(self, ask: Ask) -> str:
        """What stands in the entry line while it is empty."""
        return _EXAMPLES.get((ask, self.get(Ask.WHAT))) or _EXAMPLES[ask, ""]

    def read(self, ask: Ask, text: str) -> "tuple[Story, Reading]":
        """The story with what is typed of a word, and how it was understood; the same story where it was not."""
        typed = " ".join(text.casefold().split())
        try:
            written, understood = self._read(ask, typed)
        except FastenError as error:
            return self, Reading(text, why=safe(f"{error.what}; {error.fix}" if error.fix else error.what))
        return written, Reading(text, understood)

    def _read(self, ask: Ask, typed: str) -> "tuple[Story, str]":
        if ask is Ask.WHAT:
            return self._read_what(typed)
        if ask is Ask.SIZE:
            damage = read_damage(f"{self.get(Ask.WHAT)} {typed}")
            self._check(damage)
            return self.say(ask, typed), typed
        if ask is Ask.AT:
            return self._read_at(typed)
        raise FastenError("that is one of the two", fix="take one of them below")

    def _read_what(self, typed: str) -> "tuple[Story, str]":
        word, _, size = typed.replace("cross threaded", "cross-threaded").partition(" ")
        can = self._possible
        found = [what for what in can if what.startswith(word)]
        if len(found) != 1 and word not in can:
            self._check(read_damage(word))
            raise FastenError("several begin so" if found else "nothing there is called so", fix="take one below")
        what = word if word in can else found[0]
        written = self.say(Ask.WHAT, what)
        if not size:
            return written, _PLAIN[what]
        self._check(read_damage(f"{what} {size}"))
        return written.say(Ask.SIZE, size), f"{what} {size}"

    def _read_at(self, typed: str) -> "tuple[Story, str]":
        if (typed and EVERY.startswith(typed)) or typed == "all":
            return self.say(Ask.AT, EVERY), f"all {self.planned.fixings}"
        if typed.isdecimal() and 1 <= int(typed) <= self.planned.fixings:
            return self.say(Ask.AT, str(int(typed))), f"fixing {int(typed)}"
        raise FastenError(f"there is no fixing {typed}", fix=f"1 to {self.planned.fixings}, or {EVERY}")

    @property
    def _possible(self) -> tuple[str, ...]:
        """What can have happened to one of its fixings."""
        found = {what for joint in self.planned.joints for what in possible(joint)}
        return tuple(what for what in DAMAGES if what in found)

    def _check(self, damage: Damage) -> None:
        """Raises FastenError where it cannot have happened to any of its fixings."""
        joints = self.planned.joints
        joint = next((one for one in joints if is_possible(damage, one)), joints[0])
        check_possible(damage, joint, self.planned.title)
