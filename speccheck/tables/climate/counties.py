"""US counties: their climate zones on each map, found by FIPS code or by name."""

import unicodedata
from functools import lru_cache
from typing import NamedTuple

from speccheck.tables.climate.lines import line_of, lines
from speccheck.tables.climate.zones import map_of

__all__ = ["CountyUnclear", "CountyZones", "zones_of_county"]

_FILE = "counties.csv"
_KINDS = ("county", "parish", "borough", "census area", "municipality", "municipio", "city and borough")


class CountyZones(NamedTuple):
    """A county or what counts as one: its zones and warm-humid marks on the 2018, 2021 and 2024 maps.

    `note` says where sources differ or a name has changed, and is empty elsewhere; `source` names an entry
    of the sources. The warm-humid mark of the 2024 map is that of 2021: the two tables are the same.
    """

    fips: str
    state: str
    name: str
    zone_2018: str
    zone_2021: str
    zone_2024: str
    warm_humid_2018: bool
    warm_humid_2021: bool
    note: str = ""
    source: str = "us-county-zones"

    @property
    def warm_humid_2024(self) -> bool:
        """Say whether the county is marked warm-humid on the 2024 map."""
        return self.warm_humid_2021

    def zone(self, edition: int) -> str:
        """Return the zone under a code edition, given by its year."""
        return {2018: self.zone_2018, 2021: self.zone_2021, 2024: self.zone_2024}[map_of(edition)]

    def warm_humid(self, edition: int) -> bool:
        """Say whether the county is marked warm-humid under a code edition, given by its year."""
        return self.warm_humid_2018 if map_of(edition) == 2018 else self.warm_humid_2021


class CountyUnclear(NamedTuple):
    """What was asked names no single county: the counties it `fits` equally, else names that are `near`."""

    asked: str
    fits: tuple[CountyZones, ...] = ()
    near: tuple[str, ...] = ()

    def agreed(self, edition: int) -> str:
        """Return the zone all fitting counties share under an edition, or nothing where they do not."""
        zones = {county.zone(edition) for county in self.fits}
        return zones.pop() if len(zones) == 1 else ""


def _county(line: str) -> CountyZones:
    fips, state, name, on_2018, on_2021, on_2024, humid_2018, humid_2021, note = line.split(",", 8)
    humid = (humid_2018 == "1", humid_2021 == "1")
    return CountyZones(fips, state, name, on_2018, on_2021, on_2024, *humid, note)


def _letters(words: str) -> str:
    plain = unicodedata.normalize("NFKD", words).lower().replace("saint ", "st ").replace("sainte ", "ste ")
    return "".join(letter for letter in plain if letter.isalpha())


def _asked(name: str) -> tuple[str, bool]:
    """Return the letters of a name without the word for its kind, and whether it said it is no city."""
    words = " ".join(name.lower().split())
    for kind in ("county of ", "parish of "):
        if words.startswith(kind):
            return _letters(words.removeprefix(kind)), True
    if words.startswith("city of "):
        return _letters(words.removeprefix("city of ")) + "city", False
    for kind in sorted(_KINDS, key=len, reverse=True):
        if words.endswith(" " + kind):
            return _letters(words.removesuffix(" " + kind)), True
    return _letters(words), False


def _fits(line: str, letters: str, no_city: bool) -> bool:
    name = line.split(",", 3)[2].removesuffix(" (former)")
    # An independent city is written with a small c ("St. Louis city"); Carson City is a name.
    is_city = name.endswith(" city")
    if is_city and not no_city and _letters(name.removesuffix(" city")) == letters:
        return True
    return not (is_city and no_city) and _letters(name) == letters


@lru_cache(maxsize=1)
def _state_codes() -> dict[str, str]:
    pairs = [line.split(",") for line in lines("states.csv")]
    return {_letters(word): code for code, name in pairs for word in (code, name)}


@lru_cache(maxsize=64)
def _in_state(state: str) -> tuple[str, ...]:
    return tuple(line for line in lines(_FILE) if not state or line[6:8] == state)


def _near(letters: str, candidates: tuple[str, ...]) -> tuple[str, ...]:
    from difflib import get_close_matches

    names = {
        _letters(parts[2]): f"{parts[2]} {parts[1]}" for parts in (line.split(",", 3) for line in candidates)
    }
    inside = [known for known in names if len(letters) > 3 and letters in known]
    close = get_close_matches(letters, names, n=4, cutoff=0.75)
    return tuple(names[known] for known in dict.fromkeys(inside[:4] + close))[:5]


def _by_name(name: str, state: str | None) -> CountyZones | CountyUnclear:
    asked = f"{name}, {state}" if state else name
    if not state and "," in name:
        name, _, state = name.rpartition(",")
    code = _state_codes().get(_letters(state), "?") if state else ""
    candidates = _in_state(code)
    if not candidates:
        return CountyUnclear(asked)
    letters, no_city = _asked(name)
    found = [line for line in candidates if _fits(line, letters, no_city)]
    fits = [line for line in found if " (former)" not in line] or found
    if len(fits) == 1:
        return _county(fits[0])
    if fits:
        return CountyUnclear(asked, fits=tuple(map(_county, fits)))
    return CountyUnclear(asked, near=_near(letters, candidates))


@lru_cache(maxsize=512)
def zones_of_county(
    fips: str | None = None, name: str | None = None, state: str | None = None
) -> CountyZones | CountyUnclear:
    """Return the climate zones of a US county.

    Args:
        fips: five-digit FIPS code.
        name: the county's name, with or without its kind (County, Parish, city), where no code is given.
        state: postal code or name of the state.

    Returns:
        the county; or, where the answer is not plain, what fits (a county and an independent city of one
        name, one name in several states) or else what is near (nothing where the state or the code is
        unknown).

    Raises:
        ValueError: where neither a code nor a name is given.

    Notes:
        accents, Saint and spaces in names do not matter. States amend the map; the answer is the model
        code's, not the state's.

    Example:
        >>> zones_of_county(name="King County", state="WA").zone_2021
        '4C'
        >>> [county.name for county in zones_of_county(name="St. Louis", state="MO").fits]
        ['St. Louis', 'St. Louis city']
        >>> zones_of_county(name="Hennepen", state="MN").near
        ('Hennepin MN',)

    Source: IRC 2018 Table N1101.7, IRC 2021 and 2024 Table N1101.7, read.
    """
    if fips is not None:
        line = line_of(_FILE, fips.strip()) if len(fips.strip()) == 5 else None
        return _county(line) if line else CountyUnclear(fips)
    if name is None:
        raise ValueError("a county needs its FIPS code, or its name and state")
    return _by_name(name, state)
