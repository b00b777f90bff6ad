"""Mutants of the core: one thing changed in one function, and how live functions get the changed code."""

import ast
import copy
import gc
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

ROOT = Path(__file__).parents[2]
PARTS = ("geometry", "mechanics", "proof")
SWAPPED: dict[type, type] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.And: ast.Or, ast.Or: ast.And,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Div, ast.Mod: ast.Mult,
}  # fmt: skip
NOT_RUN = {"annotation", "returns", "decorator_list", "args"}
CALLED = {
    "min": "max", "max": "min", "any": "all", "all": "any", "sin": "cos", "cos": "sin", "ceil": "floor",
    "floor": "ceil",
}  # fmt: skip


@dataclass(frozen=True)
class Mutant:
    """One change: where it is, the function it is in, and what it changes into what."""

    path: str
    function: str
    line: int
    change: str
    place: int

    @property
    def part(self) -> str:
        return next(part for part in PARTS if f"fasten/{part}" in self.path)

    def __str__(self) -> str:
        return f"{self.path}:{self.line} {self.function}: {self.change}"


# -- what to change ---------------------------------------------------------------------------------------------------


def changes(node: ast.AST) -> Iterator[tuple[str, Callable[[ast.AST], None]]]:
    """What may be changed at a node: a name for it, and what does it to the node."""
    if isinstance(node, ast.Compare):
        for at, op in enumerate(node.ops):
            if type(op) in SWAPPED:
                yield f"{_name(op)} -> {SWAPPED[type(op)].__name__}", _operator(at)
            if isinstance(op, ast.Lt | ast.LtE | ast.Gt | ast.GtE):
                yield f"{_name(op)} turned round", _turned(at)
    if isinstance(node, ast.BoolOp | ast.BinOp) and type(node.op) in SWAPPED and not _of_text(node):
        yield f"{_name(node.op)} -> {SWAPPED[type(node.op)].__name__}", _swap
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        yield f"without {_name(node.op)}", _plain
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        other = _other(node.value)
        yield f"{node.value!r} -> {other!r}", _valued(other)
    if isinstance(node, ast.If | ast.IfExp):
        for value in (True, False):
            yield f"if {value}", _always(value)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in CALLED:
        yield f"{node.func.id} -> {CALLED[node.func.id]}", _called
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Call):
        yield f"without {ast.unparse(node.value.func)}", _valued(ast.copy_location(ast.Constant(None), node))


def _valued(value: object) -> Callable[[Any], None]:
    def change(node: Any) -> None:
        node.value = value

    return change


def _always(value: bool) -> Callable[[Any], None]:
    def change(node: Any) -> None:
        node.test = ast.copy_location(ast.Constant(value), node.test)

    return change


def _called(node: Any) -> None:
    node.func.id = CALLED[node.func.id]


def _other(value: float) -> float:
    if isinstance(value, bool):
        return not value
    return value + 1 if isinstance(value, int) or value == 0 else value * 1.1


def _name(op: ast.AST) -> str:
    return type(op).__name__


def _operator(at: int) -> Callable[[Any], None]:
    def change(node: Any) -> None:
        node.ops[at] = SWAPPED[type(node.ops[at])]()

    return change


def _turned(at: int) -> Callable[[Any], None]:
    other = {ast.Lt: ast.GtE, ast.LtE: ast.Gt, ast.Gt: ast.LtE, ast.GtE: ast.Lt}

    def change(node: Any) -> None:
        node.ops[at] = other[type(node.ops[at])]()

    return change


def _swap(node: Any) -> None:
    node.op = SWAPPED[type(node.op)]()


def _plain(node: Any) -> None:
    node.op = ast.UAdd() if isinstance(node.op, ast.USub) else node.op
    if isinstance(node.op, ast.Not):
        node.op, node.operand = ast.Not(), ast.copy_location(ast.UnaryOp(ast.Not(), node.operand), node)


def _of_text(node: ast.AST) -> bool:
    """Whether it joins texts or types, or spreads tuples: nothing to reckon."""
    return any(
        isinstance(child, ast.JoinedStr | ast.Tuple | ast.List)
        or (isinstance(child, ast.Constant) and (isinstance(child.value, str) or child.value is None))
        for child in ast.iter_child_nodes(node)
    )


def body_nodes(tree: ast.AST) -> list[tuple[ast.AST, str]]:
    """Every node within a function, with the name of that function, in an order that stays the same."""
    found: list[tuple[ast.AST, str]] = []

    def walk(node: ast.AST, names: tuple[str, ...], inside: bool) -> None:
        for field, value in ast.iter_fields(node):
            if field in NOT_RUN and not isinstance(node, ast.Call | ast.Lambda):
                continue
            for child in value if isinstance(value, list) else [value]:
                if not isinstance(child, ast.AST) or isinstance(child, ast.JoinedStr):
                    continue
                if isinstance(child, ast.FunctionDef):
                    walk(child, (*names, child.name), True)
                elif isinstance(child, ast.ClassDef):
                    walk(child, (*names, child.name), inside)
                else:
                    if inside:
                        found.append((child, ".".join(names)))
                    walk(child, names, inside)

    walk(tree, (), False)
    return found


def mutants(path: Path) -> Iterator[Mutant]:
    """All changes of one file."""
    name = str(path.relative_to(ROOT))
    place = 0
    for node, function in body_nodes(ast.parse(path.read_text(encoding="utf-8"))):
        for change, _ in changes(node):
            yield Mutant(name, function, getattr(node, "lineno", 0), change, place)
            place += 1


def mutated(mutant: Mutant) -> CodeType:
    """The whole module compiled with the one change in it."""
    path = ROOT / mutant.path
    tree = copy.deepcopy(ast.parse(path.read_text(encoding="utf-8")))
    place = 0
    for node, _ in body_nodes(tree):
        for _, change in list(changes(node)):
            if place == mutant.place:
                change(node)
                return compile(ast.fix_missing_locations(tree), str(path), "exec", dont_inherit=True)
            place += 1
    raise LookupError(str(mutant))


# -- how to change it -------------------------------------------------------------------------------------------------


def codes(code: CodeType) -> Iterator[CodeType]:
    """A code object and all within it."""
    yield code
    for const in code.co_consts:
        if isinstance(const, CodeType):
            yield from codes(const)


def exchange(code: CodeType) -> int:
    """Give every live function of the module the code of the mutated one; how many there were."""
    new = {(each.co_qualname, each.co_firstlineno): each for each in codes(code)}
    count = 0
    for found in gc.get_objects():
        if isinstance(found, FunctionType) and found.__code__.co_filename == code.co_filename:
            key = (found.__code__.co_qualname, found.__code__.co_firstlineno)
            if key in new:
                found.__code__ = new[key]
                count += 1
    return count
