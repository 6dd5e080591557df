"""Equations of a symmetric matrix, solved by its triangular root; shared with the page's script."""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.formula import procedure


@procedure("Triangular root of a symmetric matrix")
def triangular_root(covariance_matrix: Sequence[Sequence[float]]) -> list[list[float]]:
    """Give the lower triangle whose product with its own turned self is the matrix.

    The matrix is a covariance: no variance of it may be nought.
    """
    triangle: list[list[float]] = []
    for i in range(len(covariance_matrix)):
        row: list[float] = []
        for j in range(i):
            row.append(
                (covariance_matrix[i][j] - sum(row[k] * triangle[j][k] for k in range(j)))
                / triangle[j][j]
            )
        row.append(math.sqrt(covariance_matrix[i][i] - sum(part**2 for part in row)))
        triangle.append(row)
    return triangle


@procedure("Solution of a lower triangle")
def solved_down(triangle: Sequence[Sequence[float]], right_side: Sequence[float]) -> list[float]:
    """Give x where the triangle times x is the right side."""
    x: list[float] = []
    for i in range(len(right_side)):
        x.append((right_side[i] - sum(triangle[i][k] * x[k] for k in range(i))) / triangle[i][i])
    return x


@procedure("Solution of a turned lower triangle")
def solved_up(triangle: Sequence[Sequence[float]], right_side: Sequence[float]) -> list[float]:
    """Give x where the turned triangle times x is the right side."""
    x = [0.0 for _ in right_side]
    for place in range(len(right_side)):
        i = len(right_side) - 1 - place
        x[i] = (
            right_side[i] - sum(triangle[k][i] * x[k] for k in range(i + 1, len(right_side)))
        ) / triangle[i][i]
    return x
