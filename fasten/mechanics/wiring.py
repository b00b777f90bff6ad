"""Runs of cable: current, heat, resistance, voltage drop and the loss of a loudspeaker lead."""

from math import ceil, log10, pi, sqrt

from fasten.require import above, at_least, at_most, below, finite, not_negative, positive

_COPPER_C = 234.5  # below 0 °C copper would have no resistance, by the straight line through 20 °C
_COLD_C = 20.0
_G_MM3_PER_KG_CM3 = 1e6
_MILLI_MM = 1e6  # mΩ/m times mm, to Ω
_ROUND_OFF = 1e-9


def amplifier_current_a(*, power_w: float, efficiency_share: float, supply_v: float) -> float:
    """Current that an amplifier takes at full output.

    power_w: power of all channels together into their loudspeakers [W]
    efficiency_share: share of what it takes that it makes into sound [-]
    supply_v: voltage at the amplifier with the engine running [V]
    Returns: current [A]
    Raises: ValueError for a value not above 0, or an efficiency above 1.
    Source: two reference pages for audio in vehicles, I = P/(η·U)
    """
    positive(power_w=power_w, efficiency_share=efficiency_share, supply_v=supply_v)
    at_most(1.0, "nothing gives more than it takes", efficiency_share=efficiency_share)
    return power_w / (efficiency_share * supply_v)


def weight_kg(*, area_mm2: float, length_mm: float, density_g_cm3: float) -> float:
    """Weight of a piece of bare conductor.

    area_mm2: area of the conductor [mm²]
    length_mm: length of the piece [mm]
    density_g_cm3: density of its metal [g/cm³]
    Returns: weight [kg]
    Raises: ValueError for an area or density not above 0, or a length below 0.
    Source: m = ρ·A·l
    """
    positive(area_mm2=area_mm2, density_g_cm3=density_g_cm3)
    not_negative(length_mm=length_mm)
    return density_g_cm3 * area_mm2 * length_mm / _G_MM3_PER_KG_CM3


def loudspeaker_current_a(*, power_w: float, impedance_ohm: float) -> float:
    """Current in a loudspeaker lead.

    power_w: power into the loudspeaker [W]
    impedance_ohm: its nominal impedance [Ω]
    Returns: effective current [A]
    Raises: ValueError for a value not above 0.
    Source: Ohm's law, I = √(P/Z)
    """
    positive(power_w=power_w, impedance_ohm=impedance_ohm)
    return sqrt(power_w / impedance_ohm)


def conductor_temperature_c(
    *, ambient_c: float, insulation_c: float, rated_c: float, current_a: float, ampacity_a: float
) -> float:
    """Temperature of a conductor: it warms by the square of its current, to its insulation's at its ampacity.

    ambient_c: temperature around the cable [°C]
    insulation_c: temperature that the insulation is made for [°C]
    rated_c: temperature around the cable that its ampacity is for [°C]
    current_a: current [A]
    ampacity_a: current at which the conductor is as warm as the insulation may be [A]
    Returns: temperature of the conductor [°C]
    Raises: ValueError for an ampacity not above 0, a current below 0, or insulation no warmer than what is around it.
    Source: heat balance of a long cable, from memory
    """
    finite(ambient_c=ambient_c, rated_c=rated_c)
    positive(ampacity_a=ampacity_a)
    not_negative(current_a=current_a)
    above(rated_c, "the table's cable would not warm at all", insulation_c=insulation_c)
    return ambient_c + (insulation_c - rated_c) * (current_a / ampacity_a) ** 2


def warm_mohm_per_m(*, cold_mohm_per_m: float, conductor_c: float) -> float:
    """Resistance of a copper conductor at its temperature.

    cold_mohm_per_m: resistance at 20 °C [mΩ/m]
    conductor_c: temperature of the conductor [°C]
    Returns: resistance [mΩ/m]
    Raises: ValueError for a resistance not above 0, or a temperature at which copper would have none.
    Source: AC 43.13-1B, paragraph 11-66 d(4): R_T = R_20 (234.5 + T)/254.5
    """
    positive(cold_mohm_per_m=cold_mohm_per_m)
    above(-_COPPER_C, "the straight line for copper ends there", conductor_c=conductor_c)
    return cold_mohm_per_m * (_COPPER_C + conductor_c) / (_COPPER_C + _COLD_C)


def drop_v(*, current_a: float, resistance_mohm_per_m: float, length_mm: float) -> float:
    """Voltage that is lost along a conductor.

    current_a: current [A]
    resistance_mohm_per_m: resistance at the conductor's temperature [mΩ/m]
    length_mm: length of all conductor that the current goes through, the ground lead too [mm]
    Returns: voltage drop [V]
    Raises: ValueError for a resistance not above 0, or a current or length below 0.
    Source: AC 43.13-1B, paragraph 11-66: resistance per length x length x current
    """
    not_negative(current_a=current_a, length_mm=length_mm)
    positive(resistance_mohm_per_m=resistance_mohm_per_m)
    return current_a * resistance_mohm_per_m * length_mm / _MILLI_MM


