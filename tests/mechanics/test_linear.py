"""The sparse elimination against the dense solver of the algebra library, and what it says of odd systems."""

import random

from flint import fmpq, fmpq_mat

from gantline.mechanics.linear import back, plan, undecided


def test_agrees_with_the_dense_solver() -> None:
    chance = random.Random(7)
    for size in (1, 2, 3, 5, 8, 13):
        rows = [
            {c: fmpq(chance.randint(-9, 9)) for c in range(size) if chance.random() < 0.7 or c == r}
            for r in range(size)
        ]
        rows = [{c: v for c, v in row.items() if v != 0} for row in rows]
        dense = fmpq_mat(size, size, [row.get(c, fmpq(0)) for row in rows for c in range(size)])
        if dense.det() == 0:
            continue
        right = [fmpq(chance.randint(-9, 9)) for _ in range(size)]
        steps, work, side = plan(rows, right, size)
        values = back(steps, work, side)
        expected = dense.solve(fmpq_mat(size, 1, right))
        assert [values[n] for n in range(size)] == [expected[n, 0] for n in range(size)]
        assert steps.free == ()


def test_names_the_rows_that_contradict() -> None:
    rows = [{0: fmpq(1)}, {1: fmpq(2)}, {0: fmpq(3)}]
    steps, _, _ = plan(rows, [fmpq(1), fmpq(1), fmpq(4)], 2)
    assert steps.clash == {0, 2}


def test_spans_what_is_undecided() -> None:
    rows = [{0: fmpq(1), 1: fmpq(1), 2: fmpq(-1)}]
    steps, work, _ = plan(rows, [fmpq(0)], 3)
    basis = undecided(steps, work)
    assert len(basis) == 2
    for vector in basis:
        assert vector.get(0, 0) + vector.get(1, 0) - vector.get(2, 0) == 0


def test_leaves_its_inputs_alone() -> None:
    rows = [{0: fmpq(2), 1: fmpq(1)}, {0: fmpq(1)}]
    plan(rows, [fmpq(3), fmpq(1)], 2)
    assert rows == [{0: fmpq(2), 1: fmpq(1)}, {0: fmpq(1)}]
