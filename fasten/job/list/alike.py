"""Plans that need the same: the lines of what they need are found once for all of them."""

from collections.abc import Callable
from typing import Generic, TypeVar

from fasten.model.plan import Plan

Lines = TypeVar("Lines")


class Alike(Generic[Lines]):
    """The lines of the needs of plans. Mount points that ask the same share their needs: these go by identity,
    as comparing a thousand lists would take longer than the rest. The needs must outlive this."""

    def __init__(self, find: Callable[[Plan], Lines]) -> None:
        self._find = find
        self._found: dict[int, Lines] = {}

    def of(self, plan: Plan, needs: tuple[object, ...]) -> Lines:
        """The lines of these needs of a plan, found for the first plan that has them."""
        found = self._found.get(id(needs))
        if found is None:
            found = self._found[id(needs)] = self._find(plan)
        return found
