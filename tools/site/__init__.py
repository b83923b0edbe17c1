"""The pages: the MkDocs hook, the HTML of calculators, figures and tables, the theme, the policy, bundles and the list for offline use.

Imports `build`, `runtime`, `films` and `calc`. `build_site` and `server` run on a bare Python 3.11.
"""
