"""Factors between what breaks and what is allowed, by kind of load case: service, hard stop, load that stays.

Each with where it comes from; written down here a second time, not read from the tables.
"""

# What fails, by family.
FAMILY = {
    "sheet": "sheet-bearing pull-through pull-out sheet-shear item-bearing item-pull-over thread-strip rivet-bearing "
    "blind-head",
    "sheet EN": "bearing-en pull-out-en",
    "proof": "screw-proof",
    "screw": "screw-tension screw-shear",
    "receiver": "receiver-thread",
    "rivet": "rivet-shear rivet-tension nut-shear",
    "core": "core-tension core-shear",
    "board": "withdrawal insert-withdrawal board-lateral-edge",
    "board bearing": "board-lateral board-bolt item-bearing-board",
    "plastic": "plastic-bearing plastic-pull-out plastic-punch item-bearing-plastic",
    "pressure": "item-pressure board-back flange-pull plastic-back",
    "hook": "hook-pull hook-shear",
    "bond": "bond-pull bond-shear",
    "tape": "tape-pull tape-shear tape-creep tape-hangs",
    "magnet": "magnet-pull magnet-slip",
    "dent": "dent",
}
FACTOR = {
    # AISI S100 chapter E4, Ω = 3 in service; EN 1993-1-3, γM2 = 1.25 on what happens once in a lifetime.
    "sheet": {"service": 3.0, "hard_stop": 1.25},
    "sheet EN": {"hard_stop": 1.25},
    "proof": {"service": 1.0},  # ISO 898-1: below the proof load no lasting set
    "screw": {"hard_stop": 1.25},  # EN 1993-1-8, γM2
    "receiver": {"service": 1.25, "hard_stop": 1.25},  # common practice, on a least proof load of a supplier's sheet
    "rivet": {"service": 3.0, "hard_stop": 1.25},  # as sheet
    "core": {"service": 3.0, "hard_stop": 1.25},  # AISI S100 E4 has its omega on the screw's own strength too
    # Common practice on a mean ultimate; 5.5 from the Wood Handbook's mean to an NDS design value.
    "board": {"service": 3.0, "hard_stop": 2.0, "sustained": 5.5},
    "board bearing": {
        "service": 3.0,
        "hard_stop": 1.25,
        "sustained": 5.5,
    },  # a face under a shank gives slowly: practice
    "plastic": {"service": 3.0, "hard_stop": 2.0},  # resin makers' joining guides
    "pressure": {"service": 1.0, "hard_stop": 1.0},  # a limit in itself, common practice
    "hook": {"service": 3.0, "hard_stop": 2.0, "sustained": 10.0},  # common practice
    "bond": {"service": 3.0, "hard_stop": 2.0, "sustained": 20.0},  # common practice; from memory
    "tape": {"service": 1.0, "hard_stop": 1.0, "sustained": 1.0},  # margin within the tape makers' stresses
    "magnet": {"service": 3.0, "hard_stop": 2.0, "sustained": 3.0},  # common practice
    "dent": {"service": 1.5},  # common practice, on what stays bent; a stop may dent the sheet
}


def factor(stem: str, kind: str) -> float:
    """The factor of a check by its way to fail and its kind of load case."""
    family = next(name for name, stems in FAMILY.items() if stem in stems.split())
    return FACTOR[family][kind]
