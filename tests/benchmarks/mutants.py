"""The small faults that `mutation.py` puts into a module, one at a time.

Not touched are words, whatever only the type checker reads (annotations, `assert`), imports, decorators
and `strict` of a zip, which guards what is of one length anyway.
"""

import ast
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

COMPARED: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE), ast.LtE: (ast.Lt, ast.Gt), ast.Gt: (ast.GtE, ast.LtE), ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,), ast.NotEq: (ast.Eq,), ast.Is: (ast.IsNot,), ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,), ast.NotIn: (ast.In,),
}  # fmt: skip
CALCULATED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult, ast.Pow: ast.Mult, ast.BitOr: ast.BitAnd, ast.BitAnd: ast.BitOr,
}  # fmt: skip
CALLED = {
    "min": "max", "max": "min", "any": "all", "all": "any", "sin": "cos", "cos": "sin", "floor": "ceil",
    "ceil": "floor", "bisect_left": "bisect_right", "bisect_right": "bisect_left",
}  # fmt: skip
TINY = 1e-5  # a tolerance; a tenth more of it changes nothing
GUARDS = {"positive", "not_negative", "finite", "at_least", "above", "below", "at_most"}


@dataclass(frozen=True)
class Mutant:
    """One fault: the place of a node in the tree, what comes to stand there, and the lines that reach it."""

    file: Path
    function: str  # outermost function as Python qualifies it; empty outside functions
    text: str
    parent: ast.AST
    field: str
    at: int | None
    new: ast.AST
    lines: range

    def put_in(self) -> None:
        """Change the tree the mutant was found in."""
        place = getattr(self.parent, self.field)
        old = place if self.at is None else place[self.at]
        ast.fix_missing_locations(ast.copy_location(self.new, old))
        if self.at is None:
            setattr(self.parent, self.field, self.new)
        else:
            place[self.at] = self.new


class Finder:
    """Walks a module and keeps every mutant of it."""

    def __init__(self, file: Path, tree: ast.Module, name: str) -> None:
        self.file, self.name = file, name
        self.found: list[Mutant] = []
        self._seen: Counter[tuple[str, str]] = Counter()
        self._walk(tree, "", "", range(0))

    def _walk(self, node: ast.AST, scope: str, function: str, lines: range) -> None:
        for field, value in ast.iter_fields(node):
            if field in ("annotation", "returns", "decorator_list", "type_params"):
                continue
            several = isinstance(value, list)
            for at, child in enumerate(value if several else [value]):
                if isinstance(child, ast.AST):
                    self._child(node, field, at if several else None, child, (scope, function, lines))

    def _child(self, node: ast.AST, field: str, at: int | None, child: ast.AST, where: tuple[str, str, range]) -> None:
        scope, function, lines = where
        if isinstance(child, (ast.Assert, ast.JoinedStr, ast.Import, ast.ImportFrom)):
            return
        if isinstance(child, ast.keyword) and child.arg == "strict":
            return
        if isinstance(child, ast.stmt):
            lines = _lines(child)
        for new in _variants(child, node, field):
            self._keep(Mutant(self.file, function, _told(child, new, node), node, field, at, new, lines))
        inside = function
        if isinstance(child, ast.FunctionDef):
            self._walk(child.args, scope, function, lines)
            inside = function or f"{scope}{child.name}"
            child = ast.Module(child.body, []) if child.body else child
        elif isinstance(child, ast.ClassDef):
            scope = f"{scope}{child.name}."
        elif isinstance(child, ast.If) and _told_type_checking(child):
            return
        self._walk(child, scope, inside, lines)

    def _keep(self, mutant: Mutant) -> None:
        key = (mutant.function, mutant.text)
        self._seen[key] += 1
        again = f" #{self._seen[key]}" if self._seen[key] > 1 else ""
        text = f"{self.name} {mutant.function or '-'}: {mutant.text}{again}"
        self.found.append(Mutant(**{**vars(mutant), "text": text}))


