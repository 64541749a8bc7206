"""Where the tests find the example trucks."""

import os
from pathlib import Path

ROOT = Path(os.environ["AXLEWRIGHT_ROOT"])
TRUCKS = ROOT / "trucks"
MISMATCHED = TRUCKS / "plain-mismatched.toml"
GUIDED = TRUCKS / "guided.toml"

# "axel" is no body.
BROKEN = """format = 1
units = "mm"
name = "Broken"
based_on = ["dunlin-35.toml"]

[points]
track_bar_frame = { on = "frame", at = [-90, 470, 640] }
track_bar_axle = { on = "axel", at = [-90, -430, 540] }
"""
