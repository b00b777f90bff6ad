"""Between which holes of an item its answer stays, against the first answer at each of them."""

from dataclasses import replace

from fasten.advice.advise import first_advice
from fasten.catalog.tables import builtin
from fasten.geometry.stack import spreaders_of
from fasten.job.gauge.first import field_of, roomy
from fasten.job.gauge.holes import hole_range
from fasten.job.gauge.needs import same_as
from fasten.model import Proposal
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
ON_FRAME = {
    "item": "crossover", "onto": "stainless steel 2 mm", "removed": "yearly", "reach": "both-sides",
    "hole-there": "M5", "fixings": "2", "pattern": "row 80", "support": "frame",
}  # fmt: skip


def test_a_joint_with_a_wider_part_stays_at_every_hole_at_which_it_is_first() -> None:
    point = roomy(resolve(read_question(ON_FRAME, TABLES), TABLES), TABLES)
    answer = field_of(point, None, TABLES, None).first(point)
    assert answer is not None
    assert spreaders_of(answer.joint, TABLES)
    found = hole_range(answer, point, None, TABLES, None)
    assert found is not None
    assert found.from_mm < found.preset_mm < found.to_mm + 0.1

    def first(hole_mm: float) -> Proposal | None:
        answers = first_advice(replace(point, item_hole_mm=hole_mm, origins=()), TABLES).answers
        return answers[0].proposal if answers else None

    holes = range(round(found.from_mm * 10), round(found.to_mm * 10) + 1)
    stays = [same_as(first(hole / 10)) == same_as(answer) for hole in (holes[0] - 1, *holes, holes[-1] + 1)]
    assert stays == [False, *[True] * len(holes), False]
