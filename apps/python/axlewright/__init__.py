"""Axlewright from Python: live front axles with adjustable height, computed.

The engine is the one of the command line; this package hands questions and answers over and computes nothing itself.

    ask(name, question)      any question, dict in and dict out
    columns(sweep)           its rows as NumPy columns over the height
    body_arrays(pose), point_arrays(pose)
    Rig(file).poses(inputs)  many poses at once, arrays in and arrays out
    Faults                   raised with every fault of a file or a question, each with its place

Axes, signs and definitions are those of docs/notation.md, keys those of api/README.md. What is computed is no approval
of a design: steering can kill, and a qualified engineer has to review it.
"""

from ._arrays import BodyArrays, PointArrays, body_arrays, columns, point_arrays
from ._ask import Progress, Texts, ask
from ._engine import version as __version__
from ._faults import Fault, Faults
from ._rig import Poses, Rig

__all__ = [
    "BodyArrays",
    "Fault",
    "Faults",
    "PointArrays",
    "Poses",
    "Progress",
    "Rig",
    "Texts",
    "__version__",
    "ask",
    "body_arrays",
    "columns",
    "point_arrays",
]
