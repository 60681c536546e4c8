"""The year of moisture: for each interface and month its humidity, and the water it holds."""

from collections.abc import Sequence
from itertools import compress
from operator import not_
from typing import NamedTuple

from speccheck.quantity import System, show
from speccheck.report.drawing.section import WIDTH
from speccheck.report.drawing.subject import Drawing
from speccheck.report.drawing.svg import Canvas
from speccheck.report.water_amount import water_number, water_unit

__all__ = ["InterfaceYear", "YearOfMoisture", "draw_year"]

_LEFT = 34.0
_HUMIDITY = 36.0
_WATER = 28.0
_STEP = 144.0
_LONGEST = 50
_SATURATED = 0.9995


class InterfaceYear(NamedTuple):
    """One interface over the year, one value a month.

    ``name`` in words; ``temperature`` [°C]; ``humidity`` [1]; ``mass`` [kg/m²] of water at the end of the month.
    """

    name: str
    temperature: tuple[float, ...]
    humidity: tuple[float, ...]
    mass: tuple[float, ...]


class YearOfMoisture(NamedTuple):
    """The year of an assembly: names of the months in the order in which they are told, and its interfaces.

    ``method`` says by what the figures were worked out; ``outcome`` in one sentence what they amount to.
    """

    months: tuple[str, ...]
    interfaces: tuple[InterfaceYear, ...]
    method: str
    outcome: str


def draw_year(year: YearOfMoisture, name: str, id_: str, system: System = "both") -> Drawing:
    """Return the year of moisture of an assembly as one strip for each interface.

    Raises:
        ValueError: when an interface has not one value for each month.
    """
    for face in year.interfaces:
        if {len(face.temperature), len(face.humidity), len(face.mass)} != {len(year.months)}:
            raise ValueError(f"{face.name} has not one value for each month")
    canvas = Canvas(WIDTH, id_)
    most = max((mass for face in year.interfaces for mass in face.mass), default=0.0)
    y = 4.0
    for face in year.interfaces:
        _strip(canvas, year.months, face, most, y, system)
        y += _STEP
    title = f"{name}: the year of moisture"
    words = f"{year.outcome} " + " ".join(_words(year.months, face, system) for face in year.interfaces)
    return Drawing(canvas.finish(y, title, words), title, words)


def _strip(
    canvas: Canvas, months: Sequence[str], face: InterfaceYear, most: float, top: float, system: System
) -> None:
    step = (WIDTH - _LEFT - 4) / len(months)
    name = face.name if len(face.name) <= _LONGEST else f"{face.name[: _LONGEST - 1]}…"
    canvas.text(0, top + 8, name, "side")
    base = top + 17 + _HUMIDITY
    canvas.text(0, base - _HUMIDITY + 10, "RH %")
    canvas.line(_LEFT, base, WIDTH - 4, base, "dim")
    canvas.line(_LEFT, base - _HUMIDITY, WIDTH - 4, base - _HUMIDITY, "grid")
    floor = base + 19 + _WATER
    canvas.text(0, floor - _WATER + 10, water_unit(system))
    canvas.line(_LEFT, floor, WIDTH - 4, floor, "dim")
    centres = [_LEFT + step * (n + 0.5) for n in range(len(months))]
    bars = [
        (x - step / 2 + 2, base - min(humidity, 1.0) * _HUMIDITY, step - 4, min(humidity, 1.0) * _HUMIDITY)
        for x, humidity in zip(centres, face.humidity, strict=True)
    ]
    wet = [humidity >= _SATURATED for humidity in face.humidity]
    canvas.boxes(compress(bars, wet), "wet", "wet")
    canvas.boxes(compress(bars, map(not_, wet)), "humid")
    canvas.row(base + 12, zip(centres, (f"{h * 100:.0f}" for h in face.humidity), strict=True))
    deep = [max(mass / most * _WATER, 1.0) if mass > 0 else 0.0 for mass in face.mass]
    held = [(x - step / 2 + 2, floor - d, step - 4, d) for x, d in zip(centres, deep, strict=True) if d > 0]
    canvas.boxes(held, "water")
    held_words = (water_number(mass, system) if mass > 0 else "·" for mass in face.mass)
    canvas.row(floor + 12, zip(centres, held_words, strict=True))
    canvas.row(floor + 26, zip(centres, (month[:1] for month in months), strict=True))


def _words(months: Sequence[str], face: InterfaceYear, system: System) -> str:
    top = max(range(len(months)), key=lambda i: face.humidity[i])
    text = f"{face.name}: most humid in {months[top]} at {show(face.humidity[top], 'fraction')}"
    wet = max(range(len(months)), key=lambda i: face.mass[i])
    if face.mass[wet] > 0:
        text += f", most water in {months[wet]}, {show(face.mass[wet], 'area-mass', system)}"
    return text + "."
