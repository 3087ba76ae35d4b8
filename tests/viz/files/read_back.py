"""What the read-back tests share: finding the files, and refusing to pass without a reader."""
import importlib
import math
import os
import sys
import unittest


def need(module, package):
    """The module, or a failed run that says what to install."""
    try:
        return importlib.import_module(module)
    except ImportError as fault:
        sys.exit(f"FAILED: Python module {module} is missing ({fault}): install {package}")


def path(*parts):
    return os.path.join(os.environ["TUBEWRIGHT_FILES"], *parts)


def reported(directory):
    """{(case, member): (worst von Mises in MPa, yield utilisation)} as the results state it."""
    table = {}
    with open(path(directory, "reported.txt")) as lines:
        for line in lines:
            case, member, stress, utilisation = line.split()
            table[case, member] = float(stress), float(utilisation)
    return table


class Cantilever:
    """25 x 25 x 2 mm square tube with sharp corners, 1 m, fixed at one end. mm, N, MPa."""

    L, side, wall = 1000.0, 25.0, 2.0
    E, G, yield_strength, yield_factor = 210000.0, 80770.0, 235.0, 1.5
    inner = side - 2 * wall
    A = side**2 - inner**2
    I = (side**4 - inner**4) / 12
    W = I / (side / 2)
    nu = E / (2 * G) - 1
    # Shear coefficient of a thin-walled square tube: G. R. Cowper, The Shear Coefficient in
    # Timoshenko's Beam Theory, J. Appl. Mech. 33 (1966), table 1. MEMORY.
    kappa = 20 * (1 + nu) / (48 + 39 * nu)

    @classmethod
    def tip_deflection(cls, P):
        return P * cls.L**3 / (3 * cls.E * cls.I) + P * cls.L / (cls.kappa * cls.G * cls.A)

    @classmethod
    def root_stress(cls, P):
        return P * cls.L / cls.W


class ReadBack(unittest.TestCase):
    def assertRelative(self, value, expected, tolerance=1e-9):
        self.assertTrue(
            math.isclose(value, expected, rel_tol=tolerance), f"{value!r} is not {expected!r}"
        )


def main():
    unittest.main(verbosity=2)
