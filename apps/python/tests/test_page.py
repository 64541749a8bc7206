"""What docs/python.md shows is what Python answers."""

import doctest
import os
import unittest

from support import ROOT


class Page(unittest.TestCase):
    def test_every_example_is_true(self) -> None:
        os.chdir(ROOT)
        page = str(ROOT / "docs" / "python.md")
        result = doctest.testfile(page, module_relative=False, optionflags=doctest.ELLIPSIS)
        self.assertGreater(result.attempted, 10)
        self.assertEqual(result.failed, 0)


if __name__ == "__main__":
    unittest.main()
