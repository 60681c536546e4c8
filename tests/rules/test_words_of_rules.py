"""What a rule says reaches an applicant in a letter: words of the trade, no names of fields or commands."""

import pytest

from speccheck.judgement.library import load_pack, pack_ids
from speccheck.judgement.pack import Rule
from speccheck.uses.check import check_data

RULES = [rule for id_ in pack_ids() for rule in load_pack(id_).rules]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_no_sentence_names_a_field_or_a_command(rule: Rule) -> None:
    said = (rule.title, rule.why, *rule.says.values(), *rule.do, *rule.limits, *rule.disputed)
    said = (*said, *(band.says for band in rule.bands))
    assert not [sentence for sentence in said if "`" in sentence or "speccheck" in sentence]


@pytest.mark.parametrize(
    ("sealed", "named", "unnamed"),
    [(["laps"], "Seal the edges", "lap over"), (["edges"], "each lap over", "Seal the edges")],
)
def test_a_sheet_is_told_to_seal_what_is_not_sealed(sealed: list[str], named: str, unnamed: str) -> None:
    layers = [
        {"id": "film", "material": "polyethylene-film", "controls": ["air"], "sealed": sealed},
        {"id": "fill", "material": "mineral-wool-batt", "thickness": "140 mm"},
    ]
    data = {"speccheck": 1, "assemblies": {"wall": {"kind": "wall", "layers": layers}}}
    (finding,) = [one for one in check_data(data, "test").findings if one.rule == "air.sheet-sealed"]
    assert named in finding.do[0]
    assert unnamed not in finding.do[0]
