"""2,000 records at random of what was built: none that is said to hold may not, by equations written apart. By hand:

    python tests/benchmarks/as_built.py [records] [--seed N]

The mount points are those of the demo and one of each substrate of the repairs. A record gets holes, sheet, torques,
what turned a nut, what nuts were held at, a length and a drop about what was planned, each only sometimes. What is said
to hold is recalculated from its JSON by `tests/recalculation`, which knows nothing of the program.
"""

import argparse
import random
import sys
from collections import Counter
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from recalculation.loads import Group, group, with_spacer
from recalculation.records import against_holding
from recalculation.test_recalculation import SHEARS

import fasten
from fasten.catalog.tables import builtin
from fasten.job.after.built import recorded
from fasten.job.after.judged import judged
from fasten.job.choices import Choice, choices
from fasten.job.store.job_toml import read_job
from fasten.job.words import Job, Mount
from fasten.model.kinds import Body
from fasten.model.known import MostTorque
from fasten.proof.torque.limits import body_turns
from fasten.report.answer.as_json import _mount as mount_json
from fasten.report.job.built import built_json

RECORDS, SEED = 2000, 5
TABLES = builtin()
DAY = "2026-11-29"


def mount_points() -> list[Choice]:
    from after.test_repair import MOUNTS

    demo, _ = read_job((Path(fasten.__file__).parent / "demo" / "job.toml").read_bytes(), "job.toml", TABLES)
    more = Job("", "", "", tuple(Mount(name, tuple(said.items())) for name, said in MOUNTS.items()))
    found = (*choices(demo, TABLES), *choices(more, TABLES))
    return [one for one in found if one.answer is not None and one.answer.proposal.joint.patch is None]


def drawn(choice: Choice, draw: random.Random) -> tuple[dict[str, str], dict[str, Any]]:
    """A record as it is typed, and its figures."""
    assert choice.answer is not None
    assert choice.point is not None
    joint, torque = choice.answer.proposal.joint, choice.answer.proposal.torque
    typed, said = dict[str, str](), dict[str, Any]()

    def each(name: str, least: float, most: float, unit: str) -> None:
        count = draw.choice((1, choice.point.fixings)) if choice.point is not None else 1
        said[name] = tuple(round(draw.uniform(least, most), 3) for _ in range(count))
        typed[name] = ", ".join(f"{one} {unit}" for one in said[name])

    if joint.hole is not None and draw.random() < 0.7:
        wide = joint.hole.diameter_mm
        each("hole", wide - 0.1, wide + draw.choice((0.1, 0.2, 0.4)), "mm")
    if draw.random() < 0.5:
        said["sheet"] = round(choice.point.thickness_min_mm * draw.uniform(0.75, 1.3), 2)
        typed["sheet"] = f"{said['sheet']} mm"
    if torque is not None and draw.random() < 0.95:
        near = draw.random() < 0.6
        least, most = (torque.min_nm, torque.max_nm) if near else (0.3 * torque.min_nm, 1.5 * torque.max_nm)
        shift = draw.choice((0.0, 1.0))
        each("torque", least + shift, most + shift, "N·m")
        if shift or draw.random() < 0.3:
            each("turning", 0.8 * max(shift, 0.1), 1.2 * max(shift, 0.1), "N·m")
        if draw.random() < 0.5:
            each("held", 0.9 * torque.target_nm, 2 * torque.target_nm, "N·m")
    turns = body_turns(joint, choice.point, TABLES)
    if turns is not None and draw.random() < 0.4:
        middle = turns.torque_nm * draw.uniform(0.7, 1.6)
        said["spin_out"] = tuple(round(middle * draw.uniform(0.85, 1.15), 2) for _ in range(draw.randint(1, 5)))
        typed["spin_out"] = " ".join(map(str, said["spin_out"]))
        typed["tool"] = draw.choice(("same wrench", "another wrench", ""))
        if len(said["spin_out"]) < 3 and "sheet" not in said and torque is not None:
            said["most"] = torque.max_nm  # so few never raise what was planned
    ground = choice.answer.proposal.ground
    if ground is not None and ground.current_a is not None:
        said["full"] = ground.current_a
        if draw.random() < 0.8:
            said["drop"] = (float(draw.randint(2, 20)), 60.0)
            typed["drop"] = f"{said['drop'][0]:g} mV at 60 A"
    if joint.screw is not None and draw.random() < 0.3:
        typed["length"] = f"{draw.choice((joint.screw.length_mm, joint.screw.length_mm + 5, 12.0))} mm"
    return typed, said


def group_of(choice: Choice) -> Group:
    assert choice.point is not None
    assert choice.answer is not None
    mount = mount_json(choice.point)
    from fasten.report.answer.as_json import answer_json

    return with_spacer(group(mount), answer_json(choice.answer, choice.point), mount)


def wrong_holds(count: int, seed: int) -> tuple[list[str], Counter[str]]:
    """What is said to hold and does not, and how often each verdict was given."""
    found, verdicts, draw, points = list[str](), Counter[str](), random.Random(seed), mount_points()
    groups = {one.name: group_of(one) for one in points}
    for _ in range(count):
        choice = draw.choice(points)
        typed, said = drawn(choice, draw)
        mount = recorded(choice.mount, typed | {"note": "at random"}, DAY)
        verdict = judged(choice.of(mount), TABLES)
        assert verdict is not None
        verdicts[verdict.verdict.value] += 1
        if not verdict.verdict.value.startswith("holds"):
            continue
        assert choice.answer is not None
        joint = choice.answer.proposal.joint
        body = joint.receiver is not None and joint.receiver.kind.body is Body.TURNS
        hole = None if joint.hole is None else {
            "mm": joint.hole.diameter_mm, "plus": joint.hole.tolerance_mm.plus, "minus": joint.hole.tolerance_mm.minus,
            "body": float(body),
        }  # fmt: skip
        running = joint.receiver is not None and isinstance(joint.receiver.prevailing, MostTorque)
        plain, own = built_json(mount, verdict), groups[choice.name]
        because = list(against_holding(plain, said, hole, own, SHEARS, running))
        if because:
            found.append(f"{choice.name}: {typed}: {because[:3]}")
    return found, verdicts


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0] if __doc__ else None)
    parser.add_argument("records", nargs="?", type=int, default=RECORDS)
    parser.add_argument("--seed", type=int, default=SEED)
    args = parser.parse_args()
    found, verdicts = wrong_holds(args.records, args.seed)
    print(f"{args.records} records: {dict(verdicts)}; {len(found)} that hold by their word alone")
    print("\n".join(found[:20]))
    raise SystemExit(bool(found))


if __name__ == "__main__":
    main()
