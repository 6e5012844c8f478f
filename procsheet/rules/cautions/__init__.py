"""Dangers for people, printed before the step."""

RULES = ()
