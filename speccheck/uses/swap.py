"""The swap: a substitute product put in place of a layer or a product, and the street run on both documents."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from speccheck.document import Loaded, Problem, Unreadable
from speccheck.document.load import load_data
from speccheck.document.product import Product
from speccheck.document.source import read_file
from speccheck.document.telling import tell
from speccheck.judgement.finding import SEVERITIES, Finding
from speccheck.judgement.pack import Pack
from speccheck.uses.check import KNOWN, Checked, check
from speccheck.uses.compare_layers import Comparison, compare_layers

__all__ = ["Change", "SwapError", "Swapped", "read_product", "swap"]

SUBSTITUTE = "substitute"
_RANK = {severity: rank for rank, severity in enumerate(SEVERITIES)}
_SLACK = 0.05
"""Margins that move by less than this share of the value or its limit count as unchanged, as the values do."""
_OWN = (
    "material", "product", "thermal-resistance", "conductivity", "permeance", "permeability", "air-permeance",
    "density", "emissivity", "facing",
)  # fmt: skip
"""What a layer states of the thing it is made of; it goes when the thing goes."""


class SwapError(ValueError):
    """A swap that cannot be made."""


@dataclass(frozen=True, slots=True)
class Change:
    """A rule at a place, before and after; None where it had nothing to say."""

    before: Finding | None
    after: Finding | None

    @property
    def finding(self) -> Finding:
        """The finding that still speaks, or the one that spoke."""
        found = self.after or self.before
        assert found is not None
        return found

    @property
    def trend(self) -> str:
        """``worse``, ``better``, ``same`` or ``unsure``."""
        old, new = _severity(self.before), _severity(self.after)
        if {old, new} == {"held-back", "pass"} and None in (self.before, self.after):
            return "same"  # a pass that was held back, where the rule has nothing to say any more, or not yet
        if new == "ask" and old != "ask":
            return "unsure"
        if _RANK[new] != _RANK[old]:
            return "worse" if _RANK[new] < _RANK[old] else "better"
        return self._by_margin()

    def _by_margin(self) -> str:
        old = self.before.measured if self.before else None
        new = self.after.measured if self.after else None
        paper = self.finding.consequence == "paperwork"
        if paper or old is None or new is None or old.fact != new.fact:
            return "same"
        scale = max(abs(number) for one in (old, new) for number in (one.limit, one.observed)) or 1.0
        moved = (new.margin - old.margin) / scale
        return "same" if abs(moved) <= _SLACK else "better" if moved > 0 else "worse"


def _severity(finding: Finding | None) -> str:
    return finding.severity if finding is not None else "pass"


@dataclass(frozen=True, slots=True)
class Swapped:
    """What a substitute product changes."""

    before: Checked
    after: Checked
    places: tuple[str, ...]
    comparisons: tuple[Comparison, ...]
    changes: tuple[Change, ...]

    def of(self, *trends: str) -> tuple[Change, ...]:
        """Return the changes of some trends."""
        return tuple(change for change in self.changes if change.trend in trends)

    @property
    def new_warnings(self) -> tuple[Change, ...]:
        """Rules that warn or refer now and did not, or warn more."""
        return tuple(
            c for c in self.of("worse") if c.after is not None and c.after.severity in ("outside", "caution", "refer")
            and _RANK[_severity(c.after)] < _RANK[_severity(c.before)]
        )  # fmt: skip

    @property
    def verdict(self) -> tuple[str, str]:
        """The verdict (``better``, ``equal``, ``worse``, ``ask the designer``) and its reason in one sentence."""
        if self.new_warnings:
            first = self.new_warnings[0].finding
            return "worse", first.reason
        doubts = [line for comparison in self.comparisons for line in comparison.doubts]
        if doubts:
            return "ask the designer", doubts[0]
        unsure = self.of("unsure")
        if unsure:
            judged = unsure[0].before is not None
            words = (
                "what was judged before no longer can be"
                if judged
                else "a question stands that did not before"
            )
            return "ask the designer", f"{words} ({unsure[0].finding.rule}). {unsure[0].finding.reason}"
        return self._by_trend()

    def _by_trend(self) -> tuple[str, str]:
        lower, higher = self.of("worse"), self.of("better")
        slips = [line for comparison in self.comparisons for line in comparison.worse]
        gains = [line for comparison in self.comparisons for line in comparison.better]
        if lower or slips:
            reason = slips[0] if slips else f"the margin of {lower[0].finding.title!r} shrinks"
            kept = "every rule comes out as before, but "
            return ("ask the designer", kept + reason) if higher or gains else ("worse", kept + reason)
        if higher or gains:
            return "better", gains[0] if gains else f"{higher[0].finding.title}: {higher[0].finding.reason}"
        return (
            "equal",
            "every rule comes out as before, and what is stated is the same within what data sheets tell",
        )


def read_product(path: Path) -> dict[str, Any]:
    """Return what a product file states, as plain data.

    Raises:
        Unreadable: with every problem, each with line and column.
    """
    source = read_file(path)
    problems: list[Problem] = list(source.problems)
    try:
        Product.model_validate(source.data)
    except ValidationError as error:
        refused = {problem.path for problem in problems}
        told = tell(source, Product, error.errors(include_url=False))
        problems += [problem for problem in told if problem.path not in refused]
    family = source.data.get("family")
    near = KNOWN.material(family) if isinstance(family, str) else None
    if near is not None:
        expected = (
            f"a material of the table; nearest: {', '.join(near)}" if near else "a material of the table"
        )
        do = "correct it, or leave `family` out"
        mark = source.mark(("family",))
        problems.append(
            Problem(f"material {family!r} is not known", expected, do, ("family",), mark, source.name)
        )
    if problems:
        raise Unreadable(*problems)
    return dict(source.data)


def swap(
    loaded: Loaded,
    place: str,
    product: Mapping[str, Any],
    extra: Sequence[Pack] = (),
    today: date | None = None,
    system: str = "both",
) -> Swapped:
    """Return what changes when a product takes the place of a layer, or of a product wherever it is used.

    Args:
        loaded: the document as specified.
        place: ``assembly.layer``, or the id of a product.
        product: what the substitute's data sheet states.
        extra: packs in force besides practice and the editions adopted.
        today: the day waivers are held against.
        system: units the sentences show.

    Raises:
        SwapError: when there is no such layer or product.
    """
    data, layers = _substituted(loaded, place, product)
    stands_for = {_free_name(loaded.source.data): _replaced(loaded, layers)}
    before = check(loaded, extra, today, system)
    after = check(load_data(data, loaded.name, KNOWN, loaded.folder), extra, today, system)
    comparisons = tuple(compare_layers(layer, before, after) for layer in layers)
    changes = _changes(before.findings, after.findings, stands_for)
    return Swapped(before, after, tuple(layers), comparisons, changes)


def _replaced(loaded: Loaded, layers: Sequence[str]) -> str:
    """Return the product that stood in the layers, or nothing where there was none or several."""
    found = set()
    for place in layers:
        name, _, id_ = place.partition(".")
        assembly = loaded.document.assemblies[name]
        found.add(assembly.layers[assembly.layer_ids.index(id_)].product or "")
    return found.pop() if len(found) == 1 else ""


def _substituted(loaded: Loaded, place: str, product: Mapping[str, Any]) -> tuple[dict[str, Any], list[str]]:
    document = loaded.document
    found: list[tuple[str, int]] = []
    for name, assembly in document.assemblies.items():
        for index, (id_, layer) in enumerate(zip(assembly.layer_ids, assembly.layers, strict=True)):
            if place == f"{name}.{id_}" or (place == layer.product and place in document.products):
                found.append((name, index))
    if not found:
        raise SwapError(_nowhere(loaded, place))
    data = _copy(loaded.source.data)
    data.setdefault("products", {})[_free_name(data)] = dict(product)
    layers = []
    for name, index in found:
        layer = data["assemblies"][name]["layers"][index]
        id_ = document.assemblies[name].layer_ids[index]
        kept = {key: value for key, value in layer.items() if key not in _OWN}
        if "thickness" in product:
            kept.pop("thickness", None)
        data["assemblies"][name]["layers"][index] = {
            **kept,
            "id": id_,
            "product": _free_name(loaded.source.data),
        }
        layers.append(f"{name}.{id_}")
    return data, layers


def _copy(data: Mapping[str, Any]) -> dict[str, Any]:
    from copy import deepcopy

    return deepcopy(dict(data))


def _free_name(data: Mapping[str, Any]) -> str:
    taken = data.get("products") or {}
    name, count = SUBSTITUTE, 1
    while name in taken:
        count += 1
        name = f"{SUBSTITUTE}-{count}"
    return name


def _nowhere(loaded: Loaded, place: str) -> str:
    from difflib import get_close_matches

    names = [
        f"{name}.{id_}" for name, assembly in loaded.document.assemblies.items() for id_ in assembly.layer_ids
    ] + list(loaded.document.products)
    near = get_close_matches(place, names, n=3, cutoff=0.4) or names[:4]
    return f"no layer and no product is called {place!r}; near it: {', '.join(near)}"


def _changes(
    before: Sequence[Finding], after: Sequence[Finding], stands_for: Mapping[str, str]
) -> tuple[Change, ...]:
    """Return each rule at each place before and after; the substitute is held against the product it replaces."""
    old = {finding.key: finding for finding in before}
    new = {finding.key: finding for finding in after}
    changes = [
        Change(old.get((rule, stands_for.get(place, place))), new.get((rule, place)))
        for rule, place in dict.fromkeys((*old, *new))
    ]
    return tuple(sorted(changes, key=lambda c: min(_RANK[_severity(c.before)], _RANK[_severity(c.after)])))
