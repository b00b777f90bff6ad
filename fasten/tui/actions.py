"""Every action of the screen, once: its key, its label, what it does and where. Bar, panel and keys all read this list.

A key acts by itself where nothing is being typed; while a field has the focus, `;` comes before it.
"""

from dataclasses import dataclass

LEADER = ";"


@dataclass(frozen=True)
class Action:
    """One action: `name` is the method `action_<name>` of the app; `place` is empty where it works everywhere."""

    name: str
    key: str
    label: str
    about: str
    place: str = ""


PLACES = (
    Action("go('mounts')", "m", "Mounts", "the mount points, their questions and answers"),
    Action("go('look')", "l", "Look up", "any thread, bit, gauge, screw or class"),
    Action("go('box')", "b", "Box", "everything that must be in the box, and whether it is"),
    Action("go('shelf')", "s", "Shelf", "what you own"),
)
ACTIONS = (
    Action("new_mount", "n", "New mount", "ask for another mount point"),
    Action("all_mounts", "a", "All mounts", "go to another mount point"),
    Action("compare", "c", "Compare", "the proposals side by side, and hold one", "mounts"),
    Action("rename", "r", "Rename", "name this mount point, and add a note", "mounts"),
    Action("instead", "i", "Instead", "a screw length is missing: what on the shelf will do", "mounts"),
    Action("as_built", "w", "As built", "write down what was really used", "mounts"),
    Action("remove_mount", "d", "Delete mount", "take this mount point out of the job", "mounts"),
    Action("fewest", "f", "Fewest sizes", "the same job with fewer different sizes, before and after", "box"),
    Action("have", "h", "Have it", "put what this line wants on the shelf", "box"),
    Action("own", "o", "Own", "put a part, bit, tool or consumable on the shelf", "shelf"),
    Action("drop", "d", "Take off", "this line is on the shelf no more", "shelf"),
    Action("tick", "t", "Tick", "the line in hand is packed, or not after all", "box"),
    *PLACES,
    Action("export", "e", "Export", "work sheet, hardware list or drilling template as a file"),
    Action("undo", "u", "Undo", "take the last change back"),
    Action("redo", "y", "Redo", "make it again"),
    Action("jobs", "j", "Jobs", "open another job, start one, or name this one"),
    Action("read", "v", "Read", "give the answer the whole of a small screen, or give it back"),
    Action("shade", "k", "Dark or light", "dark, light, or your terminal's own colours"),
    Action("quit", "q", "Quit", "the job is saved"),
)
STOP = Action("stop", "q", "Stop", "end the work that the top line counts")  # in place of leaving


def here(place: str, *, is_working: bool = False) -> tuple[Action, ...]:
    """What can be done in a place, in the order in which it is shown; while long work is done, it can be stopped."""
    found = (action for action in ACTIONS if action.place in ("", place))
    return tuple(STOP if is_working and action.key == STOP.key else action for action in found)


def of_key(key: str, place: str, *, is_working: bool = False) -> Action | None:
    """The action that a key stands for in a place."""
    return next((action for action in here(place, is_working=is_working) if action.key == key.casefold()), None)
