"""No layer names a method or a part: what it must know of one is a field of a record below it.

The list of what is still allowed only shrinks: a name that is gone from the code must go from here too.
"""

import ast
from collections import Counter

from built.code import modules, walked

from fasten.advice.advise import METHODS
from fasten.model import kinds

OWN = ("fasten.methods.", "fasten.model.kinds", "fasten.job.list.format1")  # the last: words of old files, frozen
# A table that is called as a part is: the name of a file.
TABLES = {("fasten.catalog.face_parts", "hook-and-loop"), ("fasten.catalog.face_parts", "adhesive")}
# A condition of steps, a word that people write on a shelf, and the places that still read a part's name.
ALLOWED = Counter({
    ("fasten.advice.conditions", "adhesive"): 3,
    ("fasten.advice.conditions", "stud base"): 1,
    ("fasten.job.shelf.check", "blind rivet"): 1,
    ("fasten.job.shelf.check", "hexagon nut"): 1,
    ("fasten.advice.work", "factory_thread"): 1,
})  # fmt: skip


def test_no_layer_names_a_method_or_a_part() -> None:
    rows = [kind for kind in vars(kinds).values() if isinstance(kind, kinds.PartKind | kinds.PatchKind)]
    names = {method.NAME for method in METHODS} | {kind.name for kind in rows}
    found = Counter(
        (module, node.value)
        for module, tree in modules() if not module.startswith(OWN)
        for node in walked(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value in names
        and (module, node.value) not in TABLES
    )  # fmt: skip
    assert found == ALLOWED, {"new": found - ALLOWED, "gone": ALLOWED - found}
