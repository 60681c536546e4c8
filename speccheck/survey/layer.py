"""The facts of one layer: its substance, its resistance, its permeance in both cups, its air permeance."""

from speccheck.document.product import CupValues
from speccheck.physics.vapour import permeance_of, sd_of, vapour_class
from speccheck.quantity import Quantity
from speccheck.survey.build_up import Slice
from speccheck.survey.cup import cup_value, opens_with_humidity
from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.table_words import confidence_words, source_words
from speccheck.tables.value import TableValue

__all__ = ["AIR_IMPERMEABLE", "survey_layer"]

AIR_IMPERMEABLE = 0.02e-3
"""Air permeance up to which a material counts as air-impermeable [m³/(s·m²)] at 75 Pa: IRC 2021 Table N1102.4.1.1."""

_OF_PRODUCT = ("permeance", "air-permeance", "thermal-resistance")
_CLASS_SOURCE = "IRC 2021 R702.7, classes by dry cup: I to 0.1, II to 1.0, III to 10 perm (read)"
_SD_SOURCE = "sd = δ/W with δ of air 2.0e-10 kg/(m·s·Pa), the ISO 13788 convention"


_ASKED = {
    "moisture_content": "What is the moisture content of {} when it is closed in?",
    "exposure": "How many days does {} stay in the weather before it is covered?",
    "exposure_limit": "How many days may {} stay in the weather?",
    "density": "What is the density of {}?",
}


def survey_layer(piece: Slice, position: int) -> None:
    """Enter the facts of one slice of an assembly; ``position`` counts from the inside."""
    page = piece.page
    page.declare("id", piece.id)
    page.declare("position", float(position), origin=Origin.COMPUTED)
    page.declare("material", piece.material_id)
    page.declare("group", piece.group or "other", origin=Origin.TABLE)
    _enter_kind(piece)
    _enter_declared(piece)
    _enter_thickness(piece)
    _enter_resistance(piece)
    _enter_permeance(piece)
    _enter_air(piece)


def _enter_kind(piece: Slice) -> None:
    page, found = piece.page, piece.material
    page.declare("insulation", piece.is_insulation, origin=Origin.TABLE)
    page.declare("membrane", piece.is_skin, origin=Origin.TABLE)
    page.declare("foam_plastic", _is_foam(piece), origin=Origin.TABLE)
    page.declare("faced", bool(found and found.facing) or piece.id.endswith(".facing"), origin=Origin.TABLE)
    for name in ("moisture_sensitive", "reservoir"):
        statement = getattr(found, name) if found else None
        if statement is not None:
            page.from_table(
                name,
                bool(statement.value),
                source=source_words(statement),
                stands_for="",
                origin=Origin.TABLE,
            )
        elif found is not None:
            page.declare(name, False, origin=Origin.TABLE, method="the table does not mark it")
        else:
            page.unknown(name, _gap(piece, "generic family", f"What kind of material is {piece.words}?"))


def _is_foam(piece: Slice) -> bool:
    id_ = piece.material.id if piece.material else piece.material_id
    return piece.is_insulation and any(
        word in id_ for word in ("eps", "xps", "polyiso", "spray-foam", "phenolic", "polyurethane")
    )


def _enter_declared(piece: Slice) -> None:
    page, layer, product = piece.page, piece.layer, piece.product
    controls = layer.controls if layer else ()
    page.declare("controls", controls)
    for control in ("air", "water", "vapour"):
        page.declare(f"controls_{control}", control in controls)
    page.declare("sealed", layer.sealed if layer else ())
    page.declare("interrupted_by", layer.interrupted_by if layer else ())
    page.declare("framed", piece.framing is not None)
    page.declare("product_named", product is not None)
    page.declare("exposure_planned", layer is not None and layer.exposure is not None)
    page.declare("moisture_content_shown", layer is not None and layer.moisture_content is not None)
    page.declare("exposure_limited", product is not None and product.exposure_limit is not None)
    for name, value, wanted in (
        ("moisture_content", layer.moisture_content if layer else None, "moisture content at closing in"),
        ("exposure", layer.exposure if layer else None, "days planned in the weather"),
        ("exposure_limit", product.exposure_limit if product else None, "exposure limit"),
        ("density", _stated(piece, "density")[0], "density"),
    ):
        if value is not None:
            page.declare(name, value.value)
        else:
            page.unknown(name, _gap(piece, wanted, _ASKED[name].format(piece.words)))


