"""The question of a run as a sentence: what is said, what follows, what is open; words of the job are understood."""

import pytest
from wiring.asked import TABLES, asked

from fasten.job.words import CableRun, Job, Mount, Recorded
from fasten.tui.drawn.sentence import MORE, Kind
from fasten.tui.runs.run_question import begun_name, label_of, named_by, offers, read_word, said_of, with_word, words_of
from fasten.wiring.fields import CARRIES, FROM, LENGTH, TO

AMP = Mount("left amplifier", (("item", "amplifier"),))
JOB = Job("", "", "", (AMP,), sections=(Recorded("bonnet", ()), Recorded("left sill", ())))


def kinds(run: CableRun | None, current: str = "carries", **misread: str) -> dict[str, Kind]:
    found = words_of("new run", said_of(run), misread, None, current, unfolded=False)
    return {word.name: word.kind for word in found}


def test_a_new_run_asks_for_what_it_needs_and_folds_the_rest() -> None:
    assert kinds(None) == dict.fromkeys(("carries", "from", "to", "length"), Kind.OPEN) | {MORE: Kind.MORE}


def test_a_word_stands_as_it_was_said_follows_or_was_misread() -> None:
    run = with_word(with_word(CableRun("x", ()), TO.name, "body"), "sections", "bonnet")
    found = kinds(run, length="far")
    assert found["to"] is Kind.GIVEN
    assert found["sections"] is Kind.GIVEN
    assert found["length"] is Kind.MISREAD
    follows = words_of("x", {}, {}, asked(), "carries", unfolded=True)
    assert {word.name: word.text for word in follows}["carries"] == "1000 W class D"
    assert {word.name: word.kind for word in follows}["material"] is Kind.PRESET
    assert follows[-1].text == "fewer"


def test_a_word_is_put_in_and_taken_away() -> None:
    run = with_word(CableRun("x", ()), LENGTH.name, "5 m")
    run = with_word(run, CARRIES.name, "72 A")
    assert run.said == (("carries", "72 A"), ("length", "5 m"))
    assert with_word(run, LENGTH.name, "").said == (("carries", "72 A"),)
    assert with_word(run, "holes", "bulkhead, floor").holes == ("bulkhead", "floor")


def test_an_end_is_a_mount_point_of_the_job_by_its_beginning_and_nothing_else() -> None:
    assert read_word(TO.name, "le,s", JOB, TABLES).taken == "left amplifier, set screw"
    assert read_word(FROM.name, "connector", JOB, TABLES).understood == "connector"
    assert read_word(TO.name, ",s", JOB, TABLES, "left amplifier").taken == "left amplifier, set screw"
    assert read_word(TO.name, ",s", JOB, TABLES, "loudspeaker").taken == "set screw"
    assert read_word(MORE, "holder", JOB, TABLES).understood == "fuse"
    assert read_word(MORE, "elsewhere", JOB, TABLES).why
    wrong = read_word(TO.name, "right amplifier", JOB, TABLES)
    assert "no end of a run" in wrong.why
    assert "\x1b" not in read_word(TO.name, "\x1b[2J", JOB, TABLES).why
    assert offers(TO.name, JOB, TABLES)[0] == "left amplifier"


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("along", "sections"), ("section", "sections"), ("through", "holes"), ("hole", "holes"),
        ("by way", "through-device"), ("over", "length"), ("body", "body"), ("sized", "series"),
        ("", ""), ("elsewhere", ""),
    ],
)  # fmt: skip
def test_a_word_is_found_as_the_sentence_calls_it_and_as_its_entry_does(typed: str, name: str) -> None:
    assert named_by(typed) == name


def test_every_word_is_found_by_each_way_it_is_called() -> None:
    for word in words_of("x", {}, {}, asked(), "carries", unfolded=True)[:-1]:
        assert named_by(word.name), word.name
        assert named_by(label_of(word.name)) == word.name
        assert named_by(word.before.rpartition(": ")[2].strip(" ,")) == word.name


def test_sections_are_those_of_the_job() -> None:
    assert read_word("sections", "bon, left", JOB, TABLES).taken == "bonnet, left sill"
    assert "no section 'roof'" in read_word("sections", "roof", JOB, TABLES).why
    assert "none yet" in read_word("holes", "bulkhead", JOB, TABLES).why


def test_a_new_run_is_called_by_what_it_carries() -> None:
    named = {text: begun_name(with_word(CableRun("", ()), CARRIES.name, text)) for text in
             ("remote", "72 A", "loudspeaker 100 W 4 ohm", "")}  # fmt: skip
    assert named == {"remote": "remote", "72 A": "power", "loudspeaker 100 W 4 ohm": "loudspeaker lead", "": "run"}
