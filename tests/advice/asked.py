"""Questions that end in every method, each in every kind of work that it comes with, and what they are answered."""

from collections.abc import Iterator
from functools import cache

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Answer, MountPoint
from fasten.question.read import read_question
from fasten.question.resolve import resolve

# Item; what onto; then what else is said, an indented line going on with the one above it.
_ASKED = """
amplifier; steel 0.8 mm; behind 60mm; edge 60mm; hole-there M6 rivet nut; panel floor; removed yearly
amplifier; steel 0.8 mm; behind 60mm; edge 60mm; hole-there 9 mm; item-hole 5.5 mm; panel floor; reach both-sides;
    removed yearly
amplifier; abs 3 mm; behind 60mm; boss 16x24 mm; edge 60mm; mass 0.3kg; panel floor; removed rarely
amplifier; abs 3 mm; behind 60mm; boss 16x24 mm; edge 60mm; mass 0.3kg; panel floor; removed weekly
amplifier; fibreglass 3 mm; behind 60mm; between carpet 6 mm; edge 60mm; panel floor; removed rarely
amplifier; fibreglass 3 mm; behind 60mm; between mat 3 mm; edge 60mm; panel floor; removed rarely
amplifier; fibreglass 5 mm; between foam 6 mm; hole-there M6 stud; mass 0.1 kg; panel seat-back;
    reach both-sides; removed never
amplifier; hardwood 30 mm; behind 30 mm; edge 40 mm; fixings 2; item-hole 6.6 mm; pattern row 80;
    reach both-sides; removed monthly
amplifier; mdf 18 mm; behind 60mm; edge 60mm; hole-there 5 mm; panel floor; removed rarely
amplifier; mdf 15 mm; behind 60mm; edge 60mm; mass 20 kg; reach both-sides; removed yearly; support span 600 mm
amplifier; plywood 18 mm; behind 60mm; between carpet 6 mm; edge 60mm; panel floor; removed rarely
amplifier; plywood 18 mm; behind 60mm; between mat 3 mm; edge 60mm; panel floor; removed rarely
amplifier; pp 8 mm; behind 60mm; boss 16x24 mm; edge 60mm; mass 0.3kg; panel floor; removed rarely
amplifier; steel 0.8 mm; behind 60mm; between carpet 6 mm; edge 60mm; panel floor; removed rarely
amplifier; steel 0.8 mm; behind 60mm; between foam 3 mm; edge 60mm; panel floor; removed rarely
amplifier; steel 1.5 mm; hole-there M6 stud; item-hole 6.6mm; removed yearly
amplifier; steel 5 mm; behind 60mm; between carpet 6 mm; edge 60mm; panel floor; removed rarely
amplifier; steel 5 mm; behind 60mm; between foam 3 mm; edge 60mm; panel floor; removed rarely
amplifier; steel 5 mm; behind 60mm; between carpet 9 mm, deadener 2 mm; edge 60mm; panel floor; removed rarely
amplifier; steel 5 mm; behind 60mm; edge 60mm; item-hole 6.6mm; mass 0.3kg; panel floor; removed rarely
amplifier; steel door; behind 60mm; edge 60mm; hole-there 5 mm; panel floor; removed rarely
amplifier; steel door; behind 50 mm; edge 20 mm; hole-there 8.1 mm; panel seat-back; reach both-sides;
    removed weekly; visible yes; where cabin
amplifier; steel roof; behind 80 mm; carries fuse-holder, crossover 0.5 kg; item-thickness 1.5 mm; panel floor;
    reach both-sides; removed yearly; where door
amplifier; steel 0.8 mm; behind 60mm; edge 60mm; item-hole 6.6mm; mass 17kg; panel side; reach both-sides;
    removed never; support push 150 N 0.05 mm
signal-processor; steel 0.8 mm; behind 60mm; edge 60mm; mass 3.5kg; panel floor; removed yearly;
    support bay 300x450; doubler 210x2.5 mm riveted
signal-processor; steel 0.8 mm; behind 60mm; edge 60mm; mass 3.5kg; panel floor; removed yearly;
    support bay 300x450; doubler 210x2 mm bonded
amplifier; steel plate 3 mm; behind 20mm; edge 25mm; mass 5kg; panel floor; removed yearly;
    rails 2 of 20x1.5 mm over 400 mm
second-battery; steel 1.2 mm; behind 60mm; edge 60mm; panel floor; reach both-sides; removed rarely;
    support frame
bracket; aluminium 1.5 mm; behind 60mm; edge 60mm; item-hole 4.9mm; panel floor; removed never
bracket; galvanised steel 1 mm; behind 60mm; between carpet 6 mm cut out; edge 60mm; item-hole 4.9mm;
    panel side; removed never
bracket; steel 0.8 mm; behind 60mm; between mat 3 mm; edge 60mm; item-hole 4.9mm; panel floor; removed never
bracket; steel 1 mm; behind 60mm; edge 60mm; hole-there 4.9 mm; item-hole 4.9mm; panel floor; removed never
bracket; steel 1 mm; behind 60mm; edge 60mm; hole-there 3 mm; item-hole 4.9mm; panel seat-back; removed never
bracket; steel 1.5 mm; behind 60mm; edge 60mm; item-hole 4.9mm; panel floor; removed never; where underfloor
amplifier; steel 1 mm; behind 60mm; between carpet 12 mm cut out; edge 60mm; panel floor; removed yearly
amplifier; MDF 18 mm; behind 60mm; between foam 6 mm cut out; edge 60mm; panel floor; removed yearly
bracket; steel engine-bay; behind 60mm; edge 60mm; panel side; removed rarely
bracket; steel 3 mm; behind 60mm; edge 60mm; panel side; removed yearly; where engine-bay
bracket; steel floor; edge 60mm; item-hole 4.9mm; mass 0.3 kg; removed never
bracket; steel door; behind 60mm; item-hole 4.9mm; mass 0.3 kg; panel door; removed never; where door
bracket; steel 0.8 mm; behind 60mm; edge 60mm; item-hole 4.1mm; mass 0.2 kg; panel side; removed never; visible yes
bracket; steel 0.8 mm; behind 60mm; edge 60mm; item-hole 4.9mm; item-material steel; mass 0.3 kg; removed never
bracket; stainless steel 1 mm; behind 60mm; edge 60mm; item-hole 4.9mm; panel side; reach both-sides; removed never
fuse-holder; steel 0.8 mm; behind 60mm; edge 60mm; item-hole 4.9mm; panel side; removed never
crossover; abs 3 mm; behind 60mm; boss 16x24 mm; edge 60mm; mass 0.3kg; panel floor; removed rarely
crossover; galvanised steel 2 mm; behind 50 mm; between mat 3 mm; item-material fibreglass; panel side;
    reach both-sides; removed never
crossover; steel 2 mm; behind 30 mm; edge 9 mm; panel floor; reach one-side; removed rarely
crossover; steel 2 mm; behind 30 mm; edge 9 mm; panel side; reach one-side; removed rarely
crossover; steel 3 mm; edge 12 mm; fixings 6; item-hole 4.5 mm; item-material abs; item-thickness 12 mm;
    panel roof; pattern rectangle 300x200; reach both-sides; removed weekly
crossover; steel seat-back; behind 20 mm; cg 25 mm; edge 12 mm; fixings 4; grade 4.8; hole-there M6 stud;
    item-hole 6.6 mm; mass 0.3 kg; panel side; pattern rectangle 200x120; reach both-sides; removed never
crossover; steel side; behind 50 mm; between foam 3 mm; edge 12 mm; item-hole 9 mm; item-thickness 12 mm;
    mass 0.1 kg; panel side; reach both-sides; removed weekly
distribution-block; abs 3 mm; boss 12x20 mm; edge 40 mm; item-hole 3.4 mm; mass 0.3 kg; panel floor;
    reach one-side; removed yearly
distribution-block; aluminium 1 mm; behind 30 mm; edge 9 mm; panel roof; reach one-side; removed rarely
distribution-block; aluminium 3 mm; between foam 3 mm; cg 90 mm; edge 12 mm; fixings 6; mass 2 kg;
    pattern circle 165; reach one-side; removed yearly
distribution-block; galvanised steel 1.5 mm; behind 30 mm; edge 10 mm; grade A2-70; item-thickness 6 mm;
    reach one-side; removed rarely; where door
distribution-block; pa 3 mm; boss 12x20 mm; edge 40 mm; item-hole 3.4 mm; mass 0.3 kg; panel floor;
    reach one-side; removed yearly
enclosure; aluminium 1 mm; behind 50 mm; between foam 3 mm; case ambulance; edge 60 mm; grade 5.8;
    item-material abs; item-thickness 2 mm; mass 2 kg; reach one-side; removed monthly; where underfloor
enclosure; aluminium 3 mm; behind 20 mm; item-material aluminium; item-thickness 4 mm; panel seat-back;
    reach both-sides; removed rarely; visible yes
enclosure; hardwood 18 mm; behind 20 mm; between foam 6 mm; case ambulance; cg 25 mm; edge 40 mm; mass 0.3 kg;
    panel side; reach both-sides; removed rarely; where cabin
equipment-board; steel 5 mm; cg 25 mm; edge 10 mm; grade 5.8; hole-there M6; mass 2 kg; panel roof;
    reach one-side; removed rarely; where cabin
equipment-board; steel roof; behind 30 mm; between mat 3 mm; cg 40 mm; edge 20 mm; fixings 3; panel floor;
    pattern circle 100; reach both-sides; removed rarely; visible yes; where underfloor
fuse-holder; abs 3 mm; behind 60mm; boss 16x24 mm; edge 60mm; mass 0.3kg; panel floor; removed never
fuse-holder; aluminium 1 mm; behind 30 mm; edge 9 mm; panel side; reach one-side; removed rarely
fuse-holder; fibreglass 3 mm; behind 60mm; between mat 3 mm; edge 60mm; panel floor; removed never
fuse-holder; galvanised steel 1 mm; behind 30 mm; edge 10 mm; panel roof; reach one-side; removed rarely
fuse-holder; galvanised steel 1.5 mm; behind 30 mm; edge 10 mm; panel side; reach one-side; removed rarely
fuse holder; mdf 18 mm; edge 40mm; reach both-sides; removed rarely
fuse-holder; mdf 18 mm; behind 60mm; between carpet 6 mm; edge 60mm; panel floor; removed never
fuse-holder; mdf 18 mm; behind 60mm; between mat 3 mm; edge 60mm; panel floor; removed never
fuse-holder; pp 3 mm; boss 12x20 mm; edge 40 mm; item-hole 3.4 mm; mass 0.3 kg; panel roof; reach one-side;
    removed rarely
fuse-holder; pp 8 mm; behind 60mm; boss 16x24 mm; edge 60mm; mass 0.3kg; panel floor; removed never
fuse-holder; stainless steel 1.5 mm; behind 60mm; between carpet 6 mm; edge 60mm; panel floor; removed never
ground lug; steel 0.8 mm; behind 60mm; edge 60mm; hole-there 8.4 mm; panel floor; reach both-sides;
    removed rarely
ground lug; steel 0.8 mm; behind 60mm; edge 60mm; hole-there M8; panel floor; removed rarely
ground lug; steel 1.5 mm; behind 40mm; edge 30mm; reach both-sides; removed yearly
ground lug; steel 5 mm; behind 60mm; current 60 A; edge 60mm; panel floor; reach both-sides; removed rarely
ground lug; steel 5 mm; behind 60mm; edge 60mm; hole-there M8 stud; panel floor; removed rarely
ground lug; steel 5 mm; behind 60mm; edge 60mm; hole-there 5 mm; panel floor; removed rarely; ring M6
signal-processor; aluminium 1 mm; behind 50 mm; between carpet 6 mm; edge 20 mm; item-thickness 2 mm; panel side;
    reach one-side; removed yearly; where underfloor
signal-processor; aluminium 1 mm; behind 30 mm; edge 9 mm; panel roof; reach one-side; removed rarely
signal-processor; fibreglass 2 mm; behind 80 mm; case hard-stop; cg 25 mm; edge 40 mm; item-material aluminium;
    panel floor; reach both-sides; removed rarely
signal-processor; galvanised steel 0.8 mm; carries fuse-holder, crossover 0.5 kg; edge 10 mm; fixings 4;
    grade 8.8; item-hole 4.5 mm; item-material pine; panel seat-back; pattern rectangle 200x120;
    reach both-sides; removed yearly; where door
signal-processor; steel 5 mm; behind 80 mm; between foam 3 mm; edge 10 mm; item-hole 6.6 mm;
    item-thickness 12 mm; panel roof; reach both-sides; removed rarely; visible yes; where underfloor
speaker; mdf 18 mm; between foam 3 mm; edge 30mm; fixings 4; pattern circle 165 mm; removed yearly
speaker-adapter; fibreglass 2 mm; behind 80 mm; between carpet 6 mm; item-hole 9 mm; mass 4 kg; reach both-sides;
    removed monthly; where underfloor
speaker-adapter; fibreglass 3 mm; edge 20 mm; fixings 4; hole-there M5; item-thickness 6 mm; mass 0.3 kg;
    pattern row 150; reach one-side; removed never; visible yes
speaker-adapter; mdf 15 mm; fixings 1; grade 4.8; hole-there 5.1 mm; panel door; reach both-sides;
    removed weekly
trim panel; abs 2.5 mm; behind 40mm; edge 30mm; mass 0.4kg; removed rarely
speaker-adapter; steel 0.8 mm; behind 60mm; between foam 2 mm; edge 60mm; panel door; removed rarely
trim-panel; abs 3 mm; behind 60mm; between carpet 2 mm; edge 60mm; panel floor; removed rarely
trim-panel; abs 3 mm; behind 60mm; between foam 3 mm; edge 60mm; panel floor; removed rarely
trim-panel; abs 3 mm; behind 60mm; between mat 3 mm; edge 60mm; panel floor; removed rarely
trim-panel; abs 3 mm; behind 60mm; edge 60mm; hole-there 5 mm; panel floor; removed rarely
trim-panel; abs 3 mm; behind 60mm; edge 60mm; item-hole 6.6mm; mass 0.3kg; panel floor; removed rarely
trim-panel; aluminium 2 mm; behind 60mm; between carpet 6 mm cut out; edge 60mm; panel floor; removed rarely
trim-panel; aluminium 2 mm; behind 60mm; between mat 3 mm; edge 60mm; panel floor; removed rarely
trim-panel; fibreglass 3 mm; behind 60mm; edge 60mm; grade 12.9; panel floor; reach both-sides; removed rarely;
    where underfloor
trim-panel; galvanised steel 1.5 mm; behind 80 mm; edge 12 mm; item-material plywood; reach both-sides;
    removed rarely; visible yes
trim-panel; galvanised steel 1.5 mm; hole-there M5; panel floor; reach one-side; removed never
trim-panel; galvanised steel 1.5 mm; hole-there M5; panel side; reach one-side; removed never
trim-panel; mdf 18 mm; behind 60mm; between carpet 6 mm cut out; edge 60mm; panel floor; removed rarely
trim-panel; mdf 18 mm; behind 60mm; between foam 3 mm; edge 60mm; panel floor; removed rarely
trim-panel; mdf 18 mm; behind 60mm; between mat 3 mm; edge 60mm; panel floor; removed rarely
trim-panel; mdf 18 mm; behind 60mm; edge 60mm; hole-there 5 mm; panel floor; removed rarely
trim-panel; plywood 18 mm; behind 60mm; edge 60mm; panel door; reach both-sides; removed rarely
trim-panel; plywood 18 mm; behind 60mm; edge 60mm; panel floor; reach both-sides; removed yearly
trim-panel; pp 8 mm; behind 60mm; between foam 3 mm; edge 60mm; panel floor; removed rarely
trim-panel; steel 0.8 mm; behind 60mm; between foam 3 mm; edge 60mm; panel floor; removed rarely
trim-panel; steel 0.8 mm; behind 60mm; edge 60mm; hole-there 5 mm; panel floor; removed rarely
trim-panel; steel 0.8 mm; behind 60mm; edge 60mm; hole-there 7 mm; panel floor; removed rarely
trim-panel; steel 2 mm; hole-there M5; panel floor; reach one-side; removed never
trim-panel; steel 2 mm; hole-there M6 stud; panel roof; reach one-side; removed rarely
trim-panel; steel 2 mm; hole-there M5; panel side; reach one-side; removed never
trim-panel; steel 0.8 mm; behind 30 mm; edge 40 mm; item-hole 6.5 mm; item-thickness 2 mm; mass 0.5 kg;
    removed weekly
trim-panel; steel 0.8 mm; behind 30 mm; edge 40 mm; hole-there 5 mm; item-hole 9 mm; item-thickness 2 mm;
    mass 0.5 kg; removed yearly
trim-panel; steel 0.8 mm; behind 30 mm; edge 40 mm; hole-there 11 mm; item-hole 6.5 mm; item-thickness 2 mm;
    mass 0.5 kg; removed yearly
trim-panel; steel 3 mm; edge 60mm; item-hole 4.5mm; mass 0.05kg; panel side; removed weekly
trim-panel; steel 5 mm; behind 60mm; edge 60mm; panel door; reach both-sides; removed rarely
trim-panel; steel 5 mm; behind 60mm; between carpet 6 mm cut out; edge 60mm; panel floor; removed rarely
trim-panel; steel 5 mm; behind 60mm; between foam 3 mm; edge 60mm; panel floor; removed rarely
trim-panel; steel 5 mm; behind 60mm; between mat 3 mm; edge 60mm; panel floor; removed rarely
trim-panel; steel floor; behind 50 mm; edge 20 mm; hole-there 5.1 mm; item-material pine; mass 2 kg;
    reach one-side; removed never
wire-clamp; fibreglass 5 mm; behind 50 mm; cg 40 mm; item-hole 9 mm; mass 0.1 kg; panel door; reach both-sides;
    removed monthly
wire-clamp; galvanised steel 0.7 mm; behind 50 mm; between carpet 6 mm; edge 10 mm; item-hole 4.5 mm;
    item-material steel; item-thickness 2 mm; reach both-sides; removed never
wire-clamp; pa 3 mm; boss 12x20 mm; edge 40 mm; item-hole 4.5 mm; mass 0.3 kg; panel floor; reach one-side;
    removed never
wire-clamp; plywood 18 mm; behind 80 mm; cg 90 mm; edge 40 mm; panel side; reach both-sides; removed never;
    where cabin
bracket; steel 1 mm; behind 60mm; edge 60mm; item-hole 4.9mm; mass 0.4 g; panel floor; removed never
"""


def asked() -> Iterator[dict[str, str]]:
    """Each question as its fields."""
    for line in _ASKED.replace("\n    ", " ").strip().splitlines():
        item, onto, *said = line.split("; ")
        yield {"item": item, "onto": onto, **dict(field.split(" ", maxsplit=1) for field in said)}


@cache
def answered() -> tuple[tuple[str, MountPoint, tuple[Answer, ...]], ...]:
    """Each question in words, its mount point and its answers."""
    mounts = [(", ".join(said.values()), resolve(read_question(said, builtin()), builtin())) for said in asked()]
    found = [(words, advise(mount, builtin(), changes=False)) for words, mount in mounts]
    return tuple((words, advice.mount, advice.answers) for words, advice in found)
