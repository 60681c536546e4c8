"""Expressions of rules: the same answers from both runtimes, refusals with their place, no hole taken for an answer.

Expected answers follow from arithmetic and from the Common Expression Language specification (open standard, from
memory); where the reduced profile is stricter than the language, the test says so.
"""

from __future__ import annotations

import math
from enum import StrEnum

import pytest
from cel_expr_python import cel
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.judgement.expression import Expression, ExpressionError, NotEvaluated, ValueType
from speccheck.judgement.expression import compile as compiled
from speccheck.judgement.value_type import MOST_NAMES

RUNTIMES = ("first", "second")
V = ValueType
DECLARED = {
    "wall.r": V.number,
    "wall.share": V.number,
    "limit": V.number,
    "zone": V.text,
    "wall.kind": V.text,
    "dry": V.truth,
    "wall.air.closed": V.truth,
    "controls": V.texts,
    "table.rows": V.options,
}
VALUES = {
    "wall.r": 3.5,
    "wall.share": 0.25,
    "limit": -4.0,
    "zone": "5",
    "wall.kind": "wall-framé",
    "dry": True,
    "wall.air.closed": False,
    "controls": ["air", "vapour"],
    "table.rows": [{"cavity": 13.0, "sheathing": 5.0}, {"cavity": 20.0}],
}

ANSWERS = [
    # numbers
    ("wall.r + wall.share * 2.0 - 1.0", V.number, 3.0),
    ("(wall.r + wall.share) * 2.0", V.number, 7.5),
    ("wall.r - wall.share - wall.share", V.number, 3.0),
    ("wall.r - (wall.share - wall.share)", V.number, 3.5),
    ("8.0 / 4.0 / 2.0", V.number, 1.0),
    ("8.0 / (4.0 / 2.0)", V.number, 4.0),
    ("1.0 / (1.0 / 2.0 + 1.0 / 4.0)", V.number, 4.0 / 3.0),
    ("-limit", V.number, 4.0),
    ("-(limit + 1.0)", V.number, 3.0),
    ("2.0 - -limit", V.number, -2.0),
    ("limit * -1.5", V.number, 6.0),
    ("1e5 + .5", V.number, 100000.5),
    ("5e-11 * 2.0", V.number, 1e-10),
    ("1.7976931348623157e308", V.number, 1.7976931348623157e308),
    ("5e-324", V.number, 5e-324),
    ("dry ? wall.r : limit", V.number, 3.5),
    ("(dry ? 1.0 : 2.0) + 1.0", V.number, 2.0),
    ("1.0 + (wall.air.closed ? 1.0 / 0.0 : 2.0)", V.number, 3.0),
    ("double(size(controls)) / 4.0", V.number, 0.5),
    ("wall.r / (dry ? 2.0 : wall.r)", V.number, 1.75),
    ("double(wall.r)", V.number, 3.5),
    # texts
    ("dry ? zone : wall.kind", V.text, "5"),
    ("'it is \"5\"'", V.text, 'it is "5"'),
    ("'// no comment'", V.text, "// no comment"),
    ("wall.kind", V.text, "wall-framé"),
    # comparisons and logic
    ("wall.r >= 3.5 && wall.r <= 3.5 && !(wall.r > 3.5) && !(wall.r < 3.5)", V.truth, True),
    ("limit < 0.0", V.truth, True),
    ("1.0 < wall.r / (dry ? wall.r : wall.share)", V.truth, False),
    ("limit == -4.0 && limit != 4.0", V.truth, True),
    ("-0.0 == 0.0", V.truth, True),
    ("dry || wall.air.closed && wall.air.closed", V.truth, True),
    ("(dry || wall.air.closed) && wall.air.closed", V.truth, False),
    ("!dry == wall.air.closed", V.truth, True),
    ("dry ? (wall.air.closed ? true : false) : true", V.truth, False),
    ("wall.r > 1.0 == dry", V.truth, True),
    # guards: from left to right, the side that decides stops it
    ("wall.share == 0.25 || wall.r / 0.0 > 1.0", V.truth, True),
    ("wall.air.closed && wall.r / 0.0 > 1.0", V.truth, False),
    ("limit + 4.0 == 0.0 || wall.r / (limit + 4.0) > 1.0", V.truth, True),
    # texts and lists
    ('zone in ["4C", "5", "6"]', V.truth, True),
    ('!(zone in ["4C", "6"])', V.truth, True),
    ('"air" in controls && !("water" in controls)', V.truth, True),
    ("wall.r in [1.0, 3.5]", V.truth, True),
    (
        "wall.kind.startsWith('wall-') && wall.kind.endsWith(\"é\") && wall.kind.contains('fram')",
        V.truth,
        True,
    ),
    ("zone.startsWith('wall')", V.truth, False),
    ("size(controls) >= 2 && controls.size() == 2 && size([1.0, 2.0, 3.0]) > 2", V.truth, True),
    ("controls.all(c, c != 'water')", V.truth, True),
    ("controls.exists_one(c, c == 'air')", V.truth, True),
    ("['thermal', 'air'].exists(c, c in controls)", V.truth, True),
    ("[1.0, 4.0].all(x, x > wall.r)", V.truth, False),
    # options
    ("table.rows.exists(o, o.cavity >= 20.0)", V.truth, True),
    ('table.rows.exists(o, o["cavity"] > 20.0)', V.truth, False),
    ("table.rows.all(o, o.cavity / 10.0 > 1.0)", V.truth, True),
    ("table.rows.exists_one(o, o.cavity == 13.0 && dry)", V.truth, True),
    ("table.rows.exists(o, 'sheathing' in o && o.sheathing > 4.0)", V.truth, True),
    ("table.rows.exists(o, o.cavity > 99.0) || table.rows.exists(o, o.cavity < 14.0)", V.truth, True),
    # comments and white space
    ("wall.r // the whole wall\n  > 1.0", V.truth, True),
    ("\twall . r\r\n>1.0", V.truth, True),
]


