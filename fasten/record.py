"""Frozen dataclasses whose methods are shared.

`dataclass(frozen=True)` writes and compiles six functions for every class. Here the same functions serve all classes,
so that declaring a hundred of them costs a start next to nothing; what `dataclasses` keeps of its fields is made once
somebody asks for it. A class that many are made of gets its own `__init__` then, which is three times as quick. To
`dataclasses`, pickle, copy and mypy a record is a frozen dataclass.

A `lean` one keeps its values in slots: of it most are made, and it takes half the room and a third of the time. It is
made by a `__new__`, which sets them before it is one.
"""

import sys
from _thread import RLock
from collections.abc import Callable
from contextlib import suppress
from enum import EnumType
from functools import partial
from operator import attrgetter
from reprlib import recursive_repr
from types import GenericAlias, UnionType
from typing import TYPE_CHECKING, Any, ClassVar, TypeVar, dataclass_transform

Kind = TypeVar("Kind", bound=type)
Made = TypeVar("Made")

MANY, MANY_LEAN = 200, 30  # of so many on, an `__init__`, or a `__new__`, of its own saves what it costs to compile
_FIELDS, _PARAMS, _DATACLASSES = "__dataclass_fields__", "__dataclass_params__", "dataclasses"
MISSING = object()  # stands for the default of a field that has none
_SPECIAL = frozenset({"__slots__", "__setattr__", "__delattr__"})
_USUAL = frozenset({type, UnionType, GenericAlias, EnumType})
_lock = RLock()
_set = object.__setattr__
_delete = object.__delattr__


@dataclass_transform(frozen_default=True)
def record(kind: Kind) -> Kind:
    """Make of `kind` what `dataclass(frozen=True)` makes of it; a method that it defines itself stays.

    Raises:
        TypeError: the class needs more than fields with defaults, or extends a dataclass that is no record.
    """
    return _with_methods(kind, _own(kind))


@dataclass_transform(frozen_default=True)
def lean(kind: Kind) -> Kind:
    """Make of `kind` what `record` makes of it, with its values in slots; nothing can extend it.

    Raises:
        TypeError: the class needs more than a record has, extends another, or has an `__init__`.
    """
    if kind.__bases__ != (object,) or "__init__" in vars(kind):
        raise TypeError(f"{kind.__name__} extends another class or has an `__init__`; write @record over it")
    own = _own(kind)
    fixed: dict[str, Any] = {"__slots__": kind.__match_args__, "__qualname__": kind.__qualname__}  # type: ignore[attr-defined]
    left = {name: value for name, value in vars(kind).items() if name not in {*fixed["__slots__"], *_OF_DICT}}
    added = {"__reduce__": _reduced, "__init_subclass__": _not_extended}
    return _with_methods(type(kind.__name__, (), left | added | fixed), own)  # type: ignore[return-value]


_OF_DICT = ("__dict__", "__weakref__")


def _own(kind: type) -> set[str]:
    """Say of it what its fields are, without any method; what it defines itself."""
    own = {name for name, value in vars(kind).items() if value is not None}  # of `__eq__` alone comes `__hash__` None
    defaults = _declared(kind)
    if defaults is None or own & _SPECIAL or hasattr(kind, "__post_init__"):
        _make_fields(kind)  # which says what is wrong with it, else:
        raise TypeError(f"{kind.__name__} needs more than a record has; write @dataclass(frozen=True) over it")
    for name, value in (("__match_args__", tuple(defaults)), ("__record__", defaults), (_FIELDS, _Fields(kind))):
        setattr(kind, name, value)
    return own


def _with_methods(kind: Kind, own: set[str]) -> Kind:
    for name, method in _methods(kind).items():
        if name not in own:
            setattr(kind, name, method)
    return kind


class _Fields:
    """The fields as `dataclasses` keeps them, made of a class as it was declared when they are asked for first."""

    def __init__(self, declared: type) -> None:
        self._declared = declared

    def __get__(self, _instance: object, kind: type) -> Any:
        owner = next(one for one in kind.__mro__ if "__record__" in vars(one))
        with _lock:
            if vars(owner)[_FIELDS] is self:  # else another thread was first
                _make_fields(self._declared)
                for name in (_PARAMS, _FIELDS):
                    setattr(owner, name, vars(self._declared)[name])
        return getattr(kind, _FIELDS)


def _make_fields(kind: type) -> None:
    from dataclasses import dataclass  # slow to load, and many a command asks no record for its fields

    dataclass(init=False, repr=False, eq=False)(kind)


