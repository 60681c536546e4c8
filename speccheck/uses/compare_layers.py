"""Comparing a layer with its substitute, function by function; what cannot be compared is named, never called equal."""

from collections.abc import Callable
from dataclasses import dataclass, field

from speccheck.judgement.wording import word
from speccheck.survey import Fact, Origin
from speccheck.survey.ledger import Page
from speccheck.uses.check import Checked

__all__ = ["Comparison", "Row", "compare_layers"]

_SAME = 0.05
"""Values that differ by less than this share count as the same: tests of one product scatter more."""


@dataclass(frozen=True, slots=True)
class Row:
    """One property before and after, with how they compare."""

    name: str
    kind: str
    before: Fact
    after: Fact
    verdict: str
    note: str = ""


@dataclass(slots=True)
class Comparison:
    """A layer and its substitute: the rows, and what they amount to."""

    place: str
    rows: list[Row] = field(default_factory=list)
    doubts: list[str] = field(default_factory=list)
    better: list[str] = field(default_factory=list)
    worse: list[str] = field(default_factory=list)


def compare_layers(place: str, before: Checked, after: Checked) -> Comparison:
    """Return the comparison of the layer at ``place`` in two documents."""
    old, new = before.surveyed.ledger.page("layer", place), after.surveyed.ledger.page("layer", place)
    comparison = Comparison(place)
    _compare_kind(comparison, old, new)
    _compare_vapour(comparison, old, new, before, after)
    _compare_air(comparison, old, new)
    _compare_heat(comparison, old, new)
    _compare_stay(comparison, old, new)
    return comparison


def _compare_kind(comparison: Comparison, old: Page, new: Page) -> None:
    _row(comparison, "generic material", "text", old, new, "material")
    was, now = old["group"].value, new["group"].value
    if was != now:
        comparison.doubts.append(
            f"{comparison.place} is of the group {was} and the substitute of the group {now}; what else the layer did "
            "(bracing, fire, fixing) is not judged here"
        )
    if "permeability" in new and "permeability" not in old:
        comparison.doubts.append(
            f"the substitute of {comparison.place} states a permeability (perm-inch, of the stuff) and the layer a "
            "permeance (perm, of the sheet): ask for the permeance of the product as sold"
        )


def _row(comparison: Comparison, name: str, kind: str, old: Page, new: Page, fact: str) -> Row:
    before, after = old[fact], new[fact]
    row = Row(name, kind, before, after, _verdict(before, after))
    comparison.rows.append(row)
    return row


def _verdict(before: Fact, after: Fact) -> str:
    if before.inapplicable and after.inapplicable:
        return "not stated"
    if before.value is None or after.value is None:
        return "not comparable"
    if isinstance(before.value, float) and isinstance(after.value, float):
        scale = max(abs(before.value), abs(after.value))
        if scale == 0 or abs(before.value - after.value) <= _SAME * scale:
            return "same"
        return "higher" if after.value > before.value else "lower"
    return "same" if before.value == after.value else "different"


def _compare_vapour(comparison: Comparison, old: Page, new: Page, before: Checked, after: Checked) -> None:
    dry = _row(comparison, "permeance, dry cup", "permeance", old, new, "permeance_dry")
    wet = _row(comparison, "permeance, wet cup", "permeance", old, new, "permeance_wet")
    place = comparison.place
    for cup, fact in (("dry", "vapour_class"), ("wet", "vapour_class_wet")):
        row = _row(comparison, f"vapour class, {cup} cup", "text", old, new, fact)
        if row.verdict == "different":
            was, now = row.before.value, row.after.value
            comparison.doubts.append(
                f"the {cup}-cup vapour class of {place} changes from {was} to {now}; that is for the designer"
            )
    _cross_cups(comparison, old, new, dry, wet)
    _tested_alike(comparison, place, before, after)


