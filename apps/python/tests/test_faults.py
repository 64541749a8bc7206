"""Faults as an exception that has each one's place."""

import pickle
import unittest

import axlewright

from support import BROKEN, GUIDED, TRUCKS


def faults_of(name: str, text: str) -> axlewright.Faults:
    texts = {str(path.relative_to(TRUCKS)): path.read_text() for path in TRUCKS.rglob("*.toml")} | {name: text}
    try:
        axlewright.ask("check", {"file": name}, texts=texts)
    except axlewright.Faults as faults:
        return faults
    raise AssertionError("no fault was found")


class FaultsRaised(unittest.TestCase):
    def test_have_file_line_column_and_what_to_write_instead(self) -> None:
        fault = next(f for f in faults_of("mine.toml", BROKEN).faults if "axel" in f.what)
        self.assertEqual((fault.severity, fault.file, fault.line), ("error", "mine.toml", 8))
        line = BROKEN.splitlines()[7]
        self.assertEqual(fault.source_line, line)
        self.assertEqual(line[fault.column - 1 :][: fault.length].strip('"'), "axel")
        self.assertIn("axle", fault.fix)

    def test_print_as_the_command_line_does(self) -> None:
        printed = str(faults_of("mine.toml", BROKEN))
        self.assertIn("mine.toml:8:", printed)
        self.assertIn("^^^^", printed)
        self.assertIn("fix: ", printed)

    def test_come_all_at_once(self) -> None:
        both = BROKEN.replace('"frame"', '"farme"')
        lines = {fault.line for fault in faults_of("mine.toml", both).faults}
        self.assertLessEqual({7, 8}, lines)

    def test_of_a_question_have_no_place(self) -> None:
        with self.assertRaises(axlewright.Faults) as raised:
            axlewright.ask("pose", {"file": GUIDED, "hieght_mm": 100})
        fault = raised.exception.faults[0]
        self.assertEqual((fault.line, fault.column), (0, 0))
        self.assertIn("hieght_mm", fault.what)
        self.assertIn("height_mm", fault.fix)

    def test_are_values_that_travel_between_processes(self) -> None:
        faults = faults_of("mine.toml", BROKEN)
        again = pickle.loads(pickle.dumps(faults))
        self.assertEqual(again.faults, faults.faults)

    def test_are_value_errors(self) -> None:
        with self.assertRaises(ValueError):
            axlewright.ask("nothing", {})


if __name__ == "__main__":
    unittest.main()
