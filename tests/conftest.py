"""Every test says where its expected figures come from; collection fails without it."""

import pytest
from hypothesis import settings

settings.register_profile("house", deadline=None)          # no test times anything
settings.load_profile("house")


def pytest_collection_modifyitems(items):
    without = sorted({f"{item.fspath.basename}::{item.originalname}" for item in items if not hasattr(getattr(item, "function", None), "__source__")})
    if without:
        raise pytest.UsageError("these tests name no source (tests/sources.py): " + ", ".join(without))
