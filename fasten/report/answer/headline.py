"""The head of an answer: in twelve lines all that is needed at the car, hole and bit first."""

from fasten.advice.plan import held_by
from fasten.geometry.bits import IN_PLACE
from fasten.geometry.joint import drilled
from fasten.model import Answer, Hole, Joint, Position, Span, StackPart, Status, Torque
from fasten.model.check import needed
from fasten.model.kinds import Bought, Measured, Set, Thread
from fasten.model.known import Body
from fasten.report.wrap import shortened, wrapped
from fasten.text.figures import figure, words
from fasten.text.names import capital
from fasten.text.rounding import past_driving, rounded_down, rounded_up, torque_digits
from fasten.text.units import number

MOST_LINES = 12
_MOST_VERDICT, _LABEL = 3, 8


def headline(answer: Answer, width: int, most: int = MOST_LINES) -> tuple[str, ...]:
    """At most so many lines: title, remarks, what is not checked, hole, bit, parts, torque, one caution.

    Where they would be more, the longest entry gives up its last line; `parts` has it in full.
    """
    caution = _entry("Caution", answer.cautions[0].text, width) if answer.cautions else ()
    lines = _within(_entries(answer, width), most - min(len(caution), 2), width, kept=1 + len(answer.remarks))
    return (*lines, *shortened(caution, most - len(lines), width))


def is_whole(answer: Answer, width: int, most: int = MOST_LINES) -> bool:
    """Whether nothing but the caution had to be shortened in the headline."""
    room = most - min(2, len(answer.cautions[:1]) * 2)
    return sum(map(len, _entries(answer, width))) <= room


def parts(answer: Answer) -> list[tuple[str, str]]:
    """Label and text of each part of the work: hole, bit, receiver, screw, limiter, washers, torque."""
    joint, torque = answer.proposal.joint, answer.proposal.torque
    return [
        *_holes(joint),
        *([("Hold by", held)] if (held := held_by(answer.proposal)) else []),
        *_receiver(joint, answer.title),
        *_screw(joint),
        *_washers(joint),
        *([("Torque", _torque(torque))] if torque else _by_feel(joint)),
    ]


def needs(answer: Answer) -> tuple[str, ...]:
    """What is needed to prove what is not checked yet or is marginal, without the word needs."""
    return needed(answer.proposal.checks)


def standing(answer: Answer) -> str:
    """What an answer that is not proven is: marginal, or merely not checked whole."""
    return "MARGINAL, NOT PROVEN" if answer.proposal.status is Status.MARGINAL else "NOT PROVEN"


def _entries(answer: Answer, width: int) -> list[tuple[str, ...]]:
    """Title, remarks, verdict, and each part, in lines."""
    verdict = shortened(_verdict(answer, width), _MOST_VERDICT, width)
    listed = (_entry(label, text, width) for label, text in parts(answer))
    remarks = (wrapped(f"{text}.", width, rest="  ") for text in answer.remarks)
    return [wrapped(capital(answer.title), width), *remarks, verdict, *listed]


def _verdict(answer: Answer, width: int) -> tuple[str, ...]:
    checks, wanted = answer.proposal.checks, "; ".join(needs(answer))
    failing = "; ".join(check.title for check in checks if check.status is Status.FAILS)
    if failing:
        return wrapped(f"DOES NOT HOLD: {failing}", width, rest="  ")
    if not answer.proposal.proven:
        said = standing(answer)
        return wrapped(f"{said}: needs {wanted}" if wanted else said, width, rest="  ")
    return wrapped(f"All {len(checks)} checks hold, none left open.", width)


def _entry(label: str, text: str, width: int) -> tuple[str, ...]:
    return wrapped(text, width, first=f"{label:{_LABEL}}", rest=" " * _LABEL)


def _within(entries: list[tuple[str, ...]], most: int, width: int, *, kept: int) -> list[str]:
    """The entries in so many lines: the longest gives up a line first, and then the last parts.

    The `kept` ones after the title, remarks and verdict, give up none.
    """
    entries = list(entries)
    while (over := sum(map(len, entries)) - most) > 0:
        longest = max((i for i in range(len(entries)) if not 1 <= i <= kept), key=lambda i: len(entries[i]))
        if len(entries[longest]) > 1:
            entries[longest] = shortened(entries[longest], len(entries[longest]) - 1, width)
        else:
            # All washers, and still too many: they stand before the torque, and below in full.
            entries[-2 - over : -1] = [("        more parts below …",)]
    return [line for entry in entries for line in entry]


def _holes(joint: Joint) -> list[tuple[str, str]]:
    if joint.hole is None or not _is_drilled(joint):
        return [("Hole", "none to drill")]
    return [("Hole", _hole(joint.hole)), ("Bit", _bit(joint))]


def _is_drilled(joint: Joint) -> bool:
    return joint.hole is not None and joint.hole.bit.name != IN_PLACE


