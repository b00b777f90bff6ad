"""A thread in one line, apart from what is asked of it: looking up one thread loads no more."""

from fasten.look.first.line import Answer, named, size
from fasten.look.thread import Thread


def thread_line(thread: Thread) -> Answer:
    """What a thread is, in one line."""
    pitch = f"{thread.threads_per_in} to the inch" if thread.threads_per_in else f"pitch {size(thread.pitch_mm)} mm"
    drill, clear = thread.tap_drill, thread.clearance
    tap = f", tap drill {named(drill.name, drill.diameter_mm)}" if drill else ""
    passes = f", clearance {named(clear[1].name, clear[1].diameter_mm)}" if len(clear) > 1 else ""
    cited = (*thread.from_, *(drill.from_ if drill else ()), *(clear[1].from_ if len(clear) > 1 else ()))
    return Answer("thread", f"{thread.designation}: {pitch}{tap}{passes}", tuple(dict.fromkeys(cited)))
