"""What was wrong with a file or a question, each complaint with its place."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Fault:
    """One complaint, told so that it can be mended.

    ``line`` and ``column`` count from 1 and are 0 where the complaint has no place in a text; ``length`` is how many
    characters are meant. ``what`` is what is wrong, ``fix`` what to write instead, ``text`` all of it as the command
    line prints it, with the line of the file and a caret below.
    """

    severity: Literal["error", "warning"]
    file: str
    line: int
    column: int
    length: int
    what: str
    fix: str
    source_line: str
    text: str


class Faults(ValueError):
    """What was asked cannot be answered: ``faults`` has every reason found."""

    faults: tuple[Fault, ...]

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__(self.faults)

    def __str__(self) -> str:
        return "\n".join(fault.text.rstrip("\n") for fault in self.faults)
