"""Reference tables: materials, constructions, and the mechanism that loads them fast."""
