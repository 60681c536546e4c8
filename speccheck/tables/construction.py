"""What the tables say of a construction: surface films, air layers, framing, metal studs, sealing, cavities.

The readable tables are ``rules/construction/*.yaml``. A convention is chosen by its name and never mixed with
another: ``ashrae-still-air``, ``iso-6946``, ``nbc``.
"""

from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Any, Literal

from speccheck.shelf import rules_folder
from speccheck.tables.compiled import Area, load_area
from speccheck.tables.construction_rows import (
    AirLayerLimits,
    CavityRange,
    Exposure,
    Films,
    Lap,
    MetalFraming,
    SealingMeans,
)
from speccheck.tables.record_value import PERM, R_US, provenance, value_of
from speccheck.tables.value import TableValue

__all__ = [
    "CodeFamily",
    "Convention",
    "HeatFlow",
    "air_layer_limits",
    "areas",
    "cavity_air_changes",
    "equivalent_permeance",
    "films",
    "framing_fraction",
    "metal_framing",
    "minimum_lap",
    "not_a_seal",
    "sealing_aid",
    "sealing_aid_words",
    "sealing_means",
    "sealing_means_ids",
    "substrate_of",
    "surface_check_film",
    "tabulated_air_layer",
    "uv_exposure",
]

HeatFlow = Literal["up", "horizontal", "down"]
Convention = Literal["ashrae-still-air", "iso-6946", "nbc"]
CodeFamily = Literal["iecc", "ashrae-90.1"]

_FILES = ("air-layers", "films", "framing", "metal-framing", "sealing", "ventilated-cavities")
# Spacings are nominal: 16 in, 406 mm and 400 mm mean the same row.
_SAME_SPACING = 0.03
_SAME_DEPTH = 0.05


def films(
    convention: Convention,
    direction: HeatFlow,
    season: Literal["winter", "summer"] = "winter",
    rules: Path | None = None,
) -> Films:
    """Return the surface films of a convention for a direction of heat flow.

    Args:
        convention: ``ashrae-still-air``, ``iso-6946`` or ``nbc``.
        direction: direction of the heat flow in the season reckoned: up through a roof in winter.
        season: of the exterior film, where the convention tells them apart.
        rules: the rules folder; the shipped one when not given.

    Returns:
        The interior, exterior and sheltered film [m²·K/W]; the sheltered one stands behind a well ventilated
        layer and is that of still air.

    Raises:
        ValueError: when the tables do not hold the convention or the direction.

    Example:
        >>> round(films("iso-6946", "horizontal").interior.value, 2)
        0.13

    Source: ISO 6946:2017, read in study notes; ASHRAE Fundamentals, mixed; NBC A-9.36.2.4, mixed.
    """
    interior = exterior = None
    for row in _table("films", rules)["films"]:
        if row["convention"] != convention or row.get("emittance", 0.9) != 0.9:
            continue
        if row["side"] == "interior" and row["heat-flow"] == direction and row.get("surface") != "sloping-45":
            interior = value_of(row)
        if row["side"] == "exterior" and row.get("season", season) == season:
            exterior = value_of(row)
    if interior is None or exterior is None:
        raise ValueError(f"no surface films for convention {convention!r} and heat flow {direction!r}")
    return Films(convention, direction, interior, exterior, sheltered=interior)


def surface_check_film(glazing: bool = False, rules: Path | None = None) -> TableValue:
    """Return the interior film [m²·K/W] of the surface-humidity check, which is not that of the heat loss.

    Args:
        glazing: true for glazing and frames.
        rules: the rules folder; the shipped one when not given.

    Source: ISO 13788:2012, memory; 0.25 read in study notes of DIN 4108.
    """
    surface = "glazing-and-frames" if glazing else "other"
    rows = _table("films", rules)["films"]
    return value_of(
        next(r for r in rows if r["convention"] == "iso-13788-surface" and r["surface"] == surface)
    )


def air_layer_limits(rules: Path | None = None) -> AirLayerLimits:
    """Return the opening areas that part still, slightly ventilated and well ventilated layers.

    Args:
        rules: the rules folder; the shipped one when not given.

    Source: ISO 6946:2017, memory.
    """
    record = _table("air-layers", rules)["ventilation"]
    source, how, confidence, note = provenance(record)
    square = 1e-6
    still, well = record["unventilated-up-to"] * square, record["well-ventilated-from"] * square
    return AirLayerLimits(still, well, source, how, confidence, note)


