"""Dissolved salt that sets a viscosity or upsets it: not what keeps, binds metal or holds drops."""

NOT_COUNTED = ("preservative", "emulsifier", "surfactant", "cationic surfactant", "chelator", "borate", "thickener of water")


def is_salt(row) -> bool:
    return row.material.share("electrolyte") > 0 and not row.material.is_a(*NOT_COUNTED)


def at_most(batch, row) -> float:
    """The share of the batch that is salt from a row, of a corrector up to its cap [1]."""
    kilograms = row.mass or row.cap or row.guide or 0
    return float(kilograms / batch.method.mass) * row.material.share("electrolyte") if is_salt(row) else 0.0


def salts(batch) -> list:
    """The rows that bring salt, the most first."""
    return sorted((row for row in batch.method.rows if is_salt(row) and not row.optional), key=lambda row: -at_most(batch, row))
