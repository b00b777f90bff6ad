"""Advice as text for a narrow terminal: what to do, the drawing, the proof, the work, and what does not fit."""

from collections.abc import Collection, Iterable, Iterator
from enum import Enum

from fasten.model import (
    Advice,
    Answer,
    Boss,
    Bound,
    GroundJoint,
    MountPoint,
    Origin,
    Refusal,
    Status,
)
from fasten.question.fields import (
    FIELDS,
    FIXINGS,
    ITEM_HOLE,
    ITEM_THICKNESS,
    MASS,
    PATTERN,
    UNITS,
    Unsaid,
    bound_of,
    unit_of,
)
from fasten.record import names_of
from fasten.report.answer.headline import MOST_LINES, headline, is_whole, parts, standing
from fasten.report.answer.holes import hole_lines
from fasten.report.answer.proof import exempt, proof
from fasten.report.answer.stiffer import stiffer
from fasten.report.section.lines import section
from fasten.report.wrap import wrapped
from fasten.text.exceeded import percent
from fasten.text.figures import counted, figure, mm, with_unit, words
from fasten.text.given import bounded, given_text
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, rounded_up, torque_digits
from fasten.text.units import number

WIDTH = 44
_ALL = 1000  # lines: nothing is shortened
_ORIGINS = {Origin.GIVEN: "Given", Origin.PRESET: "Preset", Origin.ASSUMED: "Assumed"}
_OPEN = tuple(name for field in FIELDS if field.unsaid is Unsaid.OPEN for name in field.fills[:1])
_TITLES = {field.fills[0]: field.title for field in FIELDS if field.title} | {
    "item_cg_mm": "centre of gravity of the item alone", "item_mass_kg": "mass of the item alone",
    "thickness_min_mm": "thickness from", "thickness_max_mm": "to",
}  # fmt: skip
_BORNE = tuple(field.fills[0] for field in (MASS, FIXINGS, PATTERN, ITEM_THICKNESS, ITEM_HOLE))  # a proof hangs on it
_OWN = ("item_mass_kg", "item_cg_mm")  # the item without what it carries


def advice_text(advice: Advice, width: int = WIDTH, most: int = MOST_LINES) -> str:
    """The advice in lines of at most `width` columns, `most` of them for its head, ended by a line feed.

    Raises: ValueError for a width too small to draw the section in.
    """
    listed = chapters(advice, width)
    if advice.answers:
        lines = list(_head(advice, advice.answers[0], width, most))
    else:
        lines = ["Nothing fits", *listed.pop(Chapter.REFUSED, ())]
    for chapter, found in listed.items():
        lines += ["", chapter.value.upper(), *found]
    return "\n".join(lines) + "\n"


def brief_text(advice: Advice, width: int = WIDTH) -> str:
    """The head of an answer alone, every part of it whole, and what it takes as usual; or the reasons why none fits."""
    if not advice.answers:
        return "\n".join(["Nothing fits", *_refused(advice.refusals, width)]) + "\n"
    return "\n".join((*headline(advice.answers[0], width, _ALL), *_assumed(advice.mount, width))) + "\n"


def _assumed(mount: MountPoint, width: int) -> Iterator[str]:
    """What was not given of the loads and of the item's holes, but is taken as it usually is."""
    origins = dict(mount.origins)
    taken = [text for name, text in _fields(mount) if name in _BORNE and origins.get(name) is Origin.PRESET]
    if taken:
        yield from wrapped(", ".join(taken), width, first="Assumed ", rest=" " * 8)


class Chapter(Enum):
    """What an answer says after its drawing, by the heading of each."""

    PROOF = "Proof"
    TIGHTENING = "Tightening"
    GROUND = "Ground"
    STEPS = "Steps"
    TOOLS = "Tools"
    CONSUMABLES = "Consumables"
    REMOVALS = "Removals"
    RANKED = "Ranked by"
    CAUTIONS = "Cautions"
    STIFFER = "What would make the panel stiff enough"
    OTHERS = "Other answers"
    HOLES = "Where the holes are"
    REFUSED = "Does not fit"
    UNDERSTOOD = "Understood as"


