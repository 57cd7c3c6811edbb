"""What holds for all tests."""

from hypothesis import settings

# A busy machine must not fail a test: nothing here is held against the clock.
settings.register_profile("evenline", deadline=None)
settings.load_profile("evenline")
