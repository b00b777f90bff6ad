"""The head of an answer: in twelve lines all that is needed at the car, hole and bit first."""

from fasten.model import Answer, Hole, Joint, Status, Torque, WasherPart
from fasten.report.figures import figure, words
from fasten.report.wrap import shortened, wrapped
from fasten.units import number

MOST_LINES = 12
_MOST_VERDICT, _LABEL = 3, 8


def headline(answer: Answer, width: int) -> tuple[str, ...]:
    """At most twelve lines: title, what is not checked, hole, bit, parts, torque, one caution.

    Where they would be more, the longest entry gives up its last line; `parts` has it in full.
    """
    verdict = shortened(_verdict(answer, width), _MOST_VERDICT, width)
    entries = [wrapped(capital(answer.title), width), *(_entry(label, text, width) for label, text in parts(answer))]
    caution = _entry("Caution", answer.cautions[0], width) if answer.cautions else ()
    title, *lines = _within(entries, MOST_LINES - len(verdict) - min(len(caution), 2), width)
    lines = [title, *verdict, *lines]
    return (*lines, *shortened(caution, MOST_LINES - len(lines), width))


def parts(answer: Answer) -> list[tuple[str, str]]:
    """Label and text of each part of the work: hole, bit, receiver, screw, washers, torque."""
    joint, torque = answer.proposal.joint, answer.proposal.torque
    return [
        ("Hole", _hole(joint.hole)),
        ("Bit", _bit(joint.hole)),
        *_receiver(joint),
        *_screw(joint),
        *_washers(joint.washers),
        *([("Torque", _torque(torque))] if torque else []),
    ]


def is_whole(answer: Answer, width: int) -> bool:
    """Whether nothing of the parts had to be left out of the headline."""
    lines = headline(answer, width)
    return not any(line.endswith("…") for line in lines if not line.startswith("Caution"))


def capital(text: str) -> str:
    """The text with its first letter a capital."""
    return text[:1].upper() + text[1:]


def needs(answer: Answer) -> tuple[str, ...]:
    """What is needed to check what is not checked yet, without the word needs."""
    unchecked = (check for check in answer.proposal.checks if check.status is Status.NOT_CHECKED)
    return tuple((check.needs or check.title).removeprefix("needs ") for check in unchecked)


def _verdict(answer: Answer, width: int) -> tuple[str, ...]:
    checks, wanted = answer.proposal.checks, "; ".join(needs(answer))
    failing = "; ".join(check.title for check in checks if check.status is Status.FAILS)
    if failing:
        return wrapped(f"DOES NOT HOLD: {failing}", width, rest="  ")
    if not answer.proposal.proven:
        return wrapped(f"NOT PROVEN: needs {wanted}" if wanted else "NOT PROVEN", width, rest="  ")
    return wrapped(f"All {len(checks)} checks hold, none left open.", width)


def _entry(label: str, text: str, width: int) -> tuple[str, ...]:
    return wrapped(text, width, first=f"{label:{_LABEL}}", rest=" " * _LABEL)


def _within(entries: list[tuple[str, ...]], most: int, width: int) -> list[str]:
    entries = list(entries)
    while sum(map(len, entries)) > most:
        longest = max(range(len(entries)), key=lambda index: len(entries[index]))
        if len(entries[longest]) == 1:
            # More parts than lines: the washers, last before the torque, give way and are named below.
            entries[-3:-1] = [("        more parts below …",)]
        else:
            entries[longest] = shortened(entries[longest], len(entries[longest]) - 1, width)
    return [line for entry in entries for line in entry]


def _hole(hole: Hole) -> str:
    across = " hexagon, across flats" if hole.shape == "hexagon" else ""
    depth = "through" if hole.depth_mm is None else f"{figure(hole.depth_mm)} mm deep"
    tolerance = f"-{number(hole.tolerance_mm.minus, 2)} +{number(hole.tolerance_mm.plus, 2)}"
    return f"{number(hole.diameter_mm, 2)} mm{across}, {tolerance}, {depth}"


def _bit(hole: Hole) -> str:
    bit, off = hole.bit, hole.bit.deviation_mm
    name = bit.name if number(bit.diameter_mm, 3) in bit.name else f"{bit.name} ({number(bit.diameter_mm, 3)} mm)"
    if number(off, 2) != "0":
        name += f", {number(abs(off), 2)} mm {'over' if off > 0 else 'under'}"
    return name if bit.holds else f"{name}: OUTSIDE, drill under and ream"


def _receiver(joint: Joint) -> list[tuple[str, str]]:
    part = joint.receiver
    if part is None or joint.method == "blind_rivet":
        return []
    grip = f", grip {figure(part.grip_mm.min)} to {figure(part.grip_mm.max)} mm" if part.grip_mm else ""
    size = f"{words(part.part)} {part.thread}, {words(part.series)}, {figure(part.length_mm)} mm long"
    return [("Put in", size + grip)]


def _screw(joint: Joint) -> list[tuple[str, str]]:
    screw = joint.screw
    if screw is None:
        return []
    size = f"{screw.thread} x {figure(screw.length_mm)} mm"
    if joint.method == "blind_rivet":
        return [("Rivet", f"{size}, {words(screw.standard)}, {words(screw.class_)}")]
    graded = f"class {screw.class_}" if screw.class_[:1].isdigit() else words(screw.class_)
    return [("Screw", f"{size} {words(screw.head)}, {graded}, {words(screw.standard)}, {words(screw.finish)}")]


def _washers(washers: tuple[WasherPart, ...]) -> list[tuple[str, str]]:
    """Washers of one size together, with the places they go."""
    places: dict[str, list[str]] = {}
    for washer in washers:
        size = f"{figure(washer.hole_mm)}/{figure(washer.outer_mm)} x {figure(washer.thickness_mm)} mm"
        places.setdefault(f"{size}, {words(washer.standard)}", []).append(_place(washer))
    return [("Washer", f"{size}, {' and '.join(where)}") for size, where in places.items()]


def _place(washer: WasherPart) -> str:
    known = {"head": "under head", "between": "over flange", "nut": "under nut"}
    return known.get(washer.place, words(washer.place))


def _torque(torque: Torque) -> str:
    window = f"{number(torque.min_nm, 2)} to {number(torque.max_nm, 2)}"
    return f"{number(torque.target_nm, 2)} N·m, {number(torque.target_inlbf, 1)} in·lbf ({window})"
