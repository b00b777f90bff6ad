"""The single figures of `wiring-rules.toml`, each by a name that is known before the program runs."""

from enum import Enum
from functools import lru_cache

from fasten.catalog.tables import Tables
from fasten.catalog.wiring import WIRING_RULES, WiringRule


class WiringRules(Enum):
    """The rules of runs of cable, in the order of their table; a name is the key of its row."""

    SUPPLY_12 = "supply-12"
    SUPPLY_24 = "supply-24"
    DROP_LIMIT = "drop-limit"
    DROP_STOP = "drop-stop"
    FUSE_SHARE = "fuse-share"
    FUSE_WITHIN = "fuse-within"
    FUSE_AT = "fuse-at"
    GROUND_MOST = "ground-most"
    END_MORE = "end-more"
    END_MORE_THIN = "end-more-thin"
    END_MORE_THIN_BELOW = "end-more-thin-below"
    STRIP_MORE = "strip-more"
    STRIP_MORE_LARGE = "strip-more-large"
    STRIP_LARGE_OVER = "strip-large-over"
    SHRINK_PASS = "shrink-pass"
    SHRINK_GRIP = "shrink-grip"
    SHRINK_SHORTENS = "shrink-shortens"
    COVER = "cover"
    COVER_LARGE = "cover-large"
    SPLICE_COVERED = "splice-covered"
    LUG_FROM = "lug-from"
    BODY_STUD_LARGE_FROM = "body-stud-large-from"
    SMALL_ROPE = "small-rope"
    PACK_MORE = "pack-more"
    PACK_LEAST = "pack-least"
    PACK_STEP = "pack-step"
    SHRINK_SPARE = "shrink-spare"
    MARKER_OVER = "marker-over"
    BEND = "bend"
    BODY_CABLE_OVER = "body-cable-over"
    CLAMP_HIDDEN = "clamp-hidden"
    CLAMP_OPEN = "clamp-open"
    TIE_CHANNEL = "tie-channel"
    TIE_SPARE = "tie-spare"
    TIE_BAG = "tie-bag"
    TUBE_FILL = "tube-fill"
    BUNDLE_MIXED = "bundle-mixed"
    GROMMET_PLAY = "grommet-play"
    TAPE_WIDTH = "tape-width"
    TAPE_THICKNESS = "tape-thickness"
    TAPE_OVERLAP = "tape-overlap"
    TAPE_SPARE = "tape-spare"
    STRAIGHT_MORE = "straight-more"
    CLAD_RESISTANCE = "clad-resistance"
    CLAD_AMPACITY = "clad-ampacity"
    AMBIENT = "ambient"
    AMBIENT_ENGINE = "ambient-engine"
    INSULATION_BOUGHT = "insulation-bought"
    INSULATION_UNMARKED = "insulation-unmarked"
    MUSIC_SHARE = "music-share"
    LOOP_SHARE = "loop-share"
    LOUDSPEAKER_INSULATION = "loudspeaker-insulation"
    CURRENT_MOST = "current-most"
    COPPER_DENSITY = "copper-density"


def wiring_rule(tables: Tables, name: WiringRules) -> WiringRule:
    """The figure of a rule, with its unit and why it is so."""
    return tables.need(WIRING_RULES, name.value)


@lru_cache(maxsize=256)
def rule_figure(tables: Tables, name: WiringRules) -> tuple[float, str]:
    """The figure of a rule and its source."""
    row = wiring_rule(tables, name)
    return row.value, tables.source_id(WIRING_RULES, row)
