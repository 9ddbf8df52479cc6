"""Sparse linear equations over any field: the pivots are found once, with numbers, and followed again with symbols."""

import heapq
from collections.abc import Sequence
from typing import Any

from msgspec import Struct

Row = dict[int, Any]  # column -> coefficient, no zeros


class Plan(Struct, frozen=True):
    """How a system was taken apart: (row, column) pivots in order, and what was left.

    `free` are columns no equation decides; `clash` the rows that contradict each other (empty: none do).
    """

    pivots: tuple[tuple[int, int], ...]
    free: tuple[int, ...]
    clash: frozenset[int] = frozenset()


def plan(rows: Sequence[Row], right: Sequence[Any], columns: int) -> tuple[Plan, list[Row], list[Any]]:
    """Choose pivots (shortest row first, then the rarest column) and eliminate. The inputs are left as they are."""
    work = [dict(row) for row in rows]
    side = list(right)
    holders: list[set[int]] = [set() for _ in range(columns)]
    for index, row in enumerate(work):
        for column in row:
            holders[column].add(index)
    sources = [{index} for index in range(len(work))]
    heap = [(len(row), index) for index, row in enumerate(work)]
    heapq.heapify(heap)
    done: set[int] = set()
    pivots: list[tuple[int, int]] = []
    clash: set[int] = set()
    while heap:
        size, index = heapq.heappop(heap)
        row = work[index]
        if index in done or size != len(row):
            continue
        done.add(index)
        if not row:
            if side[index] != 0:
                clash |= sources[index]
            continue
        column = min(row, key=lambda c: (len(holders[c]), c))
        pivots.append((index, column))
        for other in tuple(holders[column]):
            if other in done:
                continue
            _take_away(work[other], row, column, side, other, index, holders)
            sources[other] |= sources[index]
            heapq.heappush(heap, (len(work[other]), other))
    taken = {column for _, column in pivots}
    free = tuple(column for column in range(columns) if column not in taken)
    return Plan(tuple(pivots), free, frozenset(clash)), work, side


def _take_away(
    target: Row, row: Row, column: int, side: list[Any], other: int, index: int, holders: list[set[int]] | None
) -> None:
    factor = target[column] / row[column]
    for c, coefficient in row.items():
        change = factor * coefficient
        left = target[c] - change if c in target else -change
        if c == column or not left:
            target.pop(c, None)
            if holders:
                holders[c].discard(other)
        else:
            target[c] = left
            if holders:
                holders[c].add(other)
    side[other] = side[other] - factor * side[index]


def follow(found: Plan, rows: Sequence[Row], right: Sequence[Any]) -> tuple[list[Row], list[Any]]:
    """Eliminate along pivots found before; coefficients that were zero in numbers may be anything here."""
    work = [dict(row) for row in rows]
    side = list(right)
    done: set[int] = set()
    for index, column in found.pivots:
        done.add(index)
        for other, target in enumerate(work):
            if other not in done and column in target:
                _take_away(target, work[index], column, side, other, index, None)
    return work, side


def back(found: Plan, work: Sequence[Row], side: Sequence[Any]) -> dict[int, Any]:
    """The value of every pivot column with the free columns at zero."""
    values: dict[int, Any] = {}
    for index, column in reversed(found.pivots):
        row = work[index]
        total = side[index]
        for c, coefficient in row.items():
            if c != column and c in values:
                total = total - coefficient * values[c]
        values[column] = total / row[column]
    return values


def undecided(found: Plan, work: Sequence[Row]) -> list[dict[int, Any]]:
    """One vector for each free column (that column 1, the other free ones 0): together they span the null space."""
    basis = []
    for free in found.free:
        vector: dict[int, Any] = {free: 1}
        for index, column in reversed(found.pivots):
            row = work[index]
            total = sum((row[c] * vector[c] for c in row if c != column and c in vector), 0 * row[column])
            if total != 0:
                vector[column] = -total / row[column]
        basis.append(vector)
    return basis