def tabulated_air_layer(
    convention: Literal["iso-6946", "nbc"],
    thickness: float,
    direction: HeatFlow,
    rules: Path | None = None,
) -> TableValue | None:
    """Return the resistance [m²·K/W] of an unventilated air layer between ordinary faces, by table.

    Args:
        convention: ``iso-6946`` or ``nbc``.
        thickness: thickness [m].
        direction: direction of the heat flow.
        rules: the rules folder; the shipped one when not given.

    Returns:
        The resistance, linear between the rows; None outside the table.

    Raises:
        ValueError: when the tables do not hold the convention.

    Example:
        >>> round(tabulated_air_layer("iso-6946", 0.025, "horizontal").value, 2)
        0.18

    Source: ISO 6946:2017, read in study notes; NBC A-9.36.2.4, mixed.
    """
    table = next((t for t in _table("air-layers", rules)["tables"] if t["convention"] == convention), None)
    if table is None:
        raise ValueError(f"no air-layer table of convention {convention!r}")
    column = table["columns"].index(direction)
    points = [(point[0] / 1000, point[column]) for point in table["points"]]
    for (left, low), (right, high) in pairwise(points):
        if left <= thickness <= right:
            share = (thickness - left) / (right - left)
            return TableValue(low + share * (high - low), None, None, *provenance(table))
    return None


def framing_fraction(
    assembly: Literal["wall", "floor", "ceiling", "roof"],
    spacing: float | None,
    convention: Literal["us", "nbc", "ansi-301", "as-built"] = "us",
    construction: str | None = None,
    rules: Path | None = None,
) -> TableValue | None:
    """Return the share of the area that is framing [1], by convention.

    Args:
        assembly: what is framed.
        spacing: spacing of the members, centre to centre [m]; None leaves rows of any spacing.
        convention: whose fraction.
        construction: ``typical``, ``advanced``, or another word of the table; None takes the first row.
        rules: the rules folder; the shipped one when not given.

    Returns:
        The fraction, or None when the convention has no row for it.

    Example:
        >>> framing_fraction("wall", 0.406).value
        0.25

    Source: ASHRAE 90.1 appendix A, memory; NBC 2025 Table A-9.36.2.4.(1)-A, read; ANSI 301, memory.
    """
    for row in _table("framing", rules)["fractions"]:
        if (row["convention"], row["assembly"]) != (convention, assembly):
            continue
        if construction not in (None, row["construction"]):
            continue
        printed = row.get("spacing")
        if spacing is None or printed is None or _near(spacing, printed / 1000, _SAME_SPACING):
            return value_of(row, key="fraction")
    return None


def metal_framing(
    family: CodeFamily, depth: float, spacing: float, rules: Path | None = None
) -> MetalFraming | None:
    """Return what a family of codes leaves of the cavity insulation between metal studs.

    Args:
        family: ``iecc`` or ``ashrae-90.1``; the two differ and must not be crossed.
        depth: depth of the stud [m].
        spacing: spacing, centre to centre [m]; a row serves its own spacing and less.
        rules: the rules folder; the shipped one when not given.

    Returns:
        The rows for the nearest printed depth within 5 % and the least printed spacing that is not below the
        given one, or None.

    Raises:
        ValueError: when the tables do not hold the family.

    Source: IECC Table C402.1.4.1, mixed; ASHRAE 90.1 Table A9.2-2, mixed.
    """
    table = next((f for f in _table("metal-framing", rules)["families"] if f["family"] == family), None)
    if table is None:
        raise ValueError(f"no metal framing table of the code family {family!r}")
    rows = [row for row in table["rows"] if _near(depth, row["depth"] / 1000, _SAME_DEPTH)]
    wide = {row["spacing"] for row in rows if spacing <= row["spacing"] / 1000 * (1 + _SAME_SPACING)}
    if not wide:
        return None
    kept = [row for row in rows if row["spacing"] == min(wide)]
    return MetalFraming(
        family=family,
        depth=kept[0]["depth"] / 1000,
        spacing=min(wide) / 1000,
        factors=tuple(
            (row["cavity-r"] * R_US, value_of(row, key="factor")) for row in kept if "factor" in row
        ),
        effective=tuple((row["cavity-r"] * R_US, value_of(row, R_US, key="effective-r")) for row in kept),
    )


