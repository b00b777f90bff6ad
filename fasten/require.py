"""Guards of the equations: what cannot be is refused with parameter, value, bound and reason; nothing is mended."""

from math import inf, isfinite

Points = tuple[tuple[float, float], ...]  # centres (x, y) in the plane of the panel

_KINDS = (
    ("_mm2", "an area"),
    ("_mm2_per_mm", "an area"),
    ("_mm", "a length"),
    ("_mpa", "a stress"),
    ("_nm", "a torque"),
    ("_n", "a force"),
    ("_g_cm3", "a density"),
    ("_kg_m3", "a density"),
    ("_a", "a current"),
    ("_mv", "a voltage"),
)


def _kind(name: str) -> str:
    return next((kind for suffix, kind in _KINDS if name.endswith(suffix)), "a factor")


def refuse(name: str, value: object, bound: str, why: str) -> ValueError:
    """The one wording of a refusal, to be raised by the caller."""
    return ValueError(f"{name} is {value!r}; it must be {bound}: {why}")


def positive(**values: float) -> None:
    """Refuse what is not above zero, not finite, or not a number."""
    for name, value in values.items():
        if not 0 < value < inf:
            raise refuse(name, value, "above 0 and finite", f"{_kind(name)} of nothing or less describes no real part")


def not_negative(**values: float) -> None:
    """Refuse what is below zero, not finite, or not a number."""
    for name, value in values.items():
        if not 0 <= value < inf:
            raise refuse(name, value, "0 or more and finite", f"{_kind(name)} is given as its size, not with a sign")


def finite(**values: float) -> None:
    """Refuse infinities and what is not a number."""
    for name, value in values.items():
        if not isfinite(value):
            raise refuse(name, value, "finite", f"{_kind(name)} without end cannot be calculated with")


def at_least(bound: float, why: str, /, **values: float) -> None:
    """Refuse what lies under the bound."""
    for name, value in values.items():
        if not (isfinite(value) and value >= bound):
            raise refuse(name, value, f"{bound!r} or more and finite", why)


def above(bound: float, why: str, /, **values: float) -> None:
    """Refuse what does not lie over the bound."""
    for name, value in values.items():
        if not (isfinite(value) and value > bound):
            raise refuse(name, value, f"above {bound!r} and finite", why)


def below(bound: float, why: str, /, **values: float) -> None:
    """Refuse what does not lie under the bound."""
    for name, value in values.items():
        if not value < bound:
            raise refuse(name, value, f"below {bound!r}", why)


def at_most(bound: float, why: str, /, **values: float) -> None:
    """Refuse what lies over the bound."""
    for name, value in values.items():
        if not value <= bound:
            raise refuse(name, value, f"{bound!r} or less", why)


def partial_factor(gamma: float) -> None:
    """Refuse a partial factor that would raise the resistance it divides."""
    at_least(1.0, "a partial factor under 1 would raise the resistance it divides", gamma=gamma)
