"""Temperatures that are asked for, and those that a material or a vapour cannot stand."""

from procsheet.rules.heat import alcohol_cool, flash_limit, fragrance_temp, heat_sensitive, preservative_max_temp, temperature_not_reached

RULES = (temperature_not_reached, flash_limit, alcohol_cool, heat_sensitive, preservative_max_temp, fragrance_temp)
