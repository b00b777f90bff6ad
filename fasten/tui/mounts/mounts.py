"""The first place: which mount point is in hand, its questions, and the answer to them."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from time import thread_time
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.message import Message
from textual.timer import Timer

from fasten.catalog.tables import Tables
from fasten.job.words import Mount, Shelf
from fasten.question.fields import ITEM, ONTO
from fasten.record import replace
from fasten.tui.mounts.answer import AnswerPanel
from fasten.tui.mounts.form import Form
from fasten.tui.mounts.mount_list import MountList
from fasten.tui.state.beside import Beside
from fasten.tui.state.in_hand import NOTHING, InHand
from fasten.tui.state.open_job import Revision
from fasten.tui.state.outcome import Good, Outcome, Reading

if TYPE_CHECKING:
    from fasten.model import Answer
    from fasten.tui.drawn.answer import Kept

Asked = tuple[dict[str, str], Shelf | None, Beside]
PAUSE_S = 0.02  # of typing, before the answer is worked out anew where it is not worked out at once
SHOWN_S = 0.004  # after the first answer, which is on the terminal by then, until the sentence says what it is to
REST_S = 0.006  # after that, until all else of it is worked out
TURN_S = 0.001  # between working it out and showing it, in which keys are looked for
QUICK_S = 0.05  # an answer that took longer waits for the pause, so that what is typed is seen before it


class MountsPlace(Vertical):
    """The form and the answer. What is understood goes up as a message; which mount point to show comes down."""

    class Said(Message):
        """Something was said in the fields and has been worked out: it can be taken now."""

    def __init__(
        self, tables: Tables, shelf: Callable[[], Shelf | None], beside: Callable[[], Beside], *, blink: bool,
        problems: tuple[str, ...] = (),
    ) -> None:  # fmt: skip
        super().__init__(id="mounts")
        self._tables = tables
        self._shelf, self._beside = shelf, beside
        self.form = Form(tables, self._typed, blink=blink)
        self.mount_list = MountList()
        self.answer = AnswerPanel(problems)
        self._pause: Timer | None = None  # until what was typed is worked out, and shown to its last line
        self._took_s = self._begun_s = 0.0  # how long the last answer took, and when it was begun
        self._loaded: dict[str, str] | None = {}  # the fields as they were put there, until anything is typed
        self._mount: Mount | None = None
        self.before: Mount | None = None  # as it was when its twins were thought of last
        self._in_hand = NOTHING
        self.outcome = Outcome({})
        # What it is the outcome of; nothing while more than that is shown.
        self._worked_out: Asked | None = {}, None, Beside()
        self._whole: dict[str, str] = {}  # what each field said last in whole words, or as it was left
        self._understood: dict[str, str] = {}  # the fields as they were when last worked out without a fault

    def compose(self) -> ComposeResult:
        with Horizontal(id="split"):
            yield self.mount_list
            with Vertical(id="question"):
                yield self.form
                yield self.answer

    @property
    def hand(self) -> Revision:
        """Which mount point the fields are of."""
        return self._in_hand.hand

    def show_names(self, names: tuple[str, ...], at: int | None, seen: Revision) -> None:
        """Show all mount points, where there is room for them."""
        self.mount_list.show(names, at, seen)

    def show(self, mount: Mount | None, hand: Revision) -> None:
        """Show the mount point in hand as it is now, or an empty form for a new one."""
        now = _in_hand(mount, hand)
        if now != self._in_hand:
            self._in_hand = now
            self._load(mount)
            return
        is_held_anew = _kept_of(mount) != _kept_of(self._mount)
        is_confirmed = _preset(mount) != _preset(self._mount)
        self._mount = mount
        self.form.show_preset(_preset(mount))
        if is_held_anew or is_confirmed:
            self._work_out()

    def _load(self, mount: Mount | None) -> None:
        self._stop_pause()
        self._mount, self._whole = mount, dict(mount.said) if mount else {}
        self.before = mount
        self.form.fill(dict(mount.said) if mount else {}, _preset(mount))
        self._loaded = self._said()
        self.answer.forget()
        self._work_out()

    def forget(self) -> None:
        """Let go of what is typed: something else was made of it."""
        self._load(None)

    def took(self, mount: Mount | None) -> None:
        """What is typed has been taken into this mount point of the job."""
        self._mount, self._loaded = mount, None
        self._in_hand = _in_hand(mount, self.hand)

    def first_answer(self) -> Answer | None:
        """The first answer; None where there is none."""
        good = self.outcome.good
        return good.advice.answers[0] if good is not None and good.advice.answers else None

    def page(self, pages: int) -> None:
        """Scroll the answer."""
        self.answer.page(pages)

    def resume(self) -> None:
        """Take the keys up where they were left."""
        self.form.resume()

    def _typed(self) -> None:
        """Answer in the frame that shows the key, unless more was typed or the last answer took long.

        What is left of the answer to the key before is not worked out any more.
        """
        self._stop_pause()
        if self.form.line.field.has_more or self._took_s > QUICK_S:
            self._pause = self.set_timer(PAUSE_S, self._typed_out)
        else:
            self._typed_out()

    def _typed_out(self) -> None:
        self._begun_s = thread_time()
        first = self._shows_first()
        if first is not None:
            self._pause = self.set_timer(SHOWN_S, partial(self._typed_said, first))  # which the next key stops
        else:
            self._typed_whole()

    def _typed_said(self, first: Outcome) -> None:
        """Show in the sentence what came of each field."""
        self.form.show(first)
        self._pause = self.set_timer(REST_S, self._typed_rest)

    def _typed_rest(self) -> None:
        """Work out all else, which is kept, and show it in a turn of its own: a key that came meanwhile comes first."""
        if self.form.line.field.has_more:
            self._pause = self.set_timer(REST_S, self._typed_rest)  # it may be a key by which nothing is typed
        else:
            self._considered(*self._asked())
            self._pause = self.set_timer(TURN_S, self._typed_shown)

    def _typed_shown(self) -> None:
        if self.form.line.field.has_more:
            self._pause = self.set_timer(REST_S, self._typed_shown)
        else:
            self._typed_whole()

    def _typed_whole(self) -> None:
        self.work_out_now()
        self.form.show_found()
        self._took_s = thread_time() - self._begun_s
        self.call_after_refresh(self.post_message, self.Said())

    def _shows_first(self) -> Outcome | None:
        """Show the first answer alone and give it; None where there is none, or something is kept that it hangs on."""
        asked = self._asked()
        if asked == self._worked_out or _has_kept(self._mount):
            return None
        found = self._considered(*asked, only_first=True)
        if found.good is None or not found.good.advice.answers or not self.answer.show_first(found):
            return None
        self._worked_out = None
        return found

    def _stop_pause(self) -> None:
        if self._pause is not None:
            self._pause.stop()
            self._pause = None

    @property
    def is_typed(self) -> bool:
        """Whether anything was typed since this mount point was loaded."""
        return self._said() != self._loaded

    @property
    def unkept(self) -> tuple[str, ...]:
        """The fields whose text as it stands is not in the job: it is not understood, or could not be worked out."""
        if not self.outcome.is_fault:
            return self.outcome.misread
        return tuple(name for name, text in self.form.said().items() if self._understood.get(name, "") != text)

    def _said(self) -> dict[str, str]:
        return {name: text for name, text in self.form.said().items() if text}

    @property
    def is_waiting(self) -> bool:
        """Whether something was typed that is not worked out yet."""
        return self._pause is not None

    def work_out_now(self) -> None:
        """Work out what was typed last without waiting for more."""
        self._stop_pause()
        if self._asked() != self._worked_out:
            self._work_out()

    def taken(self) -> dict[str, str]:
        """What is understood of the fields as they stand now; of one that is not, what it said before as a whole.

        A word that was only begun, and went on otherwise, is not what anybody said.
        """
        self.work_out_now()
        if self.outcome.is_fault:
            return dict(self._mount.said) if self._mount else {}
        misread = {name: self._whole[name] for name in self.outcome.misread if name in self._whole}
        return {**self._taken(lambda _reading: True), **misread}

    def rest(self) -> None:
        """A field was left: a word that is begun in it is what was meant."""
        self._whole |= self._taken(lambda _reading: True)

    def _taken(self, counts: Callable[[Reading], bool]) -> dict[str, str]:
        readings = self.outcome.readings.items()
        return {name: reading.taken for name, reading in readings if not reading.why and counts(reading)}

    def _work_out(self) -> None:
        self._worked_out = asked = self._asked()
        self.outcome = self._considered(*asked)
        if not self.outcome.is_fault:
            self._understood = asked[0]
            said = {name: text for name, text in self._whole.items() if name in self.outcome.readings}
            self._whole = said | self._taken(lambda reading: not reading.is_begun)
        self.form.show(self.outcome)
        self.answer.show(self.outcome, self._kept())

    def _kept(self) -> Kept | None:
        """What of the mount point its answer shows beside; None where nothing is ticked or built."""
        mount, good = self._mount, self.outcome.good
        if mount is None or good is None or not (mount.ticked or mount.built):
            return None
        from fasten.tui.mounts.kept import kept_of

        return kept_of(mount, good.advice, self.outcome.repairs, self._tables)

    def _asked(self) -> Asked:
        """What is typed, and the shelf and job to answer it by: read only once there is something to answer."""
        said = self.form.said()
        return (said, self._shelf(), self._beside()) if any(map(str.strip, said.values())) else (said, None, Beside())

    def _considered(
        self, said: dict[str, str], shelf: Shelf | None, beside: Beside, *, only_first: bool = False
    ) -> Outcome:  # fmt: skip
        if not any(map(str.strip, said.values())):
            return Outcome({})
        from fasten.job.ticked import planned_ticks
        from fasten.tui.mounts.entry import considered
        from fasten.tui.mounts.starting import with_offer

        pin, ticked = (self._mount.pin, planned_ticks(self._mount)) if self._mount else (None, ())
        found = considered(said, self._tables, pin, shelf, beside, ticked, only_first=only_first)
        found = _covered(_repaired(found, self._mount, self._tables), self._mount, beside, self._tables)
        found = _asking(_waiting(found, said, self._mount), said, self._mount, self._tables)
        is_new = self._mount is None or set(dict(self._mount.said)) <= {ITEM.name}
        return with_offer(found, self._tables) if is_new else found


def _repaired(outcome: Outcome, mount: Mount | None, tables: Tables) -> Outcome:
    """The same with the first answer as it stands once repaired."""
    if mount is None or not mount.repairs or outcome.good is None or not outcome.good.advice.answers:
        return outcome
    from fasten.job.after.repairs import repaired_first

    advice = outcome.good.advice
    first, *others = advice.answers
    first, point, repairs = repaired_first(mount, first, advice.mount, tables)
    good = Good(outcome.good.entry, replace(advice, mount=point, answers=(first, *others)))
    return replace(outcome, good=good, repairs=repairs)


def _covered(outcome: Outcome, mount: Mount | None, beside: Beside, tables: Tables) -> Outcome:
    """The same with what its first answer says of what is under it, and of what comes off before it."""
    if mount is None or outcome.good is None or not outcome.good.advice.answers:
        return outcome
    from fasten.job.after.covered import remarks_of

    advice = outcome.good.advice
    job = replace(beside.job, mounts=(*beside.job.mounts, mount))
    said = remarks_of(mount, advice.mount, job, tables)
    first, *others = advice.answers
    first = replace(first, remarks=(*first.remarks, *said))
    return (
        replace(outcome, good=Good(outcome.good.entry, replace(advice, answers=(first, *others)))) if said else outcome
    )


def _waiting(outcome: Outcome, said: dict[str, str], mount: Mount | None) -> Outcome:
    """The same, open as long as what the mount point is fastened to is only proposed."""
    if outcome.good is None or mount is None or _preset(mount).get(ONTO.name) != said[ONTO.name].strip():
        return outcome
    from fasten.job.preset import waiting_answer

    advice = outcome.good.advice
    answers = tuple(waiting_answer(answer, mount) for answer in advice.answers)
    return replace(outcome, good=Good(outcome.good.entry, replace(advice, answers=answers)))


def _asking(outcome: Outcome, said: dict[str, str], mount: Mount | None, tables: Tables) -> Outcome:
    """The same with the order in which it is asked for what it waits for."""
    if outcome.good is None or not outcome.good.advice.answers:
        return outcome
    from fasten.catalog.installs import INSTALLS
    from fasten.job.start.ask import order

    mount = mount or Mount("", tuple(said.items()))
    install, first = tables.find(INSTALLS, mount.install), outcome.good.advice.answers[0]
    return replace(outcome, asked=order(mount, first.proposal, install, tables))


def _in_hand(mount: Mount | None, hand: Revision) -> InHand:
    return InHand(hand, "", {} if mount is None else dict(mount.said))


def _preset(mount: Mount | None) -> dict[str, str]:
    """What an install said of a mount point and that is not confirmed."""
    return {} if mount is None else {name: text for name, text in mount.said if name in mount.preset}


def _has_kept(mount: Mount | None) -> bool:
    """Whether anything is kept of a mount point that its answer hangs on."""
    return mount is not None and any((mount.pin, mount.ticked, mount.built, mount.repairs, mount.covered_by))


def _kept_of(mount: Mount | None) -> object:
    """What is kept of a mount point that its answer depends on."""
    return None if mount is None else (mount.pin, mount.ticked, mount.built, mount.repairs, mount.covered_by)
