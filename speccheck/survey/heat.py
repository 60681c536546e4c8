"""Heat through an assembly: framing, and the effective resistance by each method the trade uses."""

from collections.abc import Callable, Sequence
from functools import cache
from typing import NamedTuple

from speccheck.document.assembly import Assembly
from speccheck.physics import heat, metal_framing
from speccheck.survey.build_up import Slice
from speccheck.survey.convention import Practice
from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.films import well_ventilated
from speccheck.survey.framing import enter_framing, layer_fraction, main_framed, member_resistance
from speccheck.survey.ledger import Page
from speccheck.survey.section import Section
from speccheck.tables.construction import metal_framing as metal_rows

__all__ = ["survey_heat"]

_PARALLEL = "parallel path: each path from air to air, continuous insulation inside each path"
_ISOTHERMAL = "isothermal planes: framed layers averaged one by one, then added"
_COMBINED = "ISO 6946 combined method: mean of the upper and the lower limit"


class _Build(NamedTuple):
    """The section as heat sees it: films at both ends, and for each framed slice its fraction, member and set.

    Slices of one set have their members in line; sets cross one another. The main framing is set 0.
    """

    films: tuple[Fact, Fact]
    slices: Sequence[Slice]
    fractions: tuple[Fact | None, ...]
    members: tuple[Fact | None, ...]
    sets: tuple[int, ...]

    @property
    def facts(self) -> list[Fact]:
        """All inputs in the order :meth:`read` expects."""
        found = [*self.films, *(piece.page["resistance"] for piece in self.slices)]
        for fraction, member in zip(self.fractions, self.members, strict=True):
            if fraction is not None and member is not None:
                found += [fraction, member]
        return found

    def read(self, values: Sequence[float]) -> list[heat.Layer]:
        """Return the layers from film to film as (fraction, resistance) parts."""
        count = len(self.slices)
        inside, outside = values[0], values[1]
        rest = iter(values[2 + count :])
        layers: list[heat.Layer] = [((1.0, inside),)]
        for index, resistance in enumerate(values[2 : 2 + count]):
            if self.fractions[index] is None:
                layers.append(((1.0, resistance),))
            else:
                fraction, member = next(rest), next(rest)
                layers.append(((1.0 - fraction, resistance), (fraction, member)))
        return [*layers, ((1.0, outside),)]


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
        _survey_paths(page, assembly, kept, films, practice)
    _enter_effective(page, practice, framed=bool(framed), steel=steel)
    _enter_stated(page, assembly)


def _survey_paths(
    page: Page, assembly: Assembly, kept: Sequence[Slice], films: tuple[Fact, Fact], practice: Practice
) -> None:
    for name in ("r_modified_zone", "r_correction_factor"):
        page.inapplicable(name, "no metal framing")
    framed = [piece for piece in kept if piece.framing is not None]
    if not framed:
        for name in ("r_parallel", "r_isothermal", "r_iso_6946"):
            page.copy(name, page["r_series"], method="no framing: the sum of the layers")
        return
    main = main_framed(framed)
    build = _Build(
        films,
        kept,
        tuple(
            layer_fraction(p, page, assembly, main, practice) if p.framing is not None else None for p in kept
        ),
        tuple(member_resistance(piece) if piece.framing is not None else None for piece in kept),
        tuple(_set(piece, index, main) for index, piece in enumerate(kept)),
    )
    # the combined method takes what the two others found, at the same values
    parallel = cache(lambda *values: heat.parallel_path(_paths(build, values)))
    isothermal = cache(lambda *values: heat.isothermal_planes(build.read(values)))
    methods: tuple[tuple[str, Callable[..., float], str, str], ...] = (
        ("r_parallel", parallel, _PARALLEL, "ASHRAE Fundamentals 2021 ch. 27, parallel-path method"),
        (
            "r_isothermal",
            isothermal,
            _ISOTHERMAL,
            "ASHRAE Fundamentals 2021 ch. 27, isothermal planes; NBC A-9.36.2.4",
        ),
        (
            "r_iso_6946",
            lambda *values: heat.combined_limits(parallel(*values), isothermal(*values)).mean,
            _COMBINED,
            "ISO 6946:2017, 6.7.2",
        ),
    )
    facts = build.facts
    for name, fn, method, source in methods:
        # every method rises with every resistance; a fraction has no range, so its sign is of no account
        page.compute(name, fn, facts, method=method, source=source, rises="+")