@pytest.mark.parametrize("runtime", RUNTIMES)
@pytest.mark.parametrize(("source", "result", "expected"), ANSWERS)
def test_answers(source: str, result: ValueType, expected: object, runtime: str) -> None:
    answer = compiled(source, DECLARED, result, runtime).evaluate(VALUES)  # type: ignore[arg-type]
    assert type(answer) is type(expected)
    assert answer == expected


NO_ANSWERS = [
    ("wall.r / (limit + 4.0) > 1.0", V.truth, "divides by zero"),
    ("!(wall.r / (limit + 4.0) < 1.0)", V.truth, "divides by zero"),
    ("0.0 / 0.0 == 1.0", V.truth, "divides by zero"),
    ("1.0 / 0.0", V.number, "divides by zero"),
    ("1.0 / -0.0 < 0.0", V.truth, "divides by zero"),
    # a zero divisor deeper down would come out as a finite number: 1 / (1 / 0) = 0
    ("1.0 / (1.0 / (limit + 4.0)) < 1.0", V.truth, "divides by zero"),
    ("1.0 / (1e300 * 1e300) < 1.0", V.truth, "leaves the range"),
    ("1e308 * 10.0 > 1.0", V.truth, "leaves the range"),
    ("1e308 * 10.0 - 1e308 * 10.0 > 1.0", V.truth, "leaves the range"),
    ("1.7976931348623157e308 + 1.7976931348623157e308", V.number, "leaves the range"),
    # stricter than the language, which lets the right side or a later element hide the error
    ("wall.r / 0.0 > 1.0 || dry", V.truth, "divides by zero"),
    ("wall.r / 0.0 > 1.0 && wall.air.closed", V.truth, "divides by zero"),
    ("[0.0, 1.0].exists(x, 1.0 / x > 0.5)", V.truth, "divides by zero"),
    ("table.rows.exists(o, o.sheathing > 4.0)", V.truth, "option 2 of table.rows has no 'sheathing'"),
    ("table.rows.all(o, o.sheathing > 4.0 || dry)", V.truth, "option 2 of table.rows has no 'sheathing'"),
    ("table.rows.exists_one(o, o.sheathing > 4.0)", V.truth, "option 2 of table.rows has no 'sheathing'"),
    ("dry ? wall.r / 0.0 : 1.0", V.number, "divides by zero"),
]


@pytest.mark.parametrize("runtime", RUNTIMES)
@pytest.mark.parametrize(("source", "result", "reason"), NO_ANSWERS)
def test_errors_are_no_answers(source: str, result: ValueType, reason: str, runtime: str) -> None:
    answer = compiled(source, DECLARED, result, runtime).evaluate(VALUES)  # type: ignore[arg-type]
    assert isinstance(answer, NotEvaluated)
    assert reason in answer.reason
    assert answer.missing == ()
    with pytest.raises(TypeError, match="neither true nor false"):
        bool(answer)


