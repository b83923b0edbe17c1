"""What builds, measures and checks the handbook; `tools/handbook.py` is the way in.

Rooms, each importing only from those before it: `build`, `runtime`, `films`, `site`, `bench` and `check` (which may use all of them).
"""
