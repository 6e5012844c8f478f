"""Gums, clays and carbomers."""

RULES = ()
