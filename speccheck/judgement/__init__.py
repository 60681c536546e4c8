"""Judgement: facts and rule packs become findings."""
