"""The look that was chosen is that of the next start; what another terminal shows, or a bad file, changes nothing."""

from pathlib import Path

import pytest

from fasten.tui.palette import DARK, LIGHT, PLAIN, SIXTEEN
from fasten.tui.terminal.kept_look import OWN_LOOK, KeptLook


def test_a_look_is_kept_for_terminals_that_show_as_many_colours(tmp_path: Path) -> None:
    KeptLook(tmp_path / "state", DARK).keep(LIGHT)
    assert KeptLook(tmp_path / "state", DARK).look() == LIGHT
    assert KeptLook(tmp_path / "state", SIXTEEN).look() == SIXTEEN
    KeptLook(tmp_path / "state", PLAIN).keep(PLAIN)
    assert KeptLook(tmp_path / "state", PLAIN).look() == PLAIN


@pytest.mark.parametrize("kept", [b"", b"purple", b"\xff\xfe", b"light" * 100])
def test_what_is_no_look_is_passed_over(kept: bytes, tmp_path: Path) -> None:
    (tmp_path / f"look-{DARK}").write_bytes(kept)
    assert KeptLook(tmp_path, DARK).look() == DARK


def test_nothing_is_kept_where_there_is_no_folder(tmp_path: Path) -> None:
    OWN_LOOK.keep(LIGHT)
    assert OWN_LOOK.look() == DARK
    (tmp_path / "file").touch()
    KeptLook(tmp_path / "file", DARK).keep(LIGHT)
    assert KeptLook(tmp_path / "file", DARK).look() == DARK
