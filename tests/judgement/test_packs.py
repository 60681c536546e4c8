"""Taking in a pack: what is refused, with the pack, the rule and the place named; and what a hostile one can do: nothing."""

import copy
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from speccheck.judgement import reading, runtime
from speccheck.judgement.compilation import PackError, compile_pack
from speccheck.judgement.library import in_force, load_pack, pack_ids
from speccheck.judgement.reading import declared_for
from speccheck.judgement.spelled import spelled, spelled_from_plain
from speccheck.judgement.value_type import ValueType
from speccheck.uses.examples import examples_of
from speccheck.uses.packs import read_packs

PACK: dict[str, Any] = yaml.safe_load("""
pack: local/own
title: Rules of our own
edition: "1"
jurisdiction: one office
about: A pack that the tests hand in as a stranger would.
sources:
  handbook: {title: A handbook, how: read}
starts:
  wall:
    speccheck: 1
    assemblies:
      wall:
        kind: wall
        layers: [{id: fill, material: mineral-wool-batt, thickness: 140 mm, thermal-resistance: 3 m²·K/W}]
rules:
  - id: own.enough
    title: Enough insulation
    status: preview
    since: "0.1"
    looks-at: assembly
    parameters:
      least: {value: R-15, kind: thermal-resistance}
    holds: assembly.insulation_r >= parameter.least
    when-not: caution
    consequence: energy
    confidence: low
    says: {pass: "It is {{ assembly.insulation_r }}.", warn: "Only {{ assembly.insulation_r }}."}
    why: The office wants at least this much in every wall.
    do: [Add insulation.]
    limits: [Framing is left out.]
    sources: [{source: handbook, locator: page 3}]
    examples:
      - {name: enough, start: wall, expect: {level: pass, place: wall}}
      - name: too little
        start: wall
        change: {assemblies.wall.layers.fill.thermal-resistance: 1 m²·K/W}
        expect: {level: warn, place: wall, strength: caution}
""")


@pytest.fixture
def read(tmp_path: Path):
    """Return what writes a pack to a file and reads it as ``--pack`` does."""

    def run(pack: dict[str, Any] | str):
        path = tmp_path / "own.yaml"
        text = pack if isinstance(pack, str) else yaml.safe_dump(pack, sort_keys=False, allow_unicode=True)
        path.write_text(text, "utf-8")
        return read_packs([path])

    return run


def changed(**more: Any) -> dict[str, Any]:
    pack = copy.deepcopy(PACK)
    for name, value in more.items():
        key = name.replace("_", "-")
        if value is None:
            pack["rules"][0].pop(key)
        else:
            pack["rules"][0][key] = value
    return pack


def test_the_pack_as_it_stands_is_taken_in_and_speaks(read, checked):
    packs = read(PACK)
    result = checked(PACK["starts"]["wall"], packs)
    (finding,) = [f for f in result.findings if f.rule == "own.enough"]
    assert (finding.level, finding.pack) == ("pass", "local/own")
    assert finding.sources == ("A handbook, page 3",)


