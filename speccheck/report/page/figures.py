"""The drawings of an assembly, from its facts: which layers are drawn and how, and the numbers behind the lines."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from markupsafe import Markup

from speccheck.judgement.wording import word
from speccheck.quantity import System, show
from speccheck.report.drawing import (
    Drawing,
    DrawnLayer,
    DrawnMember,
    draw_lines,
    draw_section,
    lines_words,
)
from speccheck.report.drawing.hatch import HATCHES, hatch_of
from speccheck.report.drawing.subject import CONTROLS
from speccheck.survey import Fact, Surveyed
from speccheck.survey.ledger import Page
from speccheck.survey.moisture.table import YearTable
from speccheck.survey.profile import NoLines, SectionLines, layer_pages, month_lines, winter_profile
from speccheck.uses.check import Checked

_DAY = 86400.0  # s

__all__ = ["Face", "FaceTable", "Figure", "Figures", "LayerRow", "figures_of", "layer_rows"]


class Figure(NamedTuple):
    """A drawing ready for the page: its SVG, its title, and what it says for each season or month it can show.

    ``opens`` is the number, from 1, of the season or month it is opened at.
    """

    svg: Markup
    title: str
    says: tuple[tuple[str, str], ...]
    opens: int = 1


class LayerRow(NamedTuple):
    """One layer in the key beside the section, all in words."""

    number: int
    name: str
    material: str
    hatch: str
    thickness: str
    resistance: str
    permeance: str
    controls: str
    plane: bool
    assumed: bool


class Face(NamedTuple):
    """One face in the table behind the lines, all in words."""

    place: str
    temperature: str
    pressure: str
    saturation: str
    humidity: str
    condensing: str


class FaceTable(NamedTuple):
    """The numbers behind the lines of one season or month; ``water`` heads the column of what condenses."""

    told: str
    water: str
    rows: tuple[Face, ...]


class Figures(NamedTuple):
    """The drawings of an assembly; ``why_no_lines`` says why the lines are missing, where they are."""

    section: Figure
    lines: Figure | None
    faces: tuple[FaceTable, ...]
    why_no_lines: str
    questions: tuple[str, ...]


def figures_of(checked: Checked, assembly: str, id_: str, system: System = "both") -> Figures:
    """Return the drawings of an assembly.

    Args:
        checked: the document with its facts.
        assembly: its name in the document.
        id_: its anchor, from which the drawings take their names.
        system: units to show.
    """
    surveyed = checked.surveyed
    layers = _drawn(checked, assembly)
    kind = str(surveyed.ledger.page("assembly", assembly)["kind"].value)
    section = _figure(draw_section(layers, kind, assembly, f"{id_}-section", system))
    winter = winter_profile(surveyed, assembly)
    if isinstance(winter, NoLines):
        return Figures(section, None, (), winter.reason, winter.questions)
    told, opens = [("winter mean", winter)], 0
    faces = [_winter_faces(layers, winter, system)]
    months = month_lines(surveyed, assembly)
    if months:
        page = surveyed.ledger.page("assembly", assembly)
        opens, why = _governing(page)
        told += [
            (f"{month} ({why})" if n == opens else month, one) for n, (month, one) in enumerate(months, 1)
        ]
        faces.insert(0, _month_faces(layers, *told[opens], page.table.path, system))
    says = [(when, lines_words(layers, when, lines, system)) for when, lines in told]
    drawing = draw_lines(layers, kind, assembly, f"{id_}-lines", told, opens, system)
    return Figures(section, _figure(drawing, says, opens + 1), tuple(faces), "", ())


def _governing(page: Page) -> tuple[int, str]:
    """Return the month that governs an assembly, 1 for January, and why.

    It is the month with most water; where nothing condenses, that in which the face to look at first is dampest.
    """
    table: YearTable = page.table
    names = [month.month for month in table.months]
    wettest = page["moisture_peak_month"].value
    if wettest in names:
        return names.index(wettest) + 1, "most water"
    humidities = [month.humidity[table.worst] for month in table.months]
    return humidities.index(max(humidities)) + 1, "dampest"


def _figure(drawing: Drawing, says: Sequence[tuple[str, str]] = (), opens: int = 1) -> Figure:
    return Figure(Markup(drawing.svg), drawing.title, tuple(says), opens)


def _drawn(checked: Checked, assembly: str) -> list[DrawnLayer]:
    pages = layer_pages(checked.surveyed, assembly)
    plane = checked.surveyed.ledger.page("assembly", assembly)["condensing_plane"].value
    return [_drawn_layer(page, number, plane, checked, assembly) for number, page in enumerate(pages, 1)]


def _drawn_layer(page: Page, number: int, plane: object, checked: Checked, assembly: str) -> DrawnLayer:
    thickness = page["thickness"].value
    controls = page["controls"].value
    ventilation = page["ventilation"].value if "ventilation" in page else None
    return DrawnLayer(
        number=number,
        name=str(page["id"].value),
        thickness=thickness if isinstance(thickness, float) else None,
        hatch=hatch_of(str(page["material"].value), str(page["group"].value)),
        sheet=page["membrane"].value is True,
        controls=controls if isinstance(controls, tuple) else (),
        member=_member(page, checked, assembly),
        vented=ventilation in ("vented", "ventilated"),
        plane=page.place == plane,
    )


def _member(page: Page, checked: Checked, assembly: str) -> DrawnMember | None:
    """Return the framing that crosses a layer: its own, else that of the assembly."""
    if page["framed"].value is not True:
        return None
    declared = checked.loaded.document.assemblies[assembly]
    own = next(
        (
            layer.framing
            for id_, layer in zip(declared.layer_ids, declared.layers, strict=True)
            if id_ == page["id"].value
        ),
        None,
    )
    framing = own or declared.framing
    if framing is None:
        return None
    return DrawnMember(
        framing.width.value if framing.width else None,
        framing.spacing.value if framing.spacing else None,
        framing.material == "steel",
    )


def layer_rows(surveyed: Surveyed, assembly: str, system: System = "both") -> list[LayerRow]:
    """Return the key of an assembly's section, in the units of a system."""
    plane = surveyed.ledger.page("assembly", assembly)["condensing_plane"].value
    return [
        _row(page, number, plane, system) for number, page in enumerate(layer_pages(surveyed, assembly), 1)
    ]


