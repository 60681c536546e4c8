"""The assemblies of a brief: what each is to achieve, and those that share every value in one row."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from speccheck.judgement.finding import Finding
from speccheck.judgement.wording import word
from speccheck.report.brief.seals import NOT_SHOWN, Spot
from speccheck.survey import Fact
from speccheck.survey.ledger import Page
from speccheck.survey.profile import layer_pages
from speccheck.survey.vocabulary import VOCABULARY
from speccheck.uses.check import Checked

__all__ = [
    "AGAINST",
    "AssemblyQuality",
    "AssemblyRow",
    "Reason",
    "assembly_rows",
    "qualities",
    "reasons",
    "shown",
]

AGAINST = frozenset({"outside", "caution", "refer"})
"""Findings that speak against a place, or hand it to a licensed person: it is marked open."""

_RATIO_EVEN = 1.0
_HEAT_KINDS = frozenset({"thermal-resistance", "transmittance"})
_HEAT_FACTS = frozenset({"layer.interrupted_by", "assembly.continuous_interrupted"})
_NOT_FOR_HEAT = frozenset({"durability", "health"})


class Reason(NamedTuple):
    """Why vapour is held as it is: the words that stand in a row, and what they mean, told once below the table."""

    term: str
    meaning: str


_GROUND = Reason("Damp ground", "damp all year on that side: vapour comes from it in every season.")
_INSIDE = Reason("Inside tighter", "winter vapour leaves more easily than it enters.")
_CORE = Reason("Tight insulation", "the insulation itself holds vapour back, from either side.")
_OUTSIDE = Reason("Outside tighter", "what gets in during winter leaves slowly.")


class AssemblyQuality(NamedTuple):
    """What one assembly is to achieve, in words; the units of resistance and permeance stand in the head of a table.

    It is ``open`` where a finding speaks against it or one of its layers, or refers it to a licensed person; its
    resistance is ``r_open`` where such a finding is about heat.
    """

    name: str
    effective_r: str
    inside: str
    outside: str
    why: str
    air: str
    reason: Reason | None = None
    open: bool = False
    r_open: bool = False


class AssemblyRow(NamedTuple):
    """Assemblies that share every value; each keeps its own mark."""

    spots: tuple[Spot, ...]
    quality: AssemblyQuality


def qualities(checked: Checked, system: str = "both") -> tuple[AssemblyQuality, ...]:
    """Return what each assembly is to achieve, in the order of the document and the units of a system."""
    return tuple(_quality(checked, name, system) for name in checked.loaded.document.assemblies)


def assembly_rows(found: Sequence[AssemblyQuality]) -> tuple[AssemblyRow, ...]:
    """Return the same with assemblies that share every value in one row, in the order of each row's first."""
    shared: dict[AssemblyQuality, list[Spot]] = {}
    for one in found:
        shared.setdefault(one._replace(name="", open=False), []).append(Spot(one.name, one.open))
    return tuple(AssemblyRow(tuple(spots), quality) for quality, spots in shared.items())


def reasons(found: Sequence[AssemblyQuality]) -> tuple[Reason, ...]:
    """Return the reasons that stand in these rows, each once."""
    return tuple(dict.fromkeys(one.reason for one in found if one.reason))


def shown(fact: Fact, kind: str, system: str = "both") -> str:
    """Return a fact in words, or that it is not shown or does not apply."""
    if fact.value is None:
        return "does not apply" if fact.inapplicable else NOT_SHOWN
    return word(fact.value, kind, system)


def _quality(checked: Checked, name: str, system: str) -> AssemblyQuality:
    page = checked.surveyed.ledger.page("assembly", name)
    air = page["air_control_layers"].value
    against = list(_against(checked, name))
    reason, why = _why(page)
    inside = _retarder(page, "interior_retarder", "retarder_permeance", system)
    outside = _retarder(page, "exterior_retarder", "exterior_tightest", system)
    if page["interior_retarder"].inapplicable and page["exterior_retarder"].inapplicable:
        inside, outside = _tightest(checked, name, system), "—"
    core = _tight_core(checked, page, name)
    if core is not None:
        inside = f"{core['id'].value}, the insulation itself: {_cups(core, 'permeance', system)}"
        reason, why = _CORE, " ".join(["Tight insulation.", *_drying(page)])
    return AssemblyQuality(
        name=name,
        effective_r=_figures(page["effective_r"], "thermal-resistance", system),
        inside=inside,
        outside=outside,
        why=why,
        air=", ".join(air) if isinstance(air, tuple) and air else NOT_SHOWN,
        reason=reason,
        open=bool(against),
        r_open=any(map(_about_heat, against)),
    )