@pytest.mark.parametrize("runtime", RUNTIMES)
def test_missing_names_are_named_even_where_the_answer_would_not_hang_on_them(runtime: str) -> None:
    expression = compiled("dry || wall.r > limit", DECLARED, V.truth, runtime)  # type: ignore[arg-type]
    assert expression.names == {"dry", "wall.r", "limit"}
    assert expression.evaluate({"dry": True, "wall.r": None}) == NotEvaluated(
        "limit, wall.r are not shown", ("limit", "wall.r")
    )
    assert expression.evaluate({"dry": True, "wall.r": 1.0}) == NotEvaluated("limit is not shown", ("limit",))


class Zone(StrEnum):
    five = "5"


TAKEN = [
    ("limit < 4.5", "limit", 4, True),
    ("limit < 4.5", "limit", 10**400, "limit is not a finite number"),
    ("limit < 4.5", "limit", True, "limit is not a number"),
    ("limit < 4.5", "limit", "4", "limit is not a number"),
    ("limit < 4.5", "limit", math.nan, "limit is not a finite number"),
    ("limit < 4.5", "limit", -math.inf, "limit is not a finite number"),
    ("dry", "dry", 1, "dry is neither true nor false"),
    ("dry", "dry", "true", "dry is neither true nor false"),
    ("zone == '5'", "zone", Zone.five, True),
    ("zone == '5'", "zone", 5, "zone is not a text"),
    ("zone == '5'", "zone", "\ud800", "zone holds letters that cannot be written"),
    ("zone == '5'", "zone", "5\x00", "zone holds letters that cannot be written"),
    ("'a' in controls", "controls", ("a",), True),
    ("'a' in controls", "controls", [], False),
    ("'a' in controls", "controls", "abc", "controls is not a list"),
    ("'a' in controls", "controls", {"a"}, "controls is not a list"),
    ("'a' in controls", "controls", ["a", 1], "controls is not a text"),
    ("'a' in controls", "controls", ["a"] * 1001, "controls has more than 1000 elements"),
    ("table.rows.all(o, o.a > 1.0)", "table.rows", [], True),
    ("table.rows.exists(o, o.a > 1.0)", "table.rows", [], False),
    ("table.rows.exists(o, o.a > 1.0)", "table.rows", [{"a": 2}], True),
    ("table.rows.exists(o, o.a > 1.0)", "table.rows", [{"a": "2"}], "table.rows is not a number"),
    ("table.rows.exists(o, o.a > 1.0)", "table.rows", [3.0], "table.rows holds something that is no option"),
]


@pytest.mark.parametrize("runtime", RUNTIMES)
@pytest.mark.parametrize(("source", "name", "value", "expected"), TAKEN)
def test_values_are_taken_or_refused_alike(
    source: str, name: str, value: object, expected: object, runtime: str
) -> None:
    answer = compiled(source, DECLARED, V.truth, runtime).evaluate({name: value})  # type: ignore[arg-type]
    assert answer == (NotEvaluated(expected) if isinstance(expected, str) else expected)


