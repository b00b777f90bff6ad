"""Ask every method, prove what it offers, keep the best, rank it and say why: question in, advice out."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from typing import Protocol

from fasten.catalog.parts import Caution, MethodWords, SoftLayer, Step, Tool, Weight
from fasten.catalog.rows import MetricClearance
from fasten.catalog.tables import Tables
from fasten.mechanics import modes as failure
from fasten.mechanics.demands import demands
from fasten.mechanics.tightening import rule
from fasten.methods import blind_rivet, rivet_nut, self_drilling_screw, tapped_hole, tapping_screw, through_bolt
from fasten.model import (
    Advice,
    Answer,
    Demand,
    Figure,
    Joint,
    MountPoint,
    Proposal,
    Refusal,
    Score,
    ScorePart,
    SourceNote,
    Status,
    Visible,
    Where,
)
from fasten.proof import prove
from fasten.units import Dimension, number, write

HOLE_THERE = "hole-there"
ENOUGH = 0.7


class Method(Protocol):
    """What a module of `fasten.methods` offers."""

    NAME: str

    def gates(self, mount: MountPoint, tables: Tables) -> Refusal | None:
        """A refusal where the method cannot apply at all."""

    def joints(self, mount: MountPoint, tables: Tables) -> Iterator[Joint]:
        """Sized candidates, unchecked."""

    def modes(self, mount: MountPoint, tables: Tables) -> tuple[failure.Mode, ...]:
        """The failure modes that apply."""


METHODS: tuple[Method, ...] = (
    rivet_nut,
    tapping_screw,
    self_drilling_screw,
    through_bolt,
    tapped_hole,
    blind_rivet,
)


@lru_cache(maxsize=4096)
def advise(mount: MountPoint, tables: Tables) -> Advice:
    """What fits this mount point, best first, and why the rest does not."""
    loads = demands(mount, tables)
    tried = [_try(method, mount, loads, tables) for method in METHODS]
    proposals = [proposal for kept, _ in tried for proposal in kept]
    refusals = [
        _with_change(refused, method, mount, tables) if _worth_a_try(refused, proposals) else refused
        for method, (kept, found) in zip(METHODS, tried, strict=True)
        for refused in found
    ]
    scored = sorted(((_score(p, mount, tables), p) for p in proposals), key=lambda pair: _order(*pair))
    answers = tuple(_answer(rank, score, p, mount, tables) for rank, (score, p) in enumerate(scored, 1))
    return Advice(mount, answers, tuple(refusals), _sources(answers, tables))


def _order(score: Score, proposal: Proposal) -> tuple[float, str, str, str]:
    """Total first, then names, so that equal scores always come in the same order."""
    receiver = proposal.joint.receiver
    assert proposal.joint.screw is not None
    return round(score.total, 6), proposal.method, proposal.joint.screw.thread, receiver.series if receiver else ""


def _worth_a_try(refused: Refusal, proposals: list[Proposal]) -> bool:
    """A change is looked for where nothing fits, or where a proof failed: a hole that is there stays as it is."""
    return refused.check != HOLE_THERE and (not proposals or refused.check is not None)


def _try(
    method: Method, mount: MountPoint, loads: tuple[Demand, ...], tables: Tables
) -> tuple[list[Proposal], list[Refusal]]:
    """The best proposal of each thread, and what was refused: the nearest miss where nothing is left."""
    refused = method.gates(mount, tables)
    if refused is not None:
        return [], [refused]
    best: dict[str, tuple[tuple[float, str, str, str], Proposal]] = {}
    misses: list[Refusal] = []
    holes: list[Refusal] = []
    for joint, found in _proved(method, mount, loads, tables):
        assert joint.screw is not None
        if isinstance(found, Refusal):
            (holes if found.check == HOLE_THERE else misses).append(found)
            continue
        order = _order(_score(found, mount, tables), found)
        held = best.get(joint.screw.thread)
        if held is None or order < held[0]:
            best[joint.screw.thread] = (order, found)
    kept = [proposal for _, proposal in best.values()]
    largest_hole = sorted(holes, key=lambda refusal: -refusal.figures[1].value)[:1]
    nearest = sorted(misses, key=_miss)[:1] if not kept else []
    if not kept and not nearest and not largest_hole:
        nearest = [Refusal(method.NAME, "no stocked length or hole size suits this stack", ())]
    return kept, [*nearest, *largest_hole]


def _proved(
    method: Method, mount: MountPoint, loads: tuple[Demand, ...], tables: Tables
) -> Iterator[tuple[Joint, Proposal | Refusal]]:
    applies = method.modes(mount, tables)
    for joint in method.joints(mount, tables):
        yield joint, _hole_there_refusal(joint, mount) or prove(joint, mount, applies, loads, tables)


def _miss(refusal: Refusal) -> tuple[int, float]:
    """How far off a refusal is: how many checks failed, then asked over allowed."""
    if len(refusal.figures) < 2 or refusal.figures[1].value <= 0:
        return refusal.fails, float("inf")
    return refusal.fails, refusal.figures[0].value / refusal.figures[1].value


def _hole_there_refusal(joint: Joint, mount: MountPoint) -> Refusal | None:
    """A hole that is already there can be opened up, never closed."""
    there = mount.hole_there_mm
    if there is None or joint.hole.diameter_mm + joint.hole.tolerance_mm.plus >= there:
        return None
    figures = (Figure("hole there", there, "mm"), Figure("hole wanted", joint.hole.diameter_mm, "mm"))
    because = (
        f"the hole there is {number(there, 2)} mm, {joint.hole.diameter_mm:g} mm is wanted and a hole cannot close"
    )
    return Refusal(joint.method, because, figures, check=HOLE_THERE)


# -- one small change -------------------------------------------------------------------------------------------------


def _with_change(refused: Refusal, method: Method, mount: MountPoint, tables: Tables) -> Refusal:
    """The refusal with the small changes that would turn it, each proved by trying it."""
    if refused.change is not None:
        return refused
    found = [
        text
        for changes in (_more_behind(refused, mount), _larger_hole(mount, tables), _more_fixings(mount))
        if (text := next((text for change, text in changes if _fits(method, change, tables)), None)) is not None
    ]
    return replace(refused, change=" or ".join(found)) if found else refused


def _fits(method: Method, mount: MountPoint, tables: Tables) -> bool:
    if method.gates(mount, tables) is not None:
        return False
    return any(isinstance(found, Proposal) for _, found in _proved(method, mount, demands(mount, tables), tables))


def _more_behind(refused: Refusal, mount: MountPoint) -> Iterator[tuple[MountPoint, str]]:
    if refused.check == "space-behind":
        needed = refused.figures[0].value
        yield replace(mount, behind_mm=needed), f"{number(needed, 1)} mm behind"


def _larger_hole(mount: MountPoint, tables: Tables) -> Iterator[tuple[MountPoint, str]]:
    for size in ("M5", "M6", "M8"):
        row = tables.find(MetricClearance, "metric-clearance", size)
        if row is not None and row.medium_mm > mount.item_hole_mm:
            text = f"a {number(row.medium_mm, 1)} mm item hole for {size}"
            yield replace(mount, item_hole_mm=row.medium_mm), text


def _more_fixings(mount: MountPoint) -> Iterator[tuple[MountPoint, str]]:
    if mount.pattern is not None:
        for count in (mount.fixings + 2, mount.fixings + 4):
            yield replace(mount, fixings=count), f"{count} fixings instead of {mount.fixings}"


# -- ranking ----------------------------------------------------------------------------------------------------------


def _score(proposal: Proposal, mount: MountPoint, tables: Tables) -> Score:
    words = _words(proposal.method, tables)
    removals = proposal.removals
    counts = {
        "removals_margin": removals.wanted / removals.rated if removals.rated else 0.0,
        "tool_needed": 0.0 if words.setting_tool == "-" else 1.0,
        "bit_needed": 0.0 if proposal.joint.hole.bit.holds else 1.0,
        "hole_size": proposal.joint.hole.diameter_mm,
        "operation": float(words.operations + (proposal.joint.hole.shape == "hexagon")),
        "visible_finish": float(mount.visible is Visible.YES and _hexagon_head(proposal.joint)),
        "not_checked": float(sum(check.status is Status.NOT_CHECKED for check in proposal.checks)),
        "hole_there": _reuse(proposal.joint, mount),
        "loose_hole": _loose_mm(proposal.joint, mount, tables),
        "wrong_end": _wrong_end(proposal.joint, mount),
        "tight_margin": _over_margin(proposal),
    }
    parts = []
    for name, count in counts.items():
        weight = tables.find(Weight, "weights", name)
        assert weight is not None, f"no weight {name}"
        if count:
            parts.append(ScorePart(name, weight.points * count, weight.why))
    return Score(sum(part.points for part in parts), tuple(parts))


def _hexagon_head(joint: Joint) -> bool:
    return joint.screw is not None and joint.screw.head.startswith("hexagon")


def _reuse(joint: Joint, mount: MountPoint) -> float:
    """How many millimetres the hole that is there must be opened up."""
    return 0.0 if mount.hole_there_mm is None else max(joint.hole.diameter_mm - mount.hole_there_mm, 0.0)


def _over_margin(proposal: Proposal) -> float:
    """How far the tightest load or torque check is used beyond 0.7; below that, stronger is not better."""
    loaded = [check for check in proposal.checks if check.load_case is not None or check.unit == "N·m"]
    return max([0.0, *(check.utilisation - ENOUGH for check in loaded if check.utilisation is not None)])


def _loose_mm(joint: Joint, mount: MountPoint, tables: Tables) -> float:
    """How much wider the item's hole is than its screw wants: a loose screw locates nothing."""
    assert joint.screw is not None
    row = tables.find(MetricClearance, "metric-clearance", joint.screw.thread)
    return 0.0 if row is None else max(mount.item_hole_mm - row.medium_mm, 0.0)


