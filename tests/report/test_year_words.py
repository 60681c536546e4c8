"""Years of drying and of damp wood in one sentence: which month, how much, to which side, and what wood bears."""

from speccheck.report.year_words import drying_words, wood_words
from speccheck.survey.moisture.balance import MONTHS
from speccheck.survey.moisture.drying_year import DryingRow, DryingYear
from speccheck.survey.moisture.table import MonthRow, YearTable
from speccheck.survey.moisture.wood_face import WoodFace
from speccheck.tables.material import MoistureLimit


def year(inward: float, outward: float) -> DryingYear:
    """Return a year in which only May moves water."""
    rows = [DryingRow(name, 0.0, 0.0, 0.0) for name in MONTHS]
    rows[4] = DryingRow("May", inward, outward, 0.0)
    return DryingYear("wall", "wall.osb", "inner face of wall.osb", True, "set-point", tuple(rows))


def wood(words: str, limit: float | None, humidity: float) -> WoodFace:
    """Return a face of wood at 20 °C, 40 % but for one month."""
    bears = (
        None if limit is None else MoistureLimit("a figure", limit, None, None, ("source",), "read", "high")
    )
    return WoodFace("framing", words, bears, (20.0,) * 12, (0.4, 0.4, humidity, *(0.4,) * 9))


def table(*faces: WoodFace) -> YearTable:
    months = tuple(MonthRow(name, (), (), ()) for name in MONTHS)
    return YearTable("wall", "insulation", "set-point", (), (), 0, months, faces)


def test_the_best_month_and_both_sides() -> None:
    assert drying_words(year(0.1204, 1.5), "si") == (
        "Wet, the inner face of wall.osb could dry at best in May: 120 g/m² inward, 1.5 kg/m² outward"
    )
    # 0.1204 kg/m² / (0.45359237 kg/lb / 0.3048² m²/ft²) × 16 oz/lb = 0.3946 oz/ft²
    assert "0.395 oz/ft² inward" in drying_words(year(0.1204, 1.5), "us")
    assert "120 g/m² (0.395 oz/ft²) inward" in drying_words(year(0.1204, 1.5))


def test_vapour_that_comes_from_a_side_is_no_drying() -> None:
    assert drying_words(year(-0.05, 0.25), "si").endswith("50 g/m² coming from inside, 250 g/m² outward")
    assert drying_words(year(0.25, -0.05), "si").endswith("250 g/m² inward, 50 g/m² coming from outside")


def test_a_face_that_never_dries() -> None:
    assert drying_words(year(-0.05, 0.04)) == "Wet, the inner face of wall.osb could dry in no month"


def test_the_wood_nearest_to_what_it_bears_is_told() -> None:
    """At 20 °C wood holds 7.7 % at 40 %, 16 % at 80 % and 20.2 % at 90 % (Wood Handbook, FPL-GTR-190, table 4-2; read)."""
    far, near = wood("stud", 0.30, 0.90), wood("board", 0.18, 0.80)
    assert wood_words(table(far, near)) == (
        "Wood takes on at most 16 % by mass, in March, at the board; it bears 18 %"
    )
    assert wood_words(table(wood("stud", None, 0.80), far)).endswith("at the stud; it bears 30 %")
    assert wood_words(table(wood("stud", None, 0.80))).endswith("in March, at the stud")


def test_no_wood_no_words() -> None:
    assert wood_words(table()) == ""
