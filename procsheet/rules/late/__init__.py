"""What goes in last, because shear or heat would spoil it."""

from procsheet.rules.late import encapsulate_late, hollow_spheres

RULES = (encapsulate_late, hollow_spheres)
