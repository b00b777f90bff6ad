"""One direction of imports: each layer may import the ones to its left, and some things belong to one layer alone."""

import ast
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from built.code import PACKAGE, modules, walked

LAYERS = (
    {"", "errors", "progress", "record", "require"}, {"model"}, {"text"}, {"catalog"}, {"geometry", "mechanics"},
    {"question"}, {"proof"}, {"methods"}, {"advice", "look"}, {"wiring", "after"}, {"job"}, {"report"},
    {"cli", "commands", "tui", "__main__"},
)  # fmt: skip
RANK = {name: rank for rank, names in enumerate(LAYERS) for name in names}
TOP = RANK["cli"]
# Who alone may import what, by the start of the module's name.
ONLY = {
    "textual": ("fasten.tui",),
    "rich": ("fasten.tui",),
    "pint": ("fasten.text.units",),
    "pydantic": ("fasten.catalog.check", "fasten.job.store.check"),
    "tomli_w": ("fasten.job.store",),
    "platformdirs": ("fasten.commands._folders", "fasten.commands._tables"),
    "argparse": ("fasten.cli", "fasten.commands"),
}
MOST_LINES = 400
CLOCKS = {"time", "datetime"}


def imports(tree: ast.Module) -> Iterator[str]:
    """Every module that is imported anywhere in the tree, inside functions too."""
    for node in walked(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield "." * node.level + (node.module or "")
            if node.module == "fasten":
                yield from (f"fasten.{alias.name}" for alias in node.names)


def layer(module: str) -> str:
    """The part of the package that a module belongs to."""
    return module.split(".")[1] if "." in module else ""


def breaches(name: str, tree: ast.Module) -> Iterator[str]:
    """What a module does that its place does not allow."""
    rank = RANK.get(layer(name))
    if rank is None:
        yield f"{name} is in no layer"
        return
    for module in imports(tree):
        yield from _import_breaches(name, rank, module)
    if rank < TOP:
        yield from _talk(name, tree)


def _import_breaches(name: str, rank: int, module: str) -> Iterator[str]:
    top = module.split(".", maxsplit=1)[0]
    if module.startswith("."):
        yield f"{name} imports {module} by a relative name"
    if top == "fasten" and RANK.get(layer(module), -1 if "__" in module else TOP) > rank:
        yield f"{name} imports {module} from a layer above it"
    if layer(name) == "mechanics" and top == "fasten" and layer(module) not in {"mechanics", "require"}:
        yield f"{name} imports {module}: equations import fasten.require alone"
    if top in ONLY and not name.startswith(ONLY[top]):
        yield f"{name} imports {top}, which is for {' and '.join(ONLY[top])}"
    if top in CLOCKS and rank < TOP:
        yield f"{name} imports {top} and could read the clock"


def _talk(name: str, tree: ast.Module) -> Iterator[str]:
    for node in walked(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in {"print", "input"}:
            yield f"{name} calls {node.func.id}, line {node.lineno}"
        if isinstance(node, ast.Attribute) and node.attr in {"stdout", "stderr", "stdin"}:
            yield f"{name} uses {node.attr}, line {node.lineno}"


def test_no_layer_is_breached() -> None:
    assert [breach for name, tree in modules() for breach in breaches(name, tree)] == []


def test_every_library_is_tried_in_its_lowest_version() -> None:
    """By the tests of each part that may import it; of all others nothing reaches it but through these."""
    root = PACKAGE.parent
    needed = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]["dependencies"]
    libraries = [re.split("[<>=]", line)[0].replace("-", "_") for line in needed]
    named = re.search(r"^of_libraries=\(tests/{(.+)}\)$", (root / ".ci" / "run").read_text(encoding="utf-8"), re.M)
    assert named is not None
    tried = set(named[1].split(","))
    assert libraries
    assert {layer(module) for library in libraries for module in ONLY[library]} <= tried
    assert all((root / "tests" / folder).is_dir() for folder in tried)


def test_the_walk_finds_the_package() -> None:
    """An empty walk would pass in silence."""
    names = {name for name, _ in modules()}
    assert {"fasten", "fasten.text.units", "fasten.catalog.load", "fasten.geometry.threads", "fasten.cli"} <= names
    lazily = {module for name, tree in modules() if name == "fasten.cli" for module in imports(tree)}
    assert "fasten.errors" in lazily


@pytest.mark.parametrize(
    ("name", "code", "told"),
    [
        ("fasten.text.units", "from fasten.catalog.rows import Row", "from a layer above"),
        ("fasten.text.units", "def f():\n    import fasten.look", "from a layer above"),
        ("fasten.geometry.bits", "from fasten import proof", "from a layer above"),
        ("fasten.report.plain", "import fasten.cli", "from a layer above"),
        ("fasten.look", "import pint", "imports pint"),
        ("fasten.catalog.load", "def f():\n    from pydantic import TypeAdapter", "imports pydantic"),
        ("fasten.report.html", "from textual.app import App", "imports textual"),
        ("fasten.job", "import datetime", "read the clock"),
        ("fasten.job", "from time import time", "read the clock"),
        ("fasten.mechanics.sheet", "print('x')", "calls print"),
        ("fasten.advice.advise", "import sys\nsys.stderr.write('x')", "uses stderr"),
        ("fasten.geometry.bits", "from .threads import Range", "relative name"),
        ("fasten.mechanics.sheet", "from fasten.errors import FastenError", "require alone"),
        ("fasten.stray", "", "in no layer"),
    ],
)
def test_the_walk_sees_a_breach(name: str, code: str, told: str) -> None:
    found = list(breaches(name, ast.parse(code)))
    assert found
    assert all(told in breach for breach in found)


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("fasten.look", "from fasten.geometry.bits import Bit"),
        ("fasten.text.units", "import pint"),
        ("fasten.catalog.check", "import pydantic"),
        ("fasten.tui.app", "from textual.app import App\nimport time"),
        ("fasten.commands.look", "print('x')"),
    ],
)
def test_the_walk_allows_what_is_allowed(name: str, code: str) -> None:
    assert list(breaches(name, ast.parse(code))) == []


