"""A record is what `dataclass(frozen=True)` makes of the same class, whatever its fields and values."""

import copy
import dataclasses
import pickle
import sys
from collections.abc import Callable
from dataclasses import FrozenInstanceError, dataclass, fields, is_dataclass, replace
from typing import Any, ClassVar

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fasten import record as module
from fasten.record import lean, record

VALUES = st.none() | st.integers() | st.floats() | st.text(max_size=3) | st.tuples(st.integers(), st.text(max_size=2))
NAMES = ("one", "two", "three", "four", "self", "values", "named", "kind", "names")
MISSING = dataclasses.MISSING
few = settings(max_examples=25)


@dataclasses.dataclass(frozen=True)
class Plan:
    """Fields of a class and of the class that extends it: each its default, `MISSING` where it has none."""

    base: dict[str, Any]
    extended: dict[str, Any]

    def made(self, decorate: Callable[[type], type]) -> Any:
        """The class that extends, both made by `decorate`."""
        base = decorate(_class("Base", (), self.base))
        return decorate(_class("Made", (base,), self.extended))

    def names(self) -> list[str]:
        return list(self.base | self.extended)


def _class(name: str, bases: tuple[type, ...], defaults: dict[str, Any]) -> type:
    given = {field: value for field, value in defaults.items() if value is not MISSING}
    kinds = dict.fromkeys(defaults, object) | {"shared": ClassVar[int]}
    return type(name, bases, {"__annotations__": kinds, "__doc__": "Made up.", "shared": 3, **given})


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    names = draw(st.lists(st.sampled_from(NAMES), unique=True, max_size=6))
    needed = draw(st.integers(0, len(names)))
    defaults = [MISSING if n < needed else draw(VALUES) for n in range(len(names))]
    cut = draw(st.integers(0, len(names)))
    both = dict(zip(names, defaults, strict=True))
    again = (
        names[max(needed - 1, 0) : cut] if draw(st.booleans()) else []
    )  # what the extending class gives a default anew
    extended = {name: draw(VALUES) for name in again} | {name: both[name] for name in names[cut:]}
    return Plan({name: both[name] for name in names[:cut]}, extended)


def outcome(act: Callable[[], object]) -> object:
    """What comes of it: the value, or the kind of error."""
    try:
        return act()
    except (TypeError, FrozenInstanceError) as error:
        return type(error)


def shape(made: Any) -> object:
    """All that tells one instance: its type's name, its attributes in order, what it shows and hashes to."""
    return made if isinstance(made, type) else (type(made).__qualname__, repr(vars(made)), repr(made), hash(made))