def _hole(hole: Hole) -> str:
    across = " hexagon, across flats" if hole.shape == "hexagon" else ""
    depth = "through" if hole.depth_mm is None else f"{figure(hole.depth_mm)} mm deep"
    minus, plus = number(hole.tolerance_mm.minus, 2), number(hole.tolerance_mm.plus, 2)
    tolerance = "" if minus == plus == "0" else f", -{minus} +{plus}"
    return f"{number(hole.diameter_mm, 2)} mm{across}{tolerance}, {depth}"


def _bit(joint: Joint) -> str:
    """The bit; bodies of rivet nuts differ from box to box, so the one in your hand is measured before it is used."""
    measure = joint.receiver is not None and joint.receiver.kind.measured is Measured.FIRST
    return f"{_drill(drilled(joint))}{'; measure the body first' if measure else ''}"


def _drill(hole: Hole) -> str:
    bit, off = hole.bit, hole.bit.deviation_mm
    name = bit.name if number(bit.diameter_mm, 3) in bit.name else f"{bit.name} ({number(bit.diameter_mm, 3)} mm)"
    if number(off, 2) != "0":
        name += f", {number(abs(off), 2)} mm {'over' if off > 0 else 'under'}"
    return name if bit.holds else f"{name}: OUTSIDE, drill under and ream"


def _receiver(joint: Joint, title: str) -> list[tuple[str, str]]:
    """The receiver, what the title says of it left out; its length, and what its hole belongs to."""
    part = joint.receiver
    if part is None or part.kind.bought is Bought.AS_ITS_SCREW:
        return []
    if joint.hole is not None and not _is_drilled(joint):
        return [("Nut", f"existing {words(part.part)} {part.thread}, taken as {words(part.series)}")]
    if joint.hole is None:
        return [("Nut", f"{words(part.part)} {part.thread}, {words(part.series)}")]
    text = f"{words(part.part)} {part.thread}"
    named = words(part.series) in words(title)
    text += "" if named else f", {words(part.series)}"
    if isinstance(part.grip, Span) and named:
        # Title and line together fit a phone with its keyboard up, and the torque stays in view below them.
        text = f"{words(part.part).split()[-1]} {figure(part.length_mm)} long, "
        text += f"grip {figure(part.grip.min)} to {figure(part.grip.max)} mm"
    elif isinstance(part.grip, Span):
        text += f", {figure(part.length_mm)} mm long, grip {figure(part.grip.min)} to {figure(part.grip.max)} mm"
    elif isinstance(part.body, Body):
        text += f", {figure(part.body.outside_mm)} mm outside, {figure(part.length_mm)} mm long"
    return [("Put in", text)]


def _screw(joint: Joint) -> list[tuple[str, str]]:
    screw = joint.screw
    if screw is None:
        return []
    size = f"{screw.thread} x {figure(screw.length_mm)} mm"
    if screw.kind.thread is Thread.NONE:
        return [(screw.kind.label, f"{size}, {words(screw.standard)}, {words(screw.class_)}")]
    if screw.kind.set is Set.ONCE:
        return [
            (screw.kind.label, f"{screw.thread}, {words(screw.head)}, {words(screw.standard)}, {words(screw.finish)}")
        ]
    graded = f"class {screw.class_}" if screw.class_[:1].isdigit() else words(screw.class_)
    return [(screw.kind.label, f"{size} {words(screw.head)}, {graded}, {words(screw.standard)}, {words(screw.finish)}")]


def _washers(joint: Joint) -> list[tuple[str, str]]:
    """The limiter, then washers and plates of one size together, with the places they go."""
    places: dict[tuple[str, str, str], list[str]] = {}
    limiters = []
    for washer in joint.washers:
        size = "x".join(map(figure, (washer.hole_mm, washer.outer_mm, washer.thickness_mm)))
        if washer.place == Position.LIMITER:
            limiters.append(("Limiter", f"{words(washer.standard)} {size} mm, in the {_soft(joint)}"))
        elif washer.side_mm is not None:
            hole = f"{figure(washer.hole_mm)} mm hole"
            places.setdefault(("Plate", f"{words(washer.standard)} {washer.size}", hole), []).append(_place(washer))
        else:
            places.setdefault(("Washer", f"{size} mm", words(washer.standard)), []).append(_place(washer))
    flat = [(label, f"{size}, {' + '.join(where)}, {last}") for (label, size, last), where in places.items()]
    return [*limiters, *flat]


def _soft(joint: Joint) -> str:
    return next(words(layer.material) for layer in joint.layers if layer.role == "soft")


def _place(washer: StackPart) -> str:
    return "on flange" if washer.place is Position.BETWEEN else washer.place.value


def _by_feel(joint: Joint) -> list[tuple[str, str]]:
    """That no figure is known for a screw; a rivet and a stud of its own are set, not tightened."""
    tightened = joint.screw is not None and joint.screw.kind.set is Set.TIGHTENED
    return [("Torque", "no figure known: by feel, as the steps say")] if tightened else []


def _torque(torque: Torque) -> str:
    digits = torque_digits(torque)
    target, most = (rounded_down(nm, digits) for nm in (torque.target_nm, torque.max_nm))
    least = rounded_up(torque.min_nm, digits)
    return f"{target} N·m, {rounded_down(torque.target_inlbf, 1)} in·lbf ({least} to {most}){past_driving(torque)}"
