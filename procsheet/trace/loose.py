"""What a loose word stands for, where no figure is given: from the least to the most a crew may make of it (common practice, no source)."""

from procsheet.intervals import Interval
from procsheet.model.method import Step

MINUTE = 60.0
LASTS = {                               # how long a step lasts [s]
    "briefly": (5, MINUTE), "very slowly": (15 * MINUTE, 120 * MINUTE), "drop by drop": (10 * MINUTE, 120 * MINUTE), "slowly": (2 * MINUTE, 60 * MINUTE),
}
ADDING = ("add", "transfer", "emulsify", "dissolve", "disperse", "neutralise", "activate", "charge", "rinse")


def lasts(step: Step) -> Interval | None:
    """The time of a step that only a loose word tells of; of heating and cooling the jacket decides."""
    for word, (least, most) in LASTS.items():
        if step.has(word) and (word == "briefly" or step.verb in ADDING):
            return Interval(least, most, f"how long `{word}` is")
    return None
