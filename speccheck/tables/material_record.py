"""From the record of a material file to a material in SI: the one place where table units are converted."""

from typing import Any, Final

from speccheck.tables.material import Air, Curve, Material, MoistureLimit, OtherSchool, Row, Vapour
from speccheck.tables.record_value import AIR_PERMEABILITY, PERM, R_US, provenance, value_of
from speccheck.tables.value import Statement, TableValue

__all__ = ["material_from"]

_LITRE: Final = 1e-3

_OWN = (
    "id", "title", "also", "facing", "default", "combustibility", "moisture-sensitive", "reservoir", "cups-agree",
    "takes-up-water", "wood-kind",
)  # fmt: skip

Record = dict[str, Any]


def material_from(record: Record, group: str, only: str | None = None) -> Material:
    """Return the material of a record of a material file.

    Args:
        record: one entry of ``materials`` in a file of ``rules/materials``.
        group: the group of that file.
        only: id of the single row to keep, or None for all.
    """
    shared = {
        key: value for key, value in record.items() if key not in (*_OWN, "rows", "cross-checks", "note")
    }
    rows = [{**shared, **row} for row in record.get("rows", [{"id": record["id"]}])]
    kept = [row for row in rows if only is None or row["id"] == only]
    agree = _statement(record.get("cups-agree"))
    return Material(
        id=record["id"],
        title=record["title"],
        also=tuple(record.get("also", ())),
        group=group,
        facing=record.get("facing"),
        combustibility=_statement(record.get("combustibility")),
        moisture_sensitive=_statement(record.get("moisture-sensitive")),
        reservoir=_statement(record.get("reservoir")),
        takes_up_water=_statement(record.get("takes-up-water")),
        wood_kind=_statement(record.get("wood-kind")),
        rows=tuple(_row(row, agree) for row in kept),
        default=record.get("default"),
        note=record.get("note"),
        cross_checks=tuple(record.get("cross-checks", ())),
    )


def _row(row: Record, agree: Statement | None) -> Row:
    thickness = _length(row.get("thickness"))
    resistance = row.get("r-value") or {}
    labelled = row.get("labelled")
    return Row(
        id=row["id"],
        type=row.get("class"),
        thickness=thickness,
        density=_value(row.get("density")),
        conductivity=_value(row.get("conductivity")),
        thermal_resistance=_value(row.get("r-value"), R_US),
        resistance_thickness=_length(resistance.get("at")) or thickness,
        resistance_scales=resistance.get("scales-with-thickness", True),
        labelled=None if labelled is None else labelled * R_US,
        specific_heat=_value(row.get("specific-heat")),
        vapour=_vapour(row.get("vapour"), agree),
        air=_air(row.get("air")),
        moisture_limit=_limit(row.get("moisture-limit")),
        sorption=_curve(row.get("sorption"), 0.01),
        water_absorption=_value(row.get("water-absorption"), key="coefficient"),
        uv_exposure=_value(row.get("uv-exposure")),
        note=row.get("note"),
    )


def _vapour(record: Record | None, agree: Statement | None) -> Vapour | None:
    if record is None:
        return None
    thickness = _length(record.get("at"))
    other = record.get("other-school")
    dry = _cup(record, "dry-cup", thickness)
    return Vapour(
        basis=record["basis"],
        thickness=thickness,
        dry_cup=dry,
        wet_cup=_cup(record, "wet-cup", thickness) if "wet-cup" in record else _same(dry, agree),
        scales_with_thickness=record["scales-with-thickness"],
        rh_curve=_curve(record.get("rh-curve"), PERM),
        other_school=other and OtherSchool(_number(other, other["mu-dry"]), _number(other, other["mu-wet"])),
    )


def _same(dry: TableValue, agree: Statement | None) -> TableValue | None:
    """Return the dry-cup value for the wet cup of a material that takes up no moisture, else None."""
    if agree is None or agree.value is not True:
        return None
    note = "one value for both cups: the material takes up no moisture"
    return TableValue(dry.value, dry.low, dry.high, agree.source, agree.how, agree.confidence, note)


def _cup(record: Record, key: str, thickness: float | None) -> TableValue:
    """Return one cup value in SI; a resistance factor becomes a permeance at the thickness of the row."""
    if record["basis"] == "mu" and thickness is not None:
        value = AIR_PERMEABILITY / (record[key] * thickness)
    else:
        value = record[key] * PERM
    covered = record.get("range-covers", key) == key
    low, high = (record["low"] * PERM, record["high"] * PERM) if covered else (None, None)
    return TableValue(value, low, high, *provenance(record))


def _air(record: Record | None) -> Air | None:
    if record is None:
        return None
    return Air(
        permeance=_value(record, _LITRE, key="permeance"),
        impermeable=Statement(record["air-impermeable"], *provenance(record)),
        minimum_thickness=_length(record.get("minimum-thickness")),
    )


def _limit(record: Record | None) -> MoistureLimit | None:
    if record is None:
        return None
    contents = (
        record.get(key) for key in ("moisture-content-limit", "moisture-content-caution", "decay-above")
    )
    limit, caution, decay = (None if content is None else content / 100 for content in contents)
    return MoistureLimit(record["criterion"], limit, caution, decay, *provenance(record)[:3])


def _curve(record: Record | None, factor: float) -> Curve | None:
    if record is None:
        return None
    points = tuple((humidity / 100, value * factor) for humidity, value in record["points"])
    return Curve(points, *provenance(record))


def _statement(record: Record | None) -> Statement | None:
    return None if record is None else Statement(record["value"], *provenance(record))


def _value(record: Record | None, factor: float = 1.0, key: str = "value") -> TableValue | None:
    return None if record is None or key not in record else value_of(record, factor, key)


def _number(record: Record, value: float) -> TableValue:
    return TableValue(value, None, None, *provenance(record))


def _length(millimetres: float | None) -> float | None:
    return None if millimetres is None else millimetres / 1000
