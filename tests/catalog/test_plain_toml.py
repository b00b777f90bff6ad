"""A text is read without a parser of TOML where it is plain, and then it says the same; what is not is left to that."""

from tomllib import loads as by_toml

import tomli_w
from built.few import few
from hypothesis import given, settings
from hypothesis import strategies as st

from fasten.catalog.plain_toml import loads, plain
from fasten.commands.demo import JOB, demo_folder
from fasten.job.store.job_toml import job_text
from fasten.job.store.parse import table_text
from fasten.job.words import Job, Mount, Pin, Repair, Visit

LINES = (
    "", "# said", "#", "#\ttab", " # said", 'a = "x"', 'a-b = "y = # z"', 'b = "x" # said', 'b = """x""" # said',
    "c = 7", "c = 07", "d = true", 'e = ["x", "y"]', "e = [", '  "x",', '"y"', '"z",', "]", "  ]", ",", "[a]", "[[a]]",
    "[a.b]", "[[a.b]]", "[[a.b.c]]", "[b]", "[[b]]", "[[a]] ", "[a", "a]", "[]", "[[]]", "[.]", "[a.]", '["a"]',
    'a.b = "x"', 'f = """x', 'y"""', "y\\", 'f = "x\\ny"', 'f = "x\\\\ny"', "g = [[", 'h = ["x",]', "-a = 1", "1 = 1",
    "[[-]]", "[c]", "[[c]]", "b = [{a = 1}]", "c = {}", "c.a = 1",
)  # fmt: skip


@settings(max_examples=few(5000, 500))
@given(st.lists(st.sampled_from(LINES), max_size=9))
def test_what_is_read_without_a_parser_says_the_same(lines: list[str]) -> None:
    text = "\n".join(lines)
    found = plain(text)
    if found is not None:
        assert repr(found) == repr(by_toml(text))


def test_the_job_of_the_example_needs_no_parser() -> None:
    text = (demo_folder() / JOB).read_text(encoding="utf-8")
    assert repr(plain(text)) == repr(loads(text)) != "None"


def test_a_job_with_all_that_a_mount_point_keeps_needs_none() -> None:
    pin, visit = (
        Pin("rivet_nut", "M5", "round", 12.5, None),
        Visit("2026-05-03", "7.1 mm", "", "", "", photos=("a.jpg",)),
    )
    mounts = tuple(
        Mount(
            name, (("item", "amplifier"),), pin=pin, visits=(visit, visit), repairs=(Repair(1, "spun", "larger", pin),)
        )
        for name in ("left", "right")
    )
    text = job_text(Job("two", "", "", mounts, packed=("part:nut/M5", "bit:5")))
    assert repr(plain(text)) == repr(loads(text)) != "None"
    assert text.count("[[mount.visit]]") == 4


TEXTS = st.text(max_size=6) | st.sampled_from(["M5", "a b", 'a "b"', "c:\\\\d", "two\nlines", "½", "\x7f", "[x]", "#"])


@settings(max_examples=few(3000, 200))
@given(st.dictionaries(st.sampled_from(["a", "b-c", "_", "1", "a.b", "", "é"]) | TEXTS,
                       TEXTS | st.integers() | st.booleans() | st.floats(allow_nan=False) | st.lists(TEXTS, max_size=3)
                       | st.just({"x": 1}) | st.just([1])))  # fmt: skip
def test_what_is_written_without_a_writer_is_the_same(entries: dict[str, object]) -> None:
    said = {key: value for key, value in entries.items() if value != ""}
    assert table_text(entries) == tomli_w.dumps(said, multiline_strings=True)
    assert repr(plain(table_text(entries))) in ("None", repr(by_toml(table_text(entries))))
