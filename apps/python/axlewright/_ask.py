"""Questions by name, dict in and dict out."""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Mapping
from typing import Any, Literal, Union, overload

import numpy as np

from . import _engine
from . import answers as a

Texts = Union[Mapping[str, str], Callable[[str], str]]
"""Truck files by path, or a function that gives the text of one and raises LookupError or OSError where it cannot."""

Progress = Callable[[float], object]
"""Called now and then with the share done, 0 to 1."""


# fmt: off
@overload
def ask(name: Literal["check"], question: a.CheckQuestion, *,
        texts: Texts | None = None, progress: Progress | None = None) -> a.CheckAnswer: ...
@overload
def ask(name: Literal["pose"], question: a.PoseQuestion, *,
        texts: Texts | None = None, progress: Progress | None = None) -> a.PoseAnswer: ...
@overload
def ask(name: Literal["sweep"], question: a.SweepQuestion, *, texts: Texts | None = None,
        progress: Progress | None = None, threads: int | None = None) -> a.SweepAnswer: ...
@overload
def ask(name: Literal["compare"], question: a.CompareQuestion, *, texts: Texts | None = None,
        progress: Progress | None = None, threads: int | None = None) -> a.CompareAnswer: ...
@overload
def ask(name: Literal["setup"], question: a.SetupQuestion, *,
        texts: Texts | None = None, progress: Progress | None = None) -> a.SetupAnswer: ...
@overload
def ask(name: Literal["start"], question: a.StartQuestion, *,
        texts: Texts | None = None, progress: Progress | None = None) -> a.StartAnswer: ...
@overload
def ask(name: Literal["edit"], question: a.EditQuestion, *,
        texts: Texts | None = None, progress: Progress | None = None) -> a.EditAnswer: ...
@overload
def ask(name: str, question: Mapping[str, Any], *, texts: Texts | None = None,
        progress: Progress | None = None, threads: int | None = None) -> Any: ...
# fmt: on


def ask(name: str, question: Any, *, texts: Texts | None = None, progress: Progress | None = None,
        threads: int | None = None) -> Any:
    """Ask the engine a question and get its answer.

    ``name`` is what is asked and ``question`` its other keys, both as api/README.md lists them:
    ``ask("sweep", {"file": "trucks/guided.toml"})``. Numbers are mm, deg and N, and say so in their key. ``texts`` are
    truck files that are not on the disk. A sweep or compare is worked on by so many ``threads``, as many as the machine
    can run at once unless it is said; the answer is the same.

    Raises Faults where the question or a file is wrong. Ctrl-C, or an exception that ``progress`` raises, stops the
    work and is raised here. Other threads run meanwhile.
    """
    asked = as_json({**question, "ask": name})
    return json.loads(_engine.ask_text(asked, as_function(texts), progress, threads))


def as_json(question: Mapping[str, Any]) -> str:
    """A question as JSON; paths count as texts, NumPy's numbers and arrays as numbers and lists."""
    return json.dumps(question, default=_plain, allow_nan=False)


def as_function(texts: Texts | None) -> Callable[[str], str] | None:
    return texts.__getitem__ if isinstance(texts, Mapping) else texts


def _plain(value: object) -> object:
    if isinstance(value, os.PathLike):
        return os.fspath(value)
    if isinstance(value, (np.generic, np.ndarray)):
        return value.tolist()
    raise TypeError(f"a question takes no {type(value).__name__}")
