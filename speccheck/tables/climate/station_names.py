"""US weather stations by what a person calls them: the number, the name, or both as reports print them."""

import re
from difflib import get_close_matches
from functools import lru_cache

from speccheck.tables.climate.lines import lines
from speccheck.tables.climate.stations import Station, station

__all__ = ["near_stations", "station_called"]

_FILE = "stations.csv"
_NUMBERED = re.compile(r"(\d{6})(?:\s+(.+))?")
_MOST = 3


def _folded(name: str) -> str:
    return " ".join(name.casefold().split())


@lru_cache(maxsize=1)
def _by_name() -> dict[str, tuple[str, str]]:
    """Return number and name of each station by its folded name, with and without its state."""
    found: dict[str, list[tuple[str, str]]] = {}
    for line in lines(_FILE):
        number, name, state, _ = line.split(",", 3)
        for spelled in (name, f"{name}, {state}"):
            found.setdefault(_folded(spelled), []).append((number, name))
    return {name: held[0] for name, held in found.items() if len(held) == 1}


def station_called(text: str) -> Station | None:
    """Return the station of a number or a name.

    Args:
        text: six-digit number; or name, with or without its state, in capitals or not; or number and name.

    Returns:
        the station; None where nothing or more than one is called so, or where number and name disagree.

    Example:
        >>> station_called("montpelier ap").id, station_called("Montpelier AP, VT").id
        ('726145', '726145')
        >>> station_called("726145 Montpelier AP").state
        'VT'

    Source: NREL typical meteorological years, third edition (1976-2005 or 1991-2005), names of the stations, read.
    """
    numbered = _NUMBERED.fullmatch(text.strip())
    if numbered is None:
        held = _by_name().get(_folded(text))
        return station(held[0]) if held else None
    found = station(numbered[1])
    if found is None or numbered[2] is None:
        return found
    return found if station_called(numbered[2]) == found else None


def near_stations(text: str) -> tuple[str, ...]:
    """Return names of stations near to one that is not held, nearest first, three at most.

    Args:
        text: what was asked for.

    Example:
        >>> near_stations("Montpelier")
        ('Montpelier AP',)

    Source: our own choice of rule, no source.
    """
    names, asked = _by_name(), _folded(text)[:100]
    if not asked or asked.isdigit():
        return ()
    begin = [name for name in names if name.startswith(asked)]
    alike = get_close_matches(asked, list(names), n=2 * _MOST, cutoff=0.7)
    return tuple(dict.fromkeys(names[name][1] for name in (begin or alike)))[:_MOST]
