"""The palette: what colour each role has in each look. Nothing else on the screen names a colour, only its role.

On a terminal of sixteen colours its own numbers are asked for, never the nearest colour: the person chose what they
look like. Without colour every role is the terminal's own, and what is filled is still `reverse`.
"""

from collections.abc import Mapping

from textual.theme import Theme

DARK, LIGHT, SIXTEEN, PLAIN = "dark", "light", "sixteen", "plain"
LOOKS = (DARK, LIGHT, SIXTEEN)
"""Those that the person can change between, in that order; plain is asked for by NO_COLOR."""

_OWN = "ansi_default"
_HUES = ("black", "red", "green", "yellow", "blue", "magenta", "cyan", "white")
_NUMBERED = (*(f"ansi_{hue}" for hue in _HUES), *(f"ansi_bright_{hue}" for hue in _HUES))

_ROLES: dict[str, tuple[str, str, int]] = {  # dark, light, number of sixteen
    "paper": ("#15181a", "#f6f3ec", 0),
    "raised": ("#22272a", "#e9e4d8", 0),
    "ink": ("#efeae0", "#1b1d1e", 15),
    "quiet": ("#a9a598", "#5c594f", 7),
    "rule": ("#4b5052", "#b9b2a2", 8),
    "accent": ("#93b7ff", "#22509f", 14),
    "good": ("#86cf92", "#1c6a37", 10),
    "open": ("#efbb55", "#7a4e00", 11),
    "bad": ("#ff9384", "#a1281c", 9),
    "screw": ("#b4bdc3", "#838d94", 7),
    "screw-lit": ("#d2d7db", "#a2aaae", 15),
    "screw-shade": ("#7e8488", "#62696f", 8),
    "screw-root": ("#63686b", "#4f5559", 8),
    "receiver": ("#96712a", "#80590c", 3),
    "receiver-lit": ("#c0aa7f", "#a08349", 3),
    "receiver-shade": ("#846325", "#604309", 3),
    "jacket": ("#4f9a94", "#1f5f5a", 6),
    "sheet": ("#d3e4f6", "#0d2a49", 15),
    "item": ("#566879", "#7d8f9f", 8),
    "item-mark": ("#8995a1", "#58646f", 7),
    "board": ("#c08f5c", "#a87a42", 3),
    "board-mark": ("#d3b18d", "#76552e", 0),
    "plastic": ("#9d92c8", "#7c70a8", 5),
    "plastic-mark": ("#bab3d9", "#574e76", 15),
    "soft": ("#72805f", "#75805f", 2),
    "soft-mark": ("#9ca68f", "#525a43", 0),
    "behind": ("#68655f", "#857f74", 8),
    "behind-mark": ("#95938f", "#5d5951", 7),
}


def colours(look: str) -> dict[str, str]:
    """What colour each role has in a look."""
    if look == PLAIN:
        return dict.fromkeys(_ROLES, _OWN)
    if look == SIXTEEN:
        return {role: _NUMBERED[number] for role, (_, _, number) in _ROLES.items()}
    return {role: dark if look == DARK else light for role, (dark, light, _) in _ROLES.items()}


def look_of(environ: Mapping[str, str]) -> str:
    """The look that a terminal shows: none where no colour is wanted, its own sixteen where it has no more."""
    if "NO_COLOR" in environ:
        return PLAIN
    many = environ.get("COLORTERM", "").casefold() in ("truecolor", "24bit")
    many = many or environ.get("TERM", "").endswith(("-256color", "-direct", "kitty"))
    return DARK if many else SIXTEEN


def next_look(look: str) -> str:
    """The look after this one; none comes after plain."""
    return look if look == PLAIN else LOOKS[(LOOKS.index(look) + 1) % len(LOOKS)]


def theme(look: str) -> Theme:
    """A look for the screen: the roles, and what the parts that come with Textual ask for, said in roles."""
    of = colours(look)
    has_raised = look in (DARK, LIGHT)
    marked = {"foreground": of["ink"], "background": of["raised"]}
    marked["text-style"] = "bold" if has_raised else "bold reverse"
    cursor = {f"block-cursor-{part}": said for part, said in marked.items()}
    cursor |= {f"block-cursor-blurred-{part}": said for part, said in (marked | {"text-style": "bold"}).items()}
    bars = {"scrollbar": of["rule"], "scrollbar-hover": of["quiet"], "scrollbar-active": of["accent"]}
    bars |= {f"scrollbar-{part}": of["paper"] for part in ("background", "background-hover", "background-active")}
    bars["scrollbar-corner-color"] = of["paper"]
    typed = {"input-cursor-background": of["ink"], "input-cursor-foreground": of["paper"]}
    own = {"ansi-background": of["paper"], "ansi-foreground": of["ink"]}
    typed["input-cursor-text-style"] = typed["input-selection-text-style"] = "reverse" if look == PLAIN else "none"
    return Theme(
        name=look, primary=of["accent"], warning=of["open"], error=of["bad"], success=of["good"], accent=of["accent"],
        foreground=of["ink"], background=of["paper"], surface=of["paper"], panel=of["raised"], dark=look != LIGHT,
        variables={**of, **cursor, **bars, **typed, **own}, ansi=not has_raised,
    )  # fmt: skip
