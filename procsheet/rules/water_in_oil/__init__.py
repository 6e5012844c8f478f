"""Emulsions with oil or silicone outside."""

from procsheet.rules.water_in_oil import electrolyte_in_water, electrolyte_needed, oil_phase_min, oil_rheology_only, order_wo, slow_water

RULES = (oil_phase_min, electrolyte_needed, oil_rheology_only, electrolyte_in_water, order_wo, slow_water)
