"""Checks everything: style, types, tests, browsers, and the pinned answers. Imports every other room and `calc`."""
