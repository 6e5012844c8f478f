"""Emulsions with oil or silicone outside."""

from procsheet.rules.water_in_oil import (
                                          acid_and_salt_sensitive,
                                          electrolyte_grade,
                                          electrolyte_in_water,
                                          electrolyte_needed,
                                          ester_share,
                                          glycerin_help,
                                          homogenise_after,
                                          no_hydrophile_in_oil,
                                          oil_phase_min,
                                          oil_rheology_only,
                                          order_wo,
                                          preservative_wo,
                                          rate_vs_mixing,
                                          slow_water,
                                          wo_hlb,
)

RULES = (wo_hlb, oil_phase_min, electrolyte_needed, oil_rheology_only, electrolyte_in_water, order_wo, slow_water, rate_vs_mixing, homogenise_after,
         no_hydrophile_in_oil, acid_and_salt_sensitive, preservative_wo, electrolyte_grade, ester_share, glycerin_help)
