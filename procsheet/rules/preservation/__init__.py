"""What keeps a product, and the acids and alkalis that set its pH."""

from procsheet.rules.preservation import (
    acid_before_sensitive, acid_salt_precip, chelator_early, clay_preservative, hypochlorite_mixing, iron_discolour, nitrosation, ph_adjust_steps,
    ph_adjust_temp, ph_before_preservative, preservative_first_water, preservative_inactivators, preservative_ph, preservative_phase,
    preservative_solubility, urea_buffer,
)

RULES = (preservative_ph, ph_before_preservative, hypochlorite_mixing, nitrosation, acid_salt_precip, ph_adjust_steps, ph_adjust_temp, acid_before_sensitive,
         preservative_phase, clay_preservative, preservative_inactivators, preservative_solubility, iron_discolour, chelator_early,
         preservative_first_water, urea_buffer)