def chapters(
    advice: Advice, width: int, wanted: Collection[Chapter] = tuple(Chapter), *, in_form: bool = False
) -> dict[Chapter, tuple[str, ...]]:
    """Each chapter that is wanted, where it has something to say, in the order of the command line.

    Its lines have at most `width` columns. What may be asked instead is in words of the form where the answer is
    read `in_form`, else in those of the command line.
    """
    answered = [text for answer in advice.answers[:1] for text in _of_answer(advice, answer, width)]
    stiff = (Chapter.STIFFER, stiffer(advice.remedies, width, in_form=in_form))
    others = (Chapter.OTHERS, _others(advice.answers[1:], width))
    refused = (Chapter.REFUSED, _refused(advice.refusals, width))
    holes = (Chapter.HOLES, hole_lines(advice.mount, advice.on_holes, width))
    every = (*answered, stiff, others, holes, refused, (Chapter.UNDERSTOOD, _understood(advice.mount, width)))
    found = ((chapter, tuple(lines)) for chapter, lines in every if chapter in wanted)
    return {chapter: lines for chapter, lines in found if lines}


def _head(advice: Advice, answer: Answer, width: int, most: int) -> Iterator[str]:
    yield from headline(answer, width, most)
    yield from ("", *section(answer.proposal.joint, advice.mount.behind_mm, width))
    if not is_whole(answer, width, most):
        listed = (f"{label}: {text}" for label, text in parts(answer))
        yield from ("", "PARTS IN FULL", *_listed((answer.title, *listed), width))


def _of_answer(advice: Advice, answer: Answer, width: int) -> Iterator[tuple[Chapter, Iterable[str]]]:
    yield Chapter.PROOF, _proof(advice, answer, width)
    yield Chapter.TIGHTENING, _tightening(answer, width)
    yield Chapter.GROUND, _ground(advice.ground, width)
    yield Chapter.STEPS, _numbered(tuple(step.text for step in answer.steps), width)
    yield Chapter.TOOLS, _listed((need.text for need in answer.tools), width)
    yield Chapter.CONSUMABLES, _listed((need.text for need in answer.consumables), width)
    yield Chapter.REMOVALS, _removals(answer, width)
    yield Chapter.RANKED, _ranked(answer, width)
    yield Chapter.CAUTIONS, _listed((caution.text for caution in answer.cautions), width)


def _proof(advice: Advice, answer: Answer, width: int) -> Iterator[str]:
    yield from proof(answer.proposal.checks, advice.sources, width)
    yield from exempt(answer.proposal.exempt, width)


def _ranked(answer: Answer, width: int) -> Iterator[str]:
    """What made the answer's place, each contribution in points."""
    made = ", ".join(f"{words(part.name)} {number(part.points, 1)}" for part in answer.score.parts)
    yield from wrapped(f"{counted(round(answer.score.total, 1), 'point')}, fewer is better: {made}", width)


def _listed(texts: Iterable[str], width: int) -> Iterator[str]:
    for text in texts:
        yield from wrapped(capital(text), width, first="- ", rest="  ")


def _numbered(texts: tuple[str, ...], width: int) -> Iterator[str]:
    indent = len(str(len(texts))) + 2
    for count, text in enumerate(texts, start=1):
        yield from wrapped(text, width, first=f"{f'{count}.':{indent}}", rest=" " * indent)


def _tightening(answer: Answer, width: int) -> Iterator[str]:
    torque = answer.proposal.torque
    if torque is None:
        return
    digits = torque_digits(torque)
    nut_factor = f"{number(torque.nut_factor.min, 3)} to {number(torque.nut_factor.max, 3)}"
    yield from _listed(
        (
            f"target {rounded_down(torque.target_nm, digits)} N·m, at least {rounded_up(torque.min_nm, digits)}, "
            f"at most {rounded_down(torque.max_nm, digits)} N·m, limited by {words(torque.limited_by)}",
            *(
                ()
                if torque.clamp_reserve is None
                else (f"clamp reserve {percent(torque.clamp_reserve)}: so much may go before it slips in service",)
            ),
            f"nut factor {nut_factor}",
            *((f"with {words(torque.tool)}",) if torque.tool else ()),
            f"the joint is {answer.proposal.joint.kind.value}",
        ),
        width,
    )


def _ground(ground: GroundJoint | None, width: int) -> Iterator[str]:
    """What a ground joint must measure: it stays open until somebody has measured it."""
    if ground is None:
        return
    rings = "one ring" if ground.rings == 1 else f"{ground.rings} rings"
    cable = "" if ground.cable_mm2 is None else f", cable of {figure(ground.cable_mm2)} mm²"
    palm = () if ground.palm_mm is None else (f"lug {_lug(ground)}, {mm(ground.palm_mm)} wide by table",)
    drop = f"{figure(ground.drop_mv)} mV at full current, by common practice"
    if ground.max_resistance_mohm is None or ground.current_a is None:
        needs = f"needs its full current, then a measurement: at most {drop}"
    else:
        most = rounded_down(ground.max_resistance_mohm, 3)
        needs = f"needs a measured {most} mΩ or less at {figure(ground.current_a)} A: {drop}"
    yield from _listed((f"{rings} on an {ground.stud} stud{cable}", *palm, needs), width)


