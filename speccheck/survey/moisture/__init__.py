"""Moisture through the year: balances, drying, surfaces, and the humidity an assembly is good for."""

from speccheck.survey.moisture.survey import MOISTURE_FACTS, survey_moisture

__all__ = ["MOISTURE_FACTS", "survey_moisture"]
