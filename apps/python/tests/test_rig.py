"""Many poses at once are the poses asked one by one."""

import threading
import unittest

import numpy as np
from numpy.typing import NDArray

import axlewright

from support import GUIDED, MISMATCHED

# Two ways to one pose end within the follower's residual, 1e-11 m; degrees of steer come of it over some 0.1 m.
CLOSED = 1e-6


class PosesOfARig(unittest.TestCase):
    def test_are_what_pose_answers(self) -> None:
        rig = axlewright.Rig(MISMATCHED)
        heights, leans = np.array([0.0, 100.0, 235.0]), np.array([[-3.0], [2.0]])
        poses = rig.poses({"height_mm": heights, "lean_deg": leans})
        self.assertEqual(poses.usable.shape, (2, 3))
        for i, lean in enumerate(leans[:, 0]):
            for j, height in enumerate(heights):
                one = axlewright.ask("pose", {"file": MISMATCHED, "height_mm": height, "lean_deg": lean})
                self.assertEqual(list(poses.values), list(one["values"]))
                for name, value in one["values"].items():
                    expected = np.nan if value is None else value
                    np.testing.assert_allclose(poses.values[name][i, j], expected, rtol=0, atol=CLOSED)
                bodies = axlewright.body_arrays(one)
                self.assertEqual(bodies.names, rig.bodies)
                np.testing.assert_allclose(poses.place_mm[i, j], bodies.place_mm, rtol=0, atol=CLOSED)
                np.testing.assert_allclose(poses.matrix[i, j], bodies.matrix, rtol=0, atol=CLOSED)

    def test_a_single_pose_has_no_axes(self) -> None:
        poses = axlewright.Rig(GUIDED).poses({"height_mm": 100, "held": True})
        self.assertEqual(poses.usable.shape, ())
        self.assertEqual(poses.matrix.shape, (len(axlewright.Rig(GUIDED).bodies), 3, 3))
        one = axlewright.ask("pose", {"file": GUIDED, "height_mm": 100, "held": True})
        mean_steer = one["values"]["mean_steer_deg"]
        assert mean_steer is not None
        self.assertAlmostEqual(float(poses.values["mean_steer_deg"]), mean_steer, delta=CLOSED)
        self.assertEqual(axlewright.Rig(GUIDED).poses({}).usable.shape, ())
        self.assertEqual(axlewright.Rig(GUIDED).poses({"height_mm": []}).usable.shape, (0,))

    def test_a_pose_that_cannot_be_had_is_no_number(self) -> None:
        poses = axlewright.Rig(GUIDED).poses({"height_mm": [100, 2000, 120]})
        self.assertEqual(poses.usable.tolist(), [True, False, True])
        self.assertTrue(poses.message[1])
        self.assertEqual(poses.message[0], "")
        for values in [*poses.values.values(), poses.place_mm, poses.matrix]:
            self.assertTrue(np.isnan(values[1]).all())
        self.assertTrue(np.isfinite(poses.values["toe_deg"][[0, 2]]).all())

    def test_settings_are_made(self) -> None:
        # README.md: with this point 20 mm up the wheel is 22.3 deg off centre at the top.
        rig = axlewright.Rig(MISMATCHED, ["track_bar_axle.z=+20mm"])
        top = rig.poses({"height_mm": rig.height_range_mm[1]})
        self.assertAlmostEqual(float(top.values["steering_wheel_off_centre_deg"]), 22.3, places=1)

    def test_wrong_inputs_are_faults(self) -> None:
        rig = axlewright.Rig(GUIDED)
        with self.assertRaisesRegex(axlewright.Faults, "hieght_mm"):
            rig.poses({"hieght_mm": 1})  # type: ignore[typeddict-item]
        with self.assertRaisesRegex(axlewright.Faults, "both steer"):
            rig.poses({"pitman_deg": [1, 2], "road_wheels_deg": 3})
        with self.assertRaisesRegex(axlewright.Faults, "height_mm"):
            rig.poses({"height_mm": [0, np.nan]})
        with self.assertRaises(ValueError):
            rig.poses({"height_mm": [0, 1, 2], "lean_deg": [0, 1]})
        with self.assertRaisesRegex(axlewright.Faults, "no such file"):
            axlewright.Rig("none.toml")

    def test_two_threads_on_one_rig_do_not_disturb_each_other(self) -> None:
        rig = axlewright.Rig(MISMATCHED)
        up, down = np.linspace(0, 235, 200), np.linspace(235, 0, 200)
        results: dict[str, axlewright.Poses] = {}

        def pose(name: str, heights: NDArray[np.float64]) -> None:
            results[name] = rig.poses({"height_mm": heights})

        threads = [threading.Thread(target=pose, args=way) for way in (("up", up), ("down", down))]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        for name in ("toe_deg", "caster_left_deg", "steering_wheel_deg"):
            back = results["down"].values[name][::-1]
            np.testing.assert_allclose(results["up"].values[name], back, rtol=0, atol=CLOSED)


if __name__ == "__main__":
    unittest.main()