def rings(imported: dict[str, set[str]]) -> list[set[str]]:
    """Modules that import each other, however many lie between: those that can be reached from themselves."""

    def reached(name: str) -> set[str]:
        found: set[str] = set()
        left = list(imported[name])
        while left:
            if (one := left.pop()) not in found:
                found.add(one)
                left.extend(imported[one])
        return found

    inside = {name: reached(name) for name in imported}
    found = [{name for name in imported if name in inside[one] and one in inside[name]} for one in imported]
    return [ring for at, ring in enumerate(found) if ring and ring not in found[:at]]


def test_no_module_imports_itself_by_way_of_others() -> None:
    trees = dict(modules())
    imported: dict[str, set[str]] = {name: set() for name in trees}
    for name, tree in trees.items():
        for node in walked(tree):
            if isinstance(node, ast.ImportFrom) and node.module in trees:
                whole = {f"{node.module}.{alias.name}" for alias in node.names}
                imported[name] |= {one if one in trees else node.module for one in whole}
    assert rings(imported) == []


def test_a_ring_of_imports_is_found() -> None:
    assert rings({"a": {"b"}, "b": {"c"}, "c": {"b"}, "d": {"a"}}) == [{"b", "c"}]


def test_no_file_is_too_long_to_be_read_at_once() -> None:
    long = {
        path.name: lines
        for folder in (PACKAGE, Path(__file__).parent)
        for path in folder.rglob("*.py")
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > MOST_LINES
    }
    assert not long, f"part these by what they are about: {long}"


# What stands on plans: a list, a verdict, a work sheet and a shelf serve whatever kind of entry gives one.
ON_PLANS = (
    "fasten.job.list.",
    "fasten.job.shelf.",
    "fasten.job.ready",
    "fasten.job.work",
    "fasten.job.entry",
    "fasten.job.sizes.standard",
)
SUBSTITUTES = "fasten.job.shelf.substitute"  # proves the joint of a mount point anew with another screw
OF_JOINTS = {
    "Advice", "Answer", "BitChoice", "Hole", "Joint", "Layer", "MountPoint", "Patch", "Proposal", "Receiver", "Refusal",
    "Screw", "StackPart",
}  # fmt: skip
JOINT_MODULES = (
    "fasten.job.choices", "fasten.geometry.joint", "fasten.geometry.stack", "fasten.model.joint", "fasten.model.proved",
    "fasten.model.asked", "fasten.proof", "fasten.advice.plan", "fasten.advice.work",
)  # fmt: skip


def of_joints(name: str, tree: ast.Module) -> Iterator[str]:
    """What a module that stands on plans imports of a joint, or of how it was chosen and proved."""
    for node in walked(tree):
        if isinstance(node, ast.ImportFrom):
            whole = {f"{node.module}.{alias.name}" for alias in node.names}
            names = OF_JOINTS & {alias.name for alias in node.names}
            modules_ = {module for module in (node.module or "", *whole) if module.startswith(JOINT_MODULES)}
            yield from (f"{name} imports {what}" for what in sorted(names or modules_))


def test_lists_and_sheets_stand_on_plans_alone() -> None:
    trees = {name: tree for name, tree in modules() if name.startswith(ON_PLANS) and name != SUBSTITUTES}
    assert {"fasten.job.list.hardware", "fasten.job.shelf.owned", "fasten.job.ready", "fasten.job.work"} <= set(trees)
    assert [found for name, tree in trees.items() for found in of_joints(name, tree)] == []


@pytest.mark.parametrize(
    "code",
    [
        "from fasten.model import Joint",
        "from fasten.model.proved import Proposal",
        "def f():\n    from fasten.job.choices import Choice",
        "from fasten.geometry import joint",
        "from fasten.proof.prove import prove",
    ],
)
def test_what_knows_a_joint_is_found(code: str) -> None:
    assert list(of_joints("fasten.job.list.hardware", ast.parse(code))) != []


# Above the methods nothing asks the proof for a fact: what is known of a joint stands in its proposal.
PROVES = {
    "fasten.advice.advise", "fasten.advice.contest", "fasten.advice.method", "fasten.advice.panel_ways",
    "fasten.advice.trial", "fasten.job.choices",
}  # fmt: skip


def test_only_what_proves_a_joint_imports_the_proof() -> None:
    above = {"advice", "look", "job", "report", "commands", "tui", "cli", "__main__"}
    found = {
        name for name, tree in modules() if layer(name) in above for module in imports(tree)
        if module.startswith("fasten.proof")
    }  # fmt: skip
    assert found == PROVES


def test_repairs_and_wiring_do_not_know_each_other() -> None:
    for name, tree in modules():
        if name.startswith("fasten.after"):
            assert not [one for one in imports(tree) if one.startswith("fasten.wiring")]
        if name.startswith("fasten.wiring"):
            assert not [one for one in imports(tree) if one.startswith("fasten.after")]
