"""What runs the mount points of a job lack, and the runs that would be taken for them.

Mount points that are there already are adopted: a block, a ground lug, a fuse holder. Where several amplifiers wait for
their power and there is no block, one is added with the first run that is taken to it or from it. Lengths come from
what was said of the vehicle; a length that was not said is proposed, and its run says so in its note.
"""

from collections.abc import Iterable, Iterator
from itertools import count

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.errors import FastenError
from fasten.job.edit import MEASURE, free_name, named, with_mount, with_run
from fasten.job.store.job_toml import same_name
from fasten.job.wiring.lug_names import lugs_by_name
from fasten.job.wiring.runs import RunChoice, point_of, run_choices
from fasten.job.wiring.things import AMPLIFIER, BLOCK, CROSSOVER, PROCESSORS, SPEAKERS
from fasten.job.wiring.to_body import leads_to_body, second_batteries
from fasten.job.words import CableRun, Job, Mount
from fasten.model import MountPoint
from fasten.question.fields import BATTERY as SECOND
from fasten.question.fields import ITEM, LUG, POWER
from fasten.question.item import item_of
from fasten.record import record, replace
from fasten.text.figures import figure
from fasten.text.sides import is_beside, is_of_side
from fasten.wiring.fields import CARRIES, FROM, GROUND, LENGTH, TO
from fasten.wiring.read import BODY
from fasten.wiring.words import LOUDSPEAKER, Unsized

BATTERY, TO_AMPLIFIERS, TO_DASH, TO_DOORS = "battery", "to-amplifiers", "to-dash", "to-doors"
BRANCH, PROCESSOR_TAKES = "0.6 m", "5 A"
_POST, _PLUS, _MINUS = "battery post +", " +", " -"
_OF_MINUS = "battery minus"  # how the leads from there to the body are called
ASKED = {BATTERY: "battery stud M8", TO_AMPLIFIERS: "5m", TO_DASH: "4m", TO_DOORS: "3m"}
"""What is said once of the vehicle, each with an example."""


@record
class Proposal:
    """A run that a mount point lacks: what is said of it, and the run; `asks` is what must be said first.

    `mounts` are the mount points that it needs and the job has not: they are made with it.
    """

    text: str
    run: CableRun
    asks: tuple[str, ...]
    mounts: tuple[Mount, ...] = ()


def proposals(job: Job, found: tuple[RunChoice, ...], tables: Tables) -> tuple[Proposal, ...]:
    """The runs that are lacking, in the order in which they are made."""
    return tuple(_lacking(job, found, tables))


def take(job: Job, offered: tuple[Proposal, ...], wanted: str) -> Job:
    """The job with the proposals that are wanted: all, or their numbers from 1.

    Raises: FastenError if a number is of none, or a length or the battery must be said first.
    """
    return taken(job, offered if wanted.strip().casefold() == "all" else tuple(_numbered(offered, wanted)))


def taken(job: Job, wanted: tuple[Proposal, ...]) -> Job:
    """The job with these proposals; raises FastenError where a length or the battery must be said first."""
    asks = asked_by(wanted)
    if asks:
        options = " ".join(f"--{name} {_quoted(ASKED[name])}" for name in asks)
        raise FastenError(f"{', '.join(asks)} is not said yet, nothing was taken", where="take", fix=f"add {options}")
    for one in wanted:
        job = with_run(with_its_mounts(job, one), one.run)
    return job


def with_its_mounts(job: Job, one: Proposal) -> Job:
    """The job with the mount points that a proposal needs, each made once."""
    for mount in one.mounts:
        job = with_mount(job, mount) if named(job, mount.name) is None else job
    return job


def asked_by(wanted: tuple[Proposal, ...]) -> tuple[str, ...]:
    """What must be said of the vehicle before these are taken, each once."""
    asked = {name for one in wanted for name in one.asks}
    return tuple(name for name in ASKED if name in asked)


def _quoted(text: str) -> str:
    return f"'{text}'" if " " in text else text


