"""The code of the package, parsed and walked once for all tests that read it."""

import ast
import gc
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "fasten"


@cache
def modules() -> tuple[tuple[str, ast.Module], ...]:
    """Every module of the package by its full name, parsed."""
    gc.disable()  # half a million nodes, all of which stay: to search them for garbage costs as much as to make them
    try:
        paths = sorted(PACKAGE.rglob("*.py"))
        return tuple((_name(path), ast.parse(path.read_text(encoding="utf-8"))) for path in paths)
    finally:
        gc.freeze()
        gc.enable()


@cache
def walked(tree: ast.Module) -> tuple[ast.AST, ...]:
    """Every node of a module; the walk costs more than what is asked of the nodes."""
    return tuple(ast.walk(tree))


def _name(path: Path) -> str:
    parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
