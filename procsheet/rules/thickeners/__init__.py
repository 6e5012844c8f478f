"""Gums, clays, carbomers and what else thickens."""

from procsheet.rules.thickeners import (acid_thins_polymer, acrylate_inverse, alcohol_precip, anionic_gum_cationic, assoc_alkali, carbomer_disperse,
                                        carbomer_in_water_first, carbomer_salt, carbomer_shear, carbomer_without_base, cationic_guar, cellulose_hot,
                                        clay_first, clay_salt, deaerate_before_neutralise, gum_hydrate_time, gum_in_oil_little_water, gum_predisperse,
                                        gum_warm_micro, hco_temp, hec_ph, neutralise_after, neutraliser_alcohol, no_divalent_base, organoclay_low_aq,
                                        organoclay_steps, overneutralise, polymer_in_setting_oil, shear_degradable_polymer, xanthan_shear)

RULES = (gum_predisperse, gum_hydrate_time, gum_warm_micro, xanthan_shear, gum_in_oil_little_water, cellulose_hot, hec_ph, cationic_guar, anionic_gum_cationic,
         alcohol_precip, shear_degradable_polymer,
         carbomer_disperse, carbomer_in_water_first, carbomer_without_base, no_divalent_base, neutraliser_alcohol, neutralise_after, overneutralise,
         deaerate_before_neutralise, carbomer_shear, carbomer_salt, acid_thins_polymer,
         assoc_alkali, acrylate_inverse, polymer_in_setting_oil,
         clay_first, clay_salt, organoclay_steps, organoclay_low_aq, hco_temp)
