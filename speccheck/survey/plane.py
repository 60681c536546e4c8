"""The condensing plane: its name, what lies on either side, its temperature in winter, the humidity it bears."""

from speccheck.physics.condensing_plane import critical_humidity, plane_temperature, required_outboard_share
from speccheck.physics.heat import surface_temperature, temperature_factor
from speccheck.physics.surface import surface_humidity
from speccheck.survey.build_up import Slice
from speccheck.survey.fact import Fact
from speccheck.survey.ledger import Page
from speccheck.survey.section import Section

__all__ = ["survey_plane"]

_DERIVED = (
    "inboard_r", "outboard_r", "outboard_share", "outboard_ratio", "required_outboard_share", "plane_temperature",
    "plane_margin", "critical_indoor_rh", "plane_freezes",
)  # fmt: skip
_OF_OUTDOOR_AIR = (
    "plane_temperature", "plane_freezes", "critical_indoor_rh", "plane_margin", "required_outboard_share",
)  # fmt: skip
_NOT_AT_OUTDOOR_AIR = {
    "ground": "the ground outside is not at the temperature of outdoor air",
    "neighbour": "heated rooms lie beyond",
}
"""Where the outdoor air tells nothing of the cold side, and why."""
_NAMED = ("condensing_plane", "plane_material", "plane_group")
_STEADY = "steady one-dimensional heat flow at the mean of the three coldest months"


def survey_plane(
    page: Page, section: Section, climate: Page, project: Page, films: tuple[Fact, Fact]
) -> None:
    """Enter the facts of the condensing plane and of the inside surface.

    Args:
        page: the page of the assembly.
        section: its parts.
        climate: the page with the outdoor conditions.
        project: the page with the indoor conditions.
        films: inside and outside surface resistance.
    """
    if section.unsure and section.plane is None:
        for name in (*_NAMED, *_DERIVED):
            page.unknown(name, *section.unsure)
    elif section.plane is None:
        why = (
            "no insulation" if section.main is None else "nothing outboard of the insulation stops moving air"
        )
        for name in (*_NAMED, *_DERIVED):
            page.inapplicable(name, why)
    else:
        _enter_plane(page, section, section.plane, climate, project, films)
    _enter_surface(page, climate, project, films[0])


def _resistances(slices: "list[Slice] | tuple[Slice, ...]") -> list[Fact]:
    return [piece.page["resistance"] for piece in slices]


def _enter_plane(
    page: Page, section: Section, plane: int, climate: Page, project: Page, films: tuple[Fact, Fact]
) -> None:
    own = section.slices[plane]
    passed = own.is_insulation and plane != section.main and own.page["air_impermeable"].value is not True
    how = (
        "last layer before the cavity in which outdoor air moves; none before it stops air"
        if passed
        else "first layer moving air cannot pass, outboard of the main insulation"
    )
    page.compute("condensing_plane", lambda *_: own.words, [own.page["material"]], method=how)
    page.copy("plane_material", own.page["material"])
    page.copy("plane_group", own.page["group"])
    inboard = page.compute(
        "inboard_r",
        lambda *r: sum(r),
        [films[0], *_resistances(tuple(section.slices[:plane]))],
        method="film and layers inboard of the plane, away from framing",
        rises="+",
    )
    outboard = page.compute(
        "outboard_r",
        lambda *r: sum(r),
        [*_resistances(tuple(section.slices[plane : section.beyond])), films[1]],
        method="layers from the plane outward and film, away from framing",
        rises="+",
    )
    page.compute(
        "outboard_share",
        lambda i, o: o / (i + o),
        [inboard, outboard],
        method="outboard over the whole, films included",
        rises="-+",
    )
    page.compute(
        "outboard_ratio", lambda i, o: o / i, [inboard, outboard], method="outboard over inboard", rises="-+"
    )
    other = _NOT_AT_OUTDOOR_AIR.get(str(page["outside"].value))
    if other is None:
        _enter_winter(page, inboard, outboard, climate, project)
    else:
        for name in _OF_OUTDOOR_AIR:
            page.inapplicable(name, other)


def _enter_winter(page: Page, inboard: Fact, outboard: Fact, climate: Page, project: Page) -> None:
    inside, outside = project["indoor_temperature"], climate["winter_mean_temperature"]
    dew = project["indoor_dew_point"]
    temperature = page.compute(
        "plane_temperature",
        plane_temperature,
        [inboard, outboard, inside, outside],
        method=_STEADY,
        rises="-+++",
    )
    page.compute("plane_freezes", lambda t: t < 0.0, [temperature], method="below 0 °C")
    page.compute(
        "critical_indoor_rh",
        lambda plane, room: critical_humidity(min(plane, room), room).value,
        [temperature, inside],
        method="saturation at the plane over saturation in the room",
        source="ISO 13788:2012, annex E",
        rises="+-",
    )
    page.compute(
        "plane_margin", lambda t, d: t - d, [temperature, dew], method="plane less dew point", rises="+-"
    )
    page.compute(
        "required_outboard_share",
        lambda d, i, o: required_outboard_share(d, i, o) if i > o else 0.0,
        [dew, inside, outside],
        method="(dew point - outdoor) over (indoor - outdoor)",
    )


def _enter_surface(page: Page, climate: Page, project: Page, inside_film: Fact) -> None:
    factor = page.compute(
        "temperature_factor",
        temperature_factor,
        [page["r_series"], inside_film],
        method="one-dimensional, plain section, away from framing and corners",
        source="ISO 13788:2012, 5.4",
        rises="+-",
    )
    other = _NOT_AT_OUTDOOR_AIR.get(str(page["outside"].value))
    if other is not None:
        page.inapplicable("surface_rh", other)
        return
    page.compute(
        "surface_rh",
        lambda f, i, o, p: min(surface_humidity(surface_temperature(f, i, o), p), 1.0),
        [
            factor,
            project["indoor_temperature"],
            climate["coldest_month_temperature"],
            project["indoor_vapour_pressure"],
        ],
        method="room vapour pressure over saturation at the inside surface, coldest month",
        source="ISO 13788:2012, 5",
    )