def _cross_cups(comparison: Comparison, old: Page, new: Page, dry: Row, wet: Row) -> None:
    place = comparison.place
    shown_old = [cup for cup, row in (("dry", dry), ("wet", wet)) if row.before.known]
    shown_new = [cup for cup, row in (("dry", dry), ("wet", wet)) if row.after.known]
    if new["permeance_unstated"].known:
        comparison.doubts.append(
            f"the substitute of {place} states a permeance without its cup, so it cannot be compared"
        )
    elif shown_old and not shown_new:
        comparison.doubts.append(
            f"the substitute of {place} states no permeance; ask for dry-cup and wet-cup values"
        )
    elif shown_old and shown_new and not set(shown_old) & set(shown_new):
        comparison.doubts.append(
            f"{place} is specified by {shown_old[0]} cup and the substitute by {shown_new[0]} cup: "
            "the two cannot be compared"
        )
    elif "dry" in shown_old and "dry" not in shown_new:
        comparison.doubts.append(
            f"the substitute of {place} states no dry-cup permeance, by which it is classed"
        )
    elif old["permeance_declared"].value is True and new["permeance_declared"].value is not True:
        comparison.doubts.append(
            f"the permeance of {place} was declared and that of the substitute is only a table value"
        )


def _tested_alike(comparison: Comparison, place: str, before: Checked, after: Checked) -> None:
    was, now = _tested(before, place), _tested(after, place)
    if was and now and was != now:
        comparison.doubts.append(
            f"the permeance of {place} was tested as {was} and the substitute's as {now}: not the same"
        )


def _tested(checked: Checked, place: str) -> str:
    assembly_name, _, layer_id = place.partition(".")
    document = checked.loaded.document
    assembly = document.assemblies[assembly_name]
    layer = assembly.layers[assembly.layer_ids.index(layer_id)]
    product = document.products.get(layer.product) if layer.product else None
    cups = layer.permeance or (product.permeance if product else None)
    return cups.tested or "" if cups else ""


def _compare_air(comparison: Comparison, old: Page, new: Page) -> None:
    row = _row(comparison, "air permeance at 75 Pa", "air-permeance", old, new, "air_permeance")
    if old["controls_air"].value is not True:
        return
    place = comparison.place
    tight = _row(comparison, "air-impermeable (0.02 L/(s·m²))", "truth", old, new, "air_impermeable")
    if tight.before.value is True and tight.after.value is False:
        comparison.worse.append(f"{place} is the air barrier and the substitute is not air-impermeable")
    elif not row.after.known and not tight.after.known:
        comparison.doubts.append(
            f"{place} is an air barrier and the substitute states no air permeance (ASTM E2178)"
        )
    elif row.after.origin is Origin.TABLE and row.before.origin in (Origin.DECLARED, Origin.PRODUCT):
        comparison.doubts.append(
            f"the air permeance of {place} was declared and the substitute's is only a table value"
        )


def _compare_heat(comparison: Comparison, old: Page, new: Page) -> None:
    row = _row(comparison, "thermal resistance", "thermal-resistance", old, new, "resistance")
    _row(comparison, "thickness", "length", old, new, "thickness")
    place = comparison.place
    if row.verdict in ("higher", "lower"):
        text = _moved(row, place)
        (comparison.better if row.verdict == "higher" else comparison.worse).append(text)
    elif row.verdict == "not comparable" and row.before.known:
        comparison.doubts.append(f"the substitute of {place} states no thermal resistance")


def _moved(row: Row, place: str) -> str:
    say: Callable[[Fact], str] = lambda fact: word(fact.value, row.kind, "both")  # noqa: E731 - two uses, one line
    return f"the {row.name} of {place} goes from {say(row.before)} to {say(row.after)}"


def _compare_stay(comparison: Comparison, old: Page, new: Page) -> None:
    row = _row(comparison, "days in the weather", "duration", old, new, "exposure_limit")
    planned = old["exposure"].value
    if isinstance(planned, float) and row.before.known and not row.after.known:
        comparison.doubts.append(
            f"{comparison.place} is to stay {planned:g} days in the weather; the substitute states no limit"
        )
