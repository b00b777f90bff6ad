"""Every action of the screen, once: its key, its label, what it does and where. Foot, panel and keys read this list.

A key acts by itself where nothing is being typed; while a field has the focus, `;` comes before it. One letter means
one thing on every page.
"""

from fasten.record import record

LEADER = ";"


@record
class Action:
    """One action: `name` is the method `action_<name>` of the app; `place` is empty where it works everywhere."""

    name: str
    key: str
    label: str
    about: str
    place: str = ""


PLACES = (
    Action("go('mounts')", "m", "Mounts", "the mount points, their questions and answers"),
    Action("go('runs')", "r", "Runs", "the runs of cable: what is proposed, and what each gets"),
    Action("go('box')", "b", "Box", "everything that must be in the box, and whether it is"),
    Action("go('shelf')", "s", "Shelf", "what you own"),
    Action("go('look')", "l", "Look", "any thread, bit, gauge, screw or class"),
)
ACTIONS = (
    Action("make", "k", "tick", "the step or hole in hand is made, or not after all", "work"),
    Action("all_steps", "w", "work", "all of the steps, or one at a time", "work"),
    Action("section", "v", "view", "the joint as it is drawn, and all of its answer", "work"),
    Action("work", "w", "work", "the steps at the car, one at a time, each ticked as it is made", "mounts"),
    Action("repair", "e", "repair", "a nut spins, a hole is too wide: what can be done about it", "work"),
    Action("make", "k", "tick", "the step in hand is made, or not after all", "run-work"),
    Action("all_steps", "w", "work", "all of the steps, or one at a time", "run-work"),
    Action("run_answer", "v", "view", "what this run gets", "run-work"),
    Action("name_run", "t", "title", "name this run, and note what was measured of it", "run-work"),
    Action("try_mark", "k", "tick", "the marked trial goes as it should", "gauge"),
    Action("keep_built", "k", "tick", "what is said was used: write it down", "built"),
    Action("work", "w", "work", "back to the steps of this mount point", "built"),
    Action("repair", "e", "repair", "a nut spins, a hole is too wide: what can be done about it", "built"),
    Action("take_route", "k", "tick", "the route in hand is taken: it is written down, and the list follows", "repair"),
    Action("view_route", "v", "view", "the route in hand in full, or all of them", "repair"),
    Action("work", "w", "work", "back to the steps of this mount point", "repair"),
    Action("repair", "e", "repair", "begin again: something else went wrong", "repair"),
    Action("tick", "k", "tick", "the marked line is packed, or not after all", "box"),
    Action("have", "h", "have", "put what this line wants on the shelf", "box"),
    Action("own", "h", "have", "put a part, bit, tool or consumable on the shelf", "shelf"),
    Action("fewest", "f", "fewest", "the same job with fewer different sizes, before and after", "box"),
    Action("drop", "d", "drop", "this line is on the shelf no more", "shelf"),
    Action("read", "v", "view", "give the answer the whole of a small screen, or give it back", "mounts"),
    Action("repair", "e", "repair", "a nut spins, a hole is too wide: what can be done about it", "mounts"),
    Action("read_run", "v", "view", "go to what this run gets, or back to its question", "runs"),
    Action("work_run", "w", "work", "the steps of the run in hand, one at a time, each ticked as it is made", "runs"),
    Action("name_run", "t", "title", "name this run, and add a note", "runs"),
    Action("remove_run", "d", "drop", "take this run out of the job", "runs"),
    Action("new_mount", "n", "new", "ask for another mount point, or among the runs for another run"),
    Action("gauge", "g", "gauge", "one measuring pass: what to cut, and what to try where"),
    Action("undo", "u", "undo", "take the last change back"),
    Action("all_mounts", "a", "all mounts", "go to another mount point"),
    Action("compare", "c", "compare", "the proposals beside each other, and hold one", "mounts"),
    Action("instead", "i", "instead", "a screw length is missing: what on the shelf will do", "mounts"),
    Action("copy", "o", "copy", "the same again, without what was measured here", "mounts"),
    Action("pair", "p", "pair", "the same on the other side, left or right", "mounts"),
    Action("rename", "t", "title", "name this mount point, note it, and put it in its place", "mounts"),
    Action("remove_mount", "d", "drop", "take this mount point out of the job", "mounts"),
    *PLACES,
    Action("export", "x", "export", "work sheet, hardware list or drilling template as a file"),
    Action("redo", "y", "replay", "make again what was taken back"),
    Action("jobs", "j", "jobs", "open another job, start one, or name this one"),
    Action("shade", "z", "dark or light", "dark, light, or your terminal's own colours"),
    Action("quit", "q", "quit", "the job is saved"),
)
COMMANDS = {
    "go('mounts')": ("pick", "set"), "go('box')": ("hardware", "ready"), "go('shelf')": ("shelf",), "own": ("shelf",),
    "drop": ("shelf",),
    "have": ("shelf",), "work": ("work",), "repair": ("repair",), "take_route": ("repair",), "keep_built": ("built",),
    "work_run": ("work",), "try_mark": ("gauge",),
    "go('runs')": ("runs", "wire"), "name_run": ("rename", "set"), "remove_run": ("remove",),
    "go('look')": ("look", "tables"), "tick": ("pack",), "fewest": ("fewest",), "new_mount": ("start", "pick"),
    "gauge": ("gauge",), "undo": ("undo",),
    "redo": ("undo",), "compare": ("keep",), "make": ("work",), "instead": ("instead",),
    "copy": ("copy",), "pair": ("pair",), "rename": ("rename", "set", "move"), "remove_mount": ("remove",),
    "export": ("work", "hardware", "template"), "jobs": ("set", "demo"),
}  # fmt: skip
"""The commands that do what an action does, without the screen; what only moves about on it has none."""
HOME = {
    "work": "mounts",
    "repair": "mounts",
    "built": "mounts",
    "run-work": "runs",
}  # a place that no page leads to belongs to one that is a page
LARGE: dict[str, tuple[tuple[str, str], ...]] = {
    "mounts": (("work", ""), ("compare", ""), ("instead", "")),
    "work": (("all_steps", "full list"), ("section", "section"), ("repair", "")),
    "built": (("work", ""), ("repair", "")),
    "repair": (("view_route", ""), ("work", ""), ("repair", "begin again")),
    "run-work": (("all_steps", "full list"), ("run_answer", "view")),
    "runs": (("work_run", ""), ("read_run", ""), ("new_mount", "new run")),
    "gauge": (("try_mark", "as it should: tick"), ("undo", "")),
    "box": (("tick", ""), ("have", ""), ("fewest", "")),
    "shelf": (("own", ""), ("drop", "")),
}
"""What is pressed most in each place, in a row over the foot where the screen is held in the hand; and what it says."""
STOP = Action("stop", "q", "stop", "end the work that the top line counts")  # in place of leaving


def here(place: str, *, is_working: bool = False) -> tuple[Action, ...]:
    """What can be done in a place, in the order in which it is shown; while long work is done, it can be stopped."""
    found = (action for action in ACTIONS if action.place in ("", place))
    return tuple(STOP if is_working and action.key == STOP.key else action for action in found)


def of_key(key: str, place: str, *, is_working: bool = False) -> Action | None:
    """The action that a key stands for in a place."""
    return next((action for action in here(place, is_working=is_working) if action.key == key.casefold()), None)
