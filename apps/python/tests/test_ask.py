"""Questions by name, dict in and dict out."""

import json
import os
import subprocess
import sys
import unittest
from pathlib import Path

import numpy as np

import axlewright
from axlewright import answers as a

from support import GUIDED, MISMATCHED, TRUCKS


class Asking(unittest.TestCase):
    def test_gives_the_answer_that_the_readme_shows(self) -> None:
        # README.md: raised from bottom to top the steering wheel turns 53.7 deg to the left.
        sweep = axlewright.ask("sweep", {"file": MISMATCHED, "heights": 6})
        self.assertEqual(sweep["truck"], "Plain bars, mismatched")
        top = sweep["rows"][-1]
        self.assertAlmostEqual(top["height_mm"], 235, places=9)
        off_centre = top["values"]["steering_wheel_off_centre_deg"]
        assert off_centre is not None
        self.assertAlmostEqual(off_centre, 53.7, places=1)

    def test_takes_the_keys_of_the_contract(self) -> None:
        height, lean = np.float64(120), np.int64(2)
        pose = axlewright.ask("pose", {"file": str(GUIDED), "height_mm": height, "lean_deg": lean, "units": "inch"})
        self.assertEqual(pose["request"]["height_mm"], 120)
        self.assertEqual(pose["request"]["lean_deg"], 2)
        self.assertEqual(pose["units"], "inch")

    def test_leaves_the_question_as_it_was(self) -> None:
        question = {"file": GUIDED}
        axlewright.ask("pose", {"file": GUIDED})
        axlewright.ask("pose", question)
        self.assertEqual(question, {"file": GUIDED})

    def test_a_question_that_is_no_json_is_refused(self) -> None:
        with self.assertRaisesRegex(TypeError, "a question takes no set"):
            axlewright.ask("compare", {"files": {"a", "b"}})
        with self.assertRaises(ValueError):
            axlewright.ask("pose", {"file": GUIDED, "height_mm": float("nan")})

    def test_the_answer_is_the_same_with_any_number_of_threads(self) -> None:
        question = a.SweepQuestion(file=MISMATCHED, heights=5)
        alone = axlewright.ask("sweep", question, threads=1)
        self.assertEqual(json.dumps(axlewright.ask("sweep", question, threads=3)), json.dumps(alone))
        self.assertEqual(json.dumps(axlewright.ask("sweep", question)), json.dumps(alone))
        for wrong in (0, -1, 257):
            with self.assertRaisesRegex(ValueError, "from 1 to 256"):
                axlewright.ask("sweep", question, threads=wrong)

    def test_the_version_is_that_of_the_project(self) -> None:
        self.assertEqual(axlewright.__version__, os.environ["AXLEWRIGHT_VERSION"])


class Texts(unittest.TestCase):
    """Truck files that are not on the disk."""

    def test_by_path(self) -> None:
        texts = {str(path.relative_to(TRUCKS)): path.read_text() for path in TRUCKS.rglob("*.toml")}
        there = axlewright.ask("pose", {"file": "guided.toml", "height_mm": 100}, texts=texts)
        on_disk = axlewright.ask("pose", {"file": GUIDED, "height_mm": 100})
        self.assertEqual(there["values"], on_disk["values"])

    def test_by_a_function_layer_by_layer(self) -> None:
        asked: list[str] = []

        def text_of(path: str) -> str:
            asked.append(path)
            return (TRUCKS / path).read_text()

        axlewright.ask("pose", {"file": "guided.toml"}, texts=text_of)
        self.assertEqual(asked[0], "guided.toml")
        self.assertIn("dunlin-35.toml", asked)

    def test_one_that_is_not_there_is_a_fault(self) -> None:
        with self.assertRaises(axlewright.Faults) as raised:
            axlewright.ask("pose", {"file": "none.toml"}, texts={})
        self.assertIn("there is no such file", str(raised.exception))

    def test_what_a_function_raises_otherwise_comes_through(self) -> None:
        def breaks(path: str) -> str:
            raise ZeroDivisionError(path)

        with self.assertRaisesRegex(ZeroDivisionError, "some.toml"):
            axlewright.ask("pose", {"file": "some.toml"}, texts=breaks)

    def test_a_function_that_gives_no_text_is_told_so(self) -> None:
        with self.assertRaisesRegex(TypeError, "something else than text"):
            axlewright.ask("pose", {"file": "some.toml"}, texts=lambda path: 7)  # type: ignore[arg-type]


class Memory(unittest.TestCase):
    def test_does_not_grow_with_questions(self) -> None:
        # A leaked answer (some 60 kB of it) each time would be 12 MB; the measure is in kB.
        program = (
            "import resource, sys, axlewright\n"
            "def ask(n):\n"
            "    for _ in range(n): axlewright.ask('pose', {'file': sys.argv[1]})\n"
            "    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss\n"
            "before = ask(20)\n"
            "print(ask(200) - before)\n"
        )
        grown = subprocess.run([sys.executable, "-c", program, str(GUIDED)], capture_output=True, text=True, check=True)
        self.assertLess(int(grown.stdout), 4000)


if __name__ == "__main__":
    unittest.main()