@pytest.fixture(params=[True, False], ids=["of its own", "shared"], autouse=True)
def _init(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the `__init__` that a class gets once many are made, from the second one on, and with that of all."""
    for name in ("MANY", "MANY_LEAN") if request.param else ():
        monkeypatch.setattr(module, name, 1)


@few
@given(plans(), st.data())
def test_it_is_built_shown_and_hashed_as_a_frozen_dataclass(plan: Plan, data: st.DataObject) -> None:
    """From any values by place and by name, those that are too many, missing or of no field among them."""
    values = data.draw(st.lists(VALUES, max_size=7))
    named = data.draw(st.dictionaries(st.sampled_from(NAMES), VALUES, max_size=7))
    for by_place, by_name in ((values, named), (values, {}), ([], named)):
        ours, theirs = (
            outcome(lambda made=made: made(*by_place, **by_name))  # type: ignore[misc]  # noqa: B023
            for made in (plan.made(record), plan.made(dataclass(frozen=True)))
        )
        assert shape(ours) == shape(theirs)


@few
@given(plans(), st.data())
def test_it_is_compared_changed_and_copied_as_a_frozen_dataclass(plan: Plan, data: st.DataObject) -> None:
    kinds = plan.made(record), plan.made(dataclass(frozen=True))
    names = plan.names()
    first, second = (data.draw(st.fixed_dictionaries(dict.fromkeys(names, VALUES))) for _ in range(2))
    changes = data.draw(st.fixed_dictionaries({}, optional=dict.fromkeys(names, VALUES)))
    nan = float("nan")
    pairs = [(first, second), (first, dict(first))]
    if sys.version_info < (3, 13):  # from then on a dataclass holds nan for another even where it is the same object
        pairs.append((dict.fromkeys(names, nan), dict.fromkeys(names, nan)))
    for one, other in pairs:
        equal = [kind(**one) == kind(**other) for kind in kinds]
        assert equal[0] == equal[1]
    ours, theirs = (kind(**first) for kind in kinds)
    assert ours != theirs
    assert ours != first
    assert shape(replace(ours, **changes)) == shape(replace(theirs, **changes))
    assert shape(copy.copy(ours)) == shape(copy.deepcopy(ours)) == shape(theirs)
    assert repr(dataclasses.astuple(ours)) == repr(dataclasses.astuple(theirs))


@few
@given(plans(), st.sampled_from([*NAMES, "other"]))
def test_nothing_of_it_can_be_set_or_deleted(plan: Plan, name: str) -> None:
    """Nor of a class that extends it without being one, but for what is no field."""
    for extend in (False, True):
        ours, theirs = (
            (type("Loose", (made,), {}) if extend else made)(*plan.names())
            for made in (plan.made(record), plan.made(dataclass(frozen=True)))
        )
        for act in (lambda made: setattr(made, name, 1), lambda made: delattr(made, name)):
            assert outcome(lambda act=act: act(ours)) == outcome(lambda act=act: act(theirs))  # type: ignore[misc]  # noqa: B023
        assert repr(vars(ours)) == repr(vars(theirs))


@few
@given(plans())
def test_its_fields_are_those_of_a_frozen_dataclass(plan: Plan) -> None:
    kinds = plan.made(record), plan.made(dataclass(frozen=True))
    assert all(is_dataclass(kind) for kind in kinds)
    assert kinds[0].__match_args__ == kinds[1].__match_args__
    told = [[(field.name, repr(field.default), field.type) for field in fields(kind)] for kind in kinds]
    assert told[0] == told[1]


def test_its_fields_are_made_when_they_are_asked_for_of_it_or_of_what_extends_it() -> None:
    base = record(_class("Base", (), {"one": MISSING}))
    made = record(_class("Made", (base,), {"two": 2}))
    loose = type("Loose", (made,), {})
    assert made(1) == made(1, 2)
    assert not isinstance(vars(made)["__dataclass_fields__"], dict)
    assert [field.name for field in fields(loose)] == ["one", "two"]
    assert all(isinstance(vars(kind)["__dataclass_fields__"], dict) for kind in (base, made))


@record
class Length:
    """At the top of a module, so that it can be pickled."""

    mm: float
    note: str = ""

    def __repr__(self) -> str:
        return f"{self.mm} mm"


@record
class Nested:
    """A record that is its own part in what it shows, by way of a list."""

    parts: list[Any]


def test_it_is_pickled() -> None:
    for protocol in range(pickle.HIGHEST_PROTOCOL + 1):
        assert pickle.loads(pickle.dumps(Length(3.0, "x"), protocol)) == Length(3.0, "x")


def test_a_method_of_its_own_stays() -> None:
    assert repr(Length(3.0)) == "3.0 mm"


def test_a_class_that_compares_itself_is_hashed_as_a_dataclass_is() -> None:
    def by_size(self: Any, other: Any) -> bool:
        return bool(self.size == other.size)

    def made(decorate: Callable[[type], type]) -> Any:
        names = {"__annotations__": {"size": int, "colour": str}, "__doc__": "Made up.", "__eq__": by_size}
        return decorate(type("Sized", (), dict(names)))

    ours, theirs = made(record), made(dataclass(frozen=True))
    assert ours(1, "red") == ours(1, "blue")
    assert hash(ours(1, "red")) == hash(theirs(1, "red"))


def test_it_may_hold_itself() -> None:
    nested = Nested([])
    nested.parts.append(nested)
    assert repr(nested) == "Nested(parts=[...])"


@pytest.mark.parametrize(
    "special",
    [
        {"x": dataclasses.field(default_factory=list)},
        {"x": dataclasses.field(compare=False)},
        {"x": dataclasses.field(repr=False)},
        {"x": dataclasses.field(hash=False)},
        {"x": dataclasses.field(init=False)},
        {"x": dataclasses.field(kw_only=True)},
        {"__post_init__": lambda self: None},
        {"__setattr__": lambda self, name, value: None},
        {"__slots__": ()},
    ],
    ids=["factory", "compare", "repr", "hash", "init", "kw_only", "post_init", "setattr", "slots"],
)
def test_what_a_record_does_not_do_is_refused(special: dict[str, Any]) -> None:
    kinds = {name: object for name in special if name == "x"}
    with pytest.raises(TypeError, match="needs more than a record has"):
        record(type("Special", (), {"__annotations__": kinds, "__doc__": "Made up.", **special}))


def test_a_field_without_a_default_after_one_with_it_is_refused() -> None:
    with pytest.raises(TypeError, match="needs more"):
        record(_class("Special", (), {"one": 1, "two": MISSING}))


def test_what_is_given_wrongly_is_told() -> None:
    made = record(_class("Length", (), {"mm": MISSING, "note": ""}))
    with pytest.raises(TypeError, match="Length takes mm, note; it was given 0 values and, by name, note, colour"):
        made(note="x", colour="red")


@lean
class Slim:
    """At the top of a module too."""

    mm: float
    note: str = "-"

    @property
    def twice(self) -> float:
        return 2 * self.mm


def test_a_lean_one_keeps_its_values_in_slots_and_is_the_same_else() -> None:
    for _ in range(3):  # by the `__new__` of all, then by its own
        ours = Slim(2.5)
        assert (repr(ours), ours.twice) == ("Slim(mm=2.5, note='-')", 5)
        assert ours == Slim(2.5, "-")
        assert hash(ours) == hash(Slim(2.5)) != hash(Slim(2.5, "x"))
        assert replace(ours, note="x") == module.replace(ours, note="x") == Slim(note="x", mm=2.5)
        assert [copy.copy(ours), copy.deepcopy(ours), pickle.loads(pickle.dumps(ours))] == [ours] * 3
        assert not hasattr(ours, "__dict__")
        for act in (lambda: setattr(ours, "mm", 1), lambda: delattr(ours, "mm"), lambda: setattr(ours, "other", 1)):  # noqa: B023
            assert outcome(act) is FrozenInstanceError
        assert outcome(lambda: module.replace(ours, foot=1)) is TypeError  # type: ignore[call-arg]  # noqa: B023
        assert outcome(lambda: Slim(*range(3))) is TypeError
    assert outcome(lambda: type("More", (Slim,), {})) is TypeError
    assert outcome(lambda: lean(type("More", (Length,), {"__annotations__": {}}))) is TypeError
    assert outcome(lambda: lean(type("Own", (), {"__annotations__": {}, "__init__": _init}))) is TypeError


@few
@given(plans(), st.data())
def test_it_is_changed_as_a_dataclass_is(plan: Plan, data: st.DataObject) -> None:
    kind, names = plan.made(record), plan.names()
    one = kind(**data.draw(st.fixed_dictionaries(dict.fromkeys(names, VALUES))))
    changes = data.draw(st.dictionaries(st.sampled_from(NAMES), VALUES, max_size=3))
    theirs = outcome(lambda: shape(replace(one, **changes)))
    assert outcome(lambda: shape(module.replace(one, **changes))) == theirs
