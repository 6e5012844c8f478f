"""Where water and oil meet."""

from procsheet.rules.emulsion import equal_temps

RULES = (equal_temps,)
