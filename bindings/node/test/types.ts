// Compiled by test/types.test.js, never run: what a typed program may write.
// SPDX-License-Identifier: MIT
import * as pvsize from "..";

using module = new pvsize.Module({ pmax: 430, voc: 38.8, cell: "crystalline_silicon" });
const job = new pvsize.System({
  site: { temp_min: -3, building: "dwelling", planes: [{ name: "north" }] },
  inverters: [{ rated_ac_power: 9000, max_pv_power: "none", inputs: [{ max_voltage: 600 }] }],
  arrays: [{ input: 0, plane: 0, modules_per_string: 12, modules: [module] }],
});
const report: pvsize.Report = pvsize.check(job);
for (const finding of report) {
  const margin: number | null = finding.margin;
  console.log(finding.verdict === "exceeds", margin);
}
const voc: number | null = module.voc;
const length: number | null = job.arrays[0].modules_per_string;
module.voc = null;
const best: number = pvsize.search(new pvsize.Search({ system: job, modules: [module] })).at(0)!.power;
console.log(voc, length, best, pvsize.compare(new pvsize.Rules(), new pvsize.Rules(null))[0].term);
// @ts-expect-error: no such parameter
module.volts = 3;
// @ts-expect-error: no such choice
module.cell = "mud";
// @ts-expect-error: a required number has no "none"
module.voc = "none";
// @ts-expect-error: a list is needed
new pvsize.System({ inverters: {} });
// @ts-expect-error: one site
new pvsize.System({ site: [{}] });
// @ts-expect-error: a module is no system
pvsize.bill(module);
