"""The file name of a document's report in a folder: by the path of the document, whatever else lies there."""

import re
import unicodedata
from collections.abc import Collection
from hashlib import sha256

__all__ = ["free_name", "report_name"]

_SEPARATOR = "--"
_LONGEST = 120
"""Bytes of a name before its ending; common disks take 255."""
_RESERVED = ("index", "matrix")
"""Names of the pages about all documents."""


def report_name(path: str) -> str:
    """Return the file name of a report, without its ending, for the path of a document.

    Letters of any alphabet stay. Folders are parted by two hyphens, and the ending of the document stays unless it is
    ``.yaml``. Where more has to be changed, so that another path could come to the same name, six characters follow
    that are made from the path.

    Example:
        >>> report_name("lots/lot-01.yaml"), report_name("lot-05.json"), report_name("ümlaut.yaml")
        ('lots--lot-01', 'lot-05.json', 'ümlaut')
        >>> report_name("lots/lot 01.yaml")
        'lots--lot-01-88415e'
    """
    whole = unicodedata.normalize("NFC", path).replace("\\", "/")
    stem = whole.removesuffix(".yaml").removeprefix("/")
    parts = [re.sub(r"[^\w.]+", "-", part).strip("-.") for part in stem.split("/")]
    name = _SEPARATOR.join(part for part in parts if part)
    kept = _shortened(name)
    told = (
        kept and kept == name and name.replace(_SEPARATOR, "/") == stem and name.casefold() not in _RESERVED
    )
    return kept if told else _marked(kept or "document", path)


def free_name(path: str, ending: str, taken: Collection[str]) -> str:
    """Return the file name with its ending; one that differs from a name taken only in case is marked too.

    On some disks names that differ in case are one name. Of documents whose paths differ in nothing else, this alone
    hangs on which others there are.
    """
    name = report_name(path)
    lower = {one.casefold() for one in taken}
    return (
        f"{name}{ending}" if f"{name}{ending}".casefold() not in lower else f"{_marked(name, path)}{ending}"
    )


def _marked(name: str, path: str) -> str:
    return f"{name}-{sha256(path.encode('utf-8', 'surrogatepass')).hexdigest()[:6]}"


def _shortened(name: str) -> str:
    """Return the end of a name that is too long, cut between letters."""
    while len(name.encode("utf-8", "surrogatepass")) > _LONGEST:
        name = name[1:]
    return name
