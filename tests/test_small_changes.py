"""The small changes that would turn a refusal are looked for where they are told, and nowhere else."""

from dataclasses import replace
from typing import Any

import pytest

from fasten.advice import advise as advisor
from fasten.advice.advise import advise, all_refusals
from fasten.catalog.tables import builtin
from fasten.commands.demo import JOB, demo_folder
from fasten.job.choices import choices
from fasten.job.store.storage import load_job
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
MOUNTS = load_job(demo_folder() / JOB, TABLES).value.mounts
UNFIT = "right amplifier"


@pytest.fixture
def looked_for(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The methods that changes are looked for of, in the order in which that is done."""
    found: list[str] = []
    look = advisor.turned

    def counted(refused: Any, *rest: Any) -> Any:
        found.append(refused.method)
        return look(refused, *rest)

    monkeypatch.setattr(advisor, "turned", counted)
    advise.cache_clear()
    return found


def test_a_job_looks_for_changes_only_where_nothing_fits(looked_for: list[str]) -> None:
    job = load_job(demo_folder() / JOB, TABLES).value
    fitting = replace(job, mounts=tuple(mount for mount in MOUNTS if mount.name != UNFIT))
    assert all(found.answer is not None for found in choices(fitting, TABLES))
    assert looked_for == []
    assert "would fit with" in choices(job, TABLES)[1].reason
    assert looked_for


@pytest.mark.parametrize("mount", MOUNTS[:4], ids=lambda mount: mount.name)
def test_with_or_without_changes_the_rest_of_the_advice_is_the_same(mount: Any, looked_for: list[str]) -> None:
    point = resolve(read_question(dict(mount.said), TABLES), TABLES)
    without, whole = advise(point, TABLES, None, changes=False), advise(point, TABLES)
    assert looked_for or whole.refusals == without.refusals
    assert whole.answers is without.answers
    if whole.answers:
        bare = tuple(replace(refused, change=None) for refused in whole.refusals)
        assert bare == tuple(replace(refused, change=None) for refused in without.refusals)
    else:
        assert whole == without
        assert any(refused.change for refused in whole.refusals)


@pytest.mark.parametrize("mount", MOUNTS[:4], ids=lambda mount: mount.name)
def test_all_refusals_are_those_of_the_whole_advice(mount: Any) -> None:
    point = resolve(read_question(dict(mount.said), TABLES), TABLES)
    assert all_refusals(point, TABLES) == advise(point, TABLES).refusals != ()


def test_a_change_that_a_list_looked_for_is_not_looked_for_again(monkeypatch: pytest.MonkeyPatch) -> None:
    for kept in (advisor.first_advice, all_refusals, advisor.turned):
        kept.cache_clear()
    job = load_job(demo_folder() / JOB, TABLES).value
    unfit = choices(job, TABLES)[1]
    looked, look = list[str](), advisor._changes

    def counted(refused: Any, *rest: Any) -> Any:
        looked.append(refused.method)
        return look(refused, *rest)

    monkeypatch.setattr(advisor, "_changes", counted)
    before = [refused.method for refused in advisor.named(advisor.first_advice(unfit.point, TABLES), 3, TABLES)]
    assert unfit.explained(TABLES).refusals
    assert not {refused for refused in before if refused in looked}
