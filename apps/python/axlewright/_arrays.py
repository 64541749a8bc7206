"""Answers as arrays."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from .answers import PoseAnswer, SetupAnswer, TruckSweep


def columns(answer: TruckSweep | SetupAnswer) -> dict[str, NDArray[np.float64]]:
    """The rows of an answer as columns over the height, by name: ``columns(sweep)["toe_deg"]``.

    Every number of a row has its column, ``height_mm`` first. Where a height has no pose, or a pose not that value,
    there is NaN.
    """
    rows = [_numbers(row) for row in answer["rows"]]
    names = dict.fromkeys(name for row in rows for name in row)
    return {name: np.array([row.get(name) for row in rows], dtype=np.float64) for name in names}


def _numbers(row: Mapping[str, Any]) -> dict[str, float | None]:
    flat = {**row, **row.get("values", {})}
    return {name: value for name, value in flat.items() if value is None or isinstance(value, (int, float))}


@dataclass(frozen=True)
class BodyArrays:
    """Where the bodies of a pose are, in frame axes (x forward, y left, z up).

    A point that is at ``p`` as measured is at ``matrix[k] @ p + place_mm[k]`` in the pose, if it rides on body k.
    """

    names: tuple[str, ...]
    place_mm: NDArray[np.float64]
    """(bodies, 3)"""
    matrix: NDArray[np.float64]
    """(bodies, 3, 3): the turn from as measured"""


@dataclass(frozen=True)
class PointArrays:
    """Where the points of the file are in a pose, in frame axes."""

    names: tuple[str, ...]
    on: tuple[str, ...]
    """The body that each rides on."""
    place_mm: NDArray[np.float64]
    """(points, 3)"""


def body_arrays(pose: PoseAnswer) -> BodyArrays:
    """The bodies of a pose. Raises ValueError, with the report's words, where the pose cannot be had."""
    bodies = _had(pose)["bodies"]
    return BodyArrays(
        tuple(body["name"] for body in bodies),
        np.array([body["place_mm"] for body in bodies], dtype=np.float64),
        np.array([body["matrix"] for body in bodies], dtype=np.float64),
    )


def point_arrays(pose: PoseAnswer) -> PointArrays:
    """The points of a pose. Raises ValueError, with the report's words, where the pose cannot be had."""
    points = _had(pose)["points"]
    return PointArrays(
        tuple(point["name"] for point in points),
        tuple(point["on"] for point in points),
        np.array([point["place_mm"] for point in points], dtype=np.float64),
    )


def _had(pose: PoseAnswer) -> PoseAnswer:
    if "values" not in pose:
        raise ValueError(f"there is no such pose: {pose['report']['message']}")
    return pose