def _numbered(offered: tuple[Proposal, ...], wanted: str) -> Iterator[Proposal]:
    for word in wanted.replace(",", " ").split():
        if not word.isdecimal() or not 1 <= int(word) <= len(offered):
            fix = f"write all, or numbers from 1 to {len(offered)}" if offered else "nothing is lacking"
            raise FastenError(f"there is no proposal {word[:20]}", where="take", fix=fix)
        yield offered[int(word) - 1]


def _lacking(job: Job, found: tuple[RunChoice, ...], tables: Tables) -> Iterator[Proposal]:
    """The runs that are lacking; amplifiers that together take more than a trunk can carry get a run each.

    Where branches begin at the block already its trunk is lacking all the same; its run says what it cannot carry.
    """
    added = tuple(_blocks_lacking(job))
    whole = replace(job, mounts=(*job.mounts, *added))
    block = _block_of(whole)
    loads = tuple(_loads(whole, block, tables))
    found = run_choices(_with(whole, loads), tables) if loads else found
    if block is not None and not _begins(job, block.name) and _is_refused(block, loads, found):
        added, whole, loads = (), job, tuple(_loads(job, None, tables))
        found = run_choices(_with(job, loads), tables)
    yield from (_adding(one, added) for one in loads)
    yield from _of_body(whole, found, tables)


def _block_of(job: Job) -> Mount | None:
    """The block of the job that a trunk goes to; one of grounds is none."""
    return next((one for one in _items(job, BLOCK) if not _is_of_grounds(one.name, job)), None)


def _blocks_lacking(job: Job) -> Iterator[Mount]:
    """The block that is lacking where several amplifiers wait for their power; what it goes onto is not known yet."""
    waiting = [one for one in _items(job, AMPLIFIER) if not any(map(_is_load, _ends(job, one.name)))]
    if len(waiting) > 1 and _block_of(job) is None:
        yield Mount(free_name(job, BLOCK.replace("-", " ")), ((ITEM.name, BLOCK),))


def _is_refused(block: Mount, loads: tuple[Proposal, ...], found: tuple[RunChoice, ...]) -> bool:
    """Whether no cable does for the trunk that is proposed to a block."""
    trunks = {one.run.name for one in loads if one.run.ends_at == same_name(block.name)}
    return any(one.name in trunks and one.refused is not None for one in found)


def _adding(one: Proposal, added: tuple[Mount, ...]) -> Proposal:
    """A proposal with what is added for its ends, which its text says."""
    ends = one.run.begins_at, one.run.ends_at
    mounts = tuple(mount for mount in added if same_name(mount.name) in ends)
    if not mounts:
        return one
    is_trunk = one.run.ends_at == same_name(mounts[0].name)
    return replace(one, text=f"new {one.text}" if is_trunk else f"{one.text}, from the new block", mounts=mounts)


def _with(job: Job, loads: tuple[Proposal, ...]) -> Job:
    """The job as it would be with these, to know what all of them carry; at a battery that is not said at any."""
    there = (
        replace(one.run, said=tuple((name, text or ASKED[BATTERY]) for name, text in one.run.said)) for one in loads
    )
    return replace(job, runs=(*job.runs, *there))


def _loads(job: Job, block: Mount | None, tables: Tables) -> Iterator[Proposal]:
    amplifiers = _items(job, AMPLIFIER)
    trunked = len(amplifiers) > 1 and block is not None
    if trunked and block is not None and not _ends(job, block.name):
        yield _proposed(job, block.name, "trunk", (FROM.name, _battery(job)), (TO.name, block.name), TO_AMPLIFIERS)
    led = set[str]()  # what a lead is proposed to already
    several = tuple(one.name for one in amplifiers if _has_several(one, tables))
    for mount in amplifiers:
        yield from _of_amplifier(mount, block if trunked else None, job, tables)
        yield from _leads(mount, several, job, led, tables)
    yield from _behind_crossovers(job)
    for mount in (one for item in PROCESSORS for one in _items(job, item)):
        yield from _of_processor(mount, block, job, tables)
    for mount in _items(job, SECOND):
        yield from _of_second(mount, job, tables)


