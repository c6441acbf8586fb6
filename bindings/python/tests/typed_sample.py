"""Read by a type checker in test_package.py, never run: what a typed program may write.
A line marked "wrong" must be refused. SPDX-License-Identifier: MIT"""
from __future__ import annotations

import pvsize

module = pvsize.Module(pmax=430, voc=38.8, cell="crystalline_silicon")
job = pvsize.System(
    site=dict(temp_min=-3, building="dwelling", planes=[dict(name="north")]),
    inverters=[pvsize.Inverter(rated_ac_power=9000, max_pv_power="none")],
    arrays=[pvsize.Array(input=0, plane=0, modules_per_string=12, module=module)])
report: pvsize.Report = pvsize.check(job)
for finding in report:
    margin: float | None = finding.margin
with pvsize.Curve(module) as curve:
    power: float = curve.mpp(800, 40).power
voc: float | None = module.voc
length: int | None = job.arrays[0].modules_per_string
cell: str = module.cell
again: pvsize.Module = module.copy()
module.voc = None
term: str = pvsize.compare(pvsize.Rules(), pvsize.Rules(None))[0].term
figures: tuple[str, ...] = pvsize.compare(report, report)[0].figures
best: float = pvsize.search(pvsize.Search(system=job, modules=[module]))[0].power

pvsize.Module(volts=3)  # wrong
module.cell = "mud"  # wrong
module.voc = "none"  # wrong
pvsize.check(3)  # wrong
pvsize.System(site=[{}])  # wrong
pvsize.System(inverters={})  # wrong
report.quantity(3)  # wrong
pvsize.nothing  # wrong
