"""The table of packs in the README against the packs: each is listed once, with its title, its rules and when it is in force."""

import re
from collections import Counter
from pathlib import Path

import pytest

from speccheck.judgement.library import load_pack, pack_ids

README = (Path(__file__).resolve().parents[2] / "README.md").read_text("utf-8")
ROW = re.compile(
    r"^\| `((?:practice|codes)/[^`]+)` \| (?:always|adopted as `([^`]+)`) \| (.+): (\d+) rules? \|$",
    re.MULTILINE,
)
ROWS = {found[1]: (found[2], found[3], int(found[4])) for found in ROW.finditer(README)}


def test_each_pack_is_listed_once() -> None:
    listed = Counter(re.findall(r"^\| `((?:practice|codes)/[^`]+)` \|", README, re.MULTILINE))
    assert listed == Counter(pack_ids())


@pytest.mark.parametrize("name", sorted(pack_ids()))
def test_a_row_says_what_the_pack_holds(name: str) -> None:
    pack = load_pack(name)
    assert ROWS[name] == (pack.adopt or None, pack.title, len(pack.rules))