def _of_second(mount: Mount, job: Job, tables: Tables) -> Iterator[Proposal]:
    """The run that charges a second battery, with a fuse at each of the two, and its ground.

    What it carries is the maker's figure of what charges it, and is asked for once the run is there.
    """
    name, post = mount.name, _battery(job)
    if not any(_is_load(run) for run in _ends(job, name)):
        yield _proposed(job, name, "charge", (FROM.name, post), (TO.name, f"{name}, {post}"), TO_AMPLIFIERS)
    if not any(_goes_to_ground(run, job) for run in _begins(job, name)):
        most, _ = rule_figure(tables, WiringRules.GROUND_MOST)
        ends = (FROM.name, f"{name}, {_minus(job)}"), (TO.name, _ground_end(name, job))
        yield _proposed(job, name, "ground", *ends, f"{figure(most)} mm")


def _of_amplifier(mount: Mount, block: Mount | None, job: Job, tables: Tables) -> Iterator[Proposal]:
    """The runs that an amplifier lacks, but for its leads."""
    name = mount.name
    if not any(_is_load(run) for run in _ends(job, name)):
        source = _battery(job) if block is None else block.name
        far = TO_AMPLIFIERS if block is None else ""
        yield _proposed(job, name, POWER.name, (FROM.name, source), (TO.name, name), far)
    yield from _of_ground(name, job, tables)
    if not any(_carries(run, Unsized.REMOTE.value) for run in _ends(job, name)):
        yield _light(job, name, Unsized.REMOTE, "connector", TO_DASH)
    if not any(_carries(run, Unsized.SIGNAL.value) for run in _ends(job, name)):
        source = next((one.name for one in _items(job, PROCESSORS[0])), "")
        yield _light(job, name, Unsized.SIGNAL, source or "plug", "" if source else TO_DASH)


def _of_ground(name: str, job: Job, tables: Tables) -> Iterator[Proposal]:
    """The ground of an item, where neither a run nor a lead beside the run that feeds it is one."""
    has_lead = any(dict(run.said).get(GROUND.name) for run in _ends(job, name))
    if not has_lead and not any(_goes_to_ground(run, job) for run in _begins(job, name)):
        most, _ = rule_figure(tables, WiringRules.GROUND_MOST)
        yield _proposed(job, name, "ground", (FROM.name, name), (TO.name, _ground_end(name, job)), f"{figure(most)} mm")


def _of_processor(mount: Mount, block: Mount | None, job: Job, tables: Tables) -> Iterator[Proposal]:
    """What a processor or head unit lacks; a head unit is at the dash, where no branch of the boot goes back to."""
    name, is_processor = mount.name, item_of(dict(mount.said)) == PROCESSORS[0]
    block = block if is_processor else None
    if not any(_is_load(run) for run in _ends(job, name)):
        source = _battery(job) if block is None else block.name
        far = TO_DASH if block is None else ""
        yield _proposed(job, name, "feed", (FROM.name, source), (TO.name, name), far, (CARRIES.name, PROCESSOR_TAKES))
    yield from _of_ground(name, job, tables)
    begins = () if is_processor else _begins(job, name)  # a processor is fed by another
    if not any(_carries(run, Unsized.SIGNAL.value) for run in (*_ends(job, name), *begins)):
        yield _light(job, name, Unsized.SIGNAL, "plug", TO_DASH)


