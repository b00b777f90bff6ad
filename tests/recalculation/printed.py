"""Figures as printed in standards and handbooks, written down here a second time."""

# ISO 898-1 table of stress areas [mm²].
STRESS_AREA = {"M3": 5.03, "M4": 8.78, "M5": 14.2, "M6": 20.1, "M8": 36.6, "M10": 58.0}
PITCH = {"M3": 0.5, "M4": 0.7, "M5": 0.8, "M6": 1.0, "M8": 1.25, "M10": 1.5}  # ISO 261, coarse
# ISO 965-2: least major and pitch diameter of a 6g screw; greatest pitch and least and greatest minor of a 6H nut.
MAJOR_LEAST = {"M3": 2.874, "M4": 3.838, "M5": 4.826, "M6": 5.794, "M8": 7.760, "M10": 9.732}
PITCH_LEAST = {"M3": 2.580, "M4": 3.433, "M5": 4.361, "M6": 5.212, "M8": 7.042, "M10": 8.862}
PITCH_MOST = {"M3": 2.775, "M4": 3.663, "M5": 4.605, "M6": 5.500, "M8": 7.348, "M10": 9.206}
MINOR = {
    "M3": (2.459, 2.599), "M4": (3.242, 3.422), "M5": (4.134, 4.334), "M6": (4.917, 5.153),
    "M8": (6.647, 6.912), "M10": (8.376, 8.676),
}  # fmt: skip
CLEARANCE = {"M3": 3.4, "M4": 4.5, "M5": 5.5, "M6": 6.6, "M8": 9.0, "M10": 11.0}  # ISO 273, medium
TAP_DRILL = {"M3": 2.5, "M4": 3.3, "M5": 4.2, "M6": 5.0, "M8": 6.8, "M10": 8.5}  # ISO 2306
# ISO 7040: greatest height of the nut, and of its threads that hold [mm].
NUT_HEIGHT = {"M4": 6.0, "M5": 6.8, "M6": 8.0, "M8": 9.5, "M10": 11.9}
NUT_THREAD = {"M4": 2.9, "M5": 4.4, "M6": 4.9, "M8": 6.44, "M10": 8.04}
# ISO 898-1 and ISO 3506-1: strength and proof stress [MPa].
STRENGTH = {"4.6": 400, "4.8": 420, "5.8": 520, "8.8": 800, "10.9": 1040, "A2-70": 700}
PROOF = {"4.6": 225, "4.8": 310, "5.8": 380, "8.8": 580, "10.9": 830, "A2-70": 450}
SHEAR_SHARE = {"4.6": 0.6, "4.8": 0.5, "5.8": 0.5, "8.8": 0.6, "10.9": 0.5, "A2-70": 0.5}  # EN 1993-1-8 table 3.4
# ISO 1478: greatest root, greatest major diameter and pitch [mm].
ROOT = {"ST2.9": 2.18, "ST3.5": 2.64, "ST4.2": 3.10, "ST4.8": 3.58, "ST5.5": 4.17, "ST6.3": 4.88}
TAPPING_MAJOR = {"ST2.9": 2.90, "ST3.5": 3.53, "ST4.2": 4.22, "ST4.8": 4.80, "ST5.5": 5.46, "ST6.3": 6.25}
TAPPING_PITCH = {"ST2.9": 1.1, "ST3.5": 1.3, "ST4.2": 1.4, "ST4.8": 1.6, "ST5.5": 1.8, "ST6.3": 1.8}
