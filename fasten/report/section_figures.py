"""Figures of a joint beside its section: from where to where each is measured under the head, and its words."""

from fasten.report.section_page import Page, is_rivet
from fasten.units import number


def figures(page: Page, behind_mm: float | None) -> list[tuple[float, float, str]]:
    """Each figure of the joint: from and to under the head, and its words."""
    joint, back_mm = page.joint, page.back.end_mm
    found = [(*_gripped(page), f"grip {mm(joint.grip_mm)}"), *_screw_figures(page)]
    if page.needed_mm > 0:
        found.append((back_mm, back_mm + page.needed_mm, f"needs {mm(page.needed_mm)} behind"))
    if behind_mm is not None:
        found.append((back_mm, back_mm + behind_mm, f"{mm(behind_mm)} behind"))
    return found


def _screw_figures(page: Page) -> list[tuple[float, float, str]]:
    screw, end_mm, inside_mm = page.joint.screw, page.shank.end_mm, thread_end_mm(page)
    if screw is None:
        return []
    if is_rivet(page.joint):
        return [(0.0, screw.length_mm, f"rivet {mm(screw.length_mm)}")]
    engaged_mm = min(end_mm, inside_mm)
    left_mm = screw.protrusion_mm
    end = (inside_mm, end_mm, f"{mm(left_mm)} past it")
    inside = (end_mm, inside_mm, f"{mm(-left_mm)} of thread beyond it")
    return [
        (0.0, screw.length_mm, f"screw {mm(screw.length_mm)}"),
        (engaged_mm - screw.engagement_mm, engaged_mm, f"engaged {mm(screw.engagement_mm)}"),
        end if left_mm >= 0 else inside,
    ]


def _gripped(page: Page) -> tuple[float, float]:
    """What the grip is measured over: the run of layers that adds up to it, from the head or from the substrate."""
    grip_mm, back = page.joint.grip_mm, page.back
    starts = [band.start_mm for band in page.placed if abs(back.end_mm - grip_mm - band.start_mm) < 0.005]
    return (starts[0], back.end_mm) if starts else (0.0, grip_mm)


def thread_end_mm(page: Page) -> float:
    """Where the thread the screw goes into ends, under the head."""
    screw = page.joint.screw
    return page.shank.end_mm - (screw.protrusion_mm if screw else 0.0)


def mm(value: float) -> str:
    """A length as the section writes it."""
    return f"{number(value, 2)} mm"