REFUSED = [
    # (source, what the message holds, offset)
    ("", "the expression ends here", 0),
    ("wall.r >", "the expression ends here", 8),
    ("wall.r > 1.0)", "')' follows", 12),
    ("wall.r > 1.0 dry", "'dry' follows", 13),
    ("wall.rr > 1.0", "nothing is declared under the name 'wall.rr'", 0),
    ("dry && wall > 1.0", "nothing is declared under the name 'wall'", 7),
    ("limit.r > 1.0", "nothing is declared under the name 'limit.r'", 0),
    # types
    ("wall.r", "gives a number", 0),
    ("wall.r > 1", "this is a count", 9),
    ("wall.r + 1 > 2.0", "this is a count", 9),
    ("size(controls) > 1.0", "this is a number", 17),
    ("size(zone) > 1", "this is a text", 5),
    ("zone > 'a'", "this is a text", 0),
    ("zone == 5.0", "this is a number", 8),
    ("zone + 'a' == 'b'", "this is a text", 0),
    ("dry && wall.r", "this is a number", 7),
    ("!wall.r", "this is a number", 1),
    ("-dry", "this is true or false", 1),
    ("dry ? dry ? dry : dry : dry", "expected ':', found '?'", 10),
    ("wall.r ? dry : dry", "this is a number", 0),
    ("dry ? 1.0 : 'a'", "this is a text", 12),
    ("dry ? controls : controls", "a list of texts", 6),
    ("1.0 < wall.r < 2.0", "this is true or false", 0),
    ("wall.r in controls", "this is a number", 0),
    ("controls == controls", "a list of texts", 0),
    ("zone in ['a', 1.0]", "this is a number", 14),
    ("zone in []", "a value is expected", 9),
    ("double(zone) > 1.0", "this is a text", 7),
    ("zone.startsWith(wall.r)", "this is a number", 16),
    ("table.rows.exists(o, o.a)", "this is a number", 21),
    ("zone.exists(o, dry)", "this is a text", 0),
    # outside the profile
    ("zone.matches('a+')", "'matches' is not among the functions", 5),
    ("controls.map(c, c)", "'map' is not among the functions", 9),
    ("controls.filter(c, true)", "'filter' is not among the functions", 9),
    ("timestamp('2020-01-01T00:00:00Z') == zone", "'timestamp' is not among the functions", 0),
    ("int(wall.r) > 1", "'int' is not among the functions", 0),
    ("has(wall.r)", "'has' is not among the functions", 0),
    ("type(wall.r) == zone", "'type' is not among the functions", 0),
    ("wall.r % 2.0 > 1.0", "'%' follows", 7),
    ("controls[0] == 'a'", "only the options inside a quantifier have keys", 9),
    ("table.rows[0].a > 1.0", "only the options inside a quantifier have keys", 11),
    ("table.rows.exists(o, o[wall.r] > 1.0)", "a key is a plain name", 23),
    ("{'a': 1.0}.a > 1.0", "'{' is no part of an expression", 0),
    ("null == zone", "'null' has no meaning here", 0),
    ("table.rows.exists(o, table.rows.exists(p, p.a > o.a))", "does not stand inside another", 32),
    ("controls.exists(zone, zone == 'a')", "already the name of something declared", 16),
    ("controls.exists(wall, wall == 'a')", "already the name of something declared", 16),
    ("controls.exists('a', true)", "begins with the name of its element", 16),
    ("controls.exists(c, true) && c == 'a'", "nothing is declared under the name 'c'", 28),
    ("!!dry", "put brackets", 1),
    ("wall.r > - -1.0", "put brackets", 11),
    # words of other languages and of the full one
    ("wall.r > 1u", "'1u' is neither", 9),
    ("wall.r > 0x1F", "'0x1F' is neither", 9),
    ("zone == r'a'", "\"r'a'\" is neither", 8),
    ('zone == """a"""', "is neither", 8),
    ("zone == 'a\\n'", "no backslash", 8),
    ("zone == 'a\nb'", "no backslash", 8),
    ("zone = 'a'", "'=' is no part", 5),
    ("dry & dry", "'&' is no part", 4),
    ("dry and dry", "'and' follows", 4),
    # unseen and look-alike letters
    ("wall.r\u00a0> 1.0", r"'\xa0' is no part", 6),
    ("w\u0430ll.r > 1.0", r"'\u0430' is no part", 1),
    ("wall.r > \u0661.0", r"'\u0661' is no part", 9),
    ("zone == '\u202e5'", "printable", 8),
    ("zone == '\ud800'", "printable", 8),
    ("dry \x00", r"'\x00' is no part", 4),
    # sizes
    ("wall.r > 1e999", "too large", 9),
    ("size(controls) > 99999999999999999999", "a count is at most", 17),
    ("(" * 40 + "dry" + ")" * 40, "nested deeper than 16 levels", 16),
    ("(" * 490, "nested deeper than 16 levels", 16),
    ("dry ? true : " * 30 + "dry", "nested deeper than 16 levels", 13 * 16),
    ("dry || " * 72 + "dry", "longer than 500 characters", 500),
    ("+".join(["wall.r"] * 40) + ">1.0", "too involved", 0),
    ("controls.all(c, true) && " * 9 + "dry", "at most 8 quantifiers", 0),
]


@pytest.mark.parametrize("runtime", RUNTIMES)
@pytest.mark.parametrize(("source", "what", "offset"), REFUSED)
def test_refusals_say_what_and_where(source: str, what: str, offset: int, runtime: str) -> None:
    with pytest.raises(ExpressionError) as caught:
        compiled(source, DECLARED, V.truth, runtime)  # type: ignore[arg-type]
    assert what in caught.value.what
    assert caught.value.offset == offset


def test_line_and_column() -> None:
    with pytest.raises(ExpressionError) as caught:
        compiled("dry &&\n  walls > 1.0", DECLARED)
    assert (caught.value.line, caught.value.column) == (2, 3)


