"""A climate zone of the US codes: its number, its moisture letter, and which map an edition uses."""

import re
from typing import Literal, NamedTuple

__all__ = ["MAPS", "Map", "Zone", "map_of", "zone"]

Map = Literal[2018, 2021, 2024]
MAPS: tuple[Map, ...] = (2018, 2021, 2024)

_FORM = re.compile(r"(?:climate\s+)?(?:zone\s*|cz\s*)?([0-8])\s*\(?([ABC]?)\)?", re.IGNORECASE)
_MARINE = re.compile(r"(?:zone\s*)?marine\s*([345])", re.IGNORECASE)


class Zone(NamedTuple):
    """A climate zone: `number` 0 to 8; `moisture` A (moist), B (dry), C (marine) or nothing (not known)."""

    number: int
    moisture: str = ""

    def __str__(self) -> str:
        return f"{self.number}{self.moisture}"

    @property
    def lacks_letter(self) -> bool:
        """Say whether a moisture letter is wanted and not given; zones 7 and 8 have none."""
        return self.number <= 6 and not self.moisture


def zone(text: str) -> Zone:
    """Read a climate zone such as ``6A``, ``zone 4C``, ``Marine 4``, ``7``.

    Args:
        text: the zone as written; case and the word "zone" do not matter.

    Returns:
        the zone, with an empty moisture letter where none is written.

    Raises:
        ValueError: where the text is no zone of the maps.

    Notes:
        C exists for zones 3 to 5 only, zone 8 has no letter. ``7A`` and ``7B`` are bands of degree days in
        Canada, not moist and dry; the letter is kept as written.

    Example:
        >>> zone("zone 4c")
        Zone(number=4, moisture='C')
        >>> str(zone("Marine 4")), zone("5").lacks_letter, zone("7").lacks_letter
        ('4C', True, False)

    Source: IRC 2021 Table N1101.7.2 (numbers and letters that exist), read.
    """
    written = text.strip()
    marine = _MARINE.fullmatch(written)
    if marine:
        return Zone(int(marine[1]), "C")
    form = _FORM.fullmatch(written)
    if form is None:
        raise ValueError(
            f"{text!r} is no climate zone; a zone is a number from 0 to 8 and a letter, such as 5A, 4C or 7"
        )
    number, letter = int(form[1]), form[2].upper()
    if (letter == "C" and number not in (3, 4, 5)) or (letter and number == 8):
        raise ValueError(
            f"there is no climate zone {number}{letter}; C exists for 3, 4 and 5, and zone 8 has no letter"
        )
    return Zone(number, letter)


def map_of(edition: int) -> Map:
    """Return the map that a code edition uses.

    Args:
        edition: year of the edition, 2006 or later.

    Returns:
        2018 for the editions of 2006 to 2018, 2021 for 2021 to 2023, 2024 from then on.

    Raises:
        ValueError: for a year before 2006.

    Example:
        >>> map_of(2012), map_of(2021), map_of(2024)
        (2018, 2021, 2024)

    Source: county tables of the IRC 2018, 2021 and 2024, read; that the map stood from 2006 to 2018,
    memory.
    """
    if edition < 2006:
        raise ValueError(
            f"no climate-zone map is held for an edition of {edition}; the first is that of 2006"
        )
    return 2018 if edition < 2021 else 2021 if edition < 2024 else 2024