def is_record(value: object) -> bool:
    """Whether a value is of a class that is a record; no such class itself is."""
    return hasattr(type(value), "__record__")


def names_of(kind: Any) -> tuple[str, ...]:
    """The names of the fields of a record in order; `dataclasses.fields`, which makes more of each, is slow to load."""
    return kind.__match_args__  # type: ignore[no-any-return]


def types_of(kind: Any) -> dict[str, Any]:
    """The fields of a record in order, each with its type as it is annotated."""
    types = {name: type_ for base in kind.__mro__[::-1] if "__record__" in vars(base)
             for name, type_ in _annotations(base).items()}  # fmt: skip
    return {name: types[name] for name in kind.__record__}


if TYPE_CHECKING:
    from dataclasses import replace as replace  # noqa: PLC0414  # as which type checkers look into it
else:

    def replace(it: Any, /, **changes: Any) -> Any:
        """The same record with other values, as `dataclasses.replace` makes it.

        Raises:
            TypeError: there is no such field.
        """
        kind = type(it)
        values, places = [*kind._values(it)], kind._places
        try:
            for name, value in changes.items():
                values[places[name]] = value
        except KeyError:  # it says itself what is of no field
            return kind(*values, **{name: value for name, value in changes.items() if name not in places})
        return kind(*values)


def _declared(kind: Any) -> dict[str, Any] | None:
    """Each field in order with its default, `MISSING` where it has none; None where it needs more than a record has."""
    found: dict[str, Any] = {}
    for base in kind.__mro__[-1:0:-1]:
        known = vars(base).get("__record__")
        if known is None and _FIELDS in vars(base):
            return None
        found |= known or {}
    for name, annotation in _annotations(kind).items():
        if not _is_usual(annotation):
            if _is_of_class(annotation):
                continue
            if _is_special(annotation):
                return None
        found[name] = default = getattr(kind, name, MISSING)
        if type(default).__module__ == _DATACLASSES or type(default).__hash__ is None:
            return None
    defaults = list(found.values())
    needed = defaults.count(MISSING)
    return None if MISSING in defaults[needed:] else found


def _annotations(kind: Any) -> dict[str, Any]:
    if sys.version_info >= (3, 14):
        from annotationlib import Format, get_annotations

        return get_annotations(kind, format=Format.FORWARDREF)
    return vars(kind).get("__annotations__", {})  # type: ignore[no-any-return]


def _is_usual(annotation: Any) -> bool:
    """Whether it is a class or a union of such, or a text without the names of what is no field."""
    if isinstance(annotation, str):
        return "Var" not in annotation and "KW" not in annotation
    return type(annotation) in _USUAL


def _is_of_class(annotation: Any) -> bool:
    """Whether it says, or is the text of, `ClassVar`: then it is no field."""
    if isinstance(annotation, str):
        return "ClassVar" in annotation
    return annotation is ClassVar or getattr(annotation, "__origin__", None) is ClassVar


def _is_special(annotation: Any) -> bool:
    """Whether it says, or is the text of, `InitVar` or `KW_ONLY`."""
    if isinstance(annotation, str):
        return "InitVar" in annotation or "KW_ONLY" in annotation
    return _DATACLASSES in (getattr(annotation, "__module__", ""), type(annotation).__module__)


def _methods(kind: Any) -> dict[str, Callable[..., Any]]:
    names = kind.__match_args__
    defaults = {name: default for name, default in kind.__record__.items() if default is not MISSING}
    needed = len(names) - len(defaults)
    rest = tuple(defaults.values())
    values_of: Callable[[Any], Any] = attrgetter(*names) if len(names) > 1 else partial(_few_values, names)
    made, is_lean = 0, "__slots__" in vars(kind)

    def fill(it: Any, values: tuple[Any, ...], named: dict[str, Any]) -> bool:
        """Set the values; whether they are many by now."""
        nonlocal made
        made += 1
        if named or not needed <= len(values) <= len(names):
            values = _arranged(kind, defaults, values, named)
        elif rest:
            values += rest[len(values) - needed :]
        any(map(_set.__get__(it), names, values))  # each gives None, so that all are set, with no step of ours for it
        return made == (MANY_LEAN if is_lean else MANY)

    def __init__(self: Any, /, *values: Any, **named: Any) -> None:  # noqa: N807
        if fill(self, values, named) and vars(kind)["__init__"] is __init__:
            kind.__init__ = _own_init(names, defaults)

    def __new__(cls: Any, /, *values: Any, **named: Any) -> Any:  # noqa: N807
        it = object.__new__(cls)
        if fill(it, values, named):
            kind.__new__ = _own_new(kind, names, defaults)
        return it

    def __eq__(self: Any, other: Any) -> bool:  # noqa: N807
        return values_of(self) == values_of(other) if other.__class__ is self.__class__ else NotImplemented

    def __hash__(self: Any) -> int:  # noqa: N807
        return hash(values_of(self))

    making: dict[str, Any] = {"__new__": __new__} if is_lean else {"__init__": __init__}
    return making | {
        "__eq__": __eq__, "__hash__": __hash__, "__repr__": _repr,
        "__setattr__": _frozen_set, "__delattr__": _frozen_delete, "__replace__": replace,
        "_values": staticmethod(values_of), "_places": {name: place for place, name in enumerate(names)},
    }  # fmt: skip


