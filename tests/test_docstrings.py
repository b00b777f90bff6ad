"""Every public equation says what it takes and gives, in which unit, and where it comes from; names and units agree."""

import ast
import importlib
import importlib.util
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator

import pytest
from built.code import modules, walked

PACKAGES = ("fasten.mechanics", "fasten.geometry")
UNIT_OF_SUFFIX = {
    "_n_per_mm": "N/mm",
    "_nmm_per_rad": "N·mm/rad",
    "_nmm": "N·mm",
    "_hz": "Hz",
    "_mm4": "mm⁴",
    "_mm2_per_mm": "mm²/mm",
    "_mm2": "mm²",
    "_mm": "mm",
    "_um": "µm",
    "_in2": "in²",
    "_in": "in",
    "_per_in": "1/in",
    "_nm": "N·m",
    "_n": "N",
    "_mpa": "MPa",
    "_kg_m3": "kg/m³",
    "_g_cm3": "g/cm³",
    "_kg": "kg",
    "_mohm_per_m": "mΩ/m",
    "_mohm": "mΩ",
    "_ohm": "Ω",
    "_db": "dB",
    "_w": "W",
    "_mv": "mV",
    "_v": "V",
    "_a": "A",
    "_c": "°C",
    "_deg": "°",
}
UNITS = {*UNIT_OF_SUFFIX.values(), "-"}
Function = Callable[..., object]


def unit_of_name(name: str) -> str | None:
    """Unit a name promises; its longest suffix decides."""
    found = [suffix for suffix in UNIT_OF_SUFFIX if name.endswith(suffix)]
    return UNIT_OF_SUFFIX[max(found, key=len)] if found else None


def entries(docstring: str) -> list[tuple[str, str]]:
    """`word: text` lines of a docstring, each with the lines that continue it."""
    found: list[tuple[str, str]] = []
    for line in docstring.splitlines()[1:]:
        start = re.match(r"\s*(\w+):(?:\s+(.*))?$", line)
        if start:
            found.append((start[1], start[2] or ""))
        elif found and line.strip():
            found[-1] = (found[-1][0], f"{found[-1][1]} {line.strip()}")
    return found


def unit_in(text: str) -> str | None:
    units = re.findall(r"\[([^\]]+)\]", text)
    return units[-1] if units else None


def parameter_faults(parameter: inspect.Parameter, found: dict[str, str]) -> Iterator[str]:
    name = parameter.name
    if name not in found:
        yield f"parameter {name} is not described"
        return
    unit, wanted = unit_in(found[name]), unit_of_name(name)
    if wanted is None and parameter.annotation in (float, int):
        wanted = "-"
    if unit not in UNITS or (wanted is not None and unit != wanted):
        yield f"parameter {name} is given in [{unit}], its name says [{wanted}]"


def faults(function: Function) -> list[str]:
    """What a docstring lacks or gets wrong; empty where it is right."""
    written = entries(inspect.getdoc(function) or "")
    found = dict(written)
    parameters = inspect.signature(function).parameters.values()
    wrong = [fault for parameter in parameters for fault in parameter_faults(parameter, found)]
    unit, wanted = unit_in(found.get("Returns", "")), unit_of_name(function.__name__)
    if unit not in UNITS or (wanted is not None and unit != wanted):
        wrong.append(f"the return is given in [{unit}], the name says [{wanted}]")
    if [bool(text) for word, text in written if word == "Source"] != [True]:
        wrong.append("there is not exactly one Source: line")
    return wrong


def public_functions(package: str) -> Iterator[Function]:
    if importlib.util.find_spec(package) is None:
        return
    for info in pkgutil.iter_modules(importlib.import_module(package).__path__, f"{package}."):
        if info.name.rpartition(".")[2].startswith("_"):
            continue
        module = importlib.import_module(info.name)
        for name, function in inspect.getmembers(module, lambda found: inspect.isfunction(inspect.unwrap(found))):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                yield function


@pytest.mark.parametrize(
    "function",
    [function for package in PACKAGES for function in public_functions(package)],
    ids=lambda function: f"{function.__module__}.{function.__name__}",
)
def test_docstring_names_units_and_source(function: Function) -> None:
    """The signature and the docstring of each equation tell the same story."""
    assert faults(function) == []


def test_walk_finds_the_equations() -> None:
    """An empty walk would pass in silence: known equations must be among what was read."""
    names = {function.__name__ for package in PACKAGES for function in public_functions(package)}
    assert {"pull_out_aisi_n", "tipping_lever_mm", "torque_nm", "circle", "spacing_mm"} <= names


def right_n(*, sheet_mm: float, factor: float) -> float:
    """A force.

    sheet_mm: sheet [mm]
    factor: factor, over
        two lines [-]
    Returns: force [N]
    Source: none, an example
    """
    return sheet_mm * factor


RIGHT = inspect.getdoc(right_n) or ""  # from 3.13 on a docstring is kept without its indent


def test_checker_accepts_a_right_docstring() -> None:
    assert faults(right_n) == []


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        ("sheet [mm]", "sheet [MPa]", "parameter sheet_mm is given in [MPa], its name says [mm]"),
        ("sheet [mm]", "sheet", "parameter sheet_mm is given in [None], its name says [mm]"),
        ("sheet [mm]", "sheet [furlong]", "parameter sheet_mm is given in [furlong], its name says [mm]"),
        ("sheet_mm: sheet [mm]\n", "", "parameter sheet_mm is not described"),
        ("two lines [-]", "two lines [mm]", "parameter factor is given in [mm], its name says [-]"),
        ("force [N]", "force [N·m]", "the return is given in [N·m], the name says [N]"),
        ("Returns: force [N]\n", "", "the return is given in [None], the name says [N]"),
        ("\nSource: none, an example", "", "there is not exactly one Source: line"),
        ("Source: none, an example", "Source:", "there is not exactly one Source: line"),
        ("Source:", "Source: one\nSource:", "there is not exactly one Source: line"),
    ],
)
def test_checker_catches(old: str, new: str, fault: str) -> None:
    """Each way a docstring can be wrong is seen, a wrong unit first."""
    assert old in RIGHT

    def broken_n(*, sheet_mm: float, factor: float) -> float:
        return sheet_mm * factor

    broken_n.__doc__ = RIGHT.replace(old, new)
    assert faults(broken_n) == [fault]


def _called_from() -> set[tuple[str, str]]:
    """Each public name of a module that is imported from it, taken from it by its alias, or called within it."""
    found: set[tuple[str, str]] = set()
    for module, tree in modules():
        names: dict[str, str] = {}
        for node in walked(tree):
            if isinstance(node, ast.ImportFrom) and node.module:
                found |= {(node.module, alias.name) for alias in node.names}
                names |= {alias.asname or alias.name: f"{node.module}.{alias.name}" for alias in node.names}
        for node in walked(tree):
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in names:
                found.add((names[node.value.id], node.attr))
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                found.add((module, node.func.id))
    return found


@pytest.mark.slow
def test_every_public_equation_has_a_caller() -> None:
    """What nothing calls is not tried by use, and whoever needs it writes it again beside it."""
    called = _called_from()
    equations = {
        (function.__module__, function.__name__) for package in PACKAGES for function in public_functions(package)
    }
    assert equations - called == set()
