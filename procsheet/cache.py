"""The user's own folder for what is slow to make and quick to read: the grammar's tables, the index of material names. It may be emptied at any time."""

import os
from pathlib import Path


def folder() -> Path | None:
    """The folder, made where it is not there yet; None where nothing can be kept."""
    place = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "procsheet"
    try:
        place.mkdir(parents=True, exist_ok=True)
    except OSError:
        return None
    return place
