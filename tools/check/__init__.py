"""Checks everything: style, types, tests, browsers, and the pinned answers. Imports `build`, `site` and `calc`."""
