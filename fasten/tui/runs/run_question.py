"""The question of a run of cable as a sentence of words: what is said, read and begun of each. No widgets here."""

from collections.abc import Mapping

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.store.job_toml import same_name
from fasten.job.store.runs_toml import RUN
from fasten.job.wiring.runs import WHERE
from fasten.job.words import CableRun, Job, Recorded
from fasten.question.fields import POWER
from fasten.record import replace
from fasten.report.safe import safe
from fasten.text.figures import figure
from fasten.text.letters import unjoined
from fasten.text.names import either
from fasten.text.shown import shown
from fasten.tui.drawn.sentence import MORE, NOT_GIVEN, Kind, Word
from fasten.tui.state.found_word import found_word, reading_of
from fasten.tui.state.outcome import Reading
from fasten.wiring.counted import wants_ground
from fasten.wiring.fields import (
    BODY_PATH,
    CABLE,
    CARRIES,
    FIELDS,
    FROM,
    GROUND,
    HOLDER,
    INSULATION,
    LENGTH,
    NAMES,
    NEEDED,
    OWN_FUSES,
    TO,
    RunField,
)
from fasten.wiring.read import unknown_end
from fasten.wiring.said import completed, options, worded
from fasten.wiring.said import misread as misread_text
from fasten.wiring.words import LOUDSPEAKER, NamedEnd, Run, Unsized

SECTIONS, HOLES = "sections", "holes"
_FIELDS = {field.name: field for field in FIELDS}
_ENDS = (FROM.name, TO.name)
_WAYS = {SECTIONS: "Along sections", HOLES: "Through holes"}
_NONE, _BY_SIZE = "none", "by its size"
_ROUND: Mapping[str, str] = {  # what stands before each word, in the order of the sentence
    CARRIES.name: "carries ", FROM.name: " from ", TO.name: " to ", LENGTH.name: ", over ",
    GROUND.name: ", ground lead ", BODY_PATH.name: ", body ", "measured": ", measured ", "material": ", of ",
    CABLE.name: ", cable ", INSULATION.name: ", marked ",
    "limit": ", drop at most ", HOLDER.name: ", fuse ", OWN_FUSES.name: ", own fuses ", "series": ", sized in ",
    WHERE: ", in ", "through-device": ", by way of ", SECTIONS: ", along ", HOLES: ", through ",
}  # fmt: skip
ORDER = tuple(_ROUND)


def said_of(run: CableRun | None) -> dict[str, str]:
    """What was said of a run, its sections and holes too, word by word."""
    if run is None:
        return {}
    ways = {SECTIONS: ", ".join(run.sections), HOLES: ", ".join(run.holes)}
    return {name: text for name, text in (dict(run.said) | ways).items() if text}


def with_word(run: CableRun, name: str, text: str) -> CableRun:
    """The run with another text of a word; an empty one takes it away."""
    if name == SECTIONS:
        return replace(run, sections=_names(text))
    if name == HOLES:
        return replace(run, holes=_names(text))
    said = dict(run.said) | {name: text}
    preset = tuple(one for one in run.preset if one != name)
    return replace(run, said=tuple((key, said[key]) for key in NAMES if said.get(key, "").strip()), preset=preset)


def label_of(name: str) -> str:
    """What a word is called before its entry."""
    return _WAYS.get(name) or (_FIELDS[name].label if name in _FIELDS else "More")


def words_of(
    name: str, said: Mapping[str, str], misread: Mapping[str, str], run: Run | None, current: str, *, unfolded: bool
) -> list[Word]:
    """The words of the sentence about a run of this name; the last tells how many are folded away, or folds them.

    `misread` are texts that are not understood, `run` is what the answer is of.
    """
    wanted = {*NEEDED, *said, *misread, current, *({GROUND.name} if run is not None and wants_ground(run) else ())}
    names = [one for one in ORDER if unfolded or one in wanted]
    words = [_word(one, said, misread, run) for one in names]
    words[0] = replace(words[0], before=f"{safe(name)}: {words[0].before}")
    more = "fewer" if unfolded else f"{len(ORDER) - len(names)} more"
    words[-1] = replace(words[-1], after=f"{words[-1].after}. ")
    return [*words, Word(MORE, more, Kind.MORE)]


