"""Answers as NumPy arrays."""

import unittest

import numpy as np

import axlewright

from support import GUIDED, MISMATCHED


class Columns(unittest.TestCase):
    def test_are_the_rows_turned_over(self) -> None:
        sweep = axlewright.ask("sweep", {"file": MISMATCHED, "heights": 6})
        columns = axlewright.columns(sweep)
        self.assertEqual(next(iter(columns)), "height_mm")
        self.assertEqual(columns["height_mm"].tolist(), [row["height_mm"] for row in sweep["rows"]])
        quantities = {q["name"] for q in sweep["quantities"]}
        self.assertEqual(set(columns) - quantities, {"height_mm", "smallest_singular_value"})
        for k, row in enumerate(sweep["rows"]):
            for name, value in row["values"].items():
                np.testing.assert_equal(columns[name][k], np.nan if value is None else value)

    def test_a_height_without_a_pose_is_nan(self) -> None:
        # This track bar is too short for the way up: from some height on there is no pose, and none is made up.
        sweep = axlewright.ask("sweep", {"file": MISMATCHED, "heights": 6, "set": ["track_bar_frame.y=-810mm"]})
        columns = axlewright.columns(sweep)
        gaps = np.array(["values" not in row for row in sweep["rows"]])
        self.assertTrue(gaps.any(), "the case has no gap to look at")
        self.assertTrue(np.isnan(columns["toe_deg"][gaps]).all())
        self.assertTrue(np.isfinite(columns["toe_deg"][~gaps]).all())

    def test_of_setup(self) -> None:
        columns = axlewright.columns(axlewright.ask("setup", {"file": MISMATCHED, "heights": 4}))
        self.assertEqual(columns["walk_before_mm"].shape, (4,))
        self.assertEqual(columns["walk_before_mm"].dtype, np.float64)


class Poses(unittest.TestCase):
    def test_a_point_is_where_its_body_takes_it(self) -> None:
        # As measured every body's pose is the identity, so a point's place there is p of `matrix @ p + place`.
        measured = axlewright.point_arrays(axlewright.ask("pose", {"file": GUIDED}))
        there = axlewright.ask("pose", {"file": GUIDED, "height_mm": 200, "lean_deg": 3, "steering_wheel_deg": 90})
        bodies, points = axlewright.body_arrays(there), axlewright.point_arrays(there)
        as_measured = axlewright.body_arrays(axlewright.ask("pose", {"file": GUIDED}))
        for k, on in enumerate(points.on):
            b = bodies.names.index(on)
            p = as_measured.matrix[b].T @ (measured.place_mm[k] - as_measured.place_mm[b])
            # 1 nm: what adding a few hundred mm in doubles leaves.
            np.testing.assert_allclose(bodies.matrix[b] @ p + bodies.place_mm[b], points.place_mm[k], rtol=0, atol=1e-6)

    def test_turns_are_rotations(self) -> None:
        bodies = axlewright.body_arrays(axlewright.ask("pose", {"file": GUIDED, "height_mm": 200, "lean_deg": 3}))
        eye = np.broadcast_to(np.eye(3), bodies.matrix.shape)
        np.testing.assert_allclose(bodies.matrix @ bodies.matrix.transpose(0, 2, 1), eye, atol=1e-12)
        np.testing.assert_allclose(np.linalg.det(bodies.matrix), 1, atol=1e-12)

    def test_a_pose_that_cannot_be_had_has_no_arrays(self) -> None:
        pose = axlewright.ask("pose", {"file": GUIDED, "height_mm": 2000})
        self.assertNotIn("values", pose)
        with self.assertRaisesRegex(ValueError, "there is no such pose"):
            axlewright.body_arrays(pose)
        with self.assertRaisesRegex(ValueError, "there is no such pose"):
            axlewright.point_arrays(pose)


if __name__ == "__main__":
    unittest.main()
