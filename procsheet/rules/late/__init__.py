"""What goes in last, because shear or heat would spoil it."""

RULES = ()
