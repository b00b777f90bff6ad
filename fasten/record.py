"""Frozen dataclasses whose methods are shared.

`dataclass(frozen=True)` writes and compiles six functions for every class. Here the same functions serve all classes,
so that declaring a hundred of them costs a start next to nothing. A class that many are made of gets its own `__init__`
then, which is three times as quick. To `dataclasses`, pickle, copy and mypy a record is a frozen dataclass.

A `lean` one keeps its values in slots: of it most are made, and it takes half the room and a third of the time.
"""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import MISSING, FrozenInstanceError, dataclass, fields
from functools import partial
from itertools import pairwise
from operator import attrgetter
from reprlib import recursive_repr
from typing import Any, TypeVar, dataclass_transform

Kind = TypeVar("Kind", bound=type)

MANY = 200  # of so many on, what an `__init__` of its own saves is more than it costs to compile
_set = object.__setattr__
_delete = object.__delattr__


@dataclass_transform(frozen_default=True)
def record(kind: Kind) -> Kind:
    """Make of `kind` what `dataclass(frozen=True)` makes of it; a method that it defines itself stays.

    Raises:
        TypeError: the class needs more than fields with defaults, or extends a dataclass that is no record.
    """
    return _with_methods(kind, _declared(kind))


@dataclass_transform(frozen_default=True)
def lean(kind: Kind) -> Kind:
    """Make of `kind` what `record` makes of it, with its values in slots; nothing can extend it.

    Raises:
        TypeError: the class needs more than a record has, or extends another.
    """
    if kind.__bases__ != (object,):
        raise TypeError(f"{kind.__name__} extends another class; write @record over it")
    own = _declared(kind)
    fixed: dict[str, Any] = {"__slots__": kind.__match_args__, "__qualname__": kind.__qualname__}  # type: ignore[attr-defined]
    left = {name: value for name, value in vars(kind).items() if name not in {*fixed["__slots__"], *_OF_DICT}}
    added = {"__reduce__": _reduced, "__init_subclass__": _not_extended}
    return _with_methods(type(kind.__name__, (), left | added | fixed), own)  # type: ignore[return-value]


_OF_DICT = ("__dict__", "__weakref__")


def _declared(kind: type) -> set[str]:
    """Make a dataclass of it, without any method; what it defines itself."""
    own = {name for name, value in vars(kind).items() if value is not None}  # of `__eq__` alone comes `__hash__` None
    dataclass(init=False, repr=False, eq=False)(kind)
    if _is_special(kind, own):
        raise TypeError(f"{kind.__name__} needs more than a record has; write @dataclass(frozen=True) over it")
    return own


def _with_methods(kind: Kind, own: set[str]) -> Kind:
    for name, method in _methods(kind).items():
        if name not in own:
            setattr(kind, name, method)
    return kind


def _is_special(kind: Any, own: set[str]) -> bool:
    found = fields(kind)
    return (
        kind.__match_args__ != tuple(field.name for field in found)  # keywords only, for `__init__` only or not for it
        or any(before.default is not MISSING is field.default for before, field in pairwise(found))
        or any(not (field.repr and field.compare) or field.hash is not None for field in found)
        or any(field.default_factory is not MISSING for field in found)
        or hasattr(kind, "__post_init__")
        or bool(own & {"__slots__", "__setattr__", "__delattr__"})
    )


def _methods(kind: Any) -> dict[str, Callable[..., Any]]:
    names = kind.__match_args__
    defaults = {field.name: field.default for field in fields(kind) if field.default is not MISSING}
    needed = len(names) - len(defaults)
    rest = tuple(defaults.values())
    values_of: Callable[[Any], Any] = attrgetter(*names) if len(names) > 1 else partial(_few_values, names)
    made = 0

    def __init__(self: Any, /, *values: Any, **named: Any) -> None:  # noqa: N807
        nonlocal made
        made += 1
        if made == MANY and vars(kind)["__init__"] is __init__:
            kind.__init__ = (
                _in_slots(kind, names, defaults) if "__slots__" in vars(kind) else _own_init(names, defaults)
            )
        if named or not needed <= len(values) <= len(names):
            values = _arranged(kind, defaults, values, named)
        for name, value in zip(names, values + rest[len(values) - needed :]):  # noqa: B905
            _set(self, name, value)

    def __eq__(self: Any, other: Any) -> bool:  # noqa: N807
        return values_of(self) == values_of(other) if other.__class__ is self.__class__ else NotImplemented

    def __hash__(self: Any) -> int:  # noqa: N807
        return hash(values_of(self))

    return {
        "__init__": __init__, "__eq__": __eq__, "__hash__": __hash__, "__repr__": _repr,
        "__setattr__": _frozen_set, "__delattr__": _frozen_delete,
    }  # fmt: skip


def _own_init(names: tuple[str, ...], defaults: dict[str, Any]) -> Callable[..., None]:
    """The `__init__` that `dataclass(frozen=True)` writes for these fields."""
    lines = [f"_set(_record, {name!r}, {name})" for name in names]
    return _compiled(names, defaults, lines or ["pass"], {"_set": _set})


def _in_slots(kind: Any, names: tuple[str, ...], defaults: dict[str, Any]) -> Callable[..., None]:
    """The same for values in slots: while they are set it is of a class that lets them, which is far quicker."""
    space = {"_set": _set, "_kind": kind, "_open": type(kind.__name__, (), {"__slots__": names})}
    lines = [f"_record.{name} = {name}" for name in names]
    return _compiled(names, defaults, ["_set(_record, '__class__', _open)", *lines, "_record.__class__ = _kind"], space)


def _compiled(
    names: tuple[str, ...], defaults: dict[str, Any], lines: list[str], space: dict[str, Any]
) -> Callable[..., None]:
    given = [f"{name}=_defaults[{name!r}]" if name in defaults else name for name in names]
    space |= {"_defaults": defaults}
    exec(f"def __init__({', '.join(['_record', '/', *given])}):\n " + "\n ".join(lines), space)
    return space["__init__"]  # type: ignore[no-any-return]


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
        raise FrozenInstanceError(f"cannot assign to field {name!r}")
    _set(self, name, value)


def _frozen_delete(self: Any, name: str) -> None:
    if _is_frozen(self, name):
        raise FrozenInstanceError(f"cannot delete field {name!r}")
    _delete(self, name)


def _is_frozen(self: Any, name: str) -> bool:
    """A record takes no attribute at all; an ordinary class that extends one takes those that are no fields of it."""
    kind = type(self)
    return "__dataclass_fields__" in vars(kind) or name in kind.__match_args__