REFUSED = {
    "no source at all": (changed(sources=[]), "rules.0.sources"),
    "a source that is not listed": (changed(sources=[{"source": "other", "locator": "page 1"}]), "own.enough: no source 'other'"),
    "a source without locator": (changed(sources=[{"source": "handbook"}]), "own.enough: source 'handbook' without a locator"),
    "a condition that compares a number with a text": (changed(holds='assembly.insulation_r >= "a"'), "own.enough.holds"),
    "a condition that is a number": (changed(holds="assembly.insulation_r"), "own.enough.holds"),
    "a whole number where a number is meant": (changed(holds="assembly.insulation_r >= 3"), "own.enough.holds"),
    "a fact that is not in the vocabulary": (changed(holds="assembly.insulation_are >= parameter.least"), "own.enough.holds"),
    "a fact of another subject": (changed(holds="layer.resistance >= parameter.least"), "own.enough.holds"),
    "a parameter that is not declared": (changed(holds="assembly.insulation_r >= parameter.most"), "own.enough.holds"),
    "a condition of application over a parameter": (changed(applies="assembly.r_series > parameter.least"), "own.enough.applies[0]"),
    "an unknown fact among the needs": (changed(needs=["assembly.colour"]), "own.enough.needs: assembly.colour"),
    "a key that is not known": (changed(severity="high"), "rules.0.severity"),
    "a subject that is not known": (changed(looks_at="window"), "rules.0.looks-at"),
    "an outcome that is not known": (changed(when_not="fail"), "rules.0.when-not"),
    "an approval among the sentences": (changed(says={"pass": "It is so.", "approved": "Yes."}), "rules.0.says.approved"),
    "no sentence for a warning": (changed(says={"pass": "It is so."}), "own.enough.says"),
    "a sentence over an unknown fact": (changed(says={"pass": "{{ wall.r }}", "warn": "No."}), "own.enough.says.pass"),
    "an unknown filter": (changed(says={"pass": "{{ assembly.insulation_r | shout }}", "warn": "No."}), "own.enough.says.pass"),
    "a parameter without its unit": (changed(parameters={"least": {"value": 15, "kind": "thermal-resistance"}}), "own.enough.parameters.least"),
    "a parameter in another unit": (changed(parameters={"least": {"value": "15 mm", "kind": "thermal-resistance"}}), "own.enough.parameters.least"),
    "a limit without the fact measured": (changed(limit="parameter.least"), "own.enough"),
    "no limit said": (changed(limits=None), "rules.0.limits"),
    "an empty list of limits": (changed(limits=[]), "rules.0.limits"),
    "one example only": (changed(examples=PACK["rules"][0]["examples"][:1]), "rules.0.examples"),
    "an example that comes out otherwise": (
        changed(examples=[PACK["rules"][0]["examples"][0] | {"expect": {"level": "warn", "place": "wall"}}, PACK["rules"][0]["examples"][1]]),
        "own.enough: enough: expected warn",
    ),
    "an example at another place": (
        changed(examples=[PACK["rules"][0]["examples"][0] | {"expect": {"level": "pass", "place": "roof"}}, PACK["rules"][0]["examples"][1]]),
        "own.enough: enough: expected pass at roof, got pass at wall",
    ),
    "an example without start": (
        changed(examples=[PACK["rules"][0]["examples"][0] | {"start": "roof"}, PACK["rules"][0]["examples"][1]]),
        "own.enough: enough: no start document",
    ),
    "an example whose document cannot be read": (
        changed(examples=[PACK["rules"][0]["examples"][0] | {"change": {"assemblies.wall.kind": "tower"}}, PACK["rules"][0]["examples"][1]]),
        "own.enough: enough",
    ),
    "an example with a change into a list of words": (changed(examples=[PACK["rules"][0]["examples"][0] | {"change": {"assemblies.wall.layers.fill.controls": ["air"], "assemblies.wall.layers.fill.controls.water": 1}}, PACK["rules"][0]["examples"][1]]), "own.enough: enough: "),
    "an example with a change that makes a layer a word": (changed(examples=[PACK["rules"][0]["examples"][0] | {"change": {"assemblies.wall.layers.fill": "word", "assemblies.wall.layers.fill.id": "x"}}, PACK["rules"][0]["examples"][1]]), "own.enough: enough: "),
    "an example with a change that makes the project a word": (changed(examples=[PACK["rules"][0]["examples"][0] | {"change": {"project": "word"}}, PACK["rules"][0]["examples"][1]]), "own.enough: enough: "),
    "an example with a change that leads into a number": (changed(examples=[PACK["rules"][0]["examples"][0] | {"change": {"assemblies.wall.kind.x": 1}}, PACK["rules"][0]["examples"][1]]), "own.enough: enough: "),
    "a start that is no document, of a pack to adopt": ({**PACK, "adopt": "xx/yy", "starts": {"wall": {"project": None}}}, "own.enough: enough: "),
    "two rules of one id": ({**PACK, "rules": [PACK["rules"][0], PACK["rules"][0]]}, "own.enough: two rules have this id"),
    "an id that is a number code": (changed(id="R-101"), "rules.0.id"),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_refused_with_pack_rule_and_place(read, name):
    pack, words = REFUSED[name]
    with pytest.raises(PackError) as caught:
        read(pack)
    message = str(caught.value)
    assert message.startswith("local/own: ")
    assert words in message


@pytest.mark.parametrize("text", ["[1, 2]", "just words", "", "pack: [", "pack: local/own\nrules: 3", "\x00"])
def test_what_is_no_pack_is_refused(read, text):
    with pytest.raises(PackError):
        read(text)


def test_a_file_that_is_not_there(tmp_path):
    with pytest.raises(PackError, match="cannot be read"):
        read_packs([tmp_path / "gone.yaml"])


HOSTILE = {
    "deep brackets": changed(holds="(" * 200 + "true" + ")" * 200),
    "deep negation": changed(holds="!" * 400 + "true"),
    "long condition": changed(holds=" && ".join(["assembly.above_grade"] * 60)),
    "a loop over a loop": changed(holds="assembly.groups.all(a, assembly.groups.all(b, assembly.groups.all(c, a != b || b != c)))"),
    "a call": changed(holds='assembly.kind.matches("(a+)+$")'),
    "a huge number": changed(holds="assembly.insulation_r < 1.0e999"),
    "a dunder": changed(says={"pass": "{{ ''.__class__ }}", "warn": "No."}),
    "a dunder of a fact": changed(says={"pass": "{{ assembly.insulation_r.__class__ }}", "warn": "No."}),
    "a loop in a sentence": changed(says={"pass": "{% for a in range(99999999) %}x{% endfor %}", "warn": "No."}),
    "an import in a sentence": changed(says={"pass": "{% import 'os' as o %}x", "warn": "No."}),
    "arithmetic in a sentence": changed(says={"pass": "{{ 9 ** 999999 }}", "warn": "No."}),
    "a long sentence": changed(says={"pass": "a" * 5000, "warn": "No."}),
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_pack_is_refused_before_it_runs(read, name):
    with pytest.raises(PackError, match=r"own\.enough|rules\.0"):
        read(HOSTILE[name])


def test_a_hostile_yaml_is_refused(read):
    bomb = "a: &a [x, x]\n" + "".join(
        f"{chr(98 + i)}: &{chr(98 + i)} [*{chr(97 + i)}, *{chr(97 + i)}]\n" for i in range(20)
    )
    with pytest.raises(PackError):
        read(bomb)
    with pytest.raises(PackError):
        read("pack: !!python/object/apply:os.system ['true']")


def _paths(part: Any, above: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inside = part.items() if isinstance(part, dict) else enumerate(part) if isinstance(part, list) else ()
    return [above, *(path for key, value in inside for path in _paths(value, (*above, key)))]


ODD = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=8), st.just([]), st.just({}), st.just([{}]),
    st.just(["x"]), st.just({"x": None}), st.dates(),
)  # fmt: skip


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from(_paths(PACK)), ODD)
def test_with_anything_in_place_of_any_part_a_pack_is_taken_in_or_refused(read, path, odd):
    pack = copy.deepcopy(PACK)
    *above, last = path or ("pack",)
    here = pack
    for step in above:
        here = here[step]
    here[last] = odd
    with suppress(PackError):
        read(pack)


