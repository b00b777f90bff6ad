"""Which tables there are: each table's name is its file's name, and its rows are of one type.

A type is loaded when a table of it is asked for, so that `look` does not pay for the parts it never reads. A table that
one method alone reads may have its type in the module of that method: the entry `row_type` of its file says so, such as
`quarter_turn.QuarterTurn`.
"""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module
from itertools import chain

from fasten.catalog.folder import shipped_folder
from fasten.catalog.rows import Row

_TYPES = {
    "metric-threads": "rows.MetricThread",
    "unified-threads": "rows.UnifiedThread",
    "iso-965-by-pitch": "rows.PitchTolerance",
    "iso-965-pitch-diameter": "rows.PitchDiameterTolerance",
    "metric-tap-drills": "rows.MetricTapDrill",
    "unified-tap-drills": "rows.UnifiedTapDrill",
    "metric-clearance": "rows.MetricClearance",
    "unified-clearance": "rows.UnifiedClearance",
    "drills-number": "rows.InchDrill",
    "drills-letter": "rows.InchDrill",
    "drills-fraction": "rows.InchDrill",
    "drills-metric": "rows.MetricDrill",
    "gauges-steel": "rows.Gauge",
    "gauges-galvanised-steel": "rows.Gauge",
    "gauges-stainless-steel": "rows.Gauge",
    "gauges-aluminium": "rows.Gauge",
    "tapping-threads": "rows.TappingThread",
    "tapping-holes-din-7975": "rows.TappingHoleByStrength",
    "tapping-holes-thin-sheet": "rows.TappingHoleInThinSheet",
    "tapping-clearance": "rows.TappingClearance",
    "tapping-torsion": "rows.TappingTorsion",
    "self-drilling": "rows.SelfDrilling",
    "heads": "rows.Head",
    "washers": "rows.Washer",
    "nuts": "rows.Nut",
    "preferred-lengths": "rows.PreferredLength",
    "length-ranges": "rows.LengthRange",
    "property-classes": "rows.PropertyClass",
    "inch-grades": "rows.InchGrade",
    "metric-loads": "rows.MetricLoad",
    "inch-loads": "rows.InchLoad",
    "formulas": "rows.Formula",
    "strength-formulas": "rows.Formula",
    "rivet-nuts": "parts.RivetNut",
    "blind-rivets": "parts.BlindRivet",
    "board-screws": "parts.BoardScrew",
    "screw-in-inserts": "parts.ScrewInInsert",
    "tee-nuts": "parts.TeeNut",
    "board-kinds": "materials.BoardKind",
    "plastic-kinds": "materials.PlasticKind",
    "plastic-screws": "parts.PlasticScrew",
    "plastic-inserts": "parts.PlasticInsert",
    "clip-nuts": "parts.ClipNut",
    "expanding-nuts": "parts.ExpandingNut",
    "push-in-clips": "parts.PushInClip",
    "ball-studs": "parts.BallStud",
    "hook-and-loop": "face_parts.HookStrip",
    "pot-magnets": "face_parts.PotMagnet",
    "adhesives": "face_parts.Adhesive",
    "bond-faces": "face_parts.BondFace",
    "face-sizes": "face_parts.FaceSize",
    "bonded-studs": "face_parts.BondedStud",
    "materials": "materials.Material",
    "soft-layers": "materials.SoftLayer",
    "places": "materials.Place",
    "items": "materials.Item",
    "ring-studs": "materials.RingStud",
    "finishes": "materials.Finish",
    "tightening": "practice.Tightening",
    "faces": "materials.Face",
    "load-cases": "practice.LoadCase",
    "factors": "practice.Factor",
    "removals": "practice.RemovalCount",
    "anodic-index": "materials.Anodic",
    "methods": "practice.MethodWords",
    "locks": "parts.Lock",
    "steps": "practice.Step",
    "tools": "practice.Tool",
    "cautions": "practice.Caution",
    "weights": "practice.Weight",
    "rules": "practice.Rule",
    "consumables": "job_parts.Consumable",
    "spares": "job_parts.Spare",
    "tool-kinds": "job_parts.ToolKind",
    "size-weights": "job_parts.SizeWeight",
    "work-order": "job_parts.WorkOrder",
}


_DECLARED = re.compile(r'^row_type = "([a-z_]+\.[A-Za-z]+)"$', re.MULTILINE)


class _Registry(Mapping[str, type[Row]]):
    """Row types by table name."""

    def __getitem__(self, name: str) -> type[Row]:
        where, named = ("catalog", _TYPES[name]) if name in _TYPES else ("methods", _of_methods()[name])
        module, _, type_name = named.partition(".")
        row_type: type[Row] = getattr(import_module(f"fasten.{where}.{module}"), type_name)
        return row_type

    def __contains__(self, name: object) -> bool:
        return name in _TYPES or name in _of_methods()

    def __iter__(self) -> Iterator[str]:
        return chain(_TYPES, _of_methods())

    def __len__(self) -> int:
        return len(_TYPES) + len(_of_methods())


@cache
def _of_methods() -> dict[str, str]:
    """The row types that the files of the shipped tables name, by table; those named above are not looked into."""
    others = (path for path in sorted(shipped_folder().glob("*.toml")) if path.stem not in _TYPES)
    found = ((path.stem, _DECLARED.search(path.read_text("utf-8").partition("\n[")[0])) for path in others)
    return {name: declared[1] for name, declared in found if declared is not None}


TABLES: Mapping[str, type[Row]] = _Registry()
