"""What numbers the physics accepts: each check returns its value or says in words why it cannot be."""

import math

__all__ = ["finite", "fraction", "not_negative", "positive"]


def finite(name: str, value: float) -> float:
    """Return the value when it is a finite number."""
    if not math.isfinite(value):
        raise ValueError(f"{name} must be a finite number, not {value}")
    return value


def positive(name: str, value: float) -> float:
    """Return the value when it is finite and above zero."""
    if finite(name, value) <= 0.0:
        raise ValueError(f"{name} must be above zero, not {value}")
    return value


def not_negative(name: str, value: float) -> float:
    """Return the value when it is finite and not below zero."""
    if finite(name, value) < 0.0:
        raise ValueError(f"{name} must not be negative, not {value}")
    return value


def fraction(name: str, value: float) -> float:
    """Return the value when it lies from 0 to 1, both included."""
    if not 0.0 <= finite(name, value) <= 1.0:
        raise ValueError(f"{name} must lie from 0 to 1, not {value}")
    return value
