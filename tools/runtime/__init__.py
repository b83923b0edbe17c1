"""What runs in the browser: Pyodide trimmed, calc and its packages as bytecode, the memory snapshot, and what the worker calls.

Imports `build` and `calc`. `worker_api`, `compile_zip`, `warm` and `later` run inside Pyodide and import nothing of `tools`.
"""
