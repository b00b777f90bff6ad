"""Figures of a joint beside its section: from where to where each is measured under the head, and its words."""

from fasten.model import Joint
from fasten.report.safe import safe
from fasten.report.section.page import Page, is_rivet, stands_on
from fasten.text.rounding import rounded_up
from fasten.text.units import number


def figures(page: Page, behind_mm: float | None) -> list[tuple[float, float, str]]:
    """Each figure of the joint: from and to under the head, and its words."""
    back_mm = page.back.end_mm
    found = along(page)
    if page.shank is None:
        return found
    if page.needed_mm > 0:
        found.append((back_mm, back_mm + page.needed_mm, f"needs {rounded_up(page.needed_mm, 1)} mm behind"))
    if behind_mm is not None:
        found.append((back_mm, back_mm + behind_mm, f"{mm(behind_mm)} behind"))
    return found


def along(page: Page) -> list[tuple[float, float, str]]:
    """Those of the joint itself: grip, screw, what of it is engaged and past; or how far a face stands off."""
    if page.shank is None:
        return _face_figures(page)
    return [(*_gripped(page), f"grip {mm(page.joint.grip_mm)}"), *_screw_figures(page)]


def _face_figures(page: Page) -> list[tuple[float, float, str]]:
    """How far what holds by its face keeps the item off the panel; nothing comes out behind."""
    held = [band for band in page.placed if band.slab.role in {"patch", "soft"}]
    if not held:
        return []
    start_mm, end_mm = held[0].start_mm, held[-1].end_mm
    return [(start_mm, end_mm, f"stands off {mm(end_mm - start_mm)}")]


def _screw_figures(page: Page) -> list[tuple[float, float, str]]:
    joint, screw, end_mm, inside_mm = page.joint, page.joint.screw, page.end_mm, thread_end_mm(page)
    if screw is None or stands_on(joint):
        return _part_figures(joint)
    if is_rivet(joint) or not screw.pitch_mm:
        return [(0.0, screw.length_mm, f"{'rivet' if is_rivet(joint) else 'stud'} {mm(screw.length_mm)}")]
    engaged_mm = min(end_mm, inside_mm)
    left_mm = screw.protrusion_mm
    end = (inside_mm, end_mm, f"{mm(left_mm)} past it")
    inside = (end_mm, inside_mm, f"{mm(-left_mm)} of thread beyond it")
    return [
        (0.0, screw.length_mm, f"screw {mm(screw.length_mm)}"),
        (engaged_mm - screw.engagement_mm, engaged_mm, f"engaged {mm(screw.engagement_mm)}"),
        end if left_mm >= 0 else inside,
    ]


def _part_figures(joint: Joint) -> list[tuple[float, float, str]]:
    """A part that goes through by itself; the length of a stud with its nut is not known."""
    part = joint.receiver
    if part is None or joint.hole is None:
        return []
    return [(0.0, part.length_mm, f"{safe(part.part).split()[-1]} {mm(part.length_mm)}")]


def _gripped(page: Page) -> tuple[float, float]:
    """What the grip is measured over: the run of layers that adds up to it, from the head or from the substrate."""
    grip_mm, back = page.joint.grip_mm, page.back
    starts = [band.start_mm for band in page.placed if abs(back.end_mm - grip_mm - band.start_mm) < 0.005]
    return (starts[0], back.end_mm) if starts else (0.0, grip_mm)


def thread_end_mm(page: Page) -> float:
    """Where the thread the screw goes into ends, under the head."""
    screw = page.joint.screw
    return page.end_mm - (screw.protrusion_mm if screw else 0.0)


def mm(value: float) -> str:
    """A length as the section writes it."""
    return f"{number(value, 2)} mm"
