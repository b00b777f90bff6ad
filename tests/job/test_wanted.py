"""What somebody is fitting, as they say it, read into installs and how many of each."""

import pytest

from fasten.catalog.installs import INSTALL_MOUNTS, INSTALLS
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.start.start import started
from fasten.job.start.wanted import Wanted, nearest, read_wanted
from fasten.job.words import Job

TABLES = builtin()


def installs(text: str) -> list[Wanted]:
    found = read_wanted(text, TABLES)
    assert all(isinstance(one, Wanted) for one in found), found
    return [one for one in found if isinstance(one, Wanted)]


def read(text: str) -> list[tuple[str, int, str, str]]:
    return [(one.install.install, one.count, one.place, one.only) for one in installs(text)]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("two amplifiers, four door speakers, sub box",
         [("seat-amplifier", 2, "", ""), ("door-speakers", 2, "", ""), ("enclosure", 1, "", "")]),
        ("two door speakers", [("door-speakers", 1, "", "")]),
        ("door speakers", [("door-speakers", 1, "", "")]),
        ("4 Doors", [("door-speakers", 2, "", "")]),
        ("a pair of tweeters", [("tweeters", 1, "", "")]),
        ("two pairs of tweeters", [("tweeters", 2, "", "")]),
        ("a-pillar tweeters", [("tweeters", 1, "", "")]),
        ("rear door speakers; left amp", [("door-speakers", 1, "rear", ""), ("seat-amplifier", 1, "left", "")]),
        ("2x amps and a box", [("seat-amplifier", 2, "", ""), ("enclosure", 1, "", "")]),
        ("battery", [("power-run", 1, "", "")]),
        ("ground", [("power-run", 1, "", "main ground")]),
        ("fuse holder, wiring", [("power-run", 1, "", "fuse holder"), ("power-run", 1, "", "")]),
        ("amplifier under a seat", [("seat-amplifier", 1, "", "")]),
        ("amplifiers in the boot", [("boot-board", 1, "", "")]),
        ("two boxes", [("enclosure", 2, "", "")]),
    ],
)  # fmt: skip
def test_counts_are_of_pieces_and_the_longest_words_count(text: str, found: list[tuple[str, int, str, str]]) -> None:
    assert read(text) == found


def test_every_word_of_the_tables_reads_as_its_install() -> None:
    for row in TABLES.rows(INSTALLS):
        for text in row.said_as:
            assert read(text)[0][0] == row.install, text
    for mount in TABLES.rows(INSTALL_MOUNTS):
        for text in mount.alone:
            assert read(text)[0][::3] == (mount.install, mount.mount), text


def test_a_board_counts_what_it_is_said_to_carry() -> None:
    (one,) = installs("board with one amplifier and no processor")
    assert dict(one.counts) == {"board amplifier {n}": 1, "board processor": 0}
    board, doors = installs("board with two amplifiers and four doors")
    assert (dict(board.counts), doors.count) == ({"board amplifier {n}": 2}, 2)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("amplifer", "amplifier or seat amplifier"),
        ("two amplifers", "amplifier or seat amplifier"),
        ("two amplifiers, dor speakers", "door speakers"),
        ("big amplifier", "'big amplifier' names no install"),
        ("three door speakers", "they come in pairs"),
        ("90 amplifiers", "at most 4"),
        ("99999 amplifiers", "at most 4"),
        ("no amplifier", "that is none"),
        (" , ,", "nothing is said to be fitted"),
        ("[/b]", "names no install"),
        ("x" * 2000, "at most 1000"),
    ],
)
def test_a_word_that_is_not_known_is_named_with_the_nearest_two(text: str, says: str) -> None:
    with pytest.raises(FastenError) as found:
        read_wanted(text, TABLES)
    assert says in str(found.value)
    assert found.value.fix


def test_every_wrong_word_is_named_at_once_each_with_what_is_near() -> None:
    each = r"'kayak', 'tweters' and 'door spekers' name no install; write for 'tweters' .* or .*; for 'door spekers' "
    with pytest.raises(FastenError, match=each):
        read_wanted("kayak, amp, tweters, door spekers", TABLES)
    assert len(nearest("tweters", TABLES)) == 2


@pytest.mark.parametrize("text", ["kayak", "kayak, amp, canoo", "dashcam", "two horses"])
def test_of_a_word_that_is_near_to_none_it_says_what_is_known(text: str) -> None:
    with pytest.raises(FastenError, match=r"write amplifier, board, door speakers, .* or processor") as found:
        read_wanted(text, TABLES)
    assert "beauty panel" not in str(found.value)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("crossover", ["crossover"]),
        ("ground lug", ["ground lug"]),
        ("two crossovers", ["crossover", "crossover 2"]),
        ("crossovers", ["left crossover", "right crossover"]),
        ("a pair of crossovers", ["left crossover", "right crossover"]),
        ("left crossover, right crossover", ["left crossover", "right crossover"]),
        ("two ground lugs", ["ground lug", "ground lug 2"]),
        ("two door speakers with crossovers", ["left door adapter", "right door adapter", "left door driver",
                                               "right door driver", "left crossover", "right crossover"]),
        ("sub box and a crossover", ["enclosure", "crossover"]),
    ],
)  # fmt: skip
def test_an_item_that_no_install_has_is_a_mount_point_of_its_own(text: str, names: list[str]) -> None:
    job = started(Job("", "", "", ()), read_wanted(text, TABLES), TABLES)
    assert [mount.name for mount in job.mounts] == names


def test_too_many_of_an_item_are_refused() -> None:
    with pytest.raises(FastenError, match="at most 12"):
        read_wanted("40 crossovers", TABLES)


def test_a_block_stands_on_a_board_only_where_there_is_one() -> None:
    alone = started(Job("", "", "", ()), read_wanted("distribution block", TABLES), TABLES)
    assert "on-board" not in dict(alone.mounts[0].said)
    board = started(Job("", "", "", ()), read_wanted("board with one amplifier", TABLES), TABLES)
    later = started(board, read_wanted("distribution block", TABLES), TABLES)
    assert dict(later.mounts[-1].said)["on-board"] == "board"