def _gap(piece: Slice, wanted: str, question: str, key: str = "") -> Gap:
    if piece.product is not None and piece.layer is not None and key in _OF_PRODUCT:
        # the data sheet of the product answers, once for every layer that uses it
        name = str(piece.layer.product)
        return Gap(name, wanted, question.replace(piece.words, name), ("products", name, key))
    return Gap(piece.page.place, wanted, question, (*piece.path, key) if key else piece.path)


def _stated(piece: Slice, name: str) -> tuple[Quantity | None, Origin]:
    """Return what the layer, or failing that its product, states."""
    for holder, origin in ((piece.layer, Origin.DECLARED), (piece.product, Origin.PRODUCT)):
        value = getattr(holder, name) if holder is not None else None
        if value is not None:
            return value, origin
    return None, Origin.UNKNOWN


def _enter_thickness(piece: Slice) -> None:
    page = piece.page
    quantity, origin = _stated(piece, "thickness")
    if quantity is not None:
        page.declare("thickness", quantity.value, origin=origin)
    elif piece.is_skin and (piece.layer is None or piece.group == "coatings"):
        page.inapplicable("thickness", "a coating or facing is judged as a whole")
    else:
        page.unknown("thickness", _gap(piece, "thickness", f"How thick is {piece.words}?", "thickness"))


def _table_fact(piece: Slice, name: str, value: TableValue, what: str) -> Fact:
    title = piece.material.title if piece.material else piece.material_id
    note = f"; {piece.row.note}" if piece.row and piece.row.note else ""
    return piece.page.from_table(
        name,
        value.value,
        source=source_words(value),
        stands_for=f"{what} of {piece.words} from the material table ({title}{confidence_words(value)})",
        low=value.low,
        high=value.high,
        method=f"table row of {piece.row.row.id}{note}" if piece.row else "",
    )


def _enter_resistance(piece: Slice) -> None:
    page = piece.page
    quantity, origin = _stated(piece, "thermal_resistance")
    thickness = page["thickness"]
    conductivity, conductivity_origin = _stated(piece, "conductivity")
    page.declare("resistance_declared", quantity is not None or conductivity is not None)
    _enter_usual_resistance(piece, thickness)
    if conductivity is not None:
        page.declare("conductivity", conductivity.value, origin=conductivity_origin)
    elif piece.row is not None and piece.row.row.conductivity is not None:
        _table_fact(piece, "conductivity", piece.row.row.conductivity, "conductivity")
    if quantity is not None:
        page.declare("resistance", quantity.value, origin=origin)
    elif conductivity is not None:
        page.compute(
            "resistance",
            lambda d, k: d / k,
            [thickness, page["conductivity"]],
            method="thickness over conductivity",
            source="ISO 6946:2017, 6.7.1",
        )
    elif piece.is_skin:
        page.declare(
            "resistance",
            0.0,
            origin=Origin.COMPUTED,
            method="thermal resistance of a sheet or coating is left out",
        )
    elif piece.is_air:
        return  # an air layer's resistance hangs on its place in the assembly
    else:
        _resistance_from_table(piece, thickness)


def _enter_usual_resistance(piece: Slice, thickness: Fact) -> None:
    """Enter the upper end of what the material table gives this material at this thickness."""
    page, value = piece.page, piece.row.thermal_resistance if piece.row else None
    if value is None or not thickness.known:
        page.inapplicable("resistance_usual_high", "the material table gives no resistance at this thickness")
        return
    page.declare(
        "resistance_usual_high",
        value.value if value.high is None else value.high,
        origin=Origin.TABLE,
        source=source_words(value),
    )


