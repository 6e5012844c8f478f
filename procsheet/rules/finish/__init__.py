"""The end of the batch: make-up, correction, rest."""

RULES = ()
