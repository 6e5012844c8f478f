"""Dangers for people, printed before the step."""

from procsheet.rules.cautions import corrosive, dust, flammable_vapour, hot_vessel, lye_heat, nitrogen, sensitiser, turning_tools, vacuum

RULES = (flammable_vapour, lye_heat, corrosive, hot_vessel, nitrogen, vacuum, turning_tools, sensitiser, dust)
