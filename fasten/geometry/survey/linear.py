"""Small symmetric systems of linear equations, solved by Cholesky's method."""

from math import sqrt

Matrix = list[list[float]]


def factored(matrix: Matrix, least: float) -> Matrix | None:
    """The lower triangle L of L L^T; None where a pivot is not above `least`: the system does not fix its unknowns.

    matrix: symmetric matrix [-]
    least: smallest pivot [-]
    Returns: lower triangle [-]
    Source: Cholesky's method; every textbook on linear algebra
    """
    lower: Matrix = []
    for i, line in enumerate(matrix):
        row: list[float] = []
        for j in range(i):
            other = lower[j]
            row.append((line[j] - sum(map(float.__mul__, row, other))) / other[j])
        pivot = line[i] - sum(value * value for value in row)
        if pivot <= least:
            return None
        row.append(sqrt(pivot))
        lower.append(row)
    return lower


def solved(lower: Matrix, right: list[float]) -> list[float]:
    """The unknowns x of L L^T x = right.

    lower: lower triangle [-]
    right: right side [-]
    Returns: unknowns [-]
    Source: forward and back substitution
    """
    count, found = len(lower), list(right)
    for i in range(count):
        row = lower[i]
        found[i] = (found[i] - sum(row[j] * found[j] for j in range(i))) / row[i]
    for i in reversed(range(count)):
        found[i] = (found[i] - sum(lower[j][i] * found[j] for j in range(i + 1, count))) / lower[i][i]
    return found
