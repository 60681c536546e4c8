"""Climate zones as text, and which map an edition uses."""

import pytest

from speccheck.tables.climate import map_of, zone


@pytest.mark.parametrize(
    ("text", "number", "moisture"),
    [
        ("6A", 6, "A"),
        (" 4c ", 4, "C"),
        ("Zone 5", 5, ""),
        ("climate zone 2B", 2, "B"),
        ("7", 7, ""),
        ("8", 8, ""),
        ("Marine 4", 4, "C"),
        ("5 (A)", 5, "A"),
    ],
)
def test_a_zone_is_read(text: str, number: int, moisture: str) -> None:
    found = zone(text)
    assert (found.number, found.moisture) == (number, moisture)
    assert zone(str(found)) == found


@pytest.mark.parametrize("text", ["", "9", "6C", "2C", "8A", "5D", "A5", "55", "5A6A", "marine 6", "-1"])
def test_what_is_no_zone_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="zone"):
        zone(text)


def test_a_letter_is_wanted_up_to_zone_6() -> None:
    assert [zone(text).lacks_letter for text in ("3", "6", "7", "8", "6A")] == [
        True,
        True,
        False,
        False,
        False,
    ]


def test_the_map_follows_the_edition() -> None:
    # The county table changed with the editions of 2021 (IRC 2018, 2021, 2024 Table N1101.7, read).
    assert [map_of(year) for year in (2009, 2018, 2020, 2021, 2023, 2024, 2027)] == [
        2018,
        2018,
        2018,
        2021,
        2021,
        2024,
        2024,
    ]
    with pytest.raises(ValueError, match="2003"):
        map_of(2003)