def mutants(file: Path, name: str) -> tuple[ast.Module, list[Mutant]]:
    """The tree of a file and every mutant of it; a mutant's text names it and does not change with its line."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    return tree, Finder(file, tree, name).found


def _lines(statement: ast.stmt) -> range:
    """The lines of a statement, of its head only where others stand in it."""
    body = getattr(statement, "body", None)
    last = body[0].lineno - 1 if body else statement.end_lineno or statement.lineno
    return range(statement.lineno, max(last, statement.lineno) + 1)


def _told_type_checking(node: ast.If) -> bool:
    return isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"


def _told(old: ast.AST, new: ast.AST, parent: ast.AST) -> str:
    if isinstance(new, ast.Pass):
        return f"without {_short(old)}"
    within = f" in {_short(parent)}" if isinstance(old, ast.Constant) else ""
    return f"{_short(old)} -> {_short(new)}{within}"


def _short(node: ast.AST) -> str:
    text = " ".join(ast.unparse(node).split())
    return text if len(text) <= 90 else f"{text[:60]} … {text[-25:]}"


def _variants(node: ast.AST, parent: ast.AST, field: str) -> Iterator[ast.AST]:
    tested = field == "test" or (field == "ifs" and isinstance(parent, ast.comprehension))
    if tested:
        yield ast.Constant(True)
        yield ast.Constant(False)
    match node:
        case ast.Compare():
            yield from _compared(node, tested)
        case ast.BoolOp():
            yield ast.BoolOp(ast.Or() if isinstance(node.op, ast.And) else ast.And(), node.values)
        case ast.BinOp() if not _is_text(node.left) and not _is_text(node.right):
            yield ast.BinOp(node.left, CALCULATED[type(node.op)](), node.right)
        case ast.AugAssign() if type(node.op) in CALCULATED:
            yield ast.AugAssign(node.target, CALCULATED[type(node.op)](), node.value)
        case ast.UnaryOp(op=ast.USub()):
            yield node.operand
        case ast.UnaryOp(op=ast.Not()) if not tested:
            yield node.operand
        case ast.Constant():
            yield from _constants(node)
        case ast.Call():
            yield from _calls(node)
        case ast.Return() if node.value is not None and not _is_none(node.value):
            yield ast.Return(ast.Constant(None))
        case ast.Expr(value=ast.Call()):
            yield ast.Pass()
        case ast.Raise() if not (isinstance(parent, ast.If) and len(parent.body) == 1):  # else the test as False
            yield ast.Pass()


def _compared(node: ast.Compare, tested: bool) -> Iterator[ast.AST]:
    for at, old in enumerate(node.ops):
        news = COMPARED[type(old)]
        for new in news[: len(news) - tested]:  # the opposite of a test is worse than True or False
            yield ast.Compare(node.left, [*node.ops[:at], new(), *node.ops[at + 1 :]], node.comparators)


def _constants(node: ast.Constant) -> Iterator[ast.AST]:
    value = node.value
    if isinstance(value, bool):
        yield ast.Constant(not value)
    elif isinstance(value, int):
        yield ast.Constant(value + 1)
    elif isinstance(value, float):
        yield ast.Constant(round(value * 1.1, 6) if value > TINY else 1.0)


def _calls(node: ast.Call) -> Iterator[ast.AST]:
    match node.func:
        case ast.Name(id=name) if name in CALLED:
            yield ast.Call(ast.Name(CALLED[name], ast.Load()), node.args, node.keywords)
        case ast.Name(id="abs"):
            yield node.args[0]
        case ast.Name(id=name) if name in GUARDS and len(node.keywords) > 1:
            for at in range(len(node.keywords)):
                yield ast.Call(node.func, node.args, [*node.keywords[:at], *node.keywords[at + 1 :]])


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str))


def _is_none(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and node.value is None
