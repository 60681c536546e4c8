"""Searches for the step at which a verdict turns: all find the same one, the quick ones with few questions."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from speccheck.survey.moisture.turning import greatest, greatest_by, greatest_near


class Asked:
    """A condition that turns once, and how often it was asked; the measure is how far beyond the turn, bent or not."""

    def __init__(self, turn: float, bent: float = 1.0) -> None:
        self.turn, self.bent, self.count = turn, bent, 0

    def holds(self, step: int) -> bool:
        self.count += 1
        return step <= self.turn

    def beyond(self, step: int) -> float:
        self.count += 1
        return 0.0 if step <= self.turn else 0.01 * (step - self.turn) ** self.bent


@st.composite
def turns(draw: Any) -> tuple[int, int, float]:
    low = draw(st.integers(0, 255))
    high = draw(st.integers(low, 256))
    return low, high, draw(st.floats(low, 257.0))


@given(turns())
def test_by_halves_it_is_the_last_that_holds(case: tuple[int, int, float]) -> None:
    low, high, turn = case
    assert greatest(Asked(turn).holds, low, high) == min(int(turn), high)


@given(turns(), st.floats(0.3, 3.0))
def test_by_what_is_measured_it_is_the_same(case: tuple[int, int, float], bent: float) -> None:
    low, high, turn = case
    asked = Asked(turn, bent)
    assert greatest_by(asked.beyond, low, high) == min(int(turn), high)
    # some lines, strides there, halves back
    assert asked.count <= 5 + 2 * 8


@given(turns())
def test_a_straight_measure_takes_few_questions(case: tuple[int, int, float]) -> None:
    low, high, turn = case
    asked = Asked(turn)
    greatest_by(asked.beyond, low, high)
    assert asked.count <= 8


def test_where_the_highest_holds_it_is_the_only_question() -> None:
    asked = Asked(300.0)
    assert greatest_by(asked.beyond, 0, 256) == 256
    assert asked.count == 1


@given(turns(), st.integers(-50, 300))
def test_from_any_guess_it_is_the_same(case: tuple[int, int, float], guess: int) -> None:
    low, high, turn = case
    asked = Asked(min(turn, max(low, high - 0.5)))
    assert greatest_near(asked.holds, low, high, guess) == min(int(turn), max(low, high - 1))
    assert asked.count <= 2 * 9


@given(st.integers(0, 254))
def test_a_right_guess_takes_two_questions(turn: int) -> None:
    asked = Asked(float(turn))
    assert greatest_near(asked.holds, 0, 256, turn) == turn
    assert asked.count <= 2
