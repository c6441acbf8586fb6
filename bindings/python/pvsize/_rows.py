"""Rows for tables: what data frames and CSV writers take.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import typing


def _flat(row):
    found = {}
    for name, value in row._asdict().items():
        if isinstance(value, dict):
            found.update({f"{name}.{key}": inner for key, inner in value.items()})
        else:
            found[name] = value
    return found


def rows(results: typing.Iterable[typing.Any]) -> list[dict[str, typing.Any]]:
    """Results as dicts, one a row: of a Report, a Bill, a Judgement, a list of Bound, ...
    A dict in a row becomes columns of its own, such as "attributes.power"; a column that
    only some rows have is None in the others. pandas.DataFrame(pvsize.rows(report))."""
    found = [_flat(row) for row in results]
    names = list(dict.fromkeys(name for row in found for name in row))
    return [{name: row.get(name) for name in names} for row in found]
