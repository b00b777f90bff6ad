"""What lies under what in a job, and how often that has each thing off: mount points, and the covers of the car."""

from collections.abc import Iterator, Mapping

from fasten.catalog.opened import Times, times
from fasten.catalog.practice import METHOD_WORDS
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.edit import find_mount, with_mount
from fasten.job.store.covers_toml import COVER_KEYS, check_covers, check_nearest
from fasten.job.store.job_toml import same_name
from fasten.job.words import Cover, Job, Mount
from fasten.model import MountPoint, Opens, Removal
from fasten.question.fields import FIXINGS, REMOVED
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.record import record, replace
from fasten.text.figures import counted
from fasten.text.names import plain_name
from fasten.text.shown import visible

_BY_FREQUENCY = tuple(Removal)
_MOST = 1000  # of fixings of a cover, and of removals


@record
class CoverTimes:
    """How often a cover comes off in ten years for all under it, beside how often it was `made` for and is `rated`.

    `sets` are of what is renewed `every` so many removals, and `pieces` so many in all; None where it is not said.
    """

    cover: Cover
    times: Times
    made: int | None
    rated: int | None
    every: int | None
    sets: int | None
    pieces: int | None

    @property
    def is_over(self) -> bool:
        """Whether it comes off more often than it is rated for."""
        return self.rated is not None and self.times.once > self.rated


def under(name: str, job: Job) -> tuple[Mount, ...]:
    """The mount points under what has this name, by way of others too, in the job's order."""
    found, left = set[str](), [same_name(name)]
    while left:
        more = {same_name(one.name) for one in job.under_covers.get(left.pop(), ())} - found
        found |= more
        left.extend(more)
    found.discard(same_name(name))
    return tuple(mount for mount in job.mounts if same_name(mount.name) in found) if found else ()


def above(mount: Mount, job: Job) -> tuple[Cover | Mount, ...]:
    """All that comes off before a mount point, covers of the car first, each after what covers it."""
    found: dict[str, Cover | Mount] = {}
    _add_above(mount, job, found, frozenset())
    found.pop(same_name(mount.name), None)
    return tuple(sorted(found.values(), key=lambda one: not isinstance(one, Cover)))


def _add_above(mount: Mount, job: Job, found: dict[str, Cover | Mount], way: frozenset[str]) -> None:
    for name in map(same_name, mount.covered_by):
        one = _named(name, job)
        if one is None or name in found or name in way:
            continue
        if isinstance(one, Mount):
            _add_above(one, job, found, way | {name})
        found[name] = one


def _named(name: str, job: Job) -> Cover | Mount | None:
    cover = next((one for one in job.covers if same_name(one.name) == name), None)
    return next(iter(job.named.get(name, ())), None) if cover is None else cover


def opened(point: MountPoint, mount: Mount, job: Job, tables: Tables) -> MountPoint:
    """The mount point with what has it off beside itself, and how often the most frequent of these does."""
    below = under(mount.name, job)
    if not below:
        return point
    opens = (Opens(mount.name, point.removed), *_opens(below, tables))
    most = max((one.removed for one in opens if one.removed is not None), key=_BY_FREQUENCY.index)
    return replace(point, opens=opens, removed=most)


def _opens(mounts: tuple[Mount, ...], tables: Tables) -> Iterator[Opens]:
    return (Opens(visible(mount.name, 40), _removed(mount, tables)) for mount in mounts)


def _removed(mount: Mount, tables: Tables) -> Removal | None:
    """How often a mount point comes off for itself; None where that is not said and does not follow."""
    try:
        return resolve(read_question(dict(mount.said), tables), tables).removed
    except FastenError:
        return None


def cover_times(job: Job, tables: Tables) -> tuple[CoverTimes, ...]:
    """How often each cover of the car comes off in ten years, for itself and all under it."""
    return tuple(_cover_times(cover, job, tables) for cover in job.covers)


def _cover_times(cover: Cover, job: Job, tables: Tables) -> CoverTimes:
    own = _said_removed(cover, tables)
    itself = (Opens(visible(cover.name, 40), own),)
    found, (rated, every) = times((*itself, *_opens(under(cover.name, job), tables)), tables), rates(cover, tables)
    sets = None if every is None else found.once // every
    return CoverTimes(
        cover, found, None if own is None else times(itself, tables).once, rated, every, sets,
        None if sets is None or cover.fixings is None else sets * cover.fixings,
    )  # fmt: skip