def _resistance_from_table(piece: Slice, thickness: Fact) -> None:
    page = piece.page
    value = piece.row.thermal_resistance if piece.row else None
    ask = f"What is the thermal resistance of {piece.words}?"
    fixed = value is not None and piece.row is not None and not piece.row.row.resistance_scales
    if not thickness.known and not fixed:
        page.unknown("resistance", *thickness.missing, inputs=(thickness.key,))
    elif value is None:
        page.unknown("resistance", _gap(piece, "thermal resistance", ask, "thermal-resistance"))
    else:
        _table_fact(piece, "resistance", value, "thermal resistance")


def _enter_permeance(piece: Slice) -> None:
    page = piece.page
    cups = _cups(piece)
    page.declare("permeance_declared", cups is not None or _stated(piece, "permeability")[0] is not None)
    unstated = cups[0].cup_not_stated if cups else None
    if unstated is not None:
        page.declare("permeance_unstated", unstated.value, origin=cups[1] if cups else Origin.DECLARED)
    else:
        page.inapplicable("permeance_unstated", "no permeance without a cup is stated")
    for cup in ("dry", "wet"):
        fact = _enter_cup(piece, cup, cups)
        page.compute(
            f"sd_{cup}", _sd, [fact], method="equivalent air layer thickness", source=_SD_SOURCE, rises="-"
        )
    page.compute(
        "vapour_class", _class, [page["permeance_dry"]], method="class by dry cup", source=_CLASS_SOURCE
    )
    page.compute(
        "vapour_class_wet", _class, [page["permeance_wet"]], method="the same bounds", source=_CLASS_SOURCE
    )
    _enter_responsive(piece, cups)


def _sd(permeance: float) -> float:
    # An impermeable layer has no finite sd; a sheet of 1500 m and more is vapour-tight in any practice.
    return sd_of(permeance) if permeance > 0 else 1.0e6


def _class(permeance: float) -> str:
    return str(vapour_class(permeance))


def _cups(piece: Slice) -> tuple[CupValues, Origin] | None:
    for holder, origin in ((piece.layer, Origin.DECLARED), (piece.product, Origin.PRODUCT)):
        if holder is not None and holder.permeance is not None:
            return holder.permeance, origin
    return None


def _enter_cup(piece: Slice, cup: str, cups: tuple[CupValues, Origin] | None) -> Fact:
    page, name = piece.page, f"permeance_{cup}"
    if cups is not None:
        return _declared_cup(piece, cup, cups)
    permeability, origin = _stated(piece, "permeability")
    if permeability is not None:
        stated = page.declare("permeability", permeability.value, origin=origin)
        return page.compute(
            name,
            permeance_of,
            [stated, page["thickness"]],
            method="permeability over thickness",
            source="ASTM E96",
        )
    value = piece.row.permeance(cup) if piece.row else None  # type: ignore[arg-type]
    if value is None:
        return page.unknown(name, _cup_asked(piece, cup))
    if (
        not page["thickness"].known
        and not page["thickness"].inapplicable
        and not piece.is_skin
        and not piece.is_air
        and _scales(piece)
    ):
        return page.unknown(name, *page["thickness"].missing, inputs=(page["thickness"].key,))
    return _table_fact(piece, name, value, f"{cup}-cup permeance")


def _scales(piece: Slice) -> bool:
    vapour = piece.row.row.vapour if piece.row else None
    return vapour is not None and vapour.scales_with_thickness


def _cup_asked(piece: Slice, cup: str) -> Gap:
    question = f"What is the {cup}-cup permeance of {piece.words}?"
    return _gap(piece, f"{cup}-cup permeance", question, "permeance")


def _declared_cup(piece: Slice, cup: str, cups: tuple[CupValues, Origin]) -> Fact:
    page, name = piece.page, f"permeance_{cup}"
    found = cup_value(cups[0], cup)
    if found is not None:
        origin = Origin.COMPUTED if found.method else cups[1]
        return page.declare(name, found.value, origin=origin, source=found.source, method=found.method)
    unstated = cups[0].cup_not_stated
    if unstated is not None:
        question = f"By which cup was the {unstated.text} of {piece.words} tested, dry or wet?"
        return page.unknown(name, _gap(piece, "cup of the permeance", question, "permeance"))
    return page.unknown(name, _cup_asked(piece, cup))


