# SPDX-License-Identifier: MIT
"""What a sound string reads, computed apart from the library: IEC 60891 procedure 2
(edition of 2009, from memory) from STC without its series-resistance terms, with the
logarithm of Python, and the worst a set of uncertainties can do by trying all corners."""
from itertools import product
from math import log


def voc(module, modules, irradiance, cell, rise):
    """Open-circuit voltage of a string: V2 = V1 + Voc1 (beta dT + a ln(G2 / G1))."""
    beta = module["voc_coefficient"] / 100
    return modules * module["voc"] * (1 + beta * (cell - 25) + rise * log(irradiance / 1000))


def vmp(module, modules, irradiance, cell, rise):
    """Its maximum-power voltage, by the coefficient of its own."""
    beta = (module["pmax_coefficient"] - module["isc_coefficient"]) / 100
    return modules * (module["vmp"] * (1 + beta * (cell - 25))
                      + module["voc"] * rise * log(irradiance / 1000))


def current(module, name, strings, irradiance, cell):
    """Isc or Imp: I2 = I1 (1 + alpha dT) G2 / G1."""
    alpha = module["isc_coefficient"] / 100
    return strings * module[name] * (1 + alpha * (cell - 25)) * irradiance / 1000


def corners(figures):
    """Every way the uncertainties can be at their worst together: factors of the meter,
    of the module, on the irradiance, and kelvin."""
    ends = ([1 - figures["test_meter"] / 100, 1 + figures["test_meter"] / 100],
            [1 - figures["test_module"] / 100, 1 + figures["test_module"] / 100],
            [1 - figures["test_sensor"] / 100, 1 + figures["test_sensor"] / 100],
            [-figures["test_temperature"], figures["test_temperature"]])
    return list(product(*ends))
