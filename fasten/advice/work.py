"""Turn a ranked proposal into work: title, steps, tools, consumables and cautions, from the templates of its method."""

from dataclasses import replace
from math import ceil

from fasten.catalog.materials import Anodic, SoftLayer
from fasten.catalog.parts import Lock
from fasten.catalog.practice import Caution, Step, Tool
from fasten.catalog.tables import Tables
from fasten.grounds import ground_joint
from fasten.mechanics import modes as failure
from fasten.mechanics.checks import up
from fasten.mechanics.face_modes import TAPE, adhesive, last_resort
from fasten.mechanics.galvanic import index_difference_v
from fasten.mechanics.stop_fit import stop_of
from fasten.mechanics.tightening import LOCKER, NO_LOCK, past_driving, rule
from fasten.model import Answer, Joint, MountPoint, Panel, Patch, Proposal, Score, Torque, Where
from fasten.ranking import is_there, method_words, size
from fasten.rounding import rounded_down, torque_digits
from fasten.units import Dimension, number, write

ANODIC_LIMITS = {
    Where.CABIN: "anodic-limit-controlled",
    Where.DOOR: "anodic-limit-normal",
    Where.UNDERFLOOR: "anodic-limit-harsh",
}
BOARD = frozenset({"board", "wood"})
GUMMED, GLUED, GRIP = "tape", "adhesive", "own grip"
LUG, PAINTED, STUD, THREAD = "ground lug", "painted sheet", "stud", "thread"
# Whom a step that begins so is for: families of material, whether metal is painted or bared under a ground lug, and
# what a thread that is there already is.
ON_FAMILY = {
    "On sheet": {"sheet"},
    "On painted sheet": {PAINTED},
    "Under a ground lug": {LUG},
    "On a stud": {STUD},
    "In a thread": {THREAD},
    "On laminate": {"laminate"},
    "Off laminate": {"sheet", "plastic", *BOARD},
    "On board": BOARD,
    "With tape": {GUMMED},
    "With adhesive": {GLUED},
    "With its own grip": {GRIP},
    "Off board": {"sheet", "plastic", "laminate"},
}
SHAPED = {"hexagon body": "hexagon", "hexagon hole": "hexagon", "square hole": "square"}
FOR_METAL = {"centre punch", "gloves for sheet edges", "magnet and vacuum for swarf", "bare-edge primer"}
FOR_LUG = {"scraper or abrasive paper", "meter that reads millivolts", "primer or sealing grease for the lug"}
FOR_MARKING = {"centre punch", "masking tape", "chalk"}  # and the pilot: in a hole that is there nothing is marked
PILOT = " mm drill bit"
NOT_FOR_LUG = {"bare-edge primer"}
NOT_FOR_BOARD = {"deburring tool", "test piece of the same sheet"}
ANODIC_OF_FINISH = {"zinc_plated": "zinc", "stainless_dry": "stainless steel", "plain": "aluminium"}


def answer(rank: int, score: Score, proposal: Proposal, mount: MountPoint, tables: Tables) -> Answer:
    """The proposal as work: title, steps, tools, consumables and cautions."""
    proposal = _measured(proposal, tables)
    rows = [row for row in tables.rows(Tool, "tools") if row.method == proposal.method]
    kinds = [(row.name_, row.kind) for row in rows if _is_used(row.name_, proposal.joint, mount, tables)]
    return Answer(
        rank=rank, method=proposal.method, title=_title(proposal, tables), proposal=proposal, score=score,
        steps=_steps(proposal, mount, tables),
        tools=(*_own_tools(proposal), *(n for n, k in kinds if k == "tool")),
        consumables=(*_bond(proposal.joint.patch), *(n for n, k in kinds if k == "consumable")),
        cautions=_cautions(proposal, mount, tables),
    )  # fmt: skip


def _measured(proposal: Proposal, tables: Tables) -> Proposal:
    """The proposal with the tool that reaches down to its torque: below what wrenches measure, a screwdriver."""
    torque = proposal.torque
    if torque is None or torque.target_nm >= rule(tables, "torque-screwdriver-below").value:
        return proposal
    return replace(proposal, torque=replace(torque, tool="torque_screwdriver"))


def _is_used(name: str, joint: Joint, mount: MountPoint, tables: Tables) -> bool:
    """Whether what a method may need is used on this material, for this kind of joint, with the hole that is there."""
    family = failure.material(tables, mount.material).family
    on_board = family in BOARD
    unused = (
        (name in FOR_METAL and family != "sheet")
        or (name in NOT_FOR_BOARD if on_board else "board" in name)
        or name in (FOR_LUG if mount.ring is None else NOT_FOR_LUG)
        or (name == LOCKER and joint.lock != LOCKER)
        or (_goes_in_hole_there(joint, mount) and (name in FOR_MARKING or name.endswith(PILOT)))
    )
    return not unused and _applies(name, joint)