def test_common_practice_needs_no_locator_and_says_that_it_has_no_source(read):
    (pack,) = read(changed(sources=[{"source": "common_practice"}]))
    assert pack.rules[0].sources == ("common practice, no source",)


def test_how_a_figure_is_known_reaches_the_finding(read):
    (pack,) = read(changed(sources=[{"source": "handbook", "locator": "page 3", "how": "memory"}]))
    assert pack.rules[0].sources == ("A handbook, page 3 (from memory)",)
    assert pack.rules[0].from_memory is True


def test_compile_pack_collects_all_faults():
    pack = changed(
        sources=[{"source": "handbook"}],
        parameters={"least": {"value": "15 mm", "kind": "thermal-resistance"}},
    )
    with pytest.raises(PackError) as caught:
        compile_pack(pack)
    assert len(caught.value.faults) == 2


class TestShipped:
    """The packs that ship."""

    def test_ids_follow_the_files_and_practice_comes_first(self):
        ids = pack_ids()
        assert ids[0].startswith("practice/")
        assert list(ids) == [
            *[i for i in ids if i.startswith("practice/")],
            *[i for i in ids if i.startswith("codes/")],
        ]
        assert all(
            load_pack(id_).id in (id_, id_.removeprefix("codes/")) or load_pack(id_).id == id_ for id_ in ids
        )

    def test_practice_is_always_in_force_and_an_edition_only_where_adopted(self):
        packs, missing = in_force(())
        assert packs
        assert all(pack.adopt == "" for pack in packs)
        assert missing == []
        adopted, missing = in_force(("us/irc-2021", "us/irc-2021", "us/none"))
        assert [pack.adopt for pack in adopted if pack.adopt] == ["us/irc-2021"]
        assert missing == ["us/none"]

    def test_every_rule_has_a_source(self):
        for id_ in pack_ids():
            for rule in load_pack(id_).rules:
                assert rule.sources, rule.id
                assert all(rule.sources), rule.id

    def test_no_sentence_approves_or_fails(self):
        words = ("approved", "compliant", "complies", " fails", "failed", "guarantee")
        for id_ in pack_ids():
            for rule in load_pack(id_).rules:
                for text in (
                    rule.title,
                    rule.why,
                    *rule.says.values(),
                    *rule.do,
                    *(band.says for band in rule.bands),
                ):
                    assert not any(word in f" {text.lower()}" for word in words), (rule.id, text)


