"""Plane geometry that knows nothing about cakes. It imports no other room.

Map
---
`segments`   straight lines and circular arcs, which outlines are made of; the perimeter of an ellipse
`profile`    an outline as curves x(y): chords, areas of strips, the spans a whole strip covers
`polygons`   area, clipping by a line, cutting by vertical lines
`sweep`      a vertical line swept across a polygon: area on its left, where the polygon is narrow
`stretches`  a polygon in short runs of points, for fast cutting by two horizontal lines

x runs to the right and y upwards; angles are anticlockwise from x, in radians; polygons are anticlockwise and not closed.
"""
