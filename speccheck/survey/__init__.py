"""The survey: document and reference tables in, facts with their provenance out."""

from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.subject import Subject, Surveyed
from speccheck.survey.survey import survey
from speccheck.survey.vocabulary import VOCABULARY

__all__ = ["VOCABULARY", "Fact", "Gap", "Origin", "Subject", "Surveyed", "survey"]
