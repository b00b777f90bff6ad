"""The sentence: whole words at every width, each found again by a tap, the one in hand always in view."""

from itertools import pairwise

import pytest

from fasten.question.fields import FORM
from fasten.tui.drawn.runs import columns, plain
from fasten.tui.drawn.sentence import MORE, Kind, Word, height_of, sentence_of
from fasten.tui.drawn.top import AFTER, BEFORE, Shown, top_of
from fasten.tui.drawn.wording import PHRASES

WORDS = [
    *(Word(ask.name, f"{len(ask.label)}.5 mm", Kind.PRESET, PHRASES[ask.name].before, ".") for ask in FORM[:20]),
    Word("more", "9 more", Kind.MORE),
]


def test_every_field_has_its_place_in_the_sentence_in_the_order_of_the_form() -> None:
    assert list(PHRASES) == [ask.name for ask in FORM]
    assert all(phrase.before for phrase in PHRASES.values())


@pytest.mark.parametrize("width", [30, 44, 80, 84])
@pytest.mark.parametrize("rows", [1, 2, 4])
def test_the_word_in_hand_is_whole_in_view_and_each_that_is_seen_can_be_tapped(width: int, rows: int) -> None:
    for current in range(len(WORDS)):
        drawn = sentence_of(WORDS, current, width, rows)
        assert len(drawn.rows) == rows
        assert max(map(columns, drawn.rows)) <= width
        filled = [text for row in drawn.rows for text, style in row if "reverse" in style]
        assert filled == [WORDS[current].text]
        for at, spans in enumerate(drawn.spans):
            for start, end, place in spans:
                assert plain(drawn.rows[at])[start:end].strip("…") in WORDS[place].text
                assert drawn.at(start, at) == drawn.at(end - 1, at) == place
            assert all(end <= start for (_, end, _), (start, _, _) in pairwise(spans))


def test_a_sentence_that_is_cut_still_ends_in_the_word_for_the_rest() -> None:
    words = [*WORDS[:-1], Word(MORE, "9 more", Kind.MORE)]
    assert height_of(words, 44) > 2
    assert plain(sentence_of(words, 0, 44, 2).rows[-1]).endswith("… 9 more")


@pytest.mark.parametrize("width", [18, 42, 78, 118])
def test_the_top_line_fits_and_a_fault_is_never_left_out(width: int) -> None:
    shown = Shown("a job of a long name", "left amplifier in the boot", 3, 12, "NOT SAVED", warns=True)
    top = top_of(shown, width)
    assert columns(top.line) <= width
    assert plain(top.line).endswith("NOT SAVED")
    if width > 30:
        at = plain(top.line).index("‹ 4 of 12 ›")
        assert [top.at(at), top.at(at + 10), top.at(at - 1)] == [BEFORE, AFTER, 0]


def test_that_it_is_saved_gives_way_to_the_names() -> None:
    saved = Shown("estate", "left amplifier", 3, 12, "saved 14:31")
    assert "saved" not in plain(top_of(saved, 42).line)
    assert "saved 14:31" in plain(top_of(saved, 78).line)