def _against(checked: Checked, name: str) -> Iterator[Finding]:
    for finding in checked.findings:
        here = finding.subject in ("assembly", "layer") and finding.place.partition(".")[0] == name
        if here and finding.severity in AGAINST:
            yield finding


def _about_heat(finding: Finding) -> bool:
    """Return whether a finding is about heat: by the facts it looked at, unless its stake is damp or health."""
    looked_at = {name for name, _ in finding.observed} | (
        {finding.measured.fact} if finding.measured else set()
    )
    return finding.consequence not in _NOT_FOR_HEAT and any(
        name in _HEAT_FACTS or (name in VOCABULARY and VOCABULARY[name].kind in _HEAT_KINDS)
        for name in looked_at
    )


def _figures(fact: Fact, kind: str, system: str) -> str:
    """Return a value without its units, US with SI behind it where both are wanted: ``R-11.3 (1.99)``, ``1 (57)``."""
    if not isinstance(fact.value, float):
        return shown(fact, kind)
    us, si = (word(fact.value, kind, one).partition(" ")[0] for one in ("us", "si"))
    return f"{us} ({si})" if system == "both" else us if system == "us" else si


def _retarder(page: Page, name: str, permeance: str, system: str) -> str:
    """Return the tightest layer of a side with its permeance in both cups."""
    layer = page[name]
    if layer.value is None:
        return "nothing" if layer.inapplicable else NOT_SHOWN
    return f"{str(layer.value).partition('.')[2]}: {_cups(page, permeance, system)}"


def _cups(page: Page, permeance: str, system: str) -> str:
    dry, wet = (_figures(page[f"{permeance}_{cup}"], "permeance", system) for cup in ("dry", "wet"))
    return f"{dry}, either cup" if dry == wet else f"{dry} dry, {wet} wet"


def _tight_core(checked: Checked, page: Page, name: str) -> Page | None:
    """Return the main insulation where it is tighter to vapour than every other layer, as closed-cell foam is."""
    known = {
        one.place: (one["permeance_dry"].value, one)
        for one in layer_pages(checked.surveyed, name)
        if isinstance(one["permeance_dry"].value, float)
    }
    main = known.get(str(page["main_insulation"].value))
    if main is None or any(value <= main[0] for value, one in known.values() if one is not main[1]):
        return None
    return main[1]


def _tightest(checked: Checked, name: str, system: str) -> str:
    """Return the tightest layer of all, where no insulation parts an inside from an outside."""
    known = [
        (page["permeance_dry"].value, page)
        for page in layer_pages(checked.surveyed, name)
        if isinstance(page["permeance_dry"].value, float)
    ]
    if not known:
        return NOT_SHOWN
    page = min(known, key=lambda one: one[0])[1]
    return f"{page['id'].value}, the tightest of all: {_cups(page, 'permeance', system)}"


def _why(page: Page) -> tuple[Reason | None, str]:
    """Say how vapour moves, from the ratio of the two sides, and which way the designer means it to dry."""
    ratio = page["sd_ratio"].value
    reason, parts = None, []
    if page["outside"].value == "ground":
        reason = _GROUND
        parts.append("Damp ground.")
    elif isinstance(ratio, float):
        reason = _INSIDE if ratio >= _RATIO_EVEN else _OUTSIDE
        side, times = ("Inside", ratio) if ratio >= _RATIO_EVEN else ("Outside", 1 / ratio)
        parts.append(f"{side} {_times(times)} as tight.")
    parts += _drying(page)
    return reason, " ".join(parts) or "Nothing parts an inside from an outside."


def _drying(page: Page) -> list[str]:
    stated = page["drying_stated"].value
    return [f"Meant to dry {'both ways' if stated == 'both' else stated}."] if isinstance(stated, str) else []


def _times(ratio: float) -> str:
    return f"{word(float(f'{ratio:.2g}'), 'number')} times" if ratio < 1000 else "more than 1000 times"
