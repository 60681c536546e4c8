"""Plain words: the YAML 1.2 core schema, less the forms on which readers of YAML disagree."""

import pytest

from speccheck.document.scalar import plain_scalar


@pytest.mark.parametrize(
    ("word", "value"),
    [
        # YAML 1.2.2, section 10.3.2 (memory).
        ("", None),
        ("~", None),
        ("null", None),
        ("Null", None),
        ("true", True),
        ("FALSE", False),
        ("0", 0),
        ("-7", -7),
        ("+7", 7),
        ("12.5", 12.5),
        ("12.", 12.0),
        (".5", 0.5),
        ("-0.5", -0.5),
        # Text.
        ("12.7 mm", "12.7 mm"),
        ("R-23", "R-23"),
        ("25 %", "25 %"),
        ("5e-11 kg/(m²·s·Pa)", "5e-11 kg/(m²·s·Pa)"),
        ("1/2 in", "1/2 in"),
        ("2024-05-01", "2024-05-01"),
        ("us/irc-2021", "us/irc-2021"),
        ("1.5 ACH50", "1.5 ACH50"),
        ("N", "N"),
        ("y", "y"),
        ("nan", "nan"),
        ("1.2.3", "1.2.3"),
        ("-", "-"),
        ("123456789012345678", 123456789012345678),
    ],
)
def test_values(word: str, value: object):
    read, trouble = plain_scalar(word)
    assert trouble is None
    assert read == value
    assert type(read) is type(value)


@pytest.mark.parametrize(
    ("word", "what"),
    [
        ("yes", "'yes' is read as true"),
        ("No", "'No' is read as false"),
        ("ON", "'ON' is read as true"),
        ("off", "'off' is read as false"),
        ("12:30", "sixties"),
        ("1:12", "sixties"),
        ("190:20:30", "sixties"),
        ("012", "begins with a zero"),
        ("02134", "begins with a zero"),
        ("-012", "begins with a zero"),
        ("01.5", "begins with a zero"),
        ("0x1F", "another base"),
        ("0o17", "another base"),
        ("0b11", "another base"),
        ("1_000", "underscores"),
        ("1e3", "exponent"),
        ("5e-11", "exponent"),
        ("5.7E+11", "exponent"),
        (".nan", "not a finite"),
        ("-.inf", "not a finite"),
        (".INF", "not a finite"),
        ("9" * 5000, "too many digits"),
        ("1" + ":1" * 5000, "sixties"),
        ("1e" + "1" * 5000, "exponent"),
    ],
)
def test_traps_stay_text_and_are_told(word: str, what: str):
    read, trouble = plain_scalar(word)
    assert read == word
    assert trouble is not None
    assert what in trouble[0]
    assert trouble[1]
    assert len(trouble[0]) < 200


def test_json_numbers_may_have_an_exponent():
    assert plain_scalar("1e3", json=True) == (1000.0, None)
    assert plain_scalar("1e999", json=True)[1] is not None
