"""Cleansers, conditioners, and what they carry."""

from procsheet.rules.surfactants import (
    anionic_cationic, cationic_acid_order, fragrance_solubiliser, no_high_shear_surf, opacifier_salt, paste_into_water, pearl, salt_curve,
    salt_into_cationic, surfactant_order, surfactant_strength,
)

RULES = (anionic_cationic, no_high_shear_surf, fragrance_solubiliser, salt_into_cationic, surfactant_order, paste_into_water, salt_curve, surfactant_strength,
         opacifier_salt, cationic_acid_order, pearl)
