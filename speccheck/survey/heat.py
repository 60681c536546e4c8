"""Heat through an assembly: framing, and the effective resistance by each method the trade uses."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from speccheck.document.assembly import Assembly
from speccheck.physics import heat, metal_framing
from speccheck.survey.build_up import Slice
from speccheck.survey.convention import Practice
from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.films import well_ventilated
from speccheck.survey.framing import enter_framing, member_resistance
from speccheck.survey.ledger import Page
from speccheck.survey.section import Section
from speccheck.tables.construction import metal_framing as metal_rows

__all__ = ["survey_heat"]

_PARALLEL = "parallel path: each path from air to air, continuous insulation inside each path"
_ISOTHERMAL = "isothermal planes: framed layers averaged one by one, then added"
_COMBINED = "ISO 6946 combined method: mean of the upper and the lower limit"


@dataclass(frozen=True, slots=True)
class _Build:
    """The section as heat sees it: films at both ends, and for each framed slice its fraction and member."""

    films: tuple[Fact, Fact]
    slices: Sequence[Slice]
    fractions: tuple[Fact | None, ...]
    members: tuple[Fact | None, ...]

    @property
    def facts(self) -> list[Fact]:
        """All inputs in the order :meth:`read` expects."""
        found = [*self.films, *(piece.page["resistance"] for piece in self.slices)]
        for fraction, member in zip(self.fractions, self.members, strict=True):
            if fraction is not None and member is not None:
                found += [fraction, member]
        return found

    def read(self, values: Sequence[float]) -> tuple[list[tuple[tuple[float, float], ...]], list[int]]:
        """Return the layers as (fraction, resistance) parts, and which framing set each belongs to."""
        count = len(self.slices)
        inside, outside = values[0], values[1]
        rest = iter(values[2 + count :])
        layers: list[tuple[tuple[float, float], ...]] = [((1.0, inside),)]
        sets = [-1]
        for index, resistance in enumerate(values[2 : 2 + count]):
            if self.fractions[index] is None:
                layers.append(((1.0, resistance),))
                sets.append(-1)
            else:
                fraction, member = next(rest), next(rest)
                layers.append(((1.0 - fraction, resistance), (fraction, member)))
                sets.append(self._set(index))
        return [*layers, ((1.0, outside),)], [*sets, -1]

    def _set(self, index: int) -> int:
        framing = self.slices[index].framing
        own = self.slices[index].layer is not None and self.slices[index].layer.framing is not None  # type: ignore[union-attr]
        return index if own and framing is not None and framing.crosses else 0


def survey_heat(
    page: Page, assembly: Assembly, section: Section, practice: Practice, films: tuple[Fact, Fact]
) -> None:
    """Enter resistances and transmittance of an assembly by every method that applies."""
    kept = section.slices[: section.cavity] if well_ventilated(section) else section.slices
    framed = [piece for piece in kept if piece.framing is not None]
    enter_framing(page, assembly, framed, practice)
    page.compute(
        "r_series",
        lambda *r: sum(r),
        [*films, *(piece.page["resistance"] for piece in kept)],
        method="sum of the layers away from framing, films included",
        source="ISO 6946:2017, 6.7.1",
        rises="+",
    )
    steel = any(piece.framing is not None and piece.framing.material == "steel" for piece in framed)
    if steel:
        _survey_steel(page, kept, films)
    else:
        _survey_paths(page, kept, films, framed=bool(framed))
    _enter_effective(page, practice, framed=bool(framed), steel=steel)
    _enter_stated(page, assembly)


def _survey_paths(page: Page, kept: Sequence[Slice], films: tuple[Fact, Fact], *, framed: bool) -> None:
    for name in ("r_modified_zone", "r_correction_factor"):
        page.inapplicable(name, "no metal framing")
    if not framed:
        for name in ("r_parallel", "r_isothermal", "r_iso_6946"):
            page.copy(name, page["r_series"], method="no framing: the sum of the layers")
        return
    build = _Build(
        films,
        kept,
        tuple(page["framing_fraction"] if piece.framing is not None else None for piece in kept),
        tuple(member_resistance(piece) if piece.framing is not None else None for piece in kept),
    )
    methods: tuple[tuple[str, Callable[..., float], str, str], ...] = (
        ("r_parallel", _parallel, _PARALLEL, "ASHRAE Fundamentals 2021 ch. 27, parallel-path method"),
        (
            "r_isothermal",
            _isothermal,
            _ISOTHERMAL,
            "ASHRAE Fundamentals 2021 ch. 27, isothermal planes; NBC A-9.36.2.4",
        ),
        ("r_iso_6946", _combined, _COMBINED, "ISO 6946:2017, 6.7.2"),
    )
    for name, fn, method, source in methods:
        page.compute(name, lambda *v, fn=fn: fn(build, v), build.facts, method=method, source=source)


def _paths(build: _Build, values: Sequence[float]) -> tuple[tuple[float, Sequence[float]], ...]:
    """Return the heat paths: layers of one framing set share their members, sets that cross are independent."""
    layers, sets = build.read(values)
    plain = [layer for layer, own in zip(layers, sets, strict=True) if own < 0]
    by_set: dict[int, list[tuple[tuple[float, float], ...]]] = {}
    for layer, own in zip(layers, sets, strict=True):
        if own >= 0:
            by_set.setdefault(own, []).append(layer)
    merged = [
        tuple((parts[0][0], sum(part[1] for part in parts)) for parts in zip(*members, strict=True))
        for members in by_set.values()
    ]
    return heat.section_paths([*plain, *merged])


def _parallel(build: _Build, values: Sequence[float]) -> float:
    return heat.parallel_path(_paths(build, values))


def _isothermal(build: _Build, values: Sequence[float]) -> float:
    return heat.isothermal_planes(build.read(values)[0])


def _combined(build: _Build, values: Sequence[float]) -> float:
    return heat.iso_6946_limits(_paths(build, values), build.read(values)[0]).mean


def _survey_steel(page: Page, kept: Sequence[Slice], films: tuple[Fact, Fact]) -> None:
    for name in ("r_parallel", "r_isothermal", "r_iso_6946"):
        page.inapplicable(name, "metal framing: simple averaging does not hold")
    studs = [piece for piece in kept if piece.framing is not None and piece.framing.material == "steel"]
    if len(studs) != 1:
        for name in ("r_modified_zone", "r_correction_factor"):
            page.inapplicable(name, "the methods for metal studs take one framed layer")
        return
    stud = studs[0]
    others = [piece.page["resistance"] for piece in kept if piece is not stud]
    cavity = stud.page["resistance"]
    _correction_factor(page, stud, cavity, [*films, *others])
    index = kept.index(stud)
    _modified_zone(page, stud, kept[:index], kept[index + 1 :], films)


def _correction_factor(page: Page, stud: Slice, cavity: Fact, others: Sequence[Fact]) -> None:
    depth, spacing = page["stud_depth"], page["framing_spacing"]
    if not (depth.known and spacing.known):
        page.unknown("r_correction_factor", *depth.missing, *spacing.missing)
        return
    rows = metal_rows("iecc", float(depth.value), float(spacing.value))  # type: ignore[arg-type]
    table = tuple((nominal, factor.value) for nominal, factor in rows.factors) if rows else ()
    nominal = cavity.value if isinstance(cavity.value, float) else 0.0
    if not table or metal_framing.effective_cavity_resistance(nominal, table) is None:
        page.inapplicable(
            "r_correction_factor", "the table has no row for this depth, spacing and cavity resistance"
        )
        return
    page.compute(
        "r_correction_factor",
        lambda c, *r: sum(r) + (metal_framing.effective_cavity_resistance(c, table) or 0.0),
        [cavity, *others, depth, spacing][: 1 + len(others)],
        method="cavity resistance times its correction factor, the other layers added",
        source="IECC Table C402.1.4.1 and equation 4-1 (partly from memory)",
        rises="+",
    )


def _modified_zone(
    page: Page, stud: Slice, inner: Sequence[Slice], outer: Sequence[Slice], films: tuple[Fact, Fact]
) -> None:
    framing = stud.framing
    assert framing is not None
    flange, steel = framing.width, framing.steel_thickness
    needed = {"flange width": flange, "steel thickness": steel}
    gaps = [
        Gap(
            page.place, f"{what} of the studs", f"What is the {what} of the studs of {page.place}?", stud.path
        )
        for what, value in needed.items()
        if value is None
    ]
    if flange is None or steel is None:
        page.unknown("r_modified_zone", *gaps)
        return
    thickness = [max(_thickness(inner), 0.0), max(_thickness(outer), 0.0)]
    factor = framing.zone_factor
    note = (
        f"zone factor {factor:g} as declared"
        if factor is not None
        else "zone factor 2 of the plain zone method, since none is declared"
    )

    def resistance(depth: float, spacing: float, cavity: float, *rest: float) -> float:
        member = metal_framing.MetalStud(spacing, depth, flange.value, steel.value)
        width = metal_framing.modified_zone_width(
            member.flange, max(*thickness, 0.0127), 2.0 if factor is None else factor
        )
        inside = rest[0] + sum(rest[2 : 2 + len(inner)])
        outside = rest[1] + sum(rest[2 + len(inner) :])
        return metal_framing.modified_zone_resistance(member, width, cavity, outside, inside)

    page.compute(
        "r_modified_zone",
        resistance,
        [
            page["stud_depth"],
            page["framing_spacing"],
            stud.page["resistance"],
            *films,
            *(piece.page["resistance"] for piece in (*inner, *outer)),
        ],
        method=f"modified zone method, {note}; clear wall, without plates and corners",
        source="ASHRAE Fundamentals 2021 ch. 27, modified zone method (read)",
    )


def _thickness(slices: Sequence[Slice]) -> float:
    values = [piece.page["thickness"].value for piece in slices]
    return sum(value for value in values if isinstance(value, float))


def _enter_effective(page: Page, practice: Practice, *, framed: bool, steel: bool) -> None:
    if steel:
        order = ("r_correction_factor", "r_modified_zone")
        chosen = next((page[name] for name in order if page[name].known), page[order[1]])
    elif not framed:
        chosen = page["r_series"]
    else:
        chosen = page[
            {"parallel": "r_parallel", "isothermal": "r_isothermal", "iso-6946": "r_iso_6946"}[
                practice.averaging
            ]
        ]
    effective = page.copy("effective_r", chosen)
    method = chosen.method or "sum of the layers"
    page.declare("effective_r_method", method, origin=Origin.COMPUTED)
    page.compute("u_factor", lambda r: 1.0 / r, [effective], method="1 over effective R", rises="-")


def _enter_stated(page: Page, assembly: Assembly) -> None:
    stated = assembly.stated
    for name, quantity in (
        ("stated_r", stated.effective_r if stated else None),
        ("stated_u", stated.u_factor if stated else None),
    ):
        if quantity is not None:
            page.declare(name, quantity.value)
        else:
            page.inapplicable(name, "the document states none")
