"""installed_package.py PREFIX: the installed package is the one imported, whole, and answers about an installed truck."""

import sys
from pathlib import Path

import axlewright

prefix = Path(sys.argv[1]).resolve()
folder = Path(axlewright.__file__).parent
assert prefix in folder.parents, f"imported from {folder}"
# A link into the sources would break when they go away.
files = {path.name for path in folder.iterdir() if not path.is_symlink()}
assert {"__init__.py", "answers.py", "_engine.pyi", "py.typed"} <= files, files
truck = prefix / "share" / "axlewright" / "trucks" / "guided.toml"
assert axlewright.ask("check", {"file": truck})["soundness"] == "sound"
