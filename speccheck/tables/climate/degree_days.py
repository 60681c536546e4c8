"""The climate zone of a place that no county table lists, from its degree days, rain and monthly means."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Any, NamedTuple

from speccheck.shelf import rules_folder
from speccheck.tables.climate.zones import map_of

__all__ = ["ComputedZone", "canada_band", "is_dry", "is_marine", "zone_from_degree_days"]

_INCH = 0.0254


class ComputedZone(NamedTuple):
    """A zone worked out by the criteria of a map.

    `numbers` are those possible with what is known, `moisture` the letter or nothing, `missing` what would
    settle the rest, `notes` what was assumed on the way.
    """

    map: int
    numbers: tuple[int, ...]
    moisture: str
    missing: tuple[str, ...]
    notes: tuple[str, ...]
    source: str

    @property
    def zone(self) -> str:
        """The zone where one number is possible, with its letter where known; else nothing."""
        return f"{self.numbers[0]}{self.moisture}" if len(self.numbers) == 1 else ""


@lru_cache(maxsize=1)
def _criteria() -> dict[str, Any]:
    import yaml

    text = (rules_folder() / "climate" / "zone-criteria.yaml").read_text(encoding="utf-8")
    criteria: dict[str, Any] = yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    return criteria


def _within(value: float | None, bounds: Sequence[float | None] | None) -> bool:
    if value is None or bounds is None:
        return True
    low, high = bounds
    return (low is None or value > low) and (high is None or value <= high)


def _too_cool(band: dict[str, Any], hdd18: float, cdd10: float | None) -> bool:
    """Say whether a band of cooling alone is out of the question for a place with that much heating."""
    cooling_only = "hdd18" not in band
    return cooling_only and cdd10 is None and hdd18 > _criteria()["cool_enough_above_hdd18"]


def _possible(band: dict[str, Any], hdd18: float, cdd10: float | None, marine: bool | None) -> bool:
    if marine is not None and band.get("marine", marine) != marine:
        return False
    return (
        _within(hdd18, band.get("hdd18"))
        and _within(cdd10, band.get("cdd10"))
        and not _too_cool(band, hdd18, cdd10)
    )


def zone_from_degree_days(
    hdd18: float,
    cdd10: float | None = None,
    *,
    edition: int = 2021,
    marine: bool | None = None,
    dry: bool | None = None,
) -> ComputedZone:
    """Return the climate zone of a place by its degree days.

    Args:
        hdd18: [K·d], heating degree days below 18 °C, 0 or more.
        cdd10: [K·d], cooling degree days above 10 °C, where known.
        edition: year of the code.
        marine: result of `is_marine`, where known.
        dry: result of `is_dry`, where known.

    Returns:
        the numbers possible, the letter where known, and what is missing.

    Raises:
        ValueError: for negative degree days.

    Notes:
        only for places outside the US county table, which decides where it has the place. Without cooling
        degree days, a place above 2000 K·d of heating is taken to have no more than 3500 K·d of cooling,
        and a note says so. The code counts from 65 °F (18.3 °C): the same
        year holds up to about 100 K·d less below 18 °C.

    Example:
        >>> zone_from_degree_days(3430, 1743, marine=False, dry=False).zone
        '5A'
        >>> zone_from_degree_days(1500).numbers, zone_from_degree_days(1500).missing[0]
        ((0, 1, 2, 3), 'cooling degree days above 10 °C')

    Source: IRC 2018 Table N1101.7.2(1); IRC 2021 and 2024 Table N1101.7.2; read.
    """
    if hdd18 < 0 or (cdd10 is not None and cdd10 < 0):
        raise ValueError("degree days are not negative")
    rules = _criteria()["maps"][2018 if map_of(edition) == 2018 else 2021]
    bands = [band for band in rules["bands"] if _possible(band, hdd18, cdd10, marine)]
    numbers = tuple(sorted({band["number"] for band in bands}))
    notes = []
    if any(_too_cool(band, hdd18, cdd10) for band in rules["bands"]):
        notes.append("cooling degree days not given; taken as no more than 3500 K·d above 10 °C")
    moisture = _letter(numbers, marine, dry)
    missing = _missing(numbers, moisture, cdd10, marine)
    return ComputedZone(map_of(edition), numbers, moisture, missing, tuple(notes), rules["source"])


def _letter(numbers: tuple[int, ...], marine: bool | None, dry: bool | None) -> str:
    if not numbers or numbers[0] >= 7:
        return ""
    if marine and numbers[0] >= 3 and numbers[-1] <= 5:
        return "C"
    # Only zones 3 to 5 can be marine, so the others need no answer to that question.
    may_be_marine = marine is None and any(3 <= number <= 5 for number in numbers)
    return "" if dry is None or may_be_marine else "B" if dry else "A"


def _missing(
    numbers: tuple[int, ...], moisture: str, cdd10: float | None, marine: bool | None
) -> tuple[str, ...]:
    missing = []
    if len(numbers) > 1 and cdd10 is None:
        missing.append("cooling degree days above 10 °C")
    if not moisture and numbers and numbers[0] < 7:
        if marine is None and any(3 <= number <= 5 for number in numbers):
            missing.append("monthly temperature and rain, to tell whether it is marine")
        missing.append("rain and mean temperature of the year, to tell whether it is dry")
    return tuple(missing)


def is_marine(temperature: Sequence[float], precipitation: Sequence[float]) -> bool:
    """Say whether a place north of the equator is marine.

    Args:
        temperature: [°C], twelve monthly means, January first.
        precipitation: [any unit], twelve monthly sums.

    Returns:
        whether the coldest month lies between -3 and 18 °C, the warmest below 22 °C, at least four months
        are over 10 °C, and the wettest month of October to March has at least three times the rain of the
        driest of the others.

    Raises:
        ValueError: where there are not twelve values.

    Example:
        Seattle's temperatures with a wet winter and a dry summer.
        >>> mild = [5, 6, 7.5, 9.5, 13, 15.5, 18, 18, 15.5, 11, 7.5, 5]
        >>> is_marine(mild, [140, 100, 95, 65, 50, 40, 18, 23, 43, 82, 150, 145])
        True

    Source: IRC 2021 N1101.7.2, read.
    """
    if len(temperature) != 12 or len(precipitation) != 12:
        raise ValueError("a year has twelve months")
    rule = _criteria()["marine"]
    low, high = rule["coldest_month"]
    warm = sum(month > rule["warm_months"]["above"] for month in temperature)
    wettest = max((*precipitation[:3], *precipitation[9:]))
    driest = min(precipitation[3:9])
    return bool(
        low <= min(temperature) <= high
        and max(temperature) < rule["warmest_month_below"]
        and warm >= rule["warm_months"]["at_least"]
        and wettest >= rule["wettest_cold_over_driest_other"] * driest
    )


def is_dry(mean_temperature: float, precipitation: float, summer_share: float | None = None) -> bool:
    """Say whether a place that is not marine is dry.

    Args:
        mean_temperature: [°C], of the year.
        precipitation: [m], of the year.
        summer_share: part of the rain that falls from April to September in the north, 0 to 1, where known.

    Returns:
        whether the year's rain is below 0.44 in per °F of mean temperature above an offset that depends on
        the share.

    Raises:
        ValueError: where the share is out of range or the rain negative.

    Notes:
        without the share the formula for even rain is used, the only one of the 2018 map. The formulas for
        summer rain and winter rain are from memory.

    Example:
        Albuquerque, 13.7 °C and 198 mm, is dry; Chicago, 10 °C and 874 mm, is not.
        >>> is_dry(13.7, 0.198), is_dry(10.0, 0.874)
        (True, False)

    Source: IRC 2018 Table N1101.7.2(1) and IRC 2021 N1101.7.2, the even formula read, the other two from
    memory.
    """
    if precipitation < 0 or (summer_share is not None and not 0 <= summer_share <= 1):
        raise ValueError("rain is not negative, and its summer share lies between 0 and 1")
    rule = _criteria()["dry"]
    offset = rule["even"]
    if summer_share is not None:
        offset = _offset(rule["offsets"], summer_share)
    fahrenheit = mean_temperature * 1.8 + 32
    return precipitation / _INCH < float(rule["inches_per_fahrenheit"]) * (fahrenheit - float(offset))


def _offset(offsets: list[dict[str, Any]], share: float) -> float:
    # The winter formula holds up to and with 30 %, the one for even rain above that.
    summer, even, winter = offsets
    if share >= summer["summer_share_at_least"]:
        return float(summer["fahrenheit"])
    return float((even if share > even["summer_share_at_least"] else winter)["fahrenheit"])


def canada_band(hdd18: float) -> str:
    """Return the Canadian zone of heating degree days.

    Args:
        hdd18: [K·d], heating degree days below 18 °C, 0 or more.

    Returns:
        4, 5, 6, 7A, 7B or 8. The letters part zone 7 by degree days and have nothing to do with moisture.

    Raises:
        ValueError: for negative degree days.

    Example:
        >>> canada_band(2999), canada_band(3000), canada_band(5200), canada_band(7000)
        ('4', '5', '7A', '8')

    Source: NBC 9.36.2.6, heads of the tables, read.
    """
    if hdd18 < 0:
        raise ValueError("degree days are not negative")
    bands: dict[str, float] = _criteria()["canada"]["bands"]
    return max((lowest, band) for band, lowest in bands.items() if hdd18 >= lowest)[1]