def _wrong_end(joint: Joint, mount: MountPoint) -> float:
    """An open end lets water through on a wet side; a closed one costs space on a dry one for nothing."""
    receiver = joint.receiver
    if receiver is None or receiver.part != "rivet nut":
        return 0.0
    wet = mount.where is not Where.CABIN
    return float(wet != receiver.closed)


# -- words ------------------------------------------------------------------------------------------------------------


def _words(method: str, tables: Tables) -> MethodWords:
    row = tables.find(MethodWords, "methods", method)
    assert row is not None, f"no words for {method}"
    return row


def _answer(rank: int, score: Score, proposal: Proposal, mount: MountPoint, tables: Tables) -> Answer:
    kinds = [(row.name_, row.kind) for row in tables.rows(Tool, "tools") if row.method == proposal.method]
    title = _title(proposal, tables)
    return Answer(
        rank=rank, method=proposal.method, title=title, proposal=proposal, score=score,
        steps=_steps(proposal, mount, tables),
        tools=(*_own_tools(proposal, tables), *(n for n, k in kinds if k == "tool")),
        consumables=tuple(n for n, k in kinds if k == "consumable"), cautions=_cautions(proposal, mount, tables),
    )  # fmt: skip


def _title(proposal: Proposal, tables: Tables) -> str:
    receiver, screw = proposal.joint.receiver, proposal.joint.screw
    assert screw is not None
    title = _words(proposal.method, tables).title
    if receiver is not None and receiver.part == "rivet nut":
        return f"{screw.thread} {title}, {receiver.series}"
    return f"{screw.thread} {title}"