def _leads(
    mount: Mount, several: tuple[str, ...], job: Job, led: set[str], tables: Tables
) -> Iterator[Proposal]:  # fmt: skip
    """A lead for each loudspeaker output that has none; to what is not `led` to yet, which is by then.

    Beside an amplifier of `several` outputs one of a single output is for a subwoofer, and goes to nothing of a side.
    """
    point: MountPoint | None = point_of(mount, tables)
    if point is None or point.outputs is None:
        return
    there = sum(_carries(run, LOUDSPEAKER) for run in _begins(job, mount.name))  # may be more than it has outputs
    each = [(one.power_w, one.impedance_ohm) for one in point.outputs.each for _ in range(one.count)]
    is_sub = len(each) == 1 and several != ()
    rivals = [name for name in several if name != mount.name]
    without = each[there:]
    far = (name for name in _free_speakers(mount.name, rivals, job) if name not in led)
    free = [name for name in far if not (is_sub and is_of_side(name))][: len(without)]
    led.update(free)
    for at, (watts, ohms) in enumerate(without, there + 1):
        load = (CARRIES.name, f"loudspeaker {figure(watts)} W {figure(ohms)} ohm")
        to = free.pop(0) if free else LOUDSPEAKER
        one = _proposed(job, mount.name, f"lead {at}", (FROM.name, mount.name), (TO.name, to), TO_DOORS, load)
        yield one if to == LOUDSPEAKER else replace(one, text=f"{one.text}, to {to}")


def _has_several(mount: Mount, tables: Tables) -> bool:
    point = point_of(mount, tables)
    return point is not None and point.outputs is not None and sum(one.count for one in point.outputs.each) > 1


def _behind_crossovers(job: Job) -> Iterator[Proposal]:
    """The leads of a crossover that none goes on from, to what is on its side; what they carry comes through it."""
    crossovers = [one.name for one in _items(job, CROSSOVER)]
    for name in (one.name for item in SPEAKERS for one in _items(job, item)):
        beside = [one for one in crossovers if is_beside(name, one)]
        if len(beside) == 1 and not _ends(job, name) and not _begins(job, beside[0]):
            one = _proposed(job, name, "lead", (FROM.name, beside[0]), (TO.name, name), "")
            yield replace(one, text=f"{one.text}, from {beside[0]}")


def _free_speakers(of: str, rivals: Iterable[str], job: Job) -> Iterator[str]:
    """What takes a lead of an amplifier and has none: crossovers, else loudspeakers, on its side; then those on the
    other, where none of its rivals is.

    Which of the loudspeakers behind a crossover goes to the amplifier instead is not known.
    """
    crossovers = [one.name for one in _items(job, CROSSOVER)]
    drivers = [one.name for one in _items(job, SPEAKERS[0])
               if not any(is_beside(one.name, crossover) for crossover in crossovers)]  # fmt: skip
    free = [name for name in (*crossovers, *drivers) if not _ends(job, name)]
    yield from (name for name in free if is_beside(name, of))
    yield from (name for name in free if not any(is_beside(name, one) for one in (of, *rivals)))


def _of_body(job: Job, found: tuple[RunChoice, ...], tables: Tables) -> Iterator[Proposal]:
    """Over 100 A in all, cable from the battery minus to the body: as many alike as it takes to carry that.

    What they carry follows from the job; that of a second battery that is no mount point is proposed with it.
    """
    there, wanted = sum(map(_is_from_minus, job.runs)), leads_to_body(found, tables)
    ends = (FROM.name, _minus(job)), (TO.name, f"{BODY} M8")
    named = {same_name(run.name) for run in job.runs}
    names = (f"to body {at}" if at > 1 else "to body" for at in count(1))
    free = (name for name in names if same_name(f"{_OF_MINUS} {name}") not in named)
    for at in range(there + 1, wanted + 1):
        which = "lead" if wanted == 1 else f"lead {at} of {wanted}"
        one = _proposed(job, _OF_MINUS, next(free), *ends, "450 mm")
        yield replace(one, text=f"{_OF_MINUS}: no {which} to the body yet")
    items = {same_name(mount.name) for mount in _items(job, SECOND)}
    seconds = [(name, full_a) for name, to_name, full_a in second_batteries(found) if same_name(to_name) not in items]
    for name, full_a in seconds[max(there - wanted, 0) :]:
        yield _proposed(job, name, "second ground", *ends, "450 mm", (CARRIES.name, f"{figure(full_a)} A"))


