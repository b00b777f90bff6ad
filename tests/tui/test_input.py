"""Whatever bytes the terminal sends, the screen goes on, and what was typed before and after them is kept."""

from pathlib import Path

import pytest
from built.few import ALL
from textual.events import Key, MouseScrollUp, Paste
from textual.message import Message

from fasten.tui.terminal.driver import PASTE_S, Typed

from .terminal import Terminal
from .test_terminal import SAID, ask, held, job_in

LATIN = "café".encode("latin-1")
PASTED = (b"\x1b[200~", b"\x1b[201~")
HOSTILE = {
    "a paste in another encoding": b"".join((PASTED[0], LATIN, PASTED[1])),
    "keys in another encoding": LATIN,
    "an old mouse right of column 95": b"\x1b[M \xff!\x1b[M#\xff!",
    "an old mouse that is half a letter": b"\x1b[M \xc3\xa9\x1b[M#\xc3\xa9",
    "half a letter": b"\xf0\x9f",
    "a surrogate": b"\xed\xa0\x80",
    "a key that is no character": b"\x1b[97;1;55296u\x1b[9999999999;1u\x1b[1:2;3u",
    "a mouse far away": b"\x1b[<0;99999;99999M\x1b[<0;99999;99999m\x1b[<64;99999;1M",
    "sizes among the keys": b"\x1b[48;0;0;0;0t\x1b[48;9999;9999;0;0t\x1b[<35;3;3M",
    "a size in a paste": PASTED[0] + b"\x1b[48;9999;9999;0;0t" + PASTED[1],
}
# An edit after each of them by hand; in the set after a few of them, as each edit costs an answer.
EACH, AT_ONCE = list(HOSTILE), 1 if ALL else 4
TOGETHER = {
    " and ".join(EACH[at : at + AT_ONCE]): b"".join(HOSTILE[what] for what in EACH[at : at + AT_ONCE])
    for at in range(0, len(EACH), AT_ONCE)
}


@pytest.mark.slow
def test_bytes_that_are_no_text_end_no_screen_and_lose_no_edit(tmp_path: Path) -> None:
    with Terminal(tmp_path) as terminal:
        ask(terminal)
        terminal.keys("\r")  # on to the button below the fields, where no letter is text
        terminal.shows("  saved")
        for number, (what, sent) in enumerate(TOGETHER.items(), 2):
            terminal.keys(sent)
            terminal.keys(";n")
            terminal.shows("New mount point")
            terminal.say("speaker", "mdf 18 mm")
            terminal.keys(b"never" + sent)
            terminal.until(lambda: f"{number} of {number}" in terminal.text, f"an edit after {what}")  # noqa: B023
            terminal.keys("\r")
        terminal.keys("\x03")
        assert terminal.ended() == 0
        assert terminal.is_sane()
        assert terminal.last_words() == ""
    kept = held(job_in(tmp_path))
    assert kept[0] == SAID
    assert [said[:2] for said in kept[1:]] == [("speaker", "mdf 18 mm")] * len(TOGETHER)


def text_of(messages: list[Message]) -> str:
    """What was typed and pasted."""
    return "".join(
        message.text if isinstance(message, Paste) else message.character or ""
        for message in messages
        if isinstance(message, Paste | Key)
    )


def test_what_is_no_text_is_seen_where_it_stands() -> None:
    assert text_of([*Typed().read(b"a" + LATIN + b" b")]) == "acaf\ufffd b"
    assert text_of([*Typed().read(PASTED[0] + LATIN + PASTED[1] + b"b")]) == "caf\ufffdb"


def test_a_letter_in_two_parts_is_one() -> None:
    typed = Typed()
    assert text_of([*typed.read("µ".encode()[:1]), *typed.waited(), *typed.read("µ".encode()[1:])]) == "µ"


def test_an_old_mouse_types_nothing_and_a_new_one_is_heard() -> None:
    assert [*Typed().read(b"\x1b[M \xff!" + b"\x1b[M \xc3\xa9")] == []
    assert [type(message) for message in Typed().read(b"\x1b[<64;3;3M")] == [MouseScrollUp]


def test_a_sequence_that_cannot_be_read_takes_no_key_with_it() -> None:
    assert text_of([*Typed().read(b"a\x1b[9999999999;1ub\x1b[1:2;3uc")]) == "abc"


def test_the_system_tells_the_size_and_no_one_who_types_it() -> None:
    assert [*Typed().read(b"\x1b[48;9999;9999;0;0t\x1b[?2048;1$y")] == []


def test_a_paste_whose_end_was_lost_gives_the_keys_back() -> None:
    now = 0.0
    typed = Typed(lambda: now)
    assert [*typed.read(PASTED[0] + b"steel"), *typed.waited()] == []
    now = PASTE_S + 1
    assert text_of([*typed.waited(), *typed.read(b"!")]) == "steel!"
