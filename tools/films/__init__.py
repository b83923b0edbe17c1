"""The moving pictures of hands at work, and what they share with the still ones: a few hands and petals, and paths in few characters.

Imports `calc` and no other room. `moving_films` has them by name, `moving` writes one into a page, `moving_short` shortens a page that has them all.
"""
