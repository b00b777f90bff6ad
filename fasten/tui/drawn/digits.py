"""Figures three rows high: solid where they may be used, in outline where nothing is proven.

Solid ones are five dots high in half blocks, the fewest that keep 5, 6, 8 and 9 apart: at four an 8 is read as a 0, and
what is misread gets drilled. Those in outline are drawn in lines, so that they differ without any colour.
"""

_SOLID = {
    "0": "### #.# #.# #.# ###", "1": "##. .#. .#. .#. ###", "2": "### ..# ### #.. ###", "3": "### ..# .## ..# ###",
    "4": "#.# #.# ### ..# ..#", "5": "### #.. ### ..# ###", "6": "### #.. ### #.# ###", "7": "### ..# ..# .#. .#.",
    "8": "### #.# ### #.# ###", "9": "### #.# ### ..# ###", ".": ". . . . #", "-": "... ... ### ... ...",
    "×": "... #.# .#. #.# ...", "/": "..# ..# .#. #.. #..", "#": ".#.#. ##### .#.#. ##### .#.#.",
    "M": "#...# ##.## #.#.# #...# #...#", "S": ".## #.. .#. ..# ##.", "T": "### .#. .#. .#. .#.",
}  # fmt: skip
_OUTLINE = {
    "0": "┌─┐│ │└─┘", "1": "╶┐  │ ╶┴╴", "2": "╶─┐┌─┘└─╴", "3": "╶─┐ ─┤╶─┘", "4": "╷ ╷└─┤  ╵", "5": "┌─╴└─┐╶─┘",
    "6": "┌─╴├─┐└─┘", "7": "╶─┐  │  ╵", "8": "┌─┐├─┤└─┘", "9": "┌─┐└─┤╶─┘", ".": "  .", "-": "   ───   ",
    "×": "    ×    ", "/": "  ╱ ╱ ╱  ", "#": "    #    ", "M": "┌┬┐│╵│╵ ╵", "S": "┌─╴╰─╮╶─┘", "T": "╶┬╴ │  ╵ ",
}  # fmt: skip
_HALVES = {"##": "█", "#.": "▀", ".#": "▄", "..": " "}
ROWS = 3


def can_draw(text: str) -> bool:
    """Whether every character of a figure has a form of its own here; otherwise it stays plain text."""
    return bool(text) and all(char in _SOLID for char in text)


def large(text: str, *, solid: bool = True) -> tuple[str, ...]:
    """A figure in three rows.

    Raises: KeyError for a character that has no form here (`can_draw` says which have).
    """
    return _solid(text) if solid else _outlined(text)


def _solid(text: str) -> tuple[str, ...]:
    dots = [".".join(_SOLID[char].split()[row] for char in text) for row in range(5)]
    dots.append("." * len(dots[0]))
    pairs = (zip(dots[row], dots[row + 1], strict=True) for row in range(0, 6, 2))
    return tuple("".join(_HALVES[upper + lower] for upper, lower in pair) for pair in pairs)


def _outlined(text: str) -> tuple[str, ...]:
    forms = [_OUTLINE[char] for char in text]
    return tuple(" ".join(_row(form, row) for form in forms) for row in range(ROWS))


def _row(form: str, row: int) -> str:
    wide = len(form) // ROWS
    return form[row * wide : (row + 1) * wide]
