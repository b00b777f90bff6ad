"""What heads, nuts and washers of a form are called in a line."""

HEAD_TITLES = {
    "button": "button head", "collar_button": "button head with collar", "cylinder": "socket head cap screw",
    "countersunk": "countersunk socket head", "pan": "pan head", "hexagon_flange": "hexagon flange screw",
    "hexagon": "hexagon screw", "pan_tapping": "pan head tapping screw",
}  # fmt: skip
NUT_TITLES = {
    "prevailing_torque": "prevailing-torque", "prevailing_torque_thin": "thin prevailing-torque", "hexagon": "ordinary",
}  # fmt: skip
WASHER_TITLES = {"plain": "plain washer", "large": "large washer", "penny": "penny washer", "spring": "spring washer"}
