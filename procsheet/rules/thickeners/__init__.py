"""Gums, clays and carbomers."""

from procsheet.rules.thickeners import carbomer_salt, carbomer_shear, gum_hydrate_time, gum_predisperse, organoclay_steps

RULES = (gum_predisperse, gum_hydrate_time, carbomer_shear, carbomer_salt, organoclay_steps)
