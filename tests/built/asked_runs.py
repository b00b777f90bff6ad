"""Thirty runs as they are asked for. From a battery stud M8 to a set screw unless it says otherwise."""

FEED = {"from": "battery stud M8", "to": "set screw"}
FAR = {"length": "5 m", "ground": "0.45 m"}
LEAD = {"from": "set screw", "to": "loudspeaker"}
RUNS: tuple[dict[str, str], ...] = (
    *({"carries": f"{watts} W class D", **FAR} for watts in (250, 500, 1000, 1500, 2000, 3000)),
    *({"carries": f"{watts} W class AB", **FAR} for watts in (200, 600, 1200)),
    {"carries": "3000 W class D", "own-fuses": "2 x 30 A", **FAR},
    {"carries": "1000 W class D", **FAR, "series": "mm2"},
    {"carries": "1000 W class D", **FAR, "material": "copper-clad"},
    {"carries": "1000 W class D", **FAR, "where": "engine-bay"},
    {"carries": "1000 W class D", **FAR, "limit": "0.5 V"},
    {"carries": "1000 W class D", **FAR, "system": "24 V"},
    {"carries": "1000 W class D", **FAR, "cable": "4 AWG"},
    {"carries": "1000 W class D", **FAR, "cable": "8 AWG"},
    {"carries": "1000 W class D", **FAR, "cable": "25 mm2", "insulation": "105 C"},
    {"carries": "5 A", "length": "0.8 m", "ground": "0.8 m"},
    {"carries": "20 A", "length": "6 m", "ground": "0.45 m"},
    {"carries": "250 A", **FAR},
    {"carries": "350 A", **FAR},
    {"carries": "100 A", "length": "5 m", "to": "battery post +"},
    {"carries": "96.6 A", "from": "stud M6", "to": "body", "length": "0.45 m"},
    {"carries": "72 A", "length": "4 m", "to": "stud M8", "through-device": "isolator stud M8"},
    {**LEAD, "carries": "loudspeaker 100 W 4 ohm", "length": "4 m"},
    {**LEAD, "carries": "loudspeaker 100 W 4 ohm", "length": "6 m"},
    {**LEAD, "carries": "loudspeaker 1000 W 2 ohm", "length": "1.5 m"},
    {"carries": "remote", "from": "connector", "to": "connector", "length": "4 m"},
    {"carries": "signal", "from": "plug 14 mm", "to": "plug 14 mm", "length": "4 m", "series": "mm2"},
)  # fmt: skip
