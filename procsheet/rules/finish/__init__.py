"""The end of the batch: vacuum, acids and alkalis, make-up, rest."""

from procsheet.rules.finish import (acid_into_water, deaerate, fill_temp, hold_limit, min_mix_after_add, oil_held_hot_open, overage_scaled, premix_minor, qs_water_last,
                                    rest_before_test, rinse_down, vacuum_before_volatile, water_quality)

RULES = (acid_into_water, oil_held_hot_open, vacuum_before_volatile, rinse_down, overage_scaled, qs_water_last, premix_minor, min_mix_after_add, deaerate, hold_limit,
         rest_before_test, fill_temp, water_quality)
