"""Test pieces of the face of a board say nothing of its edge, which holds less, nor the other way round."""

from pathlib import Path

import pytest

from fasten.advice.advise import advise
from fasten.after.own_tests import read_tests as read_of
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.store.tests_toml import keep, read_tests
from fasten.model import Into, Joint, MountPoint, Read
from fasten.proof.modes.tested import found
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
ON = {"item": "crossover", "onto": "MDF 30 mm", "removed": "never", "behind": "200 mm", "edge": "100 mm"}


def screwed(into: str) -> tuple[Joint, MountPoint]:
    point = resolve(read_question({**ON, "into": into}, TABLES), TABLES)
    answers = (one.proposal.joint for one in advise(point, TABLES).answers)
    return next(joint for joint in answers if joint.method == "screw_into_board"), point


@pytest.mark.parametrize(("tested", "asked"), [("face", "face"), ("edge", "edge"), ("face", "edge"), ("edge", "face")])
def test_a_pull_counts_on_the_side_where_it_was_read(tested: str, asked: str, tmp_path: Path) -> None:
    """The same screw of 32 mm in the same hole of 2.4 mm of the same board, and kept in a file between."""
    (joint, there), (other, point) = screwed(tested), screwed(asked)
    assert joint.hole is not None
    said = {"pull_out": "900 910 890 905 N"}
    own = read_of(said, joint, joint.sheet_mm, joint.hole.diameter_mm, there, "2026-01-01", TABLES)
    keep(tmp_path / "tests.toml", own)
    kept = read_tests(tmp_path / "tests.toml")
    assert kept == own
    point = resolve(read_question({**ON, "into": asked}, TABLES), TABLES.with_kept(lambda: kept))
    assert point.tests == own
    assert (found(Read.PULL_OUT, other, point, TABLES) is not None) is (tested == asked)


def test_a_file_without_a_side_is_of_the_face_and_of_no_third(tmp_path: Path) -> None:
    path = tmp_path / "tests.toml"
    joint, point = screwed("face")
    assert joint.hole is not None
    keep(path, read_of({"pull_out": "900 N"}, joint, joint.sheet_mm, joint.hole.diameter_mm, point, "", TABLES))
    assert "side =" not in path.read_text(encoding="utf-8")
    assert [test.into for test in read_tests(path)] == [Into.FACE]
    path.write_text(path.read_text(encoding="utf-8").replace("[[test]]", '[[test]]\nside = "back"'), encoding="utf-8")
    with pytest.raises(FastenError, match="neither side of a board"):
        read_tests(path)
