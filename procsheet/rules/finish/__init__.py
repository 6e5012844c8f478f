"""The end of the batch: vacuum, acids and alkalis, make-up, rest."""

from procsheet.rules.finish import acid_into_water, qs_water_last, rest_before_test, vacuum_before_volatile

RULES = (acid_into_water, vacuum_before_volatile, qs_water_last, rest_before_test)
