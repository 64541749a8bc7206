"""Many poses of one truck."""

from __future__ import annotations

import json
import math
import os
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from . import _engine
from ._ask import Progress, Texts, as_function, as_json
from .answers import PoseInputs, Quantity


@dataclass(frozen=True)
class Poses:
    """Many poses, as arrays of the shape that their inputs make together.

    Where a pose cannot be had, ``usable`` is False, ``message`` says why, and every number is NaN.
    """

    usable: NDArray[np.bool_]
    outcome: NDArray[np.str_]
    message: NDArray[np.str_]
    values: dict[str, NDArray[np.float64]]
    """By the name of the quantity, as in the answer to ``pose``: ``values["caster_left_deg"]``."""
    place_mm: NDArray[np.float64]
    """(..., bodies, 3), as BodyArrays has it; bodies in the order of Rig.bodies"""
    matrix: NDArray[np.float64]
    """(..., bodies, 3, 3)"""


class Rig:
    """A truck that is read once and asked for many poses."""

    def __init__(
        self, file: str | os.PathLike[str], settings: Sequence[str] = (), *, texts: Texts | None = None
    ) -> None:
        """Read a truck file, with settings such as ``"pitman_ball.z=+10mm"`` on top. Raises Faults."""
        self._posed = _engine.PosedRig(as_json({"file": file, "set": list(settings)}), as_function(texts))
        self.truck: str = self._posed.truck
        self.bodies: tuple[str, ...] = tuple(self._posed.bodies)
        self.quantities: tuple[Quantity, ...] = tuple(json.loads(self._posed.quantities))
        low, high = self._posed.height_range_mm
        self.height_range_mm: tuple[float, float] = (low, high)

    def poses(self, inputs: PoseInputs, *, progress: Progress | None = None) -> Poses:
        """The poses for all of these inputs, which are numbers or arrays that broadcast together.

        The keys are those of a question to ``pose``: ``{"height_mm": np.linspace(0, 235, 48), "held": True}``.
        Each pose is followed from the one before, so neighbours should be near each other; the last axis runs first.

        Raises Faults where an input is wrong. Ctrl-C, or an exception that ``progress`` raises, stops the work and is
        raised here. Other threads run meanwhile.
        """
        flags = {name: value for name, value in inputs.items() if isinstance(value, bool)}
        numbers: dict[str, Any] = {name: value for name, value in inputs.items() if name not in flags}
        names = list(numbers)
        arrays = np.broadcast_arrays(*(np.asarray(value, dtype=np.float64) for value in numbers.values()))
        shape = arrays[0].shape if arrays else ()
        flat = np.empty((len(names), math.prod(shape)))
        for row, array in zip(flat, arrays):
            row[:] = array.ravel()
        values, place_mm, matrix, outcome, message = self._posed.poses(names, flat, as_json(flags), progress)
        bodies = len(self.bodies)
        return Poses(
            usable=np.array([word == "converged" for word in outcome], dtype=np.bool_).reshape(shape),
            outcome=np.array(outcome, dtype=np.str_).reshape(shape),
            message=np.array(message, dtype=np.str_).reshape(shape),
            values={q["name"]: values[:, k].reshape(shape) for k, q in enumerate(self.quantities)},
            place_mm=place_mm.reshape((*shape, bodies, 3)),
            matrix=matrix.reshape((*shape, bodies, 3, 3)),
        )
