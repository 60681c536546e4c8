"""One section at each step of humidity indoors: a month or a year that was run once is not run again."""

from collections.abc import Iterator, Sequence
from functools import cached_property

from speccheck.physics.followed_section import FollowedSection
from speccheck.physics.humidity_dependent import TOLERANCE, followed_month
from speccheck.physics.moisture_year import TRACE, MoistureMonth, MoistureYear, run_year
from speccheck.survey.moisture.balance import Prepared, rank_of
from speccheck.survey.moisture.rooms import STEPS, Rooms
from speccheck.survey.moisture.turning import greatest, greatest_by, greatest_near

__all__ = ["MONTH_TRACE", "Stepped", "SteppedPath", "at_step"]

MONTH_TRACE = TRACE / 12.0
"""What a month may gather and still count as dry [kg/m²]: twelve of them are no more than a trace in a year."""


class Stepped:
    """A section in the rooms of a place, step by step of their humidity.

    Where no layer gets tighter as it gets damper, it ``turns_once``: more vapour in the rooms means no less water, and
    a month that stays dry at one step does so at each below. Only then is a search shortened by that; where a curve
    falls, a verdict may turn back, and the plain search by halves stands for what it finds.
    """

    def __init__(self, section: FollowedSection, rooms: Rooms) -> None:
        self.section, self.rooms, self.turns_once = section, rooms, section.only_opens
        self._dry = (0.0,) * len(section.strips.positions)
        self._months: dict[tuple[int, int], MoistureMonth] = {}
        self._years: dict[int, MoistureYear] = {}
        self._dry_up_to = [-1] * 13
        self._clear_to, self._kept_from = -1, STEPS + 1

    def month(self, step: int, number: int) -> MoistureMonth:
        """Return a month (1 is January) that begins dry."""
        found = self._months.get((step, number))
        if found is None:
            found = followed_month(self.section, self.rooms.at(step), number, self._dry)
            self._months[step, number] = found
            if self.turns_once and step > self._dry_up_to[number] and not any(found.water):
                self._dry_up_to[number] = step
        return found

    def months(self, step: int) -> Sequence[MoistureMonth]:
        """Return the twelve months of the year at a step, in the order run."""
        months = self.year(step).months
        return [month if month.pressures else self.month(step, month.month) for month in months]

    def year(self, step: int) -> MoistureYear:
        """Return the year at a step; of months known to stay dry only that they do, without pressures."""
        found = self._years.get(step)
        if found is None:
            found = self._years[step] = run_year(
                lambda number, water: self._run(step, number, water), len(self._dry)
            )
        return found

    def stays_dry(self, step: int, number: int) -> bool:
        """Tell whether a month (1 is January) that begins dry gathers no water but a trace."""
        return step <= self._dry_up_to[number] or max(self.month(step, number).water) <= MONTH_TRACE

    def keeps(self, step: int) -> bool:
        """Tell whether water is left after the year."""
        if self.turns_once and not self._clear_to < step < self._kept_from:
            return step >= self._kept_from
        found = self.year(step).verdict == "accumulates"
        self._kept_from = min(self._kept_from, step) if found else self._kept_from
        self._clear_to = self._clear_to if found else max(self._clear_to, step)
        return found

    def dry_steps(self, floor: int, limit: int) -> int:
        """Return the greatest step from ``floor`` to ``limit`` at which no month that begins dry gathers water.

        The month that condenses first decides, and most months never do: each is asked once at the limit found so far,
        and only one that condenses there lowers it.
        """
        outside = self.rooms.at(limit).outside_temperature
        for number in sorted(range(1, 13), key=lambda month: outside[month - 1]):
            if limit > floor and not self.stays_dry(limit, number):
                limit = self._dry_month_steps(number, floor, limit)
        return limit

    def kept_steps(self, low: int, limit: int) -> int:
        """Return the greatest step up to ``limit`` at which the year leaves no water, taken to be so at ``low``."""
        if not self.turns_once:
            return greatest(lambda step: not self.keeps(step), low, limit)
        return greatest_by(lambda step: sum(self.year(step).water) if self.keeps(step) else 0.0, low, limit)

    def kept_steps_near(self, low: int, limit: int, guess: int) -> int:
        """Return the same for a section that ``turns_once``, beginning at a guess."""
        return greatest_near(lambda step: not self.keeps(step), low, limit + 1, guess)

    def room_step(self, number: int, bounds: Sequence[tuple[int, float]], limit: int) -> int:
        """Return near which step the line of a dry month meets one of some bounds: an interface, its pressure [Pa]."""
        climate, month = self.rooms.at(limit), number - 1
        profile = self.section.profile(
            climate.inside_temperature[month],
            climate.outside_temperature[month],
            climate.inside_pressure[month],
            climate.outside_pressure[month],
        )
        pressure = self.section.room_pressure(profile, bounds, TOLERANCE / 2.0)
        return int(min(1.0, pressure / self.rooms.saturated[month]) * STEPS)

    def _dry_month_steps(self, number: int, floor: int, limit: int) -> int:
        def dry(step: int) -> bool:
            return self.stays_dry(step, number)

        if not self.turns_once:
            return greatest(dry, floor, limit)
        saturation, free = self.month(limit, number).saturation, self.section.strips.at_surface
        bounds = [(n, saturation[n]) for n in range(1, len(saturation) - 1) if not free[n]]
        return greatest_near(dry, floor, limit, self.room_step(number, bounds, limit))

    def _run(self, step: int, number: int, water: tuple[float, ...]) -> MoistureMonth:
        if any(water):
            return followed_month(self.section, self.rooms.at(step), number, water)
        if step < self._dry_up_to[number]:
            none = self._dry
            return MoistureMonth(number, (), (), (), none, none, none, 0.0, 0.0, ())
        return self.month(step, number)


class SteppedPath:
    """One path at each step of humidity: by its usual cups alone, and following its curves where it has any."""

    def __init__(self, ready: Prepared, rooms: Rooms) -> None:
        self._ready, self._rooms = ready, rooms

    @cached_property
    def plain(self) -> Stepped:
        """The path by its usual cups."""
        return Stepped(self._ready.plain, self._rooms)

    @cached_property
    def followed(self) -> Stepped | None:
        """The path with its curves; None where no layer has one."""
        followed = self._ready.followed
        return Stepped(followed, self._rooms) if followed is not None else None

    @property
    def best(self) -> Stepped:
        """The path with its curves where it has any."""
        return self.followed or self.plain

    @property
    def turns_once(self) -> bool:
        """Whether no layer gets tighter as it gets damper; by its usual cups none does."""
        return self.followed is None or self.followed.turns_once


def at_step(paths: Sequence[SteppedPath], step: int) -> Iterator[Stepped]:
    """Give each path as it counts at a step, that through the insulation first, as `balances_of` has it."""
    first = paths[0].best
    yield first
    for path in paths[1:]:
        worse = path.followed is not None and rank_of(path.plain.year(step)) > rank_of(first.year(step))
        yield path.best if worse else path.plain
