"""Temperatures that are asked for, and those that a material or a vapour cannot stand."""

from procsheet.rules.heat import flash_limit, temperature_not_reached

RULES = (temperature_not_reached, flash_limit)
