"""Three jobs as they are begun, with nothing measured, and their measuring passes; found once for all tests."""

from functools import cache

from fasten.catalog.tables import builtin
from fasten.job.gauge.gauge import measuring_pass
from fasten.job.gauge.words import MeasuringPass
from fasten.job.words import Job, Mount

JOBS = {
    "demo": {
        "left amplifier": "amplifier; onto steel 0.8 mm; removed yearly; panel floor",
        "right amplifier": "amplifier; onto steel 0.8 mm; removed yearly; panel floor",
        "amplifier board": "equipment-board; onto steel 1 mm; removed rarely; item-thickness 12 mm; "
        "item-material plywood; panel seat-back; reach both-sides; carries signal-processor",
        "left crossover": "crossover; onto plywood 18 mm; removed rarely; panel floor",
        "false floor cover": "trim-panel; onto MDF 18 mm; removed monthly; panel floor; visible yes",
        "left door adapter": "speaker-adapter; onto steel 0.7 mm; removed yearly; item-thickness 6 mm; "
        "item-material abs; panel door; between foam 3 mm",
        "fuse holder": "fuse-holder; onto pine 20 mm; removed rarely; panel side",
        "power cable run": "wire-clamp; onto steel 0.8 mm; removed rarely; panel floor; run 2 m",
        "main ground": "ground-lug; onto steel 0.8 mm; removed rarely; panel floor; cable 50 mm2; current 200 A",
    },
    "two doors": {
        "left adapter": "speaker-adapter; onto steel door; removed yearly; panel door; between foam 3 mm",
        "right adapter": "speaker-adapter; onto steel door; removed yearly; panel door; between foam 3 mm",
        "left driver": "speaker; onto MDF 18 mm; removed yearly; panel door",
        "right driver": "speaker; onto MDF 18 mm; removed yearly; panel door",
        "left crossover": "crossover; onto plywood 18 mm; removed rarely; panel floor; mass 0.5 kg",
    },
    "enclosure": {
        "enclosure": "enclosure; onto steel floor; removed rarely",
        "false floor": "trim-panel; onto plywood 18 mm; removed monthly; panel floor; visible yes; mass 6 kg; "
        "item-thickness 12 mm; item-material plywood",
        "fuse holder": "fuse-holder; onto steel 0.8 mm; removed rarely; panel side",
        "bracket": "bracket; onto steel 1.2 mm; removed yearly; panel side",
    },
}


def job(name: str) -> Job:
    return Job(name, "", "", tuple(Mount(mount, said(text)) for mount, text in JOBS[name].items()))


def said(text: str) -> tuple[tuple[str, str], ...]:
    item, *others = text.split("; ")
    return (("item", item), *((field, value) for field, _, value in (other.partition(" ") for other in others)))


@cache
def found(name: str) -> MeasuringPass:
    return measuring_pass(job(name), builtin())
