"""Does it fit where it holds by a face: heat it must bear, room beside its neighbours, the edge of the substrate."""

from functools import lru_cache
from itertools import combinations

from fasten.catalog.face_parts import ADHESIVES
from fasten.catalog.named import adhesive
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import patch_of
from fasten.geometry.patterns import positions_mm
from fasten.model import Asks, Check, Input, Joint, MountPoint, Where
from fasten.model.kinds import Heat
from fasten.proof.checks import at_most, unknown, waits
from fasten.proof.modes.faces import strip
from fasten.proof.modes.plastic import HOT
from fasten.proof.torque.faces import run_on
from fasten.require import Points
from fasten.text.rounding import up


def checks(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What a joint that holds by a face must fit beside what every joint must."""
    found = _heat(joint, mount, tables) if mount.where in HOT else []
    return (*found, _edge(joint, mount.edge_mm), *_room(joint, mount))


def on_its_base(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What a stud on a bonded base must fit: its nut is run on before anything is clamped."""
    return *checks(joint, mount, tables), run_on(joint, mount, tables)


def _heat(joint: Joint, mount: MountPoint, tables: Tables) -> list[Check]:
    """Every part of it that has a limit, against what a parked car reaches in the sun, or an engine bay."""
    patch = patch_of(joint)
    limits: list[tuple[str, str, float, str]] = []
    if patch.bond is not None:
        row = adhesive(tables, patch.bond)
        limits.append(("bond", patch.bond, row.heat_limit_c, tables.source_id(ADHESIVES, row)))
    if patch.kind.heat is Heat.MAGNET:
        limits.append(("magnet", "magnet", *rule_value(tables, Rules.MAGNET_HEAT_LIMIT)))
    backing = strip(joint, tables).backing_limit_c if patch.kind.heat is Heat.BACKING else None
    if backing is not None:
        limits.append(("backing", "backing", backing, patch.from_))
    in_bay = mount.where is Where.ENGINE_BAY
    place, name_of = ("an engine bay", Rules.ENGINE_BAY_HEAT) if in_bay else ("a parked car", Rules.PARKED_HEAT)
    reached, source = rule_value(tables, name_of)
    if not limits:
        needs, inputs = f"needs what {patch.series} bears in heat", (Input("reached", reached, "°C"),)
        return [waits("heat", f"Heat of {place}", "°C", reached, needs, inputs, "reached <= limit", (source,))]
    return [
        at_most(f"heat-{part}", f"Heat of {place} on the {name}", reached, limit, "°C",
                (Input("reached", reached, "°C"), Input("limit", limit, "°C")), "reached <= limit",
                (source, limit_source))
        for part, name, limit, limit_source in limits
    ]  # fmt: skip


def _edge(joint: Joint, edge_mm: float | None) -> Check:
    """Laid with its shorter side to the edge, half of it lies between there and the middle of the fixing."""
    side = min(patch_of(joint).length_mm, patch_of(joint).width_mm)
    title, formula = "Whole face on the substrate", "shorter side / 2 <= edge distance"
    inputs: tuple[Input, ...] = (Input("shorter side", side, "mm"),)
    if edge_mm is None:
        needs = f"needs {up(side / 2)} from the middle of each face to any edge"
        return unknown("face-edge", title, side / 2, needs, inputs, formula, joint.from_, Asks.EDGE)
    inputs = (*inputs, Input("edge", edge_mm, "mm"))
    return at_most("face-edge", title, side / 2, edge_mm, "mm", inputs, formula, joint.from_)


def _room(joint: Joint, mount: MountPoint) -> list[Check]:
    """Neighbours that do not overlap, all laid the same way: the better way of the two."""
    points = positions_mm(mount.pattern, mount.fixings)
    if len(points) < 2:
        return []
    patch = patch_of(joint)
    ways = ((patch.length_mm, patch.width_mm), (patch.width_mm, patch.length_mm))
    side_mm, apart_mm = min((_tightest(points, way) for way in ways), key=_used)
    inputs = (
        Input("longer side", patch.length_mm, "mm"), Input("shorter side", patch.width_mm, "mm"),
        Input("side that lies next to a neighbour", side_mm, "mm"), Input("centre of that neighbour", apart_mm, "mm"),
    )  # fmt: skip
    return [at_most("face-room", "Room beside its neighbours", side_mm, apart_mm, "mm", inputs,
                    "side <= centre distance along it", joint.from_)]  # fmt: skip


@lru_cache(maxsize=64)
def _tightest(points: Points, face_mm: tuple[float, float]) -> tuple[float, float]:
    """Side and centre distance along it of the pair with the least room between."""
    return max((_between(one, other, face_mm) for one, other in combinations(points, 2)), key=_used)


def _between(one: tuple[float, float], other: tuple[float, float], face_mm: tuple[float, float]) -> tuple[float, float]:
    """Two faces are clear of each other where one direction alone has room: the one with more of it."""
    apart = (max(a, b) - min(a, b) for a, b in zip(one, other, strict=True))
    return min(((side, gap) for side, gap in zip(face_mm, apart, strict=True) if gap > 0), key=_used)


def _used(pair: tuple[float, float]) -> float:
    return pair[0] / pair[1]
