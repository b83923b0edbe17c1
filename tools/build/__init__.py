"""Common ground of the tools: folders, console, stamps, the environment with its pinned packages, and the fences of pages.

Imports the standard library only, so that it runs on a bare Python 3.11, and no other room.
"""
