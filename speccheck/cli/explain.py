"""The command ``explain``: a page about a rule, a fact, a material, a junction, a means of sealing or a pack."""

from collections.abc import Callable, Sequence
from difflib import get_close_matches
from pathlib import Path

from speccheck.cli.output import CANNOT_RUN, columns, complain, write
from speccheck.judgement.library import load_pack, pack_ids
from speccheck.judgement.pack import Pack
from speccheck.report import junction_pages, pages
from speccheck.survey.vocabulary import VOCABULARY
from speccheck.tables.construction import sealing_means, sealing_means_ids
from speccheck.tables.construction_rows import SealingMeans
from speccheck.tables.junction_kinds import junction_kind, junction_kind_ids, junction_kinds
from speccheck.tables.materials import material, material_ids, near
from speccheck.uses.packs import PackError, read_packs

__all__ = ["run_explain"]


def run_explain(name: str, units: str, extra: Sequence[Path], width: int | None) -> int:
    """Write the page of a name; return the exit status."""
    try:
        packs = [*(load_pack(id_) for id_ in pack_ids()), *read_packs(extra)]
    except PackError as error:
        complain(str(error))
        return CANNOT_RUN
    page = _list(name, packs, columns(width)) or _page(name, packs, columns(width), units)
    if page is None:
        complain(_unknown(name, packs))
        return CANNOT_RUN
    write(page)
    return 0


def _list(name: str, packs: Sequence[Pack], width: int) -> str | None:
    lists: dict[str, Callable[[], str]] = {
        "rules": lambda: pages.rules_list(packs, width),
        "packs": lambda: pages.packs_list(packs, width),
        "facts": lambda: pages.facts_list(width),
        "materials": lambda: pages.materials_list(material_ids(), width),
        "junctions": lambda: junction_pages.junctions_list(junction_kinds(), width),
        "sealing": lambda: junction_pages.sealing_list(_all_means(), width),
    }
    return lists[name]() if name in lists else None


def _page(name: str, packs: Sequence[Pack], width: int, units: str) -> str | None:
    for pack in packs:
        if name in (pack.id, pack.adopt):
            return pages.pack_page(pack, width)
        for rule in pack.rules:
            if rule.id == name:
                return pages.rule_page(rule, pack, width, units)
    if name in VOCABULARY:
        return pages.fact_page(VOCABULARY[name], packs, width)
    kind = junction_kind(name)
    if kind is not None:
        return junction_pages.junction_page(kind, width)
    # a tape is a material and a means of sealing: both pages tell of it
    found, means = material(name), sealing_means(name)
    told = [
        pages.material_page(found, width, units) if found is not None else "",
        junction_pages.means_page(means, width, units) if means is not None else "",
    ]
    return "\n".join(page for page in told if page) or None


def _all_means() -> list[SealingMeans]:
    return [means for id_ in sealing_means_ids() if (means := sealing_means(id_)) is not None]


def _unknown(name: str, packs: Sequence[Pack]) -> str:
    known = (
        [rule.id for pack in packs for rule in pack.rules]
        + [pack.id for pack in packs]
        + list(VOCABULARY)
        + [*junction_kind_ids(), *sealing_means_ids()]
    )
    close = get_close_matches(name, known, n=3, cutoff=0.5) or near(name)[:3]
    hint = f"; near it: {', '.join(close)}" if close else ""
    lists = "facts, materials, junctions, sealing or packs"
    return f"nothing is called {name!r}{hint}. Try `speccheck explain rules`, {lists}"