def _title(proposal: Proposal, tables: Tables) -> str:
    receiver, screw = proposal.joint.receiver, proposal.joint.screw
    title = method_words(tables, proposal.method).title
    if proposal.method == "factory_thread":
        return f"{size(proposal.joint)} factory {'stud' if screw is None else 'thread'}"
    if screw is None and receiver is None:
        return f"{title}, {size(proposal.joint)}"
    if screw is None:
        return f"{size(proposal.joint)} {title}"
    if receiver is not None and receiver.part in {"rivet nut", "screw-in insert"}:
        return f"{screw.thread} {title}, {receiver.series}"
    return f"{screw.thread} {title}"


def _own_tools(proposal: Proposal) -> tuple[str, ...]:
    """The bit, the driver and what measures the torque."""
    joint = proposal.joint
    found = [] if joint.hole is None else [f"bit {joint.hole.bit.name}"]
    if joint.screw is not None:
        found.append(_driver(joint.screw.drive))
    elif joint.hole is None and joint.receiver is not None and joint.receiver.flange_mm is not None:
        found.append(_driver(f"hexagon {joint.receiver.flange_mm:g}"))
    if proposal.torque is not None:
        found.append(proposal.torque.tool.replace("_", " "))
    return tuple(found)


def _driver(drive: str) -> str:
    """What turns the screw; a hexagon head is turned by a socket, never by a key."""
    kind, _, size = drive.rpartition(" ")
    return f"{size} mm socket or spanner" if kind == "hexagon" else f"driver {drive}"


def _steps(proposal: Proposal, mount: MountPoint, tables: Tables) -> tuple[str, ...]:
    joint, torque = proposal.joint, proposal.torque
    needed = max(joint.behind_set_mm, joint.behind_done_mm)
    filled = {
        **_drilling(joint, tables),
        **_grounding(mount, tables),
        "receiver": _receiver_name(joint),
        "screw": f"{joint.screw.thread} x {number(joint.screw.length_mm, 1)}" if joint.screw else "-",
        "patch": _patch_size(joint.patch) if joint.patch else "-",
        "stop": _stop_size(joint),
        **_curing(joint.patch, tables),
        "torque": _torque(torque) if torque else "-",
        "behind": up(needed),
        "grip": write(joint.grip_mm, Dimension.LENGTH, 2),
    }
    rows = [row for row in tables.rows(Step, "steps") if row.method == proposal.method]
    traits = _traits(mount, tables) | {STUD if joint.screw is None else THREAD, _held_by(joint.patch)}
    own = [text for row in rows if (text := _of_family(row.text, traits)) is not None]
    texts = [text.format(**filled) for text in own if _applies(text, joint) and _tightened(text, torque)]
    if joint.patch is None:
        texts = _with_lock(_with_hole_there(texts, joint, mount), joint, tables)
    soft = tables.find(SoftLayer, "soft-layers", mount.between.material) if mount.between else None
    if soft is None or (stop_of(joint) is None and "{stop}" in soft.step):
        return tuple(texts)
    return (*texts[:2], soft.step.format(**filled), *texts[2:])


def _with_lock(texts: list[str], joint: Joint, tables: Tables) -> list[str]:
    """What keeps the screw from working loose, told before the item is fitted where no step has told of it."""
    if joint.lock in {"", NO_LOCK} or any(joint.lock in text for text in texts):
        return texts
    lock = tables.find(Lock, "locks", joint.lock)
    step = f"What keeps it from working loose: {joint.lock}." if lock is None else lock.step
    at = next((at for at, text in enumerate(texts) if text.lower().startswith("fit the item")), len(texts))
    return [*texts[:at], step, *texts[at:]]


def _drilling(joint: Joint, tables: Tables) -> dict[str, str]:
    """What a step tells of drilling."""
    if joint.hole is None:
        return {"hole": "-", "bit": "-", "pilot": "-"}
    pilot_mm = min(rule(tables, "pilot-probe").value, joint.hole.diameter_mm)
    return {
        "hole": write(joint.hole.diameter_mm, Dimension.LENGTH, 2), "bit": joint.hole.bit.name,
        "pilot": write(pilot_mm, Dimension.LENGTH, 2),
    }  # fmt: skip


