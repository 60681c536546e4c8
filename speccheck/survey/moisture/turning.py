"""Searches for the step at which a verdict turns, on whole steps: by halves, from a guess, and by what is measured."""

from collections.abc import Callable

__all__ = ["greatest", "greatest_by", "greatest_near"]

_PART, _MOST_LINES = 8, 3


def greatest(holds: Callable[[int], bool], low: int, high: int) -> int:
    """Return the greatest step up to ``high`` at which a condition holds that is taken to hold at ``low``, by halves.

    The highest step is asked last: most often it need not be, and it is the one that costs most.
    """
    top = high
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return top if low + 1 == top and holds(top) else low


def greatest_near(holds: Callable[[int], bool], low: int, high: int, guess: int) -> int:
    """Return the same for a condition that turns once and does not hold at ``high``, beginning at a guess.

    A right guess costs two questions. From a wrong one the search goes on in strides that double, until the turn lies
    between two of them, and then by halves.
    """
    stride, strides = 1, True
    met: set[bool] = set()
    while high - low > 1:
        step = min(max(guess, low + 1), high - 1) if strides else (low + high) // 2
        answer = holds(step)
        low, high = (step, high) if answer else (low, step)
        met.add(answer)
        strides = len(met) < 2
        guess = step + stride if answer else step - stride
        stride *= 2
    return low


def greatest_by(measure: Callable[[int], float], low: int, high: int) -> int:
    """Return the greatest step up to ``high`` at which a measure is not above 0, and is taken not to be at ``low``.

    The measure turns once. Above 0 it says how far beyond the turn a step lies, in any unit; below it need not. The
    line through the last two above leads to the next step; where it does not get there soon, strides and halves do.

    Example:
        >>> greatest_by(lambda step: max(0.0, 3.0 * step - 500.0), 0, 256)
        166
    """
    far, most = high, measure(high)
    if most <= 0.0:
        return high
    step, lines = high - max(1, (high - low) // _PART), 0
    while high - low > 1 and lines < _MOST_LINES:
        step = min(max(step, low + 1), high - 1)
        found = measure(step)
        if found > 0.0:
            line = step - found * (far - step) / (most - found) if most > found else low
            high, far, most, lines = step, step, found, lines + 1
            # over a long way it is taken short of its end: from there the next one leads nearer to the turn
            step = max(int(line), low)
            step += (high - step) // _PART
        elif lines:
            low, lines = step, _MOST_LINES
            step += 1
        else:
            low, step = step, (step + high) // 2
    return greatest_near(lambda step: measure(step) <= 0.0, low, high, step)