def sealing_means_ids(rules: Path | None = None) -> tuple[str, ...]:
    """Return the ids of all means of sealing, sorted."""
    return tuple(sorted(means["id"] for means in _table("sealing", rules)["means"]))


def sealing_aid_words(rules: Path | None = None) -> tuple[str, ...]:
    """Return the words for what helps a means of sealing and is none itself, such as a primer, sorted."""
    return tuple(sorted(word for aid in _table("sealing", rules)["aids"] for word in aid["words"]))


def sealing_means(name: str, rules: Path | None = None) -> SealingMeans | None:
    """Return a means of sealing by its id, or None when the tables do not know it."""
    record = next((one for one in _table("sealing", rules)["means"] if one["id"] == name), None)
    if record is None:
        return None
    source, how, confidence, _ = provenance(record)
    return SealingMeans(
        id=record["id"],
        title=record["title"],
        lowest_temperature=record["lowest-temperature"],
        temperature_note=record["temperature-note"],
        ratings=dict(record["ratings"]),
        note=record.get("note"),
        source=source,
        how=how,
        confidence=confidence,
    )


def not_a_seal(word: str, rules: Path | None = None) -> str | None:
    """Return what a word stands for that names no seal at all, such as staples, or None where it may be one."""
    rows = _table("sealing", rules)["not-seals"]
    return next((str(row["title"]) for row in rows if word in row["words"]), None)


def sealing_aid(word: str, rules: Path | None = None) -> str | None:
    """Return which want of a rating a word answers (``primer``, ``clamp`` or ``other``), or None for any other word."""
    rows = _table("sealing", rules)["aids"]
    return next((str(row["id"]) for row in rows if word in row["words"]), None)


def substrate_of(material: str, rules: Path | None = None) -> str | None:
    """Return the substrate that a material family counts as for sealing, or None when not in the table."""
    substrates = _table("sealing", rules)["substrates"]
    return next((name for name, entry in substrates.items() if material in entry["materials"]), None)


def minimum_lap(name: str, rules: Path | None = None) -> Lap | None:
    """Return a minimum lap by its id (``irc-wrb-horizontal``), or None when the tables do not know it."""
    record = next((one for one in _table("sealing", rules)["minimum-laps"] if one["id"] == name), None)
    if record is None:
        return None
    length = value_of(record, 1e-3, key="length") if "length" in record else None
    return Lap(record["id"], record["title"], length)


def uv_exposure(name: str, rules: Path | None = None) -> Exposure | None:
    """Return how many days a thing of that id bears the weather, or None when the tables do not know it."""
    record = next((one for one in _table("sealing", rules)["uv-exposure"] if one["id"] == name), None)
    return record and Exposure(record["id"], record["title"], value_of(record, key="days"))


def cavity_air_changes(cladding: str, rules: Path | None = None) -> CavityRange | None:
    """Return the usual air changes [1/h] behind a cladding, a range of low confidence, or None."""
    rows = _table("ventilated-cavities", rules)["air-changes"]
    record = next((one for one in rows if one["id"] == cladding), None)
    return record and CavityRange(
        record["id"], record["title"], record["low"], record["high"], *provenance(record)
    )


def equivalent_permeance(cladding: str, rules: Path | None = None) -> TableValue | None:
    """Return the permeance [kg/(m²·s·Pa)] a ventilated cladding amounts to, or None; low confidence."""
    rows = _table("ventilated-cavities", rules)["equivalent-permeance"]
    record = next((one for one in rows if one["id"] == cladding), None)
    return record and value_of(record, PERM, key="permeance")


def areas(rules: Path | None = None) -> list[Area]:
    """Return the areas the construction tables are compiled into, one for each file."""
    folder = rules or rules_folder()
    return [Area(f"construction/{name}", (_file(name, folder),), _content) for name in _FILES]


def _table(name: str, rules: Path | None) -> dict[str, Any]:
    return _loaded(name, rules or rules_folder())


@lru_cache(maxsize=32)
def _loaded(name: str, folder: Path) -> dict[str, Any]:
    content: dict[str, Any] = load_area(f"construction/{name}", (_file(name, folder),), _content, folder)
    return content


def _file(name: str, folder: Path) -> Path:
    return folder / "construction" / f"{name}.yaml"


def _content(files: dict[str, Any]) -> dict[str, Any]:
    return {key: value for content in files.values() for key, value in content.items()}


def _near(value: float, printed: float, tolerance: float) -> bool:
    return abs(value / printed - 1.0) <= tolerance
