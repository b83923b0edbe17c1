"""What runs in the browser: Pyodide trimmed, calc and its packages as bytecode, the memory snapshot, and what the worker calls.

Imports `build`. `worker_api`, `compile_zip` and `warm` run inside Pyodide and import nothing of `tools`.
"""
