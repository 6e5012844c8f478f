"""The rule book, in the order a chemist would meet the rules. Every rule file stands in its folder's tuple, and nothing else does."""

from procsheet.rules import cautions, emulsion, finish, heat, late, thickeners, water_in_oil

RULES = (*heat.RULES, *emulsion.RULES, *water_in_oil.RULES, *thickeners.RULES, *late.RULES, *finish.RULES, *cautions.RULES)