def _proposed(
    job: Job, of: str, what: str, from_: tuple[str, str], to: tuple[str, str], length: str, *more: tuple[str, str]
) -> Proposal:
    """A run; `length` is what was said of the vehicle, a length, or empty where it is a short branch."""
    said = dict(job.electrics)
    known = said.get(length, "") if length in ASKED else length
    asks = [name for name in (length,) if name in ASKED and not known]
    asks += [BATTERY] if not from_[1] else []
    is_said = length in ASKED
    preset = (*(name for name, text in more if text.endswith(" A")), *(() if is_said else (LENGTH.name,)))
    whole = (*more, from_, to, (LENGTH.name, known or BRANCH))
    run = CableRun(f"{of} {what}", whole, note="" if is_said else MEASURE, preset=preset)
    return Proposal(f"{of}: no {what} run yet", run, tuple(asks))


def _light(job: Job, of: str, kind: Unsized, source: str, length: str) -> Proposal:
    ends = (FROM.name, source), (TO.name, of)
    return _proposed(job, of, kind.value, *ends, length, (CARRIES.name, kind.value))


def _battery(job: Job) -> str:
    return dict(job.electrics).get(BATTERY, "")


def _minus(job: Job) -> str:
    """The minus of a battery, as its plus is: a post, or a stud of the same size."""
    plus = _battery(job) if _battery(job).startswith("battery ") else _POST
    return f"{plus.removesuffix(_PLUS)}{_MINUS}"


def _is_from_minus(run: CableRun) -> bool:
    """Whether a run begins at the minus of a battery that is no mount point."""
    return _is_minus(dict(run.said).get(FROM.name, "").strip())


def _is_minus(end: str) -> bool:
    return end.startswith("battery ") and end.endswith(_MINUS)


def _items(job: Job, item: str) -> tuple[Mount, ...]:
    return job.of_item.get(item, ())


def _ground_end(name: str, job: Job) -> str:
    """Where something of the job is grounded: a lug of its own, by its name or in order; else the body.

    Each that wants a ground has its lug, whatever is taken, and none that another has: one power lug a stud.
    """
    lugs = [lug.name for lug in _items(job, LUG)]
    free = [lug for lug in lugs if not _begins(job, lug) and not _ends(job, lug)]
    waiting = [one.name for item in (AMPLIFIER, *PROCESSORS, SECOND) for one in _items(job, item)
               if not any(_goes_to_ground(run, job) for run in _begins(job, one.name))]  # fmt: skip
    ends = lugs_by_name(waiting, free)
    left = iter([lug for lug in free if lug not in ends.values()])
    ends |= {one: next(left, BODY) for one in waiting if one not in ends}
    return ends.get(name, BODY)


def _ends(job: Job, name: str) -> tuple[CableRun, ...]:
    return job.ending.get(same_name(name), ())


def _begins(job: Job, name: str) -> tuple[CableRun, ...]:
    return job.beginning.get(same_name(name), ())


def _carries(run: CableRun, what: str) -> bool:
    return dict(run.said).get(CARRIES.name, "").casefold().startswith(what)


def _is_load(run: CableRun) -> bool:
    """Whether a run feeds what it ends at."""
    return not any(_carries(run, kind.value) for kind in Unsized) and not _carries(run, LOUDSPEAKER)


def _goes_to_ground(run: CableRun, job: Job, by: frozenset[str] = frozenset()) -> bool:
    """Whether a run ends at the body, a minus, a lug, or a block from which only grounds go on; `by` are on the way."""
    at = run.ends_at
    if at.startswith(BODY) or _is_minus(at) or at in {same_name(mount.name) for mount in _items(job, LUG)}:
        return True
    is_block = at in {same_name(mount.name) for mount in _items(job, BLOCK)}
    return is_block and at not in by and _is_of_grounds(at, job, by | {at})


def _is_of_grounds(block: str, job: Job, by: frozenset[str] = frozenset()) -> bool:
    onward = _begins(job, block)
    return bool(onward) and all(_goes_to_ground(run, job, by | {same_name(block)}) for run in onward)
