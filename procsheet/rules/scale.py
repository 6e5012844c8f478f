"""The temperatures of a finding in the scale its method is written in."""

import re

from procsheet.findings import Finding, Label
from procsheet.rules.words import APART

WRITTEN = re.compile(r"\d\s*(?:°\s*|deg\s*)?([CF])\b")
TEMPERATURE = re.compile("(?:(-?[\\d.]+)–)?(-?[\\d.]+)\u00a0°C")
DIFFERENCE = re.compile(f"([\\d.]+){APART}°C")


def is_fahrenheit(text: str) -> bool:
    """Whether most temperatures of a method are written in °F."""
    scales = WRITTEN.findall(text)
    return scales.count("F") > scales.count("C")


def in_fahrenheit(finding: Finding) -> Finding:
    """What it says and tells to do, in °F; the source keeps the scale its figure was published in."""
    return finding._replace(title=told(finding.title), fix=told(finding.fix), at=_label(finding.at), also=tuple(map(_label, finding.also)))


def told(text: str) -> str:
    """`40–45 °C` as `104–113 °F`, and a difference of `5 °C` as `9 °F`."""
    return DIFFERENCE.sub(lambda found: f"{float(found[1]) * 1.8:.3g}{APART}°F", TEMPERATURE.sub(_absolute, text))


def _absolute(found: re.Match) -> str:
    return "–".join(f"{float(one) * 1.8 + 32:.0f}" for one in found.groups() if one) + "\u00a0°F"


def _label(label: Label) -> Label:
    return label._replace(text=told(label.text))
