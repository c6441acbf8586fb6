"""Draws an invented job into a folder: python3 examples/pictures.py FOLDER

SPDX-License-Identifier: MIT
"""

import pathlib
import sys

import pvsize
from pvsize import pictures

module = dict(name="invented 440 W", pmax=440, voc=39.2, isc=14.2, vmp=32.6, imp=13.5,
              voc_coefficient=-0.25, isc_coefficient=0.045, pmax_coefficient=-0.3)


def entry(name, operating, fault):
    return dict(name=name, max_voltage=600, tracking_min=90, tracking_max=560, start_voltage=120,
                max_operating_current=operating, max_short_circuit_current=fault)


job = pvsize.System(
    name="boat shed (invented)",
    site=dict(building="dwelling", temp_min=-2, temp_max=41,
              planes=[dict(name="jetty side", mounting="raised", capacity=26),
                      dict(name="road side", mounting="raised", capacity=10)]),
    inverters=[dict(name="invented 8 kW", rated_ac_power=8000,
                    inputs=[entry("A", 26, 36), entry("B", 16, 20)])],
    arrays=[dict(name="jetty", input=0, plane=0, modules_per_string=12, strings=2, module=module),
            dict(name="road", input=1, plane=1, modules_per_string=8, strings=1, module=module)])

folder = pathlib.Path(sys.argv[1])
for name, figure in [("voltage", pictures.string_voltage(job)), ("curve", pictures.input_curve(job)),
                     ("wiring", pictures.wiring(job))]:
    figure.savefig(folder / f"{name}.png")
    print(folder / f"{name}.png")
