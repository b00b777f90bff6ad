"""How long work reports how far it is, and how it is stopped.

Work that takes long is given a step: it calls it before each part, with how many parts are done and how many there are,
and once more when all are done. A step that raises `Stopped` ends the work; what was made until then is dropped.
"""

from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar

Part = TypeVar("Part")
Step = Callable[[int, int], None]


class Stopped(Exception):  # noqa: N818 (no error: somebody wants it so)
    """Raised by a step to end the work that it is a step of: nobody waits for it any more."""


def unseen(done: int, of: int) -> None:
    """The step of work that nobody watches."""


def stepped(parts: Sequence[Part], step: Step) -> Iterator[Part]:
    """The parts one by one; raises whatever the step raises."""
    for done, part in enumerate(parts):
        step(done, len(parts))
        yield part
    step(len(parts), len(parts))
