"""What is made without water: balms, ointments, sticks; and soap."""

from procsheet.rules.anhydrous import alkali_assay, balm_melt_order, balm_no_water, butter_grain, lye_excess, pour_temp, soap_too_hot

RULES = (balm_no_water, balm_melt_order, pour_temp, butter_grain, soap_too_hot, alkali_assay, lye_excess)
