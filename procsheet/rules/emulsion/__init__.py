"""Where water and oil meet."""

from procsheet.rules.emulsion import (
    acid_stable_emulsifier, cold_water_addback, cool_rate, direct_vs_inverse, emulsifier_present, emulsifier_ratio, emulsify_hot, enough_shear,
    equal_temps, heat_rate, hot_hold, internal_ratio, late_water_phase, melt_margin, multiple_emulsion_osmosis, multiple_emulsion_shear,
    no_salt_before_emulsify, oil_dispersion_into_gel, over_shear_cool, post_inversion_temp, preservative_splits_emulsion, soap_in_situ,
    stir_through_setting,
)

RULES = (melt_margin, equal_temps, enough_shear, emulsify_hot, emulsifier_present, emulsifier_ratio, soap_in_situ, internal_ratio, over_shear_cool,
         stir_through_setting, no_salt_before_emulsify, cold_water_addback, late_water_phase, cool_rate, heat_rate, post_inversion_temp, hot_hold,
         direct_vs_inverse, acid_stable_emulsifier, preservative_splits_emulsion, multiple_emulsion_shear, multiple_emulsion_osmosis,
         oil_dispersion_into_gel)
