"""Measures how quickly pages start and answer, beside plain Pyodide; decides no test. Imports `build`, `runtime`, `site` and `calc`."""
