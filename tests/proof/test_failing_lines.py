"""The lines of strength that a refusal is made of, against all those of a whole proof; what is found once for many."""

from collections import Counter

from recalculation.questions import any_mounts

from fasten.advice.advise import METHODS
from fasten.advice.method import gates, joints
from fasten.catalog.tables import builtin
from fasten.model import Demand, Panel, Status
from fasten.proof.demands import demands
from fasten.proof.loads import Loads, loads_of
from fasten.proof.strength import asked, capacities, overloads, strength_checks, strength_failures

TABLES = builtin()
QUESTIONS = 40


def test_a_refusal_is_made_of_all_lines_that_fail() -> None:
    """The same lines in the same order; and as many of a mode as kinds of load overload it, by its figures."""
    failing, holding = 0, 0
    for mount in any_mounts(QUESTIONS):
        loads = demands(mount, TABLES)
        for method in (method for method in METHODS if gates(method, mount, TABLES) is None):
            modes = method.modes(mount, TABLES)
            for joint in list(joints(method, mount, TABLES))[:6]:
                found = capacities(joint, mount, modes, TABLES)
                whole = list(strength_checks(joint, modes, found, method.EXEMPT, loads, TABLES))
                fails = [check for check in whole if check.status is Status.FAILS]
                few = [check for check in strength_failures(found, loads, TABLES) if check.status is Status.FAILS]
                assert few == fails
                lines = Counter(check.id.rpartition(".")[0] for check in fails)
                for mode, of in found:
                    assert overloads(asked(mode, loads_of(loads), TABLES), of, TABLES) == lines[mode.id]
                failing, holding = failing + bool(fails), holding + (not fails)
    assert failing > 50 < holding


def test_of_loads_alike_the_last_by_name_and_panel_is_named() -> None:
    """So it is in every line of a proof, in whichever order the loads come."""

    def one(name: str, panel: Panel, shear_n: float) -> Demand:
        return Demand("road", "service", name, panel, shear_n, 10.0, (), "built")

    alike = one("a", Panel.SIDE, 5.0), one("b", Panel.FLOOR, 5.0), one("b", Panel.SIDE, 5.0), one("c", Panel.SIDE, 4.0)
    for loads in (alike, alike[::-1]):
        (service,) = Loads(loads).kinds
        assert service.worst["shear"] == alike[2]
        assert service.worst["tension"] == alike[3]
        assert service.cases["shear"] == "road: b, on side"
        assert loads_of(loads).service == service.loads