def _lug(ground: GroundJoint) -> str:
    """The lug by its cable and its stud, as it is bought."""
    return f"{figure(ground.cable_mm2 or 0)} mm² x {ground.stud}"


def _removals(answer: Answer, width: int) -> Iterator[str]:
    counts = answer.proposal.removals
    counted = f"{number(counts.wanted, 0)} in ten years wanted, {number(counts.rated, 0)} rated"
    yield from _listed((counted, *(f"renew {words(part)}" for part in counts.replace)), width)


def _others(answers: tuple[Answer, ...], width: int) -> Iterator[str]:
    """Rank, title, and the share its worst check uses or that it is not proven."""
    for answer in answers:
        state = f"{_worst(answer)} used" if answer.proposal.proven else standing(answer).lower()
        yield from wrapped(f"{capital(answer.title)}, {state}", width, first=f"{answer.rank}. ", rest="   ")


def _worst(answer: Answer) -> str:
    used = [c.utilisation for c in answer.proposal.checks if c.utilisation is not None and c.status is Status.HOLDS]
    return percent(max(used, default=0.0))


def _refused(refusals: tuple[Refusal, ...], width: int) -> Iterator[str]:
    """A refusal each; methods that are refused for one and the same reason share a line."""
    reasons: dict[str, list[Refusal]] = {}
    for refusal in refusals:
        reasons.setdefault(_reason(refusal), []).append(refusal)
    for reason, shared in reasons.items():
        named = ", ".join(refusal.title or words(refusal.method) for refusal in shared)
        yield from wrapped(f"{capital(named)}: {reason}", width, first="- ", rest="  ")
        for change in dict.fromkeys(refusal.change for refusal in shared if refusal.change):
            yield from wrapped(f"would fit with: {change}", width, first="  > ", rest="    ")


def _reason(refusal: Refusal) -> str:
    figures = ", ".join(f"{entry.name} {with_unit(entry.value, entry.unit)}" for entry in refusal.figures)
    return f"{refusal.because} ({figures})" if figures else refusal.because


def _understood(mount: MountPoint, width: int) -> Iterator[str]:
    """What was given, preset and assumed, a paragraph each, and what is not given but a check would need."""
    origins = dict(mount.origins)
    for origin, title in _ORIGINS.items():
        said = [text for name, text in _fields(mount) if origins.get(name, Origin.GIVEN) is origin]
        if said:
            yield from wrapped(f"{title}: {', '.join(said)}", width, rest="  ")
    missing = [_label(name) for name in _OPEN if getattr(mount, name) is None]
    if missing:
        yield from wrapped(f"Not given: {', '.join(missing)}", width, rest="  ")


def _fields(mount: MountPoint) -> Iterator[tuple[str, str]]:
    """Each field that is known, by name and as text; one thickness where least and most are the same."""
    for name in names_of(MountPoint):
        value = getattr(mount, name)
        same = mount.thickness_min_mm == mount.thickness_max_mm
        if value is None or name == "origins" or (name == "thickness_max_mm" and same):
            continue
        if isinstance(value, Bound) or (name in _OWN and not mount.carries):
            continue  # a bound stands before its figure
        if name in ("opens", "tests"):
            continue  # its remark names what has it off, and the proof cites what was read on test pieces
        label = "thickness" if name == "thickness_min_mm" and same else _label(name)
        bound = getattr(mount, bound_of(name), None)
        yield name, f"{label} {bounded(_value(name, value), bound)}"


def _label(name: str) -> str:
    """What an attribute of the mount point is called."""
    return _TITLES.get(name) or words(next((name.removesuffix(end) for end in UNITS if name.endswith(end)), name))


def _value(name: str, value: object) -> str:
    made = _made_of(value)
    if made is not None:
        return made
    if isinstance(value, float | int):
        return with_unit(value, unit_of(name))
    return words(str(getattr(value, "value", value)))


def _made_of(value: object) -> str | None:
    """What has several parts, in words; None for a single value."""
    if isinstance(value, Boss):
        deep = "" if value.depth_mm is None else f", {figure(value.depth_mm)} mm deep"
        return f"{figure(value.outer_mm)} mm across{deep}"
    if isinstance(value, tuple) and isinstance(value[0], float):
        return f"{', '.join(map(figure, value))} mm"
    if isinstance(value, tuple):
        return ", ".join(f"{words(thing.name or '')} {figure(thing.mass_kg)} kg".strip() for thing in value)
    return given_text(value)