def test_what_a_compiled_copy_keeps_of_an_expression_is_what_reading_it_gives():
    kinds = set()
    for id_ in pack_ids():
        for rule in load_pack(id_).rules:
            declared = declared_for(rule.looks_at, [rule])
            assert len(rule.spelled) == len(rule.expressions)
            for source, plain in zip(rule.expressions, rule.spelled, strict=True):
                result = ValueType.number if source == rule.limit else ValueType.truth
                assert spelled_from_plain(plain) == spelled(source, declared, result), (rule.id, source)
                kinds.update(short[0] for short in plain[1])
    assert kinds == {"n", "t", "b", "l", "o"}


def test_the_table_of_one_rule_is_not_taken_for_that_of_another(read, checked):
    words = changed(
        id="own.worded",
        tables={"least": {"by": "assembly.kind", "kind": "text", "rows": {"wall": "wall"}}},
        holds="table.least == assembly.kind && assembly.insulation_r >= parameter.least",
    )["rules"][0]
    numbers = changed(
        id="own.numbered",
        tables={"least": {"by": "assembly.kind", "kind": "thermal-resistance", "rows": {"wall": "R-15"}}},
        holds="assembly.insulation_r >= table.least",
    )["rules"][0]
    findings = checked(PACK["starts"]["wall"], read({**PACK, "rules": [words, numbers]})).findings
    assert {f.rule: str(f.level) for f in findings if f.rule.startswith("own.")} == {
        "own.worded": "pass",
        "own.numbered": "pass",
    }


def test_both_runtimes_give_the_same_findings_on_every_example(monkeypatch, checked):
    pytest.importorskip("cel")
    from datetime import date

    documents = []
    for id_ in pack_ids():
        pack = load_pack(id_)
        for start in pack.starts.values():
            data = copy.deepcopy(start)
            if pack.adopt:
                data.setdefault("project", {}).setdefault("adopted", [pack.adopt])
            documents.append(data)
        documents += [example.document() for example in list(examples_of(pack))[::4]]

    def run() -> list[Any]:
        reading._reader.cache_clear()
        return [checked(copy.deepcopy(data), today=date(2026, 1, 15)).findings for data in documents]

    first = run()
    import speccheck.judgement.expression as expression

    monkeypatch.setattr(expression, "chosen_runtime", lambda: "second")
    used = []
    real = runtime._second
    monkeypatch.setattr(runtime, "_second", lambda text: used.append(text) or real(text))
    second = run()
    reading._reader.cache_clear()
    assert len(used) > 50
    assert second == first
