"""The two-season period balance of DIN 4108-3 and the drying reserve of DIN 68800-2, kept apart from the year."""

from speccheck.physics.convective_moisture import convective_deposit, stack_pressure
from speccheck.physics.moisture_section import MoistureLayer
from speccheck.physics.period_balance import ROOF_PERIODS, WALL_PERIODS, PeriodBalance, period_balance
from speccheck.physics.wood import moisture_gain
from speccheck.survey.build_up import Slice
from speccheck.survey.fact import Fact, FactValue, Gap
from speccheck.survey.moisture.alike import enter_alike
from speccheck.survey.moisture.case import Case
from speccheck.survey.moisture.climate import Year
from speccheck.survey.moisture.path import MoisturePath

__all__ = ["enter_periods"]

_DIN = "DIN 4108-3:2018, annex A (read in textbook notes)"
_STOREY = 2.5
_WINTER = 7_776_000.0


def enter_periods(case: Case) -> tuple[Gap, ...] | None:
    """Enter the period balance of the path through the insulation, and what leakage leaves of its reserve."""
    path = case.paths[0]
    layers = _layers(path)
    roof = case.assembly.kind == "roof"
    balance = period_balance(layers, ROOF_PERIODS if roof else WALL_PERIODS)
    facts = path.facts
    method = "period balance with the block climate of a " + ("roof" if roof else "wall")
    piece = _wettest(balance, path)
    masses: dict[str, FactValue | None] = {
        "period_condensed": balance.condensed,
        "period_evaporable": balance.evaporable,
        "period_dries": balance.dries,
    }
    enter_alike(case.page, masses, facts, method, _DIN)
    enter = case.enter
    enter(
        "period_reserve",
        balance.reserve,
        facts,
        "evaporable less condensed",
        "DIN 68800-2:2022, 5.2.4 (memory)",
    )
    enter("period_place", _place(balance, path), facts, "the wettest plane", _DIN)
    beside = _beside_nonabsorbent(balance, path)
    enter("period_beside_nonabsorbent", beside, facts, "a layer at the plane takes up no water", _DIN)
    _enter_wood(case, balance, piece)
    return _enter_leakage(case, balance)


def _layers(path: MoisturePath) -> list[MoistureLayer]:
    return list(path.section((0.25, 0.04)).layers)


def _wettest(balance: PeriodBalance, path: MoisturePath) -> Slice | None:
    """Return the slice of wood at the wettest plane, the outer one first; None where neither is of wood."""
    if balance.governing is None or not balance.planes:
        return None
    place = balance.strips.places[balance.governing]
    outer = path.slices[place.layer]
    inner = path.slices[place.layer - 1] if place.depth == 0.0 and place.layer > 0 else outer
    return next((piece for piece in (outer, inner) if piece.group == "wood"), None)


def _place(balance: PeriodBalance, path: MoisturePath) -> str | None:
    if balance.governing is None or not balance.planes:
        return None
    place = balance.strips.places[balance.governing]
    piece = path.slices[place.layer]
    return f"inner face of {piece.words}" if place.depth == 0.0 else f"inside {piece.words}"


def _beside_nonabsorbent(balance: PeriodBalance, path: MoisturePath) -> bool | None:
    if balance.governing is None or not balance.planes:
        return None
    place = balance.strips.places[balance.governing]
    pair = {place.layer, place.layer - 1} if place.depth == 0.0 and place.layer > 0 else {place.layer}
    return any(_takes_no_water(path.slices[n]) for n in pair)


def _takes_no_water(piece: Slice) -> bool:
    """Does the material table say that it takes up no water? What it does not know counts as taking it up."""
    stated = piece.material.takes_up_water if piece.material else None
    return stated is not None and stated.value is False


def _enter_wood(case: Case, balance: PeriodBalance, piece: Slice | None) -> None:
    if piece is None:
        case.page.inapplicable("period_wood_gain", "no wood at the wettest plane")
        case.page.inapplicable("period_wood_kind", "no wood at the wettest plane")
        return
    stated_kind = piece.material.wood_kind if piece.material else None
    kind = str(stated_kind.value) if stated_kind is not None else "wood"
    thickness, stated = piece.page["thickness"], piece.page["density"]
    table = piece.row.row.density if piece.row else None
    density = stated.value if isinstance(stated.value, float) else table.value if table else None
    facts = (*case.paths[0].facts, thickness, *((stated,) if stated.known else ()))
    case.enter("period_wood_kind", kind, case.paths[0].facts, "solid wood or a panel of wood", _DIN)
    if density is None or not isinstance(thickness.value, float):
        case.page.unknown("period_wood_gain", *(thickness.missing or stated.missing))
        return
    gain = moisture_gain(balance.condensed, thickness.value, density)
    whence = "as declared" if stated.known else "from the material table"
    method = f"condensed mass over the board's mass, density {density:.0f} kg/m³ {whence}"
    case.enter("period_wood_gain", gain, facts, method, _DIN)


def _enter_leakage(case: Case, balance: PeriodBalance) -> tuple[Gap, ...] | None:
    """Enter the reserve left by the moisture that leaking indoor air may bring, at the leakage declared or assumed."""
    name = "reserve_after_leakage"
    leakage = case.project["air_leakage_50"]
    plane, inside = case.page["plane_temperature"], case.project["indoor_temperature"]
    outside = case.climate["winter_mean_temperature"]
    vapour, told_by = _room_vapour(case)
    needed = (leakage, plane, inside, outside, *told_by)
    if balance.reserve is None or any(fact.inapplicable for fact in needed):
        case.page.inapplicable(name, "no reserve, or no plane")
        return None
    missing = tuple(dict.fromkeys(gap for fact in needed for gap in fact.missing))
    if missing:
        case.page.unknown(name, *missing)
        return None
    storeys = case.project["storeys"].value
    height = _STOREY * (storeys if isinstance(storeys, float) else 1.0) / 2.0
    values = [fact.value for fact in needed[:4]]
    q50, at_plane, room, cold = (value if isinstance(value, float) else 0.0 for value in values)
    push = stack_pressure(room, cold, height)
    deposit = convective_deposit(q50, push, at_plane, room, vapour, _WINTER)
    case.enter(
        name,
        balance.reserve - deposit,
        (*case.paths[0].facts, *needed),
        "reserve less what stack-driven leakage, declared or assumed, would leave at the plane in 90 days, "
        "all of it condensing: an upper bound",
        "mass balance of leaking air; DIN 68800-2:2022 asks a reserve for it (memory)",
    )
    return None


def _room_vapour(case: Case) -> tuple[float, tuple[Fact, ...]]:
    """Return the vapour pressure of the rooms in winter [Pa] and what tells it: set-point, else the year."""
    stated, year = case.project["indoor_vapour_pressure"], case.year
    if isinstance(stated.value, float):
        return stated.value, (stated,)
    if not isinstance(year, Year):
        return 0.0, (stated,)
    coldest = sorted(range(12), key=year.climate.outside_temperature.__getitem__)[:3]
    return sum(year.climate.inside_pressure[month] for month in coldest) / 3.0, year.facts
