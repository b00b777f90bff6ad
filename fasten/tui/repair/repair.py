"""The page of repair: what happened, word by word as rows, then the routes out of it, and the one in hand in full."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.events import Click, Key, Resize
from textual.message import Message
from textual.widgets import Input, OptionList, Static

from fasten.after.damage import WAYS, Damage, damage_text
from fasten.after.routes import Repaired, Route
from fasten.job.after.damaged import Planned
from fasten.job.words import Mount
from fasten.tui.drawn.repair import route_lines
from fasten.tui.drawn.sentence import Sentence, sentence_of
from fasten.tui.repair.repair_lines import RepairRow, asked_rows, banded, plan_of, pressed, route_rows, stop_rows
from fasten.tui.repair.repair_option import RepairOption
from fasten.tui.repair.repair_story import Ask, Offer, Story
from fasten.tui.state.open_job import STALE, Revision
from fasten.tui.state.outcome import Reading
from fasten.tui.widgets.content import content, tapped
from fasten.tui.widgets.entry_line import EntryLine
from fasten.tui.widgets.numbered import NumberedList
from fasten.tui.widgets.panels import OPTION_COLUMNS, turn_page

if TYPE_CHECKING:
    Prove = Callable[[Planned, Damage, "int | None"], None]
REPAIR = "repair"
_WAIT = "Calculating what is fitted here …"
_STOPPED = "The routes were not proved to their end. Press e to begin again."
_LEAST_COLUMNS, _LOW, _PHONE, _TAP_ROWS = 20, 20, 60, 3


class RepairPlace(Vertical):
    """What is said of the damage at the mount point in hand, and the routes; a route that is wanted goes up."""

    class Taken(Message):
        """A route is to be written down, of the job as it was shown."""

        def __init__(self, planned: Planned, found: Repaired, route: Route, seen: Revision) -> None:
            super().__init__()
            self.planned, self.found, self.route, self.seen = planned, found, route, seen

    class Onward(Message):
        """A route was taken: on to the work."""

    def __init__(self, prove: Prove, *, blink: bool) -> None:
        super().__init__(id=REPAIR)
        self._prove = prove
        self._head = Static(id="repair-head", markup=False)
        self._entry = EntryLine(blink=blink)
        self._band = Static(_WAIT, id="repair-band", markup=False)
        self._list = NumberedList(id="repair-lines", markup=False)
        self._words = Static(id="repair-words", markup=False)
        self._full = VerticalScroll(self._words, id="repair-full")
        self._do = Static(id="repair-do", classes="pressed", markup=False)
        self._sentence = Sentence((), ())
        self._story: Story | None = None
        self._planned: Planned | None = None
        self._mount: Mount | None = None
        self._found: Repaired | None = None
        self._stocked: frozenset[str] = frozenset()
        self._why = ""  # there are no routes, or nothing that could be repaired
        self._ask: Ask | None = Ask.WHAT
        self.seen = STALE

    def compose(self) -> ComposeResult:
        yield self._head
        yield self._entry
        yield self._band
        with Horizontal(id="repair-split"):
            yield self._list
            yield self._full
        yield self._do

    # -- what comes down -----------------------------------------------------------------------------------------------

    @property
    def is_asking(self) -> bool:
        """Whether a word is asked for: its field has the keys."""
        return self._story is not None and self._ask is not None

    @property
    def is_waiting(self) -> bool:
        """Whether it is not known yet what is fitted, and so nothing is asked."""
        return self._story is None and not self._why

    @property
    def is_viewing(self) -> bool:
        """Whether a route in full has all of a small screen."""
        return self.has_class("-viewing")

    def wait(self, mount: Mount) -> None:
        """Show nothing until it is known what was planned at a mount point; of the same one what was said stays."""
        if self._mount is None or mount.name != self._mount.name:
            self._mount = mount
            self.begin(None)

    def begin(self, planned: Planned | None) -> None:
        """Ask from the beginning."""
        self._found, self._why = None, ""
        self._story = None if planned is None else Story(planned)
        self._take(Ask.WHAT)

    def begin_anew(self) -> None:
        """Ask from the beginning, of what is there now."""
        self.begin(self._planned)

    def show(self, mount: Mount, planned: Planned, seen: Revision) -> None:
        """Show the repair of a mount point as it is now; what was said of it stays said."""
        was = self._story
        self._mount, self._planned, self.seen = mount, planned, seen
        if was is None or not was.planned.is_before(planned, is_taken=self.taken is not None):
            self.begin(planned)
        elif self._found is not None:
            self._write()  # a route was taken, or taken back

    def fail(self, why: str) -> None:
        """Nothing can be repaired here, or nothing was proved."""
        self._why, self._found = why, None
        self._write()

    def found(self, found: Repaired, stocked: frozenset[str]) -> None:
        """Show the routes."""
        self._found, self._stocked, self._why = found, stocked, ""
        self._write()
        self._list.highlighted = next(
            (at for at, row in enumerate(self._rows_there()) if isinstance(row.is_for, Route)), None
        )
        self.resume()

    def stopped(self) -> None:
        """The proof was stopped."""
        self.fail(_STOPPED)

    def resume(self) -> None:
        self.screen.set_focus(self._entry.field if self.is_asking else self._full if self.is_viewing else self._list)

    def page(self, pages: int) -> None:
        if self.is_viewing:
            (self._full.scroll_page_down if pages > 0 else self._full.scroll_page_up)(animate=False)
        else:
            turn_page(self._list, pages)

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    # -- what is said --------------------------------------------------------------------------------------------------

    def move(self, steps: int) -> None:
        """Mark the row after or before."""
        (self._list.action_cursor_down if steps > 0 else self._list.action_cursor_up)()

    def step(self, steps: int) -> None:
        """Take the word after or before in hand; what is not said yet is asked in its turn."""
        if self._story is None:
            return
        asks = self._story.asks
        at = len(asks) if self._ask is None else asks.index(self._ask)
        wanted = asks[min(max(at + steps, 0), len(asks) - 1)]
        said = [ask for ask in asks if self._story.get(ask)]
        if wanted in said or wanted is self._story.next:
            self._take(wanted)

    def _take(self, ask: Ask | None) -> None:
        """Take a word in hand; None where all is said."""
        self._ask = ask
        self.set_class(False, "-viewing")
        self.set_class(ask is Ask.AT, "-planning")
        self._entry.arrive("" if ask in (None, Ask.SOUND) or self._story is None else self._story.get(ask))
        self._write()
        self._list.highlighted = 1 if self._list.option_count > 1 else None
        if self.is_attached and self.display:
            self.resume()

    def _say(self, story: Story) -> None:
        """Take what is said, and go on to what is still to say, or to the routes."""
        is_same = self._story is not None and (story.damage, story.at) == (self._story.damage, self._story.at)
        if not is_same:
            story, self._found = story.now(self._planned), None
        self._story = story
        self._take(story.next)
        if story.next is None and story.damage is not None and not story.is_stopped and self._found is None:
            self._prove(story.planned, story.damage, story.at)

    async def on_click(self, event: Click) -> None:
        what, number = tapped(self, event)
        where = event.get_content_offset(self._head)
        if self._do.display and self._do.region.contains(event.screen_x, event.screen_y):
            self.press()
        elif what == "hole" and self._ask is Ask.AT and self._story is not None:
            self._say(self._story.read(Ask.AT, str(number))[0])
        elif where is not None and self._story is not None:
            at = self._sentence.at(where.x, where.y)
            asks = self._story.asks
            wanted = asks[at] if at is not None else None
            if wanted is not None and (self._story.get(wanted) or wanted is self._story.next):
                self._take(wanted)

    def on_key(self, event: Key) -> None:
        """The number of a route takes it in hand."""
        if event.character is not None and event.character.isdecimal() and self._found is not None:
            rows = [at for at, row in enumerate(self._rows_there()) if isinstance(row.is_for, Route)]
            if 1 <= int(event.character) <= len(rows):
                self._list.highlighted = rows[int(event.character) - 1]

    def press(self) -> None:
        """Enter: what is typed or marked is said; of a route that is seen in full, take it, else show it so."""
        if self._story is None:
            return
        if self._ask is not None:
            self._say_typed(self._story, self._ask)
        elif self.taken is not None:
            self.post_message(self.Onward())
        elif self.route is not None and not self.is_viewing and self.screen.has_class("-narrow"):
            self.view()
        else:
            self.take()

    def _say_typed(self, story: Story, ask: Ask) -> None:
        typed = self._entry.field.value.strip()
        marked = self._marked
        if ask is Ask.SIZE and isinstance(marked, Offer):
            self._say_offer(marked)
            return
        if typed and (typed != story.get(ask) or ask is Ask.SIZE):
            written, reading = story.read(ask, typed)
            if not reading.why:
                self._say(written)
                return
            if ask is not Ask.WHAT or not isinstance(marked, Offer):
                self._write()
                return
        if isinstance(marked, Offer):
            self._say_offer(marked)

    def _say_offer(self, offer: Offer) -> None:
        story, ask = self._story, self._ask
        if story is None or ask is None:
            return
        if ask is not Ask.SIZE:
            self._say(story.say(ask, offer.value))
            return
        typed = self._entry.field.value.casefold().strip()
        is_whole = any(typed.endswith(f" {way}") for way in WAYS)
        written, reading = story.read(ask, typed if is_whole else f"{typed} {offer.value}")
        if not reading.why:
            self._say(written)
        elif typed:
            self._write()

    def take(self) -> None:
        """Have the route in hand written down."""
        route, story = self.route, self._story
        if route is not None and story is not None and self._found is not None and self.taken is None:
            self.post_message(self.Taken(story.planned, self._found, route, self.seen))

    def view(self) -> None:
        """Give the route in hand all of a small screen, or go back to the routes."""
        if self._found is not None and self.screen.has_class("-narrow"):
            self.set_class(not self.is_viewing, "-viewing")
            self._full.scroll_home(animate=False)
            self._write()
            self.resume()

    @property
    def route(self) -> Route | None:
        """The route in hand, where one that does is marked."""
        marked = self._marked
        return marked if isinstance(marked, Route) and marked.refused is None else None

    @property
    def taken(self) -> Route | None:
        """The route of these that was taken."""
        found, mount, story = self._found, self._mount, self._story
        if found is None or mount is None or story is None:
            return None
        since, here = mount.repairs[story.planned.repairs :], (found.at, damage_text(found.damage))
        done = [one.route for one in since if (one.at, one.what) == here]
        return next((route for route in found.routes if route.route in done), None)

    # -- what is shown -------------------------------------------------------------------------------------------------

    def _rows_there(self) -> list[RepairOption]:
        options = (self._list.get_option_at_index(at) for at in range(self._list.option_count))
        return [option for option in options if isinstance(option, RepairOption)]

    @property
    def _marked(self) -> Offer | Route | None:
        at = self._list.highlighted
        option = None if at is None else self._list.get_option_at_index(at)
        return option.is_for if isinstance(option, RepairOption) else None

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        self._write()

    @on(OptionList.OptionHighlighted, "#repair-lines")
    def _highlighted(self) -> None:
        self._write_full()

    @on(OptionList.OptionSelected, "#repair-lines")
    def _selected(self, event: OptionList.OptionSelected) -> None:
        """A row was tapped: it is said; a route is shown in full."""
        event.stop()
        is_for = event.option.is_for if isinstance(event.option, RepairOption) else None
        if isinstance(is_for, Offer):
            self._say_offer(is_for)
        elif isinstance(is_for, Route) and not self.is_viewing:
            self.view()

    def _write(self) -> None:
        """Everything as it stands now."""
        if not self.size.width:
            return
        story, width = self._story, self.size.width
        if story is None or self._mount is None:
            self._head.update("")
            self._band.update(self._why or _WAIT)
            self._list.clear_options()
            self._words.update("")
            self._do.display = self._entry.display = False
            return
        at = 0 if self._ask is None else story.asks.index(self._ask)
        words = story.words(self._mount.name)
        self._sentence = sentence_of(words, at if self._ask is not None else len(words), width, 2)
        self._head.update(content([row for row in self._sentence.rows if row]))
        self._entry.display = self.is_asking
        self._list.can_focus = self._full.can_focus = not self.is_asking  # a tap must not take the keys from the entry
        self._show_entry(story)
        self._band.display = not (self.is_asking and self.screen.has_class("-short"))  # the list has no row to lose
        self._band.update(content(banded(story, self._ask, self._found, self._why, width)))
        self._fill(story)
        self._do.display = self._found is not None and self._ask is None
        self._write_full()
        self.call_after_refresh(self._write_full)  # in the room that it has by then

    def _show_entry(self, story: Story) -> None:
        ask = self._ask
        if ask is None:
            return
        typed = self._entry.field.value.strip()
        reading = story.read(ask, typed)[1] if typed else None
        if reading is not None and reading.why and ask is Ask.WHAT and any(self._offers(story)):
            reading = Reading(typed, next(iter(self._offers(story))).name)
        self._entry.show(story.label(ask), reading, "", story.example(ask))

    def _offers(self, story: Story) -> tuple[Offer, ...]:
        """What goes by what is typed; all where nothing does, or where it is as it was said."""
        if self._ask is None:
            return ()
        typed = self._entry.field.value.casefold().strip()
        offers = story.offers(self._ask)
        if self._ask is not Ask.WHAT or typed == story.get(self._ask):
            return offers
        word = typed.partition(" ")[0]
        return tuple(one for one in offers if one.name.startswith(word)) or offers

    def _fill(self, story: Story) -> None:
        at = self._list.highlighted
        width = max((self._list.scrollable_content_region.width or self.size.width) - OPTION_COLUMNS, _LEAST_COLUMNS)
        rows = [RepairOption(content(row.lines), row.is_for) for row in self._rows(story, width)]
        self._list.clear_options()
        self._list.add_options(rows)
        kept = [place for place, row in enumerate(rows) if row.is_for is not None]
        self._list.highlighted = at if at in kept else kept[0] if kept else None

    def _rows(self, story: Story, width: int) -> Iterator[RepairRow]:
        is_held = self.app.size.width < _PHONE and self.app.size.height >= _LOW
        if self._ask is not None:
            yield from asked_rows(self._ask, self._offers(story), width, is_held=is_held)
        elif story.is_stopped:
            yield from stop_rows(width)
        elif self._found is not None:
            yield from route_rows(self._found, self.taken, self._stocked, width, is_held=is_held)

    def _write_full(self) -> None:
        """The plan where a fixing is asked for, else the route in hand; and what Enter does."""
        story, width = self._story, max(self._full.scrollable_content_region.width - 1, _LEAST_COLUMNS)
        if story is None:
            return
        route = self.taken or self.route
        if self._ask is Ask.AT:
            self._words.update(content(plan_of(story, width, self._full.size.height)))
        elif self._found is not None and route is not None and self._ask is None:
            is_taken = route is self.taken
            self._words.update(content(route_lines(self._found, route, self._stocked, width, is_taken=is_taken)))
        else:
            self._words.update("")
        rows = 1 if self.screen.has_class("-wide") or self.screen.has_class("-short") else _TAP_ROWS
        self._do.update(content(pressed(self._found, self.route, self.taken, self.size.width, rows)))