def _row(page: Page, number: int, plane: object, system: System) -> LayerRow:
    controls = page["controls"].value or ()
    shown = [page["thickness"], page["resistance"], page["permeance_dry"], page["permeance_wet"]]
    hatch = hatch_of(str(page["material"].value), str(page["group"].value))
    return LayerRow(
        number=number,
        name=str(page["id"].value),
        material=str(page["material"].value),
        hatch=HATCHES[hatch],
        thickness=_words(page["thickness"], "length", system),
        resistance=_resistance(page["resistance"], system),
        permeance=_permeance(page, system),
        controls=", ".join(word_ for key, word_ in CONTROLS if key in str(controls)),
        plane=page.place == plane,
        assumed=any(fact.assumed for fact in shown),
    )


def _words(fact: Fact, kind: str, system: System) -> str:
    if fact.value is None:
        return "not shown" if fact.missing else "—"
    return word(fact.value, kind, system)


def _resistance(fact: Fact, system: System) -> str:
    return "not counted" if fact.value == 0.0 else _words(fact, "thermal-resistance", system)


def _permeance(page: Page, system: System) -> str:
    dry, wet = (_words(page[f"permeance_{cup}"], "permeance", system) for cup in ("dry", "wet"))
    return dry if dry == wet else f"dry {dry}; wet {wet}"


def _winter_faces(layers: Sequence[DrawnLayer], lines: SectionLines, system: System) -> FaceTable:
    rows = _faces(layers, lines, lambda rate: f"{word(rate * _DAY, 'area-mass', system)} a day", system)
    return FaceTable("the winter mean, away from framing, dry cup", "Condensing", rows)


def _month_faces(
    layers: Sequence[DrawnLayer], when: str, lines: SectionLines, path: str, system: System
) -> FaceTable:
    rows = _faces(layers, lines, lambda water: word(water, "area-mass", system), system)
    along = "through the framing" if path == "framing" else "away from framing"
    return FaceTable(f"{when}, {along}, the cups of the balance", "Water held", rows)


def _faces(
    layers: Sequence[DrawnLayer], lines: SectionLines, wet: Callable[[float], str], system: System
) -> tuple[Face, ...]:
    """Return the inner face of each layer, the outer one of the last, and places within a layer that hold water."""
    found = [
        point
        for point in lines.points[:-1]
        if point.depth == 0.0 or (point.depth < 1.0 and point.condensing > 0.0)
    ]
    return tuple(
        Face(
            place=_place(layers[point.layer], point.depth),
            temperature=show(point.temperature, "temperature", system),
            pressure=show(point.pressure, "vapour-pressure", system),
            saturation=show(point.saturation, "vapour-pressure", system),
            humidity=show(point.pressure / point.saturation, "fraction"),
            condensing=wet(point.condensing) if point.condensing > 0.0 else "—",
        )
        for point in (*found, lines.points[-1])
    )


def _place(layer: DrawnLayer, depth: float) -> str:
    where = "inner face" if depth == 0.0 else "outer face" if depth == 1.0 else "within"
    return f"{layer.number} {layer.name}, {where}"
