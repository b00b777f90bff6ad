"""Turn a ranked proposal into work: title, steps, tools, consumables and cautions, from the templates of its method."""

from dataclasses import replace
from math import ceil

from fasten.advice.conditions import holding
from fasten.advice.needs import needs_of
from fasten.advice.steps import steps_of
from fasten.catalog.materials import Anodic
from fasten.catalog.practice import Caution
from fasten.catalog.tables import Tables
from fasten.mechanics import modes as failure
from fasten.mechanics.face_modes import last_resort
from fasten.mechanics.galvanic import index_difference_v
from fasten.mechanics.tightening import rule
from fasten.model import Answer, Joint, MountPoint, Panel, Proposal, Score, Where
from fasten.model.kinds import Titled
from fasten.ranking import method_words, size
from fasten.units import Dimension, number, write

ANODIC_LIMITS = {
    Where.CABIN: "anodic-limit-controlled",
    Where.DOOR: "anodic-limit-normal",
    Where.UNDERFLOOR: "anodic-limit-harsh",
}
ANODIC_OF_FINISH = {"zinc_plated": "zinc", "stainless_dry": "stainless steel", "plain": "aluminium"}


def answer(rank: int, score: Score, proposal: Proposal, mount: MountPoint, tables: Tables) -> Answer:
    """The proposal as work: title, steps, tools, consumables and cautions."""
    proposal = _measured(proposal, tables)
    held = holding(proposal, mount, tables)
    tools, consumables = needs_of(proposal, mount, tables, held)
    return Answer(
        rank=rank, method=proposal.method, title=_title(proposal, tables), proposal=proposal, score=score,
        steps=steps_of(proposal, mount, tables, held), tools=tools, consumables=consumables,
        cautions=_cautions(proposal, mount, tables),
    )  # fmt: skip


def _measured(proposal: Proposal, tables: Tables) -> Proposal:
    """The proposal with the tool that reaches down to its torque: below what wrenches measure, a screwdriver."""
    torque = proposal.torque
    if torque is None or torque.target_nm >= rule(tables, "torque-screwdriver-below").value:
        return proposal
    return replace(proposal, torque=replace(torque, tool="torque_screwdriver"))


def _title(proposal: Proposal, tables: Tables) -> str:
    receiver, screw = proposal.joint.receiver, proposal.joint.screw
    title = method_words(tables, proposal.method).title
    if proposal.method == "factory_thread":
        return f"{size(proposal.joint)} factory {'stud' if screw is None else 'thread'}"
    if screw is None and receiver is None:
        return f"{title}, {size(proposal.joint)}"
    if screw is None:
        return f"{size(proposal.joint)} {title}"
    if receiver is not None and receiver.kind.titled is Titled.WITH_SERIES:
        return f"{screw.thread} {title}, {receiver.series}"
    return f"{screw.thread} {title}"


def _cautions(proposal: Proposal, mount: MountPoint, tables: Tables) -> tuple[str, ...]:
    """What this joint must be warned of, then its panel and place, then what always holds; each is told once."""
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
    return tuple(dict.fromkeys(text.format(**figures) for text in (*first, *own, *told) if text))


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
