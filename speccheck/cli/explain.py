"""The command ``explain``: a page about a rule, a fact, a material or a pack."""

from collections.abc import Callable, Sequence
from difflib import get_close_matches
from pathlib import Path

from speccheck.cli.output import CANNOT_RUN, columns, complain, write
from speccheck.judgement.library import load_pack, pack_ids
from speccheck.judgement.pack import Pack
from speccheck.report import pages
from speccheck.survey.vocabulary import VOCABULARY
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
    found = material(name)
    return pages.material_page(found, width, units) if found is not None else None


def _unknown(name: str, packs: Sequence[Pack]) -> str:
    known = (
        [rule.id for pack in packs for rule in pack.rules] + [pack.id for pack in packs] + list(VOCABULARY)
    )
    close = get_close_matches(name, known, n=3, cutoff=0.5) or near(name)[:3]
    hint = f"; near it: {', '.join(close)}" if close else ""
    return f"nothing is called {name!r}{hint}. Try `speccheck explain rules`, facts, materials or packs"