def _grounding(mount: MountPoint, tables: Tables) -> dict[str, str]:
    """What a step tells of a ground lug."""
    joint = ground_joint(mount, tables)
    if joint is None:
        return {"bare": "-", "ground": "-", "refinish": "-"}
    most = f"at full current it drops no more than {number(joint.drop_mv, 1)} mV"
    if joint.current_a is not None and joint.max_resistance_mohm is not None:
        current = write(joint.current_a, Dimension.CURRENT, 1)
        resistance = rounded_down(joint.max_resistance_mohm, 3)
        most = f"at {current} it drops no more than {number(joint.drop_mv, 1)} mV, which is {resistance} mΩ"
    figures = {name: number(rule(tables, f"ground-{name}").value, 1) for name in ("bare", "refinish")}
    return {**figures, "ground": most}


def _traits(mount: MountPoint, tables: Tables) -> set[str]:
    """What a step may be for: the family of the substrate, and whether metal is painted or bared under a ground lug."""
    family = failure.material(tables, mount.material).family
    if mount.ring is not None:
        return {family, LUG}
    return {family, PAINTED} if family == "sheet" else {family}


def _patch_size(patch: Patch) -> str:
    if patch.shape == "round":
        return f"{number(patch.length_mm, 1)} mm across"
    return f"{number(patch.length_mm, 1)} x {number(patch.width_mm, 1)} mm"


def _stop_size(joint: Joint) -> str:
    stop = stop_of(joint)
    if stop is None:
        return "-"
    hole, outer, height = (number(mm, 1) for mm in (stop.hole_mm, stop.outer_mm, stop.thickness_mm))
    return f"a {stop.standard} {hole} x {outer} x {height} mm"


def _goes_in_hole_there(joint: Joint, mount: MountPoint) -> bool:
    """Whether what is put in goes into a hole that is there: what holds by its face leaves it alone."""
    return mount.hole_there_mm is not None and joint.hole is not None


def _with_hole_there(texts: list[str], joint: Joint, mount: MountPoint) -> list[str]:
    """Where the hole is there already nothing is marked or piloted: it is measured, cleaned up and probed through.

    One that is as wide as it must be is not opened up either.
    """
    if not _goes_in_hole_there(joint, mount):
        return texts
    assert mount.hole_there_mm is not None
    there = write(mount.hole_there_mm, Dimension.LENGTH, 2)
    wide = joint.hole is not None and is_there(joint.hole, mount)
    then = ": it is wide enough, and only the test piece is drilled. Deburr it" if wide else ", deburr it"
    measured = f"Measure the hole that is there ({there}){then}, probe the space behind and measure the sheet in it."
    done = ("Offer up the item", "Drill one ", *(("Open up to ",) if wide else ()))
    kept = [text for text in texts if not text.startswith(done)]
    return [*kept[:1], measured, *kept[1:]]


def _of_family(text: str, traits: set[str]) -> str | None:
    """A step without the words that keep it to a family of material or to ground lugs; None where it is for another."""
    keeps, _, rest = text.partition(": ")
    if keeps not in ON_FAMILY:
        return text
    return rest[0].upper() + rest[1:] if traits & ON_FAMILY[keeps] else None


def _held_by(patch: Patch | None) -> str:
    """What keeps a patch on its faces: tape, adhesive, or its own grip."""
    if patch is None or patch.bond is None:
        return GRIP
    return GUMMED if patch.part == TAPE else GLUED


def _bond(patch: Patch | None) -> tuple[str, ...]:
    """The adhesive or tape that keeps a patch where it is."""
    return () if patch is None or patch.bond is None else (patch.bond,)


def _curing(patch: Patch | None, tables: Tables) -> dict[str, str]:
    """What a step tells of an adhesive and how long it takes."""
    if patch is None or patch.bond is None:
        return {"bond": "-", "set": "-", "cure": "-"}
    row = adhesive(tables, patch.bond)
    return {"bond": patch.bond, "set": _hours(row.set_h), "cure": _hours(row.cure_h)}


def _hours(hours: float) -> str:
    return f"{number(hours, 1)} h" if hours < 72 else f"{number(hours / 24, 1)} days"


def _applies(text: str, joint: Joint) -> bool:
    """What tells of a hexagon hole or body is for a hexagon only, what tells of a square hole for a square."""
    own = None if joint.hole is None else joint.hole.shape
    return not any(word in text and own != shape for word, shape in SHAPED.items())


def _tightened(text: str, torque: Torque | None) -> bool:
    """A step that names a torque is for where there is one, and a step by feel for where there is none."""
    return ("by feel" not in text) if torque is not None else ("{torque}" not in text)


def _torque(torque: Torque) -> str:
    return f"{rounded_down(torque.target_nm, torque_digits(torque))} {Dimension.TORQUE.unit}{past_driving(torque)}"


def _receiver_name(joint: Joint) -> str:
    receiver = joint.receiver
    return "screw" if receiver is None else f"{receiver.thread} {receiver.part}"


