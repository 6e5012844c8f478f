"""Dangers for people, printed before the step."""

from procsheet.rules.cautions import (acid_irritant, confined_entry, corrosive, dust, flammable_vapour, health_hazard, hot_vessel, lifting, lye_heat, nitrogen, oxidiser, sensitiser, steam,
                                      turning_tools, vacuum, waste_wash)

RULES = (flammable_vapour, oxidiser, lye_heat, corrosive, acid_irritant, health_hazard, hot_vessel, steam, nitrogen, vacuum, turning_tools, confined_entry, sensitiser, dust, lifting, waste_wash)