@pytest.mark.parametrize("result", [V.texts, V.options])
def test_a_list_is_no_answer(result: ValueType) -> None:
    with pytest.raises(ExpressionError, match="gives a number, a text or a truth"):
        compiled("controls", DECLARED, result)


@pytest.mark.parametrize("runtime", RUNTIMES)
def test_too_many_names_of_one_type(runtime: str) -> None:
    names = [f"n{number}" for number in range(MOST_NAMES + 1)]
    declared = dict.fromkeys(names, V.truth)
    enough = compiled("||".join(names[:-1]), declared, V.truth, runtime)  # type: ignore[arg-type]
    assert enough.evaluate(dict.fromkeys(names, False)) is False
    with pytest.raises(ExpressionError, match="more than 24 names"):
        compiled("||".join(names), declared, V.truth, runtime)  # type: ignore[arg-type]


@pytest.mark.parametrize("runtime", RUNTIMES)
def test_the_deepest_and_widest_that_is_taken_is_answered(runtime: str) -> None:
    for source in (
        "(" * 15 + "dry" + ")" * 15,
        "dry ? false : " * 15 + "dry",
        "||".join(["wall.air.closed"] * 29),
        "||".join(["limit/1.0>1.0"] * 30) + "||dry",
        "+".join(["wall.r"] * 20) + ">1.0",
        "-".join(["wall.r/limit"] * 10) + ">1.0",
        "wall.r/(" * 5 + "wall.r" + ")" * 5 + ">1.0",
    ):
        answer = compiled(source, DECLARED, V.truth, runtime).evaluate(VALUES)  # type: ignore[arg-type]
        assert isinstance(answer, bool), source


@pytest.mark.parametrize("runtime", RUNTIMES)
def test_the_most_quantifiers_over_the_longest_list_are_answered(runtime: str) -> None:
    # The first runtime stops at 10,000 iterations; the limits of the profile stay below that.
    source = " && ".join(["controls.all(c, c != '')"] * 8)
    expression = compiled(source, DECLARED, V.truth, runtime)  # type: ignore[arg-type]
    assert expression.evaluate({"controls": ["air"] * 1000}) is True


def test_involved_texts_are_refused_not_blown_up() -> None:
    source = "limit"
    for _ in range(4):
        source = f"1.0/({source}+(dry?1.0:2.0))"
        compiled(source, DECLARED, V.number)
    for _ in range(8):
        source = f"1.0/({source}+(dry?1.0:2.0))"
    with pytest.raises(ExpressionError, match=r"too involved|nested deeper"):
        compiled(source, DECLARED, V.number)


# -- properties --------------------------------------------------------------------------------------------------


def _operators(left: st.SearchStrategy[str], signs: list[str]) -> st.SearchStrategy[str]:
    return st.tuples(left, st.sampled_from(signs), left).map(
        lambda parts: f"({parts[0]} {parts[1]} {parts[2]})"
    )


NUMBERS = st.one_of(
    st.sampled_from(["wall.r", "wall.share", "limit", "double(size(controls))"]),
    st.floats(0, 1e308).map(repr).map(lambda text: text if "." in text or "e" in text else text + ".0"),
)
TEXTS = st.sampled_from(["zone", "wall.kind", '"5"', "'air'", "''"])
ARITHMETIC = st.recursive(
    NUMBERS,
    lambda lower: st.one_of(
        _operators(lower, ["+", "-", "*", "/"]),
        lower.map(lambda inner: f"-({inner})"),
        st.tuples(lower, lower).map(lambda pair: f"(dry ? {pair[0]} : {pair[1]})"),
    ),
    max_leaves=4,
)
ATOMS = st.one_of(
    st.sampled_from(["dry", "wall.air.closed", "true", "size(controls) >= 2", '"air" in controls']),
    _operators(ARITHMETIC, ["<", "<=", ">", ">=", "==", "!="]),
    _operators(TEXTS, ["==", "!="]),
    st.tuples(TEXTS, st.sampled_from(["startsWith", "endsWith", "contains"]), TEXTS).map(
        lambda parts: f"{parts[0]}.{parts[1]}({parts[2]})"
    ),
    st.tuples(
        st.sampled_from(["exists", "all", "exists_one"]), st.sampled_from(["<", "/ 2.0 >"]), ARITHMETIC
    ).map(lambda parts: f"table.rows.{parts[0]}(o, o.cavity {parts[1]} {parts[2]})"),
    st.tuples(st.sampled_from(["exists", "all", "exists_one"]), TEXTS).map(
        lambda parts: f"controls.{parts[0]}(c, c == {parts[1]})"
    ),
)
TRUTHS = st.recursive(
    ATOMS,
    lambda lower: st.one_of(
        _operators(lower, ["&&", "||"]),
        lower.map(lambda inner: f"!({inner})"),
        st.tuples(lower, lower, lower).map(lambda parts: f"({parts[0]} ? {parts[1]} : {parts[2]})"),
    ),
    max_leaves=4,
)
FINITE = st.floats(allow_nan=False, allow_infinity=False)
GIVEN = st.fixed_dictionaries(
    {
        "wall.r": FINITE,
        "wall.share": st.sampled_from([0.0, 0.25, 1.0, -1.0]),
        "limit": FINITE,
        "zone": st.sampled_from(["5", "", "é"]) | st.text(max_size=3),
        "wall.kind": st.text(max_size=3),
        "dry": st.booleans(),
        "wall.air.closed": st.booleans(),
        "controls": st.lists(st.sampled_from(["air", "5", ""]), max_size=3),
        "table.rows": st.lists(
            st.fixed_dictionaries({}, optional={"cavity": FINITE, "sheathing": FINITE}), max_size=3
        ),
    }
)