def _own_init(names: tuple[str, ...], defaults: dict[str, Any]) -> Callable[..., None]:
    """The `__init__` that `dataclass(frozen=True)` writes for these fields."""
    lines = [f"_set(_record, {name!r}, {name})" for name in names]
    return _compiled("_record", names, defaults, lines or ["pass"], {"_set": _set})


def _own_new(kind: Any, names: tuple[str, ...], defaults: dict[str, Any]) -> Callable[..., Any]:
    """What makes one with its values in slots: while they are set it is of a class that lets them, which is quicker."""
    space = {"_own": kind, "_open": type(kind.__name__, (), {"__slots__": names})}
    lines = [f"_record.{name} = {name}" for name in names]
    lines = ["_record = _open()", *lines, "_record.__class__ = _own", "return _record"]
    return _compiled("_kind", names, defaults, lines, space)


def _compiled(
    first: str, names: tuple[str, ...], defaults: dict[str, Any], lines: list[str], space: dict[str, Any]
) -> Callable[..., Any]:
    """A function of these fields behind a first argument."""
    given = [f"{name}=_defaults[{name!r}]" if name in defaults else name for name in names]
    space |= {"_defaults": defaults}
    exec(f"def make({', '.join([first, '/', *given])}):\n " + "\n ".join(lines), space)
    return space["make"]  # type: ignore[no-any-return]


def _reduced(self: Any) -> tuple[Any, ...]:
    """How pickle and copy make it anew."""
    return self.__class__, tuple([getattr(self, name) for name in self.__match_args__])


@classmethod  # type: ignore[misc]
def _not_extended(cls: type) -> None:
    raise TypeError(f"{cls.__name__} extends a lean record; write @record over that")


def _few_values(names: tuple[str, ...], self: Any) -> tuple[Any, ...]:
    return tuple([getattr(self, name) for name in names])


def _arranged(kind: Any, defaults: dict[str, Any], values: tuple[Any, ...], named: dict[str, Any]) -> tuple[Any, ...]:
    """A value for each field, in their order.

    Raises:
        TypeError: a value is missing, given twice, or of no field.
    """
    names = kind.__match_args__
    whole = defaults | dict(zip(names, values)) | named  # noqa: B905
    if len(whole) == len(names) >= len(values) and named.keys().isdisjoint(names[: len(values)]):
        with suppress(KeyError):
            return tuple([whole[name] for name in names])
    given = f"{len(values)} values and, by name, {', '.join(named) or 'none'}"
    raise TypeError(f"{kind.__name__} takes {', '.join(names)}; it was given {given}")


@recursive_repr()
def _repr(self: Any) -> str:
    shown = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.__match_args__)
    return f"{self.__class__.__qualname__}({shown})"


def _frozen_set(self: Any, name: str, value: Any) -> None:
    if _is_frozen(self, name):
        from dataclasses import FrozenInstanceError

        raise FrozenInstanceError(f"cannot assign to field {name!r}")
    _set(self, name, value)


def _frozen_delete(self: Any, name: str) -> None:
    if _is_frozen(self, name):
        from dataclasses import FrozenInstanceError

        raise FrozenInstanceError(f"cannot delete field {name!r}")
    _delete(self, name)


def _is_frozen(self: Any, name: str) -> bool:
    """A record takes no attribute at all; an ordinary class that extends one takes those that are no fields of it."""
    kind = type(self)
    return _FIELDS in vars(kind) or name in kind.__match_args__
