"""The rule book, in the order a chemist would meet the rules. Every rule file stands in its folder's tuple, and nothing else does."""

from procsheet.rules import actives, alcohol, anhydrous, cautions, emulsion, finish, heat, late, limits, powders, preservation, surfactants, thickeners, water_in_oil

RULES = (*heat.RULES, *emulsion.RULES, *water_in_oil.RULES, *thickeners.RULES, *late.RULES, *powders.RULES,
         *surfactants.RULES, *preservation.RULES, *finish.RULES, *actives.RULES, *anhydrous.RULES, *alcohol.RULES, *limits.RULES, *cautions.RULES)
