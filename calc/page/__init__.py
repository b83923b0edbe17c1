"""Answers as HTML: what stands in a page of the handbook, written here for the build and for the worker alike.

It may import `units`, `order` and `calculators`; no room imports it.

Map
---
`html`         elements: the one place where markup is put together, and every word escaped
`answer`       what a calculator's answer looks like
`lines`        the line over each copy of a group in a form
`reply`        what the worker sends to the page: the answer as HTML, its drawings beside it
`versions`     two versions of an order side by side
`bench_view`   the work of an order at the bench, one task at a time
`shelf_card`   what the shelf of orders keeps beside an order
"""