def _read(source: str, runtime: str = "second") -> Expression | ExpressionError:
    try:
        return compiled(source, DECLARED, V.truth, runtime)  # type: ignore[arg-type]
    except ExpressionError as error:
        return error


def _in_the_full_language(source: str, values: dict[str, object]) -> object:
    """Evaluate the text as it stands, with its dotted names, in the first runtime; `None` for an error."""
    kinds = {
        V.number: cel.Type.DOUBLE,
        V.text: cel.Type.STRING,
        V.truth: cel.Type.BOOL,
        V.texts: cel.Type.List(cel.Type.STRING),
        V.options: cel.Type.List(cel.Type.Map(cel.Type.STRING, cel.Type.DOUBLE)),
    }
    environment = cel.NewEnv(variables={name: kinds[kind] for name, kind in DECLARED.items()})
    value = environment.compile(source).eval(environment.Activation(values))
    return None if value.type() == cel.Type.ERROR else value.value()


@settings(max_examples=300, deadline=None)
@given(TRUTHS, GIVEN)
def test_runtimes_agree_with_each_other_and_with_the_full_language(
    source: str, values: dict[str, object]
) -> None:
    expressions = [_read(source, runtime) for runtime in RUNTIMES]
    if any(isinstance(expression, ExpressionError) for expression in expressions):
        for error in expressions:
            assert isinstance(error, ExpressionError)
            assert any(
                limit in error.what for limit in ("longer than", "too involved", "at most 8 quantifiers")
            )
        return
    answer = expressions[0].evaluate(values)
    assert answer == expressions[1].evaluate(values)
    if not isinstance(answer, NotEvaluated):
        assert answer == _in_the_full_language(source, values)


WORDS = """
wall.r limit zone dry controls table.rows 1.0 2 'a' ( ) [ ] , + - * / < >= == != && || ! ? : in size( .exists( o, o.cavity
.startsWith( true double( . ; é \\ " % null 1u
"""


@settings(max_examples=500, deadline=None)
@given(st.lists(st.sampled_from(WORDS.split()), max_size=9).map(" ".join) | TRUTHS)
def test_what_the_profile_takes_is_of_the_language_and_a_refusal_has_a_place(source: str) -> None:
    read = _read(source)
    if isinstance(read, ExpressionError):
        assert 0 <= read.offset <= len(source)
    else:
        # The first runtime checks types itself, and raises here for what it does not take.
        _in_the_full_language(source, VALUES)


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=40))
def test_any_text_is_taken_or_refused_with_a_place(source: str) -> None:
    read = _read(source)
    assert isinstance(read, Expression) or (read.what and 0 <= read.offset <= len(source))


@settings(max_examples=200, deadline=None)
@given(
    st.dictionaries(
        st.sampled_from([*DECLARED, "other"]),
        st.none() | st.integers() | FINITE | st.text() | st.lists(st.text() | FINITE),
    )
)
def test_evaluation_never_raises(values: dict[str, object]) -> None:
    source = "dry || wall.r / limit > 1.0 || zone in controls || table.rows.exists(o, o.a > 1.0)"
    answers = [compiled(source, DECLARED, V.truth, runtime).evaluate(values) for runtime in RUNTIMES]  # type: ignore[arg-type]
    assert answers[0] == answers[1]
    assert isinstance(answers[0], bool | NotEvaluated)
