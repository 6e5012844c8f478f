"""Limits of use: data with a date, and no legal advice."""

from procsheet.rules.limits import limit_of_use

RULES = (limit_of_use,)