def _enter_responsive(piece: Slice, cups: tuple[CupValues, Origin] | None) -> None:
    page = piece.page
    stated = piece.product.responsive if piece.product else None
    if stated is not None:
        page.declare("responsive", stated, origin=Origin.PRODUCT)
        return
    wet = page["permeance_wet"]
    if wet.known and page["permeance_dry"].known:
        page.compute(
            "responsive",
            _opens,
            [page["permeance_dry"], wet],
            method="dry cup at most 1 perm, wet cup above 1 perm",
            source="IRC 2024 R702.7, responsive vapour retarder (read)",
        )
    elif cups is not None and cups[0].curve:
        rises = opens_with_humidity(cups[0].curve)
        page.declare(
            "responsive", rises, origin=cups[1], method="by the declared curve, which reaches one cup"
        )
    else:
        page.unknown("responsive", *(wet.missing or page["permeance_dry"].missing))


def _opens(dry: float, wet: float) -> bool:
    one = 57.2135e-12 * (1 + 1e-9)
    return dry <= one < wet


def _enter_air(piece: Slice) -> None:
    page = piece.page
    quantity, origin = _stated(piece, "air_permeance")
    page.declare("air_permeance_declared", quantity is not None)
    if quantity is not None:
        _declared_air(piece, quantity, origin)
    else:
        _air_from_table(piece)


def _declared_air(piece: Slice, quantity: Quantity, origin: Origin) -> None:
    page = piece.page
    pressure = quantity.reference_pressure
    if pressure is None:
        question = f"At which pressure was the air permeance of {piece.words} tested?"
        gap = _gap(piece, "test pressure of the air permeance", question, "air-permeance")
        page.unknown("air_permeance", gap)
        page.unknown("air_impermeable", gap)
        return
    if abs(pressure - 75.0) < 0.5:
        fact = page.declare("air_permeance", quantity.value, origin=origin)
    else:
        fact = _at_75(piece, quantity.value, pressure)
    _enter_impermeable(piece, fact)


def _at_75(piece: Slice, value: float, pressure: float) -> Fact:
    from speccheck.physics.air_leakage import flow_at_pressure

    low, middle, high = (flow_at_pressure(value, pressure, 75.0, n) for n in (0.5, 0.65, 1.0))
    return piece.page.from_table(
        "air_permeance",
        middle,
        source="power law, exponent 0.65 taken, 0.5 to 1.0 as the range (common practice, no source)",
        stands_for=f"air permeance of {piece.words} brought from {pressure:g} Pa to 75 Pa",
        low=min(low, high),
        high=max(low, high),
        method="power law between test pressures",
    )


def _enter_impermeable(piece: Slice, fact: Fact) -> None:
    piece.page.compute(
        "air_impermeable",
        lambda q: q <= AIR_IMPERMEABLE * (1 + 1e-9),
        [fact],
        method="air permeance at or below 0.02 L/(s·m²) at 75 Pa",
        source="IRC 2021 Table N1102.4.1.1 and R202, air-impermeable (read)",
    )


def _air_from_table(piece: Slice) -> None:
    page, row = piece.page, piece.row
    question = f"What is the air permeance of {piece.words} (ASTM E2178)?"
    gap = _gap(piece, "air permeance", question, "air-permeance")
    if piece.is_air:
        page.inapplicable("air_permeance", "an air layer is not a material")
        page.declare("air_impermeable", False, origin=Origin.TABLE)
        return
    value = row.air_permeance if row else None
    if value is not None:
        _table_fact(piece, "air_permeance", value, "air permeance")
    else:
        page.unknown("air_permeance", gap)
    stated = row.air_impermeable if row else None
    if stated is None:
        page.unknown("air_impermeable", gap)
    else:
        air = row.row.air if row else None
        source = source_words(air.impermeable) if air else ""
        page.from_table(
            "air_impermeable",
            stated,
            source=source,
            stands_for=f"whether {piece.words} is air-impermeable, from the material table",
        )