def read_word(name: str, text: str, job: Job, tables: Tables, was: str = "") -> Reading:
    """A word read by itself, among what the job has.

    At an end that `was` said, a text that begins with a comma says only how that takes the cable.
    """
    if name in _ENDS and text.startswith(","):
        at = was.partition(",")[0] or LOUDSPEAKER
        whole = completed(f"{at}{text}", (at,))
        text = whole.partition(",")[2].strip() if at == LOUDSPEAKER else whole
    if name == MORE:
        named = named_by(text)
        return reading_of(text, label_of(named) if named else "")
    try:
        return _ways(name, text, job) if name in _WAYS else _read(_FIELDS[name], text, job, tables)
    except FastenError as error:
        # What an end may be stands beneath, word by word; in a sentence it would fill a phone.
        return Reading(text, why=safe(error.what if name in _ENDS else misread_text(error)))


def offers(name: str, job: Job, tables: Tables) -> tuple[str, ...]:
    """Words that may be typed here, the most wanted first."""
    if name == MORE:
        return tuple(map(label_of, ORDER))
    if name in _WAYS:
        return tuple(way.name for way in _known(name, job))
    return options(_FIELDS[name], (mount.name for mount in job.mounts), tables)


def example_of(name: str) -> str:
    """What stands in an empty entry."""
    own = {SECTIONS: "bonnet, left sill", HOLES: "bulkhead", MORE: "cable, fuse, where"}
    return own.get(name) or _FIELDS[name].example


def named_by(text: str) -> str:
    """The word that goes by a text; empty where none does."""
    return found_word(text, [(name, (_ROUND[name], label_of(name), name)) for name in ORDER])


def begun_name(run: CableRun) -> str:
    """What a new run is called until it is given a name: by what it carries."""
    load = dict(run.said).get(CARRIES.name, "").casefold()
    kind = next((one.value for one in Unsized if load == one.value), "")
    return kind or ("loudspeaker lead" if "speaker" in load else POWER.name if load else RUN)


def _word(name: str, said: Mapping[str, str], misread: Mapping[str, str], run: Run | None) -> Word:
    before = _ROUND[name]
    if name in misread:
        return Word(name, f"{NOT_GIVEN} {safe(misread[name])}", Kind.MISREAD, before)
    if name in said:
        return Word(name, safe(said[name]), Kind.GIVEN, before)
    follows = stands_in(name, run)
    return Word(name, follows or NOT_GIVEN, Kind.PRESET if follows else Kind.OPEN, before)


def stands_in(name: str, run: Run | None) -> str:
    """What stands in for a word that was not said; empty where it must be."""
    if run is None:
        return "" if name in NEEDED else _NONE
    preset: dict[str, str] = {
        CARRIES.name: worded(CARRIES, run.carries), "measured": "along the route", "material": run.material.value,
        CABLE.name: _BY_SIZE, INSULATION.name: worded(INSULATION, run.insulation_c), HOLDER.name: _BY_SIZE,
        "limit": f"{figure(run.limit_v)} V", "series": run.series.value, WHERE: run.where.value,
    }  # fmt: skip
    is_open = name in NEEDED or (name == GROUND.name and wants_ground(run))
    return preset.get(name, "" if is_open else _NONE)


def _read(field: RunField, text: str, job: Job, tables: Tables) -> Reading:
    taken = completed(unjoined(text), options(field, (mount.name for mount in job.mounts), tables))
    value = field.reader(taken, tables, field.name)
    if isinstance(value, NamedEnd) and not any(same_name(mount.name) == same_name(value.name) for mount in job.mounts):
        raise unknown_end(value, tuple(mount.name for mount in job.mounts), field.name)
    is_begun = taken != text.strip()
    return Reading(taken, understood=safe(worded(field, value)), is_begun=is_begun)


def _ways(name: str, text: str, job: Job) -> Reading:
    """Sections or holes of the job by their names, with commas."""
    known = _known(name, job)
    found = [completed(one, (way.name for way in known)) for one in _names(text)]
    for one in found:
        if not any(same_name(way.name) == same_name(one) for way in known):
            there = f"it has {either([way.name for way in known])}" if known else "it has none yet: add one to the list"
            raise FastenError(f"the job has no {name[:-1]} {shown(one)}", fix=there)
    return Reading(", ".join(found), understood=safe(", then ".join(found)))


def _known(name: str, job: Job) -> tuple[Recorded, ...]:
    return job.sections if name == SECTIONS else job.holes


def _names(text: str) -> tuple[str, ...]:
    return tuple(filter(None, (part.strip() for part in text.split(","))))


def unsaid(said: Mapping[str, str]) -> tuple[str, ...]:
    """What an answer needs of what was said alone; what a run carries may follow from what it feeds."""
    return tuple(name for name in NEEDED if name not in said and name != CARRIES.name)
