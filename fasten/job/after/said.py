"""What is written down of a visit, field by field: what each is, in one line."""

FIELDS = {
    "hole": "the hole as drilled, a size, or one for each fixing: '7.1 mm'",
    "sheet": "how thick it measured: '0.7 mm'",
    "hardware": "what went in: 'M5 rivet nut, round; M5x16'",
    "length": "how long its screw is: '16 mm'",
    "torque": "how tight, a torque, or one for each fixing: '2.4 N·m'",
    "turning": "what turned a prevailing-torque nut before it seated: '1.1 N·m'",
    "held": "what a nut was held at without turning: '2.1 N·m'",
    "drop": "the drop across a ground joint: '9 mV at 60 A'",
    "spin-out": "what turned the body on test pieces, one after the other: '2.9 3.1 3.4'",
    "pull-out": "what pulled it out of test pieces, in N, or kg on a scale: '1450 1520 1390'",
    "drive": "what drove a screw that forms its thread, on test pieces: '0.42 0.45 0.40'",
    "strip": "what stripped it there: '1.55 1.70 1.62'",
    "retorque": "what just moved a screw when it was tightened again, a torque, or one for each fixing",
    "tool": "what measured: 'same wrench' where it also sets the fixing, 'scale with peak hold'",
    "renewed": "which parts are new",
    "by": "who did it",
    "kind": "fitted (which a size, torque, part or what is new says by itself), off or checked (a note by itself)",
    "date": "the day, such as 2026-05-03; today where nothing is said",
    "note": "whatever else is worth knowing",
}
PHOTO = "the path of a photo, as text"
