"""What a comment rests on: a clause, a trade rule that leans on one, a trade rule that does not; and the notes."""

import re
from collections.abc import Callable

import pytest

from speccheck.judgement.finding import Finding, Level
from speccheck.report.letter import letter_of, letter_page, letter_text
from speccheck.report.letter.basis import Adopted, Notes, basis_of
from speccheck.uses.check import Checked

IRC = Adopted(("International Residential Code", "IRC"), "2021")
HOUSE = """\
speccheck: 1
project: {name: House, place: {zone: 6A}, use: dwelling, adopted: [ADOPTED]}
assemblies:
  wall:
    kind: wall
    name: Exterior wall
    framing: {spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 1/2 in, finish: latex-paint}
      - {id: poly, material: polyethylene-film, thickness: 6 mil, controls: [vapour, air], sealed: [laps]}
      - {id: fill, material: glass-fibre-batt, thickness: 3.5 in, thermal-resistance: R-13, framed: true}
      - {id: sheathing, material: osb, thickness: 7/16 in}
  slab: {kind: slab, outside: ground, layers: [{id: concrete, material: concrete, thickness: 4 in, controls: [air]}]}
junctions:
  base: {kind: wall-to-slab, joins: [wall.base, slab.perimeter], air: []}
"""


def finding(*sources: str, pack: str = "practice/air") -> Finding:
    return Finding(
        Level.WARN,
        "caution",
        "air.closed",
        pack,
        "Closed",
        "project",
        "project",
        (),
        "It is not.",
        sources=sources,
    )


def basis(*sources: str, adopted: tuple[Adopted, ...] = (IRC,), all_held: bool = True) -> str:
    return basis_of([finding(*sources)], adopted, Notes(), all_held=all_held)


@pytest.mark.parametrize(
    "source",
    [
        "International Residential Code Table N1102.4.1.1 and IECC Table R402.4.1.1, row on walls",
        "International Residential Code, R703.4, pan flashing at sills",
        "International Residential Code 2015, as summarised in a text, R806.5",
        "IECC Table R402.2.6 and IRC Table N1102.2.6, walls",
    ],
)
def test_a_trade_rule_that_leans_on_the_adopted_code_says_so(source: str) -> None:
    words = basis("A trade article, page 3", source)
    assert "no clause" not in words
    assert words.startswith(
        f"Trade rule; it leans on a clause of the adopted code (confirm against the edition of 2021): {source}"
    )


def test_nothing_is_left_to_confirm_where_the_source_is_the_adopted_edition() -> None:
    words = basis("International Residential Code 2021, R506.2.3")
    assert words == (
        "Trade rule; it leans on a clause of the adopted code: International Residential Code 2021, R506.2.3"
    )


@pytest.mark.parametrize(
    "source",
    [
        "Energy forum that quotes IRC R408.3, R408.3",
        "Shares of resistance that follow from the foam table of IRC R702.7, zones 4C to 8",
        "National Building Code of Canada 2015, 9.25.3.3, laps",
        "IECC 2021, R402.4 and C402.5, C402.5.1.3",
    ],
)
def test_what_quotes_the_code_or_is_another_one_is_no_clause_of_it(source: str) -> None:
    assert basis(source) == f"Trade rule, no clause of an adopted code. {source}"


def test_without_the_code_adopted_its_clause_is_a_source_like_another() -> None:
    source = "International Residential Code, R703.4, pan flashing at sills"
    assert basis(source, adopted=()) == f"Trade rule, no clause of an adopted code. {source}"


def test_of_an_adopted_code_that_is_not_held_nothing_is_said() -> None:
    assert basis("A trade article", all_held=False).startswith("Trade rule, no clause of a code held here.")


def test_a_clause_that_is_in_force_is_named_alone() -> None:
    both = [finding("Article"), finding("IRC 2021, Table 1", pack="codes/us/irc-2021")]
    assert basis_of(both, (IRC,), Notes(), all_held=True) == "IRC 2021, Table 1"


def test_what_does_not_fit_stands_in_notes_that_are_numbered_once() -> None:
    notes = Notes()
    first = basis_of([finding("a", "b", "c")], (), notes, all_held=True)
    second = basis_of([finding("d", "c", "common practice, no source")], (), notes, all_held=True)
    assert first.endswith("a; further sources: notes 1 and 2")
    assert second.endswith("d; common practice; further sources: note 2")
    assert notes.sources == ("b", "c")


def test_numbers_that_follow_each_other_are_told_as_a_run() -> None:
    notes = Notes()
    assert notes.told("abcdefg") == "notes 1 to 7"
    assert notes.told("abcefi") == "notes 1 to 3, 5, 6 and 8"
    assert notes.told("c") == "note 3"
    assert notes.told("") == ""


@pytest.mark.parametrize("edition", ["us/irc-2018", "us/irc-2021", "us/irc-2024", "us/irc-2015"])
def test_no_comment_of_a_letter_denies_the_adopted_code_and_names_it(
    checked: Callable[..., Checked], edition: str
) -> None:
    letter = letter_of(checked(HOUSE.replace("ADOPTED", edition)))
    told = [comment.basis for group in letter.groups for comment in group.comments]
    leaning = [words for words in told if "Trade rule; it leans on a clause of the adopted code" in words]
    assert len(leaning) >= 2
    assert any(f"confirm against the edition of {edition[-4:]}" in words for words in leaning)
    for words in told:
        assert not ("no clause" in words and re.search(r"(?:\. |^)International Residential Code", words))


def test_every_source_of_a_comment_can_be_looked_up(checked: Callable[..., Checked]) -> None:
    result = checked(HOUSE.replace("ADOPTED", "us/irc-2021"))
    letter = letter_of(result)
    told = [comment.basis for group in letter.groups for comment in group.comments]
    assert letter.notes
    assert not any(re.search(r"and \d+ more", words) for words in told)
    numbers: set[int] = set()
    for words in told:
        for first, last in re.findall(r"(\d+)(?: to (\d+))?", words.rpartition("further sources: ")[2]):
            numbers |= set(range(int(first), int(last or first) + 1))
    assert set(range(1, len(letter.notes) + 1)) <= numbers
    for text in (letter_text(result), letter_page(result)):
        assert "Notes: further sources" in text
        assert all(note.split("&")[0][:40] in text for note in letter.notes)


def test_an_assembly_is_called_as_the_document_calls_it(checked: Callable[..., Checked]) -> None:
    letter = letter_of(checked(HOUSE.replace("ADOPTED", "us/irc-2021")))
    where = {comment.where for group in letter.groups for comment in group.comments}
    assert {"assembly wall (Exterior wall)", "wall (Exterior wall), layer poly", "assembly slab"} <= where
