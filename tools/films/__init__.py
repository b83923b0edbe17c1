"""The moving pictures of hands at work, and what they share with the still ones: a few hands and petals, and paths in few characters.

Imports `calc` and no other room. `moving_films` lists them by name, `moving_markup` writes one into a page, and `moving_short` then shortens all
those of the page.
"""