def loop_ohm(*, resistance_mohm_per_m: float, length_mm: float) -> float:
    """Resistance of a lead there and back.

    resistance_mohm_per_m: resistance of one conductor [mΩ/m]
    length_mm: length of the lead [mm]
    Returns: resistance of both conductors [Ω]
    Raises: ValueError for a value not above 0.
    Source: Ohm's law
    """
    positive(resistance_mohm_per_m=resistance_mohm_per_m, length_mm=length_mm)
    return 2 * resistance_mohm_per_m * length_mm / _MILLI_MM


def lead_loss_db(*, lead_ohm: float, impedance_ohm: float) -> float:
    """How much quieter a loudspeaker is for the resistance of its lead.

    lead_ohm: resistance of the lead, there and back [Ω]
    impedance_ohm: nominal impedance of the loudspeaker [Ω]
    Returns: loss [dB]
    Raises: ValueError for a value not above 0.
    Source: voltage divider, 20 log10(1 + R/Z)
    """
    positive(lead_ohm=lead_ohm, impedance_ohm=impedance_ohm)
    return 20 * log10(1 + lead_ohm / impedance_ohm)


def shrink_cut_mm(*, covered_mm: float, shortening_share: float) -> float:
    """Length of a heat-shrink that covers so much once it is recovered.

    covered_mm: length that it must cover [mm]
    shortening_share: share of its length that it loses in the heat [-]
    Returns: length to cut [mm]
    Raises: ValueError for a length not above 0, or a share not from 0 to below 1.
    Source: two how-to pages, 5 to 15 % shorter
    """
    positive(covered_mm=covered_mm)
    not_negative(shortening_share=shortening_share)
    below(1.0, "nothing would be left", shortening_share=shortening_share)
    return covered_mm / (1 - shortening_share)


def mixed_bundle_mm(*, diameters_mm: tuple[float, ...], factor: float) -> float:
    """Diameter of a bundle of mixed cables: never less than the two thickest side by side.

    diameters_mm: outside of each cable [mm]
    factor: how much wider than a full circle of the same area a bundle lies, 1.2 [-]
    Returns: diameter of the bundle [mm]
    Raises: ValueError for no cable, an outside not above 0, or a factor below 1.
    Source: three pages give 1.2 √Σd²; two side by side is geometry
    """
    at_least(1.0, "a bundle is no thinner than its cables pressed to a full circle", factor=factor)
    at_least(1, "a bundle of nothing has no diameter", diameters_mm=len(diameters_mm))
    for diameter_mm in diameters_mm:
        positive(diameter_mm=diameter_mm)
    ordered = sorted(diameters_mm, reverse=True)
    if len(ordered) == 1:
        return ordered[0]
    return max(factor * sqrt(sum(one**2 for one in ordered)), ordered[0] + ordered[1])


def tape_mm(*, bundle_mm: float, width_mm: float, thickness_mm: float, overlap_share: float, length_mm: float) -> float:
    """Length of tape wound round a bundle, with two further turns at each end.

    bundle_mm: diameter of the bundle [mm]
    width_mm: width of the tape [mm]
    thickness_mm: thickness of the tape [mm]
    overlap_share: share of its width that each turn lies on the one before, 0.5 [-]
    length_mm: length that is wound [mm]
    Returns: length of tape [mm]
    Raises: ValueError for a size not above 0, a length below 0, or an overlap not from 0 to below 1.
    Source: geometry: as much surface as is covered, over what of the width is new
    """
    positive(bundle_mm=bundle_mm, width_mm=width_mm, thickness_mm=thickness_mm)
    not_negative(length_mm=length_mm, overlap_share=overlap_share)
    below(1.0, "no turn would lie on anything new", overlap_share=overlap_share)
    new = 1 - overlap_share
    return pi * (bundle_mm + thickness_mm / new) / (width_mm * new) * length_mm + 4 * pi * bundle_mm


def tie_count(*, length_mm: float, spacing_mm: float) -> int:
    """How many ties bind a length: one at each end, the rest no further apart than the spacing.

    length_mm: length of the bundle [mm]
    spacing_mm: greatest distance between ties [mm]
    Returns: number of ties [-]
    Raises: ValueError for a value not above 0.
    Source: arithmetic; distances of TM 9-8000
    """
    positive(length_mm=length_mm, spacing_mm=spacing_mm)
    return ceil(length_mm / spacing_mm - _ROUND_OFF) + 1
