"""The year of moisture in the terminal: a small table for an assembly whose balance a rule has asked for.

Below it stands what the condensing plane could dry at best, and how damp wood gets.
"""

from collections.abc import Sequence

from speccheck.judgement.wording import word
from speccheck.report.layout import Sheet
from speccheck.report.water_amount import water_number, water_unit
from speccheck.report.year_words import drying_words, wood_words
from speccheck.survey.moisture.drying_year import DryingYear
from speccheck.survey.moisture.table import YearTable

__all__ = ["write_year"]


def write_year(sheet: Sheet, table: YearTable, drying: Sequence[DryingYear], system: str) -> None:
    """Write the twelve months at the face to look at first: temperature, humidity, water; then drying and wood.

    Args:
        sheet: the page to write on.
        table: the year of one assembly.
        drying: what its layers could dry.
        system: units to show: ``both`` shows SI here, since a table has no room for two.
    """
    us = system == "us"
    sheet.wrap(
        f"The year at the {table.faces[table.worst]}, through the {table.path}; indoors by {table.method}.", 2
    )
    sheet.line(f"    {'month':<10}{'temperature':>12}{'humidity':>10}{'water':>14}")
    for row in table.months:
        temperature = word(row.temperature[table.worst], "temperature", "us" if us else "si")
        humidity = word(row.humidity[table.worst], "fraction")
        water = f"{water_number(row.water[table.worst], system)} {water_unit(system)}"
        sheet.line(f"    {row.month:<10}{temperature:>12}{humidity:>10}{water:>14}")
    one_system = "us" if us else "si"
    told = [drying_words(one, one_system) for one in drying if one.is_plane]
    for words in (*told, wood_words(table)):
        if words:
            sheet.wrap(f"{words}.", 4)
    sheet.blank()
