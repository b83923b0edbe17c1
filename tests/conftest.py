"""Settings for every test: no time limit on single hypothesis examples, since a busy machine is not a failure."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("bench", deadline=None)
settings.load_profile("bench")