def _cautions(proposal: Proposal, mount: MountPoint, tables: Tables) -> tuple[str, ...]:
    """What this joint must be warned of, then its panel and place, then what always holds."""
    own = [_thread_goes_first(proposal)] if proposal.method == "tapped_hole" else []
    own.extend(_corrosion(proposal.joint, mount, tables))
    rows = tables.rows(Caution, "cautions")
    first = [row.text for row in rows if row.applies in _own(proposal.joint, mount, tables)]
    groups = (
        _on_skin(mount, tables), _panel(mount), {"all", mount.grade}, _families(mount, tables), _place(mount, tables),
        _open_questions(mount),
    )  # fmt: skip
    told = [row.text for applies in groups for row in rows if row.applies in applies]
    figures = _skin_figures(mount, tables)
    return tuple(text.format(**figures) for text in (*first, *own, *told) if text)


def _own(joint: Joint, mount: MountPoint, tables: Tables) -> set[str]:
    """What the method alone must be warned of, and that it is the last resort where it is."""
    return {joint.method, *({"last-resort"} if last_resort(joint, mount, tables) else ())}


def _panel(mount: MountPoint) -> set[str]:
    return set() if mount.panel is Panel.UNKNOWN else {mount.panel.value}


def _open_questions(mount: MountPoint) -> set[str]:
    return {"unknown"} if mount.panel is Panel.UNKNOWN else set()


def _families(mount: MountPoint, tables: Tables) -> set[str]:
    """The families met, but for sheet, which has a warning of its own."""
    return {failure.material(tables, name).family for name in (mount.material, mount.item_material)} - {"sheet"}


def _on_skin(mount: MountPoint, tables: Tables) -> set[str]:
    """Where much hangs on a thin skin, that is what must be warned of first."""
    heavy = mount.mass_kg > rule(tables, "unsupported-skin-mass").value
    thin = mount.thickness_min_mm < rule(tables, "unsupported-skin-sheet").value
    sheet = failure.material(tables, mount.material).family == "sheet"
    return {"sheet"} if heavy and thin and sheet else set()


def _skin_figures(mount: MountPoint, tables: Tables) -> dict[str, str]:
    """What hangs on the skin, rounded up so that it never reads as no more than the most, and where it is too much."""
    most, thin = (rule(tables, f"unsupported-skin-{name}").value for name in ("mass", "sheet"))
    mass_kg = ceil(round(mount.mass_kg * 100, 6)) / 100
    return {
        "mass": write(mass_kg, Dimension.MASS, 2), "most": write(most, Dimension.MASS, 2),
        "thin": write(thin, Dimension.LENGTH, 2),
    }  # fmt: skip


def _place(mount: MountPoint, tables: Tables) -> set[str]:
    """Where it lives; the heat of a cabin matters to plastic."""
    if mount.where is Where.CABIN and "plastic" not in _families(mount, tables):
        return set()
    return {mount.where.value}


def _thread_goes_first(proposal: Proposal) -> str:
    """Told where the plate strips before the screw breaks: 0.9 of its breaking load is what the tension check has."""
    loads = {
        check.id: check.allowable * check.factor
        for check in proposal.checks
        if check.allowable is not None and check.factor is not None
    }
    strip, breaks = loads.get("thread-strip.hard_stop"), loads.get("screw-tension.hard_stop")
    if strip is None or breaks is None or strip >= breaks / 0.9:
        return ""
    return "The thread goes first: the plate strips before the screw breaks, so keep to the torque."


def _corrosion(joint: Joint, mount: MountPoint, tables: Tables) -> list[str]:
    """A warning for each metal under the screw that is further from its finish than the place allows."""
    if joint.screw is None:
        return []
    finish = tables.find(Anodic, "anodic-index", ANODIC_OF_FINISH[joint.screw.finish])
    limit = rule(tables, ANODIC_LIMITS[mount.where])
    assert finish is not None
    found = []
    for name in dict.fromkeys((mount.material, mount.item_material)):
        metal = tables.find(Anodic, "anodic-index", failure.material(tables, name).anodic)
        if metal is None:
            continue
        apart = index_difference_v(first_v=finish.index_v, second_v=metal.index_v)
        if apart > limit.value:
            eaten = finish.metal if finish.index_v > metal.index_v else metal.metal
            found.append(
                f"Corrosion: {finish.metal} on {metal.metal} is {number(apart, 2)} V apart, {number(limit.value, 2)} V "
                f"is the most here, and the {eaten} is eaten: {_kept_dry(mount)}."
            )
    return found


def _kept_dry(mount: MountPoint) -> str:
    """How water is kept from between two metals; under a ground lug they must touch."""
    return "prime the edge and seal under the head" if mount.ring is None else "seal all round once it is tight"
