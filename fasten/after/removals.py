"""How often something came off since its parts were new, and which of them the next visit renews."""

from fasten.catalog.parts import LOCKS
from fasten.catalog.practice import METHOD_WORDS
from fasten.catalog.tables import Tables
from fasten.model import Joint
from fasten.record import record
from fasten.text.names import plain_name

_ALL = frozenset({"all", "everything"})  # no plurals: an s at the end is taken off
_NOT = frozenset({"not", "no", "but", "except", "without", "none", "never"})


@record
class Came:
    """One visit as its wear counts it: whether it came off then, and the parts that were renewed, as written down."""

    off: bool
    renewed: str


@record
class Wear:
    """A part that wears: renewed `every` so many removals, and how many it has had since it was new.

    `renews` are the keys of the parts that it is, `at` the fixing that they are of, where a repair made it unlike the
    others.
    """

    part: str
    every: int
    since: int
    renews: tuple[str, ...] = ()
    at: int | None = None

    @property
    def due(self) -> bool:
        """Whether the next removal is the one at which it is renewed, or one after it."""
        return self.since + 1 >= self.every


def worn(joint: Joint, came: tuple[Came, ...], tables: Tables) -> tuple[Wear, ...]:
    """What wears of a joint, after these visits, the newest last."""
    words, lock = tables.need(METHOD_WORDS, joint.method), tables.find(LOCKS, joint.lock.key)
    every = {words.replace: (words.replace_every, words.renews)}
    if lock is not None:
        every[joint.lock.name] = (lock.renew_every, lock.renews)
    return tuple(Wear(part, often, since(part, came), keys) for part, (often, keys) in every.items() if often)


def since(part: str, came: tuple[Came, ...]) -> int:
    """The removals since a part was renewed; it is renewed after it came off."""
    count = 0
    for visit in came:
        count = 0 if _names(visit.renewed, part) else count + visit.off
    return count


def _names(renewed: str, part: str) -> bool:
    """Whether what was renewed names a part, by its whole name, by its last word, one or several, or as all of it.

    Where something is left out of it, by any word for that, it is not known to be this part.
    """
    said, name = plain_name(renewed), plain_name(part)
    words = {word.strip(",;.").removesuffix("s") for word in said.split()}
    return (
        bool(said)
        and _NOT.isdisjoint(words)
        and (name in said or name.split()[-1].removesuffix("s") in words or not _ALL.isdisjoint(said.split()))
    )
