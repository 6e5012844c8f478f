"""Spirits: what evaporates, and what makes them unfit to drink."""

from procsheet.rules.alcohol import alcohol_evap

RULES = (alcohol_evap,)
