"""Emulsions with oil or silicone outside."""

RULES = ()