def _set(piece: Slice, index: int, main: Slice) -> int:
    """Return the set a slice's members belong to: 0 in line with the main framing, -1 without framing."""
    if piece.framing is None:
        return -1
    own = piece.layer is not None and piece.layer.framing is not None
    return index + 1 if own and piece.framing is not main.framing and piece.framing.crosses else 0


def _paths(build: _Build, values: Sequence[float]) -> tuple[heat.Path, ...]:
    """Return the heat paths: members of one set stand in line, sets cross one another."""
    by_set: dict[int, list[heat.Layer]] = {}
    layers = build.read(values)
    for layer, own in zip(layers[1:-1], build.sets, strict=True):
        by_set.setdefault(own, []).append(layer)
    plain = by_set.pop(-1, [])
    merged = [
        tuple((part, sum(resistances)) for part, resistances in heat.section_paths(members, aligned=True))
        for members in by_set.values()
    ]
    return heat.section_paths([layers[0], *plain, *merged, layers[-1]])


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
    needed = (depth, spacing, cavity)
    if not all(fact.known for fact in needed):
        gaps = dict.fromkeys(gap for fact in needed for gap in fact.missing)
        page.unknown("r_correction_factor", *gaps, inputs=tuple(fact.key for fact in needed))
        return
    rows = metal_rows("iecc", float(depth.value), float(spacing.value))  # type: ignore[arg-type]
    table = tuple((nominal, factor.value) for nominal, factor in rows.factors) if rows else ()
    nominal = float(cavity.value)  # type: ignore[arg-type]
    # a declared R-13 and the row of R-13 may differ in the last bit of their conversion
    if not table or not table[0][0] * (1 - 1e-6) <= nominal <= table[-1][0] * (1 + 1e-6):
        page.inapplicable(
            "r_correction_factor", "the table has no row for this depth, spacing and cavity resistance"
        )
        return
    page.compute(
        "r_correction_factor",
        lambda c, *r: sum(r[:-2]) + c * _factor(c, table),
        [cavity, *others, depth, spacing],
        method="cavity resistance times its correction factor, the other layers added",
        source="IECC Table C402.1.4.1 and equation 4-1 (partly from memory)",
        rises="+",
    )


def _factor(cavity: float, table: tuple[tuple[float, float], ...]) -> float:
    """Return the factor of a resistance; past the rows, where a range may reach, that of the end row."""
    within = min(max(cavity, table[0][0]), table[-1][0])
    return metal_framing.correction_factor(within, table) or table[-1][1]


def _modified_zone(
    page: Page, stud: Slice, inner: Sequence[Slice], outer: Sequence[Slice], films: tuple[Fact, Fact]
) -> None:
    framing = stud.framing
    assert framing is not None
    flange, steel = framing.width, framing.steel_thickness
    gaps = _stud_gaps(page.place, stud, (*inner, *outer))
    if flange is None or steel is None or gaps:
        page.unknown("r_modified_zone", *gaps)
        return
    thickness = [_thickness(inner), _thickness(outer)]
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


def _stud_gaps(place: str, stud: Slice, others: Sequence[Slice]) -> list[Gap]:
    """Return what the modified zone method wants and the document does not show."""
    framing = stud.framing
    assert framing is not None
    wanted = {"flange width": framing.width, "steel thickness": framing.steel_thickness}
    gaps = [
        Gap(place, f"{what} of the studs", f"What is the {what} of the studs of {place}?", stud.path)
        for what, value in wanted.items()
        if value is None
    ]
    return [*gaps, *dict.fromkeys(gap for piece in others for gap in piece.page["thickness"].missing)]


def _thickness(slices: Sequence[Slice]) -> float:
    values = [piece.page["thickness"].value for piece in slices]
    return sum(value for value in values if isinstance(value, float))


def _enter_effective(page: Page, practice: Practice, *, framed: bool, steel: bool) -> None:
    if steel:
        order = ("r_correction_factor", "r_modified_zone")
        found = [page[name] for name in order if not page[name].inapplicable]
        chosen = next((fact for fact in found if fact.known), found[0] if found else page[order[1]])
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
