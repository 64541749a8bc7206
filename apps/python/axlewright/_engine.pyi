"""The compiled engine: text and arrays across the border. Use the package around it."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

version: str

def ask_text(
    question: str,
    texts: Callable[[str], str] | None,
    progress: Callable[[float], object] | None,
    threads: int | None,
) -> str: ...

class PosedRig:
    def __init__(self, question: str, texts: Callable[[str], str] | None) -> None: ...
    @property
    def truck(self) -> str: ...
    @property
    def quantities(self) -> str: ...
    @property
    def bodies(self) -> list[str]: ...
    @property
    def height_range_mm(self) -> list[float]: ...
    def poses(
        self,
        names: list[str],
        inputs: NDArray[np.float64],
        flags: str,
        progress: Callable[[float], object] | None,
    ) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64], list[str], list[str]]: ...
