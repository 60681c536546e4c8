"""The moisture facts of an assembly, left for when a rule or a report asks: a plain check pays for none of them."""

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

from speccheck.document.assembly import Assembly
from speccheck.survey.convention import heat_flow
from speccheck.survey.fact import Fact, FactValue, Gap
from speccheck.survey.ledger import Page
from speccheck.survey.moisture.path import MoisturePath, paths_of
from speccheck.survey.section import Section
from speccheck.tables.construction import films

__all__ = ["MOISTURE_FACTS", "survey_moisture"]

_YEAR = (
    "moisture_verdict", "moisture_peak", "moisture_peak_place", "moisture_peak_month", "moisture_dry_month",
    "moisture_residual", "moisture_path", "moisture_settled", "plane_rh_max", "plane_rh_month", "plane_wood_moisture",
)  # fmt: skip
_BOUNDS = (
    "moisture_by_dry_cup", "moisture_by_wet_cup", "moisture_rests_on_cup", "moisture_rests_on_variable_layer",
)  # fmt: skip
_SURFACE = ("frsi_required", "frsi_required_month", "frsi_margin")
_DRYING = ("drying_inward", "drying_outward", "drying_net")
_LAYER_DRYING = ("drying_inward", "drying_outward")
_LIMITS = ("humidity_without_condensation", "humidity_drying_in_year", "outboard_r_to_add")
_PERIODS = (
    "period_condensed", "period_evaporable", "period_dries", "period_reserve", "period_place",
    "period_beside_nonabsorbent", "period_wood_gain", "period_wood_kind", "reserve_after_leakage",
)  # fmt: skip
_SUMMER = ("summer_plane", "summer_margin")
MOISTURE_FACTS = (*_YEAR, *_BOUNDS, *_SURFACE, *_DRYING, *_LIMITS, *_PERIODS, *_SUMMER)
"""Names, without their subject, of every fact entered here."""

_METHOD_FITS = ("outdoors", "balcony", "attic")


class Case(NamedTuple):
    """What the rooms of this folder work on: the assembly's page and section, its paths, and the films of ISO 6946."""

    page: Page
    assembly: Assembly
    section: Section
    paths: tuple[MoisturePath, ...]
    films: tuple[float, float]
    climate: Page
    project: Page

    @property
    def inputs(self) -> tuple[Fact, ...]:
        """Every fact the paths rest on."""
        return tuple(dict.fromkeys(fact for path in self.paths for fact in path.facts))

    def enter(
        self, name: str, value: FactValue | None, facts: Sequence[Fact], method: str, source: str
    ) -> None:
        """Enter a value worked out from facts; None says that there is no such thing here."""
        if value is None:
            self.page.inapplicable(name, method)
        else:
            self.page.compute(name, lambda *_: value, facts, method=method, source=source)


def survey_moisture(page: Page, assembly: Assembly, section: Section, climate: Page, project: Page) -> None:
    """Leave the moisture facts of an assembly for when one of them is asked for."""
    case = _case(page, assembly, section, climate, project)
    if isinstance(case, str):
        for name in MOISTURE_FACTS:
            page.inapplicable(name, case)
        return
    rooms: tuple[tuple[Sequence[str], str], ...] = (
        (_YEAR, "year"), (_BOUNDS, "bounds"), (_SURFACE, "surface"), (_DRYING, "drying"), (_LIMITS, "limits"),
        (_PERIODS, "periods"), (_SUMMER, "summer"),
    )  # fmt: skip
    for names, room in rooms:
        page.defer(names, _entering(case, names, room))
    for piece in case.paths[0].slices[1:]:
        piece.page.defer(_LAYER_DRYING, _with_the_assembly(page, piece.page))


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


def _case(page: Page, assembly: Assembly, section: Section, climate: Page, project: Page) -> Case | str:
    if page["outside"].value not in _METHOD_FITS:
        return "the balances are for assemblies toward outdoor air"
    paths = tuple(paths_of(section))
    if not paths:
        return "no insulation"
    found = films("iso-6946", heat_flow(assembly.kind))
    sheltered = section.beyond < len(section.slices) or page["outside"].value == "attic"
    outer = found.sheltered if sheltered else found.exterior
    return Case(page, assembly, section, paths, (found.interior.value, outer.value), climate, project)


def _entering(case: Case, names: Sequence[str], room: str) -> Callable[[], None]:
    def enter() -> None:
        from speccheck.survey.moisture import entering

        missing = tuple(dict.fromkeys(gap for path in case.paths for gap in path.missing))
        work: Callable[[Case], tuple[Gap, ...] | None] = getattr(entering, f"enter_{room}")
        if not missing:
            missing = _tried(case, names, work)
        for name in names:
            if name not in case.page:
                if missing:
                    case.page.unknown(name, *missing)
                else:
                    case.page.inapplicable(name, "does not arise here")

    return enter


def _tried(
    case: Case, names: Sequence[str], work: Callable[[Any], tuple[Gap, ...] | None]
) -> tuple[Gap, ...]:
    """Run a room; what lies outside the range of the method is asked for, never a crash or a guess."""
    try:
        return work(case) or ()
    except (ValueError, ArithmeticError) as error:
        place = case.page.place
        return (Gap(place, names[0].replace("_", " "), f"{place}: {error}. Are the values declared right?"),)
