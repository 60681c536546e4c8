"""The error of a weather file that cannot be used, apart from the room that reads one, so that it costs nothing."""

__all__ = ["WeatherFileError"]


class WeatherFileError(ValueError):
    """A weather file cannot be used; the message says why and what to do."""
