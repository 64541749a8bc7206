"""Answers have the keys that answers.py declares, and the kinds of values."""

import re
import types
import typing
import unittest
from typing import Any

import axlewright
from axlewright import answers

from support import GUIDED, MISMATCHED, ROOT, TRUCKS


def misfits(value: Any, declared: Any, where: str) -> list[str]:
    """Where a value is not what is declared."""
    origin = typing.get_origin(declared)
    if typing.is_typeddict(declared):
        return misfits_of_dict(value, declared, where)
    if origin is list:
        (inner,) = typing.get_args(declared)
        if not isinstance(value, list):
            return [f"{where} is no list"]
        return [m for k, item in enumerate(value) for m in misfits(item, inner, f"{where}[{k}]")]
    if origin is dict:
        (_, inner) = typing.get_args(declared)
        return [m for key, item in value.items() for m in misfits(item, inner, f"{where}.{key}")]
    if origin in (typing.Union, types.UnionType):
        tried = [misfits(value, each, where) for each in typing.get_args(declared)]
        return [] if [] in tried else tried[0]
    if origin is typing.Literal:
        return [] if value in typing.get_args(declared) else [f"{where} is {value!r}"]
    kinds = (int, float) if declared is float else (declared,)
    right = isinstance(value, kinds) and (declared is bool or not isinstance(value, bool))
    return [] if right else [f"{where} is {value!r}, not {declared}"]


def misfits_of_dict(value: Any, declared: Any, where: str) -> list[str]:
    if not isinstance(value, dict):
        return [f"{where} is no dict"]
    hints = typing.get_type_hints(declared)
    found = [f"{where}.{key} is not declared" for key in value if key not in hints]
    found += [f"{where}.{key} is missing" for key in declared.__required_keys__ if key not in value]
    declared_items = [(key, item) for key, item in value.items() if key in hints]
    return found + [m for key, item in declared_items for m in misfits(item, hints[key], f"{where}.{key}")]


class Answers(unittest.TestCase):
    maxDiff = None

    def fits(self, answer: Any, declared: Any) -> None:
        self.assertEqual(misfits(answer, declared, answer["ask"]), [])

    def test_check(self) -> None:
        # Those that stand for themselves, and the platforms, which are loose.
        for truck in TRUCKS.glob("*.toml"):
            self.fits(axlewright.ask("check", {"file": truck, "expand": True}), answers.CheckAnswer)

    def test_pose(self) -> None:
        self.fits(axlewright.ask("pose", {"file": GUIDED}), answers.PoseAnswer)
        self.fits(axlewright.ask("pose", {"file": GUIDED, "height_mm": 5000, "pitman_deg": 3}), answers.PoseAnswer)

    def test_sweep(self) -> None:
        for truck in ("guided", "half-converted", "leaf", "two-axle"):  # half-converted has refusals
            self.fits(axlewright.ask("sweep", {"file": TRUCKS / f"{truck}.toml", "heights": 5}), answers.SweepAnswer)

    def test_with_a_kit(self) -> None:
        question: answers.PoseQuestion = {"file": TRUCKS / "guided-loose.toml", "with": [TRUCKS / "kits" / "keeper.toml"]}
        answer = axlewright.ask("pose", question)
        self.assertEqual(len(answer["kits"]), 1)
        self.fits(answer, answers.PoseAnswer)

    def test_compare(self) -> None:
        self.fits(axlewright.ask("compare", {"files": [MISMATCHED, GUIDED], "heights": 3}), answers.CompareAnswer)
        kit, platforms = TRUCKS / "kits" / "guided-kit.toml", [TRUCKS / "dunlin-28.toml", TRUCKS / "dunlin-45.toml"]
        self.fits(axlewright.ask("compare", {"files": platforms, "with": [kit], "heights": 3}), answers.CompareAnswer)

    def test_setup(self) -> None:
        self.fits(axlewright.ask("setup", {"file": MISMATCHED, "height_mm": 100}), answers.SetupAnswer)

    def test_start(self) -> None:
        self.fits(axlewright.ask("start", {"layout": "guided"}), answers.StartAnswer)

    def test_edit(self) -> None:
        self.fits(axlewright.ask("edit", {"file": MISMATCHED, "set": ["track_bar_axle.z=+20mm"]}), answers.EditAnswer)

    def test_faults(self) -> None:
        declared = typing.get_type_hints(answers.FaultDict)
        self.assertEqual(set(declared) | {"text"}, set(axlewright.Fault.__dataclass_fields__))


QUESTIONS = {
    "check": answers.CheckQuestion,
    "pose": answers.PoseQuestion,
    "sweep": answers.SweepQuestion,
    "compare": answers.CompareQuestion,
    "setup": answers.SetupQuestion,
    "start": answers.StartQuestion,
    "edit": answers.EditQuestion,
}


class Questions(unittest.TestCase):
    def test_have_the_keys_that_the_contract_lists(self) -> None:
        contract = (ROOT / "api" / "README.md").read_text()
        shared, inputs = {"set", "units", "with"}, set(typing.get_type_hints(answers.PoseInputs))
        for name, declared in QUESTIONS.items():
            row = re.search(rf'^\| `"{name}"` \| (.*) \|$', contract, re.MULTILINE)
            assert row, f"api/README.md has no question {name}"
            told = set(re.findall(r"`([a-z_]+)`", row[1])) | (inputs if "inputs of the pose" in row[1] else set())
            self.assertEqual(set(typing.get_type_hints(declared)) - shared, told - shared, name)

    def test_the_inputs_of_a_pose_are_those_of_many(self) -> None:
        one, many = set(typing.get_type_hints(answers.PoseQuestion)), set(typing.get_type_hints(answers.PoseInputs))
        self.assertEqual(one - many, {"file", "set", "units", "with"})
        self.assertEqual(many - one, set())

    def test_every_declared_key_is_one_the_engine_takes(self) -> None:
        # A key that is not known is a fault that says so, whatever its value.
        for name, declared in QUESTIONS.items():
            for key in typing.get_type_hints(declared):
                try:
                    axlewright.ask(name, {key: None})
                except axlewright.Faults as faults:
                    self.assertNotIn("has no key", str(faults), f"{name}.{key}")

    def test_a_key_that_is_not_declared_is_none(self) -> None:
        with self.assertRaisesRegex(axlewright.Faults, "has no key `colour`"):
            axlewright.ask("pose", {"file": GUIDED, "colour": "red"})


if __name__ == "__main__":
    unittest.main()
