"""Long work can be watched, stopped, and leaves other threads running."""

import signal
import subprocess
import sys
import threading
import unittest

import numpy as np

import axlewright

from support import GUIDED, MISMATCHED


class Stop(Exception):
    pass


class Progress(unittest.TestCase):
    def test_is_told_from_nothing_upwards(self) -> None:
        shares: list[float] = []
        axlewright.ask("sweep", {"file": MISMATCHED, "heights": 5}, progress=shares.append)
        self.assertEqual(shares[0], 0)
        self.assertEqual(shares, sorted(shares))
        self.assertLessEqual(shares[-1], 1)

    def test_what_it_raises_stops_the_work(self) -> None:
        calls = 0

        def stop(share: float) -> None:
            nonlocal calls
            calls += 1
            if share > 0:
                raise Stop(share)

        with self.assertRaises(Stop):
            axlewright.ask("sweep", {"file": MISMATCHED, "heights": 50}, progress=stop)
        self.assertEqual(calls, 2)
        with self.assertRaises(Stop):
            axlewright.Rig(MISMATCHED).poses({"height_mm": np.linspace(0, 235, 1000)}, progress=stop)
        self.assertEqual(calls, 4)


class Interrupting(unittest.TestCase):
    """Ctrl-C is a SIGINT to the process."""

    def interrupt(self, work: str, file: str) -> None:
        # The work says when it has begun, and would take minutes if it were left alone.
        program = (
            "import sys, numpy, axlewright\n"
            "begun = lambda share: share > 0 and print('begun', flush=True)\n"
            f"try:\n    {work}\n"
            "except KeyboardInterrupt:\n    sys.exit(7)\n"
        )
        asked = subprocess.Popen([sys.executable, "-c", program, file], stdout=subprocess.PIPE, text=True)
        assert asked.stdout is not None
        self.assertEqual(asked.stdout.readline(), "begun\n")
        asked.send_signal(signal.SIGINT)
        asked.stdout.close()
        self.assertEqual(asked.wait(timeout=30), 7)

    def test_ends_a_question(self) -> None:
        self.interrupt("axlewright.ask('sweep', {'file': sys.argv[1], 'heights': 1001}, progress=begun)", str(GUIDED))

    def test_ends_many_poses(self) -> None:
        heights = "{'height_mm': numpy.linspace(0, 235, 2_000_000)}"
        self.interrupt(f"axlewright.Rig(sys.argv[1]).poses({heights}, progress=begun)", str(GUIDED))


class OtherThreads(unittest.TestCase):
    def test_run_while_the_engine_works(self) -> None:
        # Python hands its lock on only when it is let go: no thread is made to by the clock here.
        interval = sys.getswitchinterval()
        sys.setswitchinterval(1000)
        go, ran = threading.Event(), list[bool]()

        def other() -> None:
            go.wait()
            ran.append(True)

        thread = threading.Thread(target=other)
        thread.start()
        try:
            go.set()
            sum(range(1_000_000))
            self.assertFalse(ran, "the clock hands the lock on, so this shows nothing")
            for _ in range(1000):  # how often depends on when the machine gets to the other thread
                axlewright.Rig(MISMATCHED)
                if ran:
                    break
            self.assertTrue(ran)
        finally:
            sys.setswitchinterval(interval)
            thread.join()


if __name__ == "__main__":
    unittest.main()
