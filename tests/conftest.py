"""What holds for all tests."""

import pytest
from hypothesis import settings

# A busy machine must not fail a test: nothing here is held against the clock.
settings.register_profile("evenline", deadline=None)
settings.load_profile("evenline")

# Before a test module imports it, so that what it asserts is told as in the tests themselves.
pytest.register_assert_rewrite("teacher_class")
