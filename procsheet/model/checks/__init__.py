"""What can be said of a formula before any step is looked at: one file a check, each with its manual."""

from procsheet.model.checks import (amount_range, cap_missing, density_missing, formula_total, own_range, published_figure, qs_reading,
                                    two_closing_rows, unknown_material, weigh_not_measure, which_material)

qs_read_as = qs_reading.finding
two_materials = which_material.finding
no_data = unknown_material.finding

CHECKS = (two_closing_rows.check, formula_total.check, published_figure.check, own_range.check, amount_range.check, cap_missing.check,
          density_missing.check, weigh_not_measure.check)
PAGES = (formula_total, two_closing_rows, published_figure, own_range, amount_range, cap_missing, density_missing, weigh_not_measure,
         unknown_material, which_material, qs_reading)