def _own_tools(proposal: Proposal, tables: Tables) -> tuple[str, ...]:
    """The bit, the driver and, for small torques, what measures them."""
    joint = proposal.joint
    assert joint.screw is not None
    found = [f"bit {joint.hole.bit.name}", f"driver {joint.screw.drive}"]
    torque = proposal.torque
    if torque is not None and torque.target_nm < rule(tables, "torque-screwdriver-below").value:
        found.append("torque screwdriver")
    return tuple(found)


def _steps(proposal: Proposal, mount: MountPoint, tables: Tables) -> tuple[str, ...]:
    joint, torque = proposal.joint, proposal.torque
    assert joint.screw is not None
    needed = max(joint.behind_set_mm, joint.behind_done_mm)
    filled = {
        "hole": write(joint.hole.diameter_mm, Dimension.LENGTH, 2),
        "bit": joint.hole.bit.name,
        "receiver": _receiver_name(joint),
        "screw": f"{joint.screw.thread} x {number(joint.screw.length_mm, 1)}",
        "torque": write(torque.target_nm, Dimension.TORQUE, 1) if torque else "-",
        "behind": write(needed, Dimension.LENGTH, 1),
        "grip": write(joint.grip_mm, Dimension.LENGTH, 2),
    }
    rows = [row for row in tables.rows(Step, "steps") if row.method == proposal.method]
    texts = [row.text.format(**filled) for row in rows if _applies(row, joint)]
    soft = tables.find(SoftLayer, "soft-layers", mount.between.material) if mount.between else None
    return tuple([*texts[:2], soft.step, *texts[2:]] if soft is not None else texts)


def _applies(row: Step, joint: Joint) -> bool:
    return joint.hole.shape == "hexagon" or "hexagon body" not in row.text


def _receiver_name(joint: Joint) -> str:
    receiver = joint.receiver
    return "screw" if receiver is None else f"{receiver.thread} {receiver.part}"


def _cautions(proposal: Proposal, mount: MountPoint, tables: Tables) -> tuple[str, ...]:
    family = failure.material(tables, mount.material).family
    about = {"all", mount.panel.value, mount.where.value, failure.material(tables, mount.item_material).family}
    heavy = mount.mass_kg > rule(tables, "unsupported-skin-mass").value
    thin = mount.thickness_min_mm < rule(tables, "unsupported-skin-sheet").value
    if family != "sheet" or (heavy and thin):
        about.add(family)
    else:
        about.discard("sheet")
    rows = tables.rows(Caution, "cautions")
    first = [row.text for row in rows if row.applies in about and row.applies != "all"]
    own = [_thread_goes_first(proposal, tables)] if proposal.method == "tapped_hole" else []
    return tuple(text for text in (*own, *first, *(row.text for row in rows if row.applies == "all")) if text)


def _thread_goes_first(proposal: Proposal, tables: Tables) -> str:
    strip = next((check for check in proposal.checks if check.id == "thread-strip.hard_stop"), None)
    proof = next((check for check in proposal.checks if check.id == "screw-proof.service"), None)
    if strip is None or proof is None or strip.allowable is None or proof.allowable is None:
        return ""
    weaker = strip.allowable * (strip.factor or 1.0) < proof.allowable
    return "The thread goes first: the plate strips before the screw yields, so keep to the torque." if weaker else ""


def _sources(answers: tuple[Answer, ...], tables: Tables) -> tuple[SourceNote, ...]:
    ids = {source for answer in answers for check in answer.proposal.checks for source in check.from_} | {
        source for a in answers if a.proposal.torque for source in a.proposal.torque.from_
    }
    notes = [(identity, tables.source(identity)) for identity in sorted(ids)]
    return tuple(SourceNote(identity, source.basis, source.text) for identity, source in notes)