def _said_removed(cover: Cover, tables: Tables) -> Removal | None:
    return Removal(REMOVED.read(cover.removed, tables)[REMOVED.fills[0]]) if cover.removed else None


def rates(cover: Cover, tables: Tables) -> tuple[int | None, int | None]:
    """The removals that a cover's parts are rated for and at how many they are renewed: its own, or its method's."""
    row = next((row for row in tables.rows(METHOD_WORDS) if plain_name(row.title) == plain_name(cover.renewed)), None)
    if row is None:
        return cover.rated, cover.renew_every
    return cover.rated or row.rated or None, cover.renew_every or row.replace_every or None


def cover_text(found: CoverTimes) -> str:
    """How often a cover comes off, what that is over, and what is renewed meanwhile, in a sentence without its end."""
    times_, cover = found.times, found.cover
    said = [f"it comes off {counted(times_.once, 'time')} in ten years, at most {times_.most}"]
    if times_.unsaid:
        said.append(f"without {', '.join(times_.unsaid)}, of which that is not known")
    if found.made is not None and times_.once > found.made:
        said.append(f"over the {found.made} of {visible(cover.removed)}")
    if found.sets:
        pieces = f", {found.pieces} in all" if found.pieces is not None else ""
        said.append(f"renew {visible(cover.renewed) or 'its fixings'} every {found.every}: {found.sets} sets{pieces}")
    if found.is_over:
        said.append(f"over the {found.rated} that its fixings are rated for: hold it by another method")
    if found.rated is None:
        said.append("how often its fixings may come off is not said, and not checked")
    return "; ".join(said)


def remarks_of(mount: Mount, point: MountPoint, job: Job, tables: Tables) -> tuple[str, ...]:
    """What the answer of a mount point says of what is under it, and of the covers over it."""
    found: list[str] = []
    if len(point.opens) > 1:
        whole, names = times(point.opens, tables), ", ".join(one.name for one in point.opens[1:])
        found.append(f"it comes off {counted(whole.once, 'time')} in ten years, at most {whole.most}: "
                     f"for itself and for {names} under it")  # fmt: skip
    for over in above(mount, job) if mount.covered_by else ():
        times_ = f": {cover_text(_cover_times(over, job, tables))}" if isinstance(over, Cover) else ""
        found.append(f"{visible(over.name)} comes off first{times_}")
    return tuple(found)


def with_covered_by(job: Job, name: str, over: tuple[str, ...]) -> Job:
    """The job with a mount point under these, in this order; a name that nothing has yet is a new cover of the car.

    Raises: FastenError where a name is nearly that of something there is, or they cover each other in a circle.
    """
    mount = find_mount(job, name)
    now = with_mount(job, replace(mount, covered_by=over), instead_of=name)
    known = {*(same_name(one.name) for one in job.covers), *(same_name(one.name) for one in job.mounts)}
    for new in over:
        if same_name(new) not in known:
            check_nearest(new, now)
            known.add(same_name(new))
            now = replace(now, covers=(*now.covers, Cover(new)))
    check_covers(now, "")
    return now


def with_cover(job: Job, name: str, said: Mapping[str, str], tables: Tables) -> Job:
    """The job with what is said of a cover of the car, field by field; FastenError where a field cannot be that."""
    at = next(at for at, one in enumerate(job.covers) if same_name(one.name) == same_name(name))
    text = {key: said.get(key, "").strip() for key in COVER_KEYS}
    cover = replace(
        job.covers[at], removed=text[REMOVED.name], fixings=_count(text[FIXINGS.name], FIXINGS.name),
        renewed=text["renewed"], renew_every=_count(text["renew-every"], "renew-every"),
        rated=_count(text["rated"], "rated"), note=text["note"],
    )  # fmt: skip
    now = replace(job, covers=(*job.covers[:at], cover, *job.covers[at + 1 :]))
    check_covers(now, "", tables)
    return now


def _count(text: str, where: str) -> int | None:
    plain = text.strip()
    if not plain:
        return None
    if not (plain.isascii() and plain.isdecimal()) or not 0 < int(plain) <= _MOST:
        raise FastenError(f"{visible(plain, 20)} is no count", where=where, fix="write a whole number")
    return int(plain)
