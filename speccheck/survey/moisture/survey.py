"""The moisture facts of an assembly, left for when a rule or a report asks: a plain check pays for none of them."""

from collections.abc import Callable, Sequence
from functools import cache, partial
from importlib import import_module
from typing import Any

from speccheck.document.assembly import Assembly
from speccheck.survey.fact import Gap
from speccheck.survey.ledger import Page
from speccheck.survey.section import Section

__all__ = ["MOISTURE_FACTS", "survey_moisture"]

_YEAR = (
    "moisture_verdict", "moisture_peak", "moisture_peak_place", "moisture_peak_month", "moisture_dry_month",
    "moisture_residual", "moisture_yearly_gain", "moisture_path", "moisture_settled", "plane_rh_max",
    "plane_rh_month", "plane_wood_moisture", "plane_damp_months", "plane_damp_run", "plane_moisture_limit",
)  # fmt: skip
_FACES = (
    "sheathing_rh_max", "sheathing_rh_month", "sheathing_wood_moisture", "sheathing_moisture_limit",
    "sheathing_moisture_margin", "framing_rh_max", "framing_rh_month", "framing_wood_moisture",
    "framing_moisture_limit", "framing_moisture_margin",
)  # fmt: skip
_LOAD = ("moisture_by_higher_load",)
_ENCLOSED = ("enclosed_water_dries", "enclosed_water_months")
_BOUNDS = (
    "moisture_by_dry_cup", "moisture_by_wet_cup", "moisture_rests_on_cup", "moisture_rests_on_variable_layer",
)  # fmt: skip
_SURFACE = ("frsi", "frsi_required", "frsi_required_month", "frsi_margin")
_SURFACE_LIMIT = ("humidity_surface_bears",)
_LAYER_DRYING = ("drying_inward", "drying_outward", "drying_moved", "drying_net")
_DRYING = (*_LAYER_DRYING, "drying_months")
_LIMITS = (
    "humidity_without_condensation", "humidity_drying_in_year", "outboard_r_to_add", "humidity_wood_bears",
)  # fmt: skip
_PERIODS = (
    "period_condensed", "period_evaporable", "period_dries", "period_reserve", "period_place",
    "period_beside_nonabsorbent", "period_wood_gain", "period_wood_kind", "reserve_after_leakage",
)  # fmt: skip
_SUMMER = ("summer_plane", "summer_margin")
_OF_PATHS = (*_YEAR, *_FACES, *_LOAD, *_BOUNDS, *_DRYING, *_ENCLOSED, *_LIMITS, *_PERIODS, *_SUMMER)
MOISTURE_FACTS = (*_OF_PATHS, *_SURFACE, *_SURFACE_LIMIT)
"""Names, without their subject, of every fact entered here."""

_WITHOUT_PATHS = ("surface", "summer", "damp_limits.surface_limit")
"""Rooms that do not rest on the permeance of every layer, and ask themselves for what they rest on."""

_METHOD_FITS = ("outdoors", "balcony", "attic")


def survey_moisture(page: Page, assembly: Assembly, section: Section, climate: Page, project: Page) -> None:
    """Leave the moisture facts of an assembly for when one of them is asked for."""
    why = _out_of_range(page)
    if why:
        for name in MOISTURE_FACTS:
            page.inapplicable(name, why)
        return
    given = cache(partial(_case, page, assembly, section, climate, project))
    page.defer(_SURFACE, _entering(given, _SURFACE, "surface"))
    page.defer(_SURFACE_LIMIT, _entering(given, _SURFACE_LIMIT, "damp_limits.surface_limit"))
    if section.main is None:
        for name in _OF_PATHS:
            page.inapplicable(name, "no insulation")
        return
    rooms: tuple[tuple[Sequence[str], str], ...] = (
        (_YEAR, "year"), (_FACES, "faces"), (_LOAD, "load"), (_BOUNDS, "bounds"), (_DRYING, "drying"),
        (_ENCLOSED, "enclosed"), (_PERIODS, "periods"), (_SUMMER, "summer"), (_LIMITS[:1], "limits.dry_limit"),
        (_LIMITS[1:2], "limits.drying_limit"), (_LIMITS[2:3], "limits.outboard_limit"),
        (_LIMITS[3:], "damp_limits.wood_limit"),
    )  # fmt: skip
    for names, room in rooms:
        page.defer(names, _entering(given, names, room))
    for piece in section.slices[1 : section.beyond]:
        piece.page.defer(_LAYER_DRYING, _with_the_assembly(page, piece.page))


def _out_of_range(page: Page) -> str:
    return (
        "" if page["outside"].value in _METHOD_FITS else "the balances are for assemblies toward outdoor air"
    )


def _with_the_assembly(page: Page, layer: Page) -> Callable[[], None]:
    """Return what enters the drying of a layer: it comes with that of its assembly."""

    def enter() -> None:
        whole = page.fact("assembly.drying_net")
        for name in _LAYER_DRYING:
            if name not in layer:
                if whole is not None and whole.missing:
                    layer.unknown(name, *whole.missing)
                else:
                    layer.inapplicable(name, "moisture does not harm this layer")

    return enter


def _case(*given: Any) -> Any:
    # the physics behind the rooms is loaded when the first of these facts is asked for
    from speccheck.survey.moisture.case import case_of

    return case_of(*given)


def _entering(given: Callable[[], Any], names: Sequence[str], room: str) -> Callable[[], None]:
    def enter() -> None:
        module, _, named = room.partition(".")
        work = getattr(import_module(f"speccheck.survey.moisture.{module}"), f"enter_{named or module}")
        case = given()
        missing = () if room in _WITHOUT_PATHS else case.missing
        if not missing:
            missing = _tried(case, names, work)
        for name in names:
            if name not in case.page:
                if missing:
                    case.page.unknown(name, *missing)
                else:
                    case.page.inapplicable(name, "does not arise here")

    return enter


def _tried(case: Any, names: Sequence[str], work: Callable[[Any], tuple[Gap, ...] | None]) -> tuple[Gap, ...]:
    """Run a room; what lies outside the range of the method is asked for, never a crash or a guess."""
    try:
        return work(case) or ()
    except (ValueError, ArithmeticError) as error:
        place = case.page.place
        question = f"{place}: {error}. Are the values declared right?"
        return (Gap(place, names[0].replace("_", " "), question, ("assemblies", place)),)
