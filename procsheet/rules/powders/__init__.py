"""Powders, pigments, pearl, dyes and grains."""

from procsheet.rules.powders import (
                                     alumina_dye,
                                     bead_suspend,
                                     dye_light,
                                     filter_mesh,
                                     hygroscopic_powder,
                                     mica_pearl_last,
                                     mill_before_heat_sensitive,
                                     no_dispersant,
                                     pigment_wet,
                                     powder_into_liquid_rate,
                                     pressed_powder_binder,
                                     shade_before_fill,
                                     starch_temp,
                                     zno_acid,
)

RULES = (zno_acid, pigment_wet, no_dispersant, powder_into_liquid_rate, mica_pearl_last, mill_before_heat_sensitive, starch_temp, alumina_dye, bead_suspend,
         pressed_powder_binder, filter_mesh, shade_before_fill, dye_light, hygroscopic_powder)
