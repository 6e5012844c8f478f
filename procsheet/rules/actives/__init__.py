"""What heat, light, air, acid or its neighbours spoil: actives, sun filters, beads."""

from procsheet.rules.actives import allantoin_solubility, bead_chelator, ceramide_hot, light_sensitive, metal_contact, niacinamide_ph, oxidation_oil_hold, protein_foam, retinoid_oil, salicylic_dissolve, uv_solid, vitamin_c_ph_air

RULES = (uv_solid, ceramide_hot, bead_chelator, niacinamide_ph, vitamin_c_ph_air, retinoid_oil, salicylic_dissolve, allantoin_solubility, metal_contact, light_sensitive, protein_foam, oxidation_oil_hold)
