"""What holds for all tests."""

import os
import shutil
import tempfile

import pytest
from hypothesis import settings

# A busy machine must not fail a test: nothing here is held against the clock.
settings.register_profile("evenline", deadline=None)
settings.load_profile("evenline")

# Before a test module imports it, so that what it asserts is told as in the tests themselves.
pytest.register_assert_rewrite("teacher_class")


def pytest_configure(config: pytest.Config) -> None:
    """Keep what the program keeps between two starts out of the user's own folder."""
    if "EVENLINE_CACHE" not in os.environ:  # workers have it from the process that starts them
        config.stash[_CACHE] = os.environ["EVENLINE_CACHE"] = tempfile.mkdtemp(prefix="evenline-tests-")


def pytest_unconfigure(config: pytest.Config) -> None:
    """Leave nothing behind."""
    made = config.stash.get(_CACHE, "")
    if made:
        shutil.rmtree(made, ignore_errors=True)


_CACHE = pytest.StashKey[str]()
