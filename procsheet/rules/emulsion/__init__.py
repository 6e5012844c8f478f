"""Where water and oil meet."""

from procsheet.rules.emulsion import enough_shear, equal_temps, melt_margin

RULES = (melt_margin, equal_temps, enough_shear)
