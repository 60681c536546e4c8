"""What a comment of a letter rests on: a clause of an adopted code, or a trade rule and what that leans on.

A trade rule may lean on a clause of the very code a document adopts without being it: the words say so, since an
applicant who reads "no clause" beside the name of his code has reason to doubt both. What does not fit beside a comment
stands in numbered notes under the letter.
"""

import re
from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import NamedTuple

from speccheck.judgement.finding import Finding
from speccheck.uses.check import Checked

__all__ = ["CODES", "Adopted", "Notes", "adopted_codes", "basis_of"]

CODES = "codes/"
"""How the ids of packs begin that hold an edition of a code."""
_CLAUSES = 3
_NAMES = {
    "us/irc": ("International Residential Code", "IRC"),
    "us/ibc": ("International Building Code", "IBC"),
    "us/iecc": ("International Energy Conservation Code", "IECC"),
    "ca/nbc": ("National Building Code of Canada",),
    "ca/obc": ("Ontario Building Code",),
    "de/din-4108-3": ("DIN 4108-3",),
    "int/iso-13788": ("ISO 13788",),
}
"""How sources name a code that documents adopt by an id which begins so."""
_COMMON = "common practice"
"""What stands for a source where there is none: no note tells more."""
_YEAR = re.compile(r"-((?:19|20)\d\d)(?=-|$)")


class Adopted(NamedTuple):
    """A code that a document adopts: how sources name it, and its edition, empty where it is not known."""

    names: tuple[str, ...]
    edition: str


class Notes:
    """Sources told under a letter, numbered in the order in which comments come to need them."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}

    def told(self, sources: Iterable[str]) -> str:
        """Return where to find some sources, such as ``notes 1 and 4``; empty where there are none."""
        numbers = sorted({self._numbers.setdefault(source, len(self._numbers) + 1) for source in sources})
        if not numbers:
            return ""
        *first, last = _runs(numbers)
        return f"note{'s' if len(numbers) > 1 else ''} {', '.join(first)}{' and ' if first else ''}{last}"

    @property
    def sources(self) -> tuple[str, ...]:
        """The sources, the first is note 1."""
        return tuple(self._numbers)


def _runs(numbers: Sequence[int]) -> list[str]:
    """Return numbers in words, three or more that follow each other as ``4 to 6``."""
    words: list[str] = []
    for _, run in groupby(enumerate(numbers), key=lambda entry: entry[1] - entry[0]):
        members = [number for _, number in run]
        words += [f"{members[0]} to {members[-1]}"] if len(members) > 2 else map(str, members)
    return words


def adopted_codes(checked: Checked) -> tuple[Adopted, ...]:
    """Return the codes a document adopts, with those of which no pack is held."""
    held = [
        (pack.id.removeprefix(CODES), pack.title, pack.edition)
        for pack in checked.packs
        if pack.id.startswith(CODES)
    ]
    absent = [(name, "", _edition(name)) for name in checked.missing_editions]
    return tuple(Adopted(_names(name, title), edition) for name, title, edition in (*held, *absent))


def _edition(name: str) -> str:
    found = _YEAR.search(name)
    return found[1] if found else ""


def _names(name: str, title: str) -> tuple[str, ...]:
    for begins, names in _NAMES.items():
        if name == begins or name.startswith(f"{begins}-"):
            return names
    # a pack of one's own: what stands before the year in its title names the code
    before, year, _ = re.split(r"\s+((?:19|20)\d\d)\b", f"{title} 1900", maxsplit=1)
    return (before,) if before and year != "1900" else ()


def basis_of(findings: Sequence[Finding], adopted: Sequence[Adopted], notes: Notes, *, all_held: bool) -> str:
    """Return what a comment rests on, in words.

    Args:
        findings: those the comment is about.
        adopted: the codes the document adopts.
        notes: takes what does not fit.
        all_held: is a pack held of every code that is adopted?
    """
    clauses = [finding for finding in findings if finding.pack.startswith(CODES)]
    sources = list(dict.fromkeys(source for finding in clauses or findings for source in finding.sources))
    if clauses:
        return _listed(sources, _CLAUSES, notes)
    leaning = [(source, code) for source in sources if (code := _leans_on(source, adopted)) is not None]
    if leaning:
        source, code = leaning[0]
        rest = [source, *(other for other in sources if other != source)]
        lead = f"Trade rule; it leans on a clause of the adopted code{_unsure(source, code)}"
        return f"{lead}: {_listed(rest, 1, notes)}"
    lead = (
        "Trade rule, no clause of an adopted code."
        if all_held
        else "Trade rule, no clause of a code held here."
    )
    return f"{lead} {_listed(sources, 1, notes)}".rstrip()


def _listed(sources: Sequence[str], most: int, notes: Notes) -> str:
    told = list(sources[:most])
    common = [source for source in sources[most:] if source.startswith(_COMMON)]
    more = notes.told(source for source in sources[most:] if source not in common)
    told += [_COMMON] if common else []
    return "; ".join((*told, *([f"further sources: {more}"] if more else [])))


def _leans_on(source: str, adopted: Iterable[Adopted]) -> Adopted | None:
    """Return the adopted code of which a source is a clause; what merely quotes or retells one is none."""
    for code in adopted:
        if code.names and re.match(rf"(?:.+? and )?(?:{_any(code.names)})\b", source):
            return code
    return None


def _unsure(source: str, code: Adopted) -> str:
    """Return that the adopted edition is to be looked into; empty where the source names that very edition."""
    named = re.findall(rf"(?:{_any(code.names)})[ :]((?:19|20)\d\d)\b", source)
    if code.edition and code.edition in named:
        return ""
    return f" (confirm against the edition of {code.edition})" if code.edition else " (confirm against it)"


def _any(names: Iterable[str]) -> str:
    return "|".join(map(re.escape, names))
