// Types of libpvsize for Node.
// SPDX-License-Identifier: MIT

/// <reference lib="esnext.disposable" />

export * from "./kinds";
import {
  DiodeModel, Enquiry, Inverter, Module, Outlook, Plane, Search, Series, Site, System,
} from "./kinds";

export type Severity = "off" | "note" | "should" | "must";
export type Verdict = "meets" | "marginal" | "exceeds" | "not_assessed";
export type Outcome = "nothing" | "holds" | "incomplete" | "broken";
export type Compare = "at_most" | "at_least" | "more_than";
export type Detail = "findings" | "short" | "long";
export interface Rendering { markdown?: boolean; }

/** A failure of the library. */
export class PvsizeError extends Error {
  /** Number and name of the status, such as 202 and "out_of_range". */
  readonly status: number;
  readonly code: string;
  /** Parameter concerned, such as "module.voc". */
  readonly term: string | null;
  readonly index: number | null;
  readonly value: number | null;
  readonly range: [number, number] | null;
  /** The message without the place. */
  readonly reason: string;
}

export function version(): string;
/** The line to show with every result. */
export function caution(): string;

/** A row of a table: parameter, figure, quantity or rule. */
export interface Term {
  readonly number: number;
  readonly kind: string;
  readonly name: string;
  readonly unit: string;
  readonly text: string;
  readonly type: string;
  readonly need: string | null;
  readonly range: [number, number] | null;
  readonly default: number | string | null;
  /** Names of its choices, and a line on each. */
  readonly choices: Readonly<Record<string, string>>;
  readonly refersTo: string | null;
  readonly scope: string | null;
  readonly rule: { value: string; compare: Compare; limit: string } | null;
}
export function statuses(): Array<{ status: number; code: string; text: string }>;
export function kinds(): string[];
export function describeKind(kind: string): {
  name: string; plural: string; text: string;
  parts: Array<{ kind: string; plural: string; fewest: number; most: number }>;
};
export function terms(kind: string): Map<string, Term>;

/** Owns an object of the library until it is freed, disposed of or forgotten. */
declare class Handle {
  /** Gives the object back; later use throws. */
  free(): void;
}
interface Handle extends Disposable {}
declare class Sequence<Row> extends Handle implements Iterable<Row> {
  readonly length: number;
  at(i: number): Row | undefined;
  [Symbol.iterator](): IterableIterator<Row>;
  rows(): Row[];
}

/** One thing with parameters and parts; see the kinds. */
export abstract class Spec extends Handle {
  readonly kind: string;
  /** Adds a copy of a part; returns its index. */
  add(part: Spec): number;
  parts(kind: string): Spec[];
  replace(index: number, part: Spec): void;
  remove(kind: string, index: number): void;
  partNumber(index: number, name: string): number;
  setPart(index: number, name: string, value: number): void;
  /** Sets numbers by name, all of them or none. */
  setNumbers(values: Record<string, number>): void;
  state(name: string): "unset" | "set" | "default" | "none";
  copy(): Spec;
  toJSON(): object;
}

export interface OwnRule {
  name: string;
  title: string;
  /** Such as "quantity.system_modules". */
  value: string;
  compare: Compare;
  /** A number, or with limitOf a factor of it. */
  limit: number;
  severity?: Severity;
  source?: string | null;
  limitOf?: string | null;
}
export class Rules extends Handle {
  constructor(preset?: string | null);
  copy(): Rules;
  title: string;
  figure(name: string): number | null;
  setFigure(name: string, value: number | null, source?: string | null): void;
  names(): string[];
  ruleTitle(name: string): string;
  severity(name: string): Severity;
  setSeverity(name: string, severity: Severity): void;
  definition(name: string): { value: string; compare: Compare; limitOf: string | null; limit: number };
  source(name: string): { text: string; known: string };
  add(rule: OwnRule): number;
}
/** Rule sets that come with the library: name and title. */
export function presets(): Record<string, string>;

export interface Finding {
  rule: string;
  severity: Severity;
  verdict: Verdict;
  subject: number;
  where: string;
  value: number | null;
  limit: number | null;
  margin: number | null;
  unit: string;
  governs: boolean;
  missing: string | null;
  title: string;
  source: string;
  sentence: string;
  working: string;
}
export interface Subject { kind: string; index: number; owner: number | null; text: string; }
export interface Assumption { term: string; value: number; text: string; }
/** Leads to a subject: { array: 0 }, { inverter: 0, input: 1 } or { subject: 7 }. */
export interface Where { [kind: string]: number | undefined; }
export interface WorkingOptions {
  markdown?: boolean;
  detail?: "short" | "long";
  [kind: string]: number | boolean | string | undefined;
}
export class Report extends Sequence<Finding> {
  constructor();
  count(of?: { verdict?: Verdict | null; severity?: Severity | null }): number;
  text(i: number, what?: string): string;
  readonly outcome: Outcome;
  broken(severity?: Severity): Finding[];
  subjects(): Subject[];
  find(kind: string, index?: number, inverter?: number): number;
  quantity(name: string, where?: Where): number | null;
  working(name: string, options?: WorkingOptions): string;
  readonly assumptions: Assumption[];
  render(options?: Rendering & { detail?: Detail }): string;
}
export function check(spec: Spec, rules?: Rules, report?: Report): Report;

export interface RuleDifference {
  term: string;
  what: string[];
  first: number | string | null;
  second: number | string | null;
  text: string;
}
export interface FindingDifference {
  rule: string;
  subject: number;
  what: string[];
  first: number | null;
  second: number | null;
  figures: string[];
  text: string;
}
export function compare(first: Rules, second: Rules, wanted?: string | string[]): RuleDifference[];
export function compare(first: Report, second: Report, wanted?: string | string[]): FindingDifference[];

export interface Share { subject: number; where: string; installed: number; why: string | null; }
export interface Purchase {
  item: string;
  quantity: number | null;
  measure: string;
  attributes: Record<string, number | string | null>;
  type: number | null;
  installed: number | null;
  allowance: string | null;
  missing: string | null;
  shares: Share[];
  text: string;
}
export class Bill extends Sequence<Purchase> {
  constructor();
  readonly outcome: Outcome;
  readonly assumptions: Array<Assumption & { subject: number | null }>;
  render(options?: Rendering): string;
}
export function bill(system: System, rules?: Rules): Bill;

export interface Point { voltage: number; current: number; power: number; }
export interface Rows { voltage: Float64Array; current: Float64Array; }
export class Curve extends Handle {
  constructor(spec: Module | DiodeModel);
  model(irradiance?: number, cellTemp?: number): DiodeModel;
  readonly assumptions: Array<{ name: string; value: number; text: string }>;
  check(what: string): number | null;
  mpp(irradiance?: number, cellTemp?: number): Point;
  voc(irradiance?: number, cellTemp?: number): number;
  isc(irradiance?: number, cellTemp?: number): number;
  current(voltage: number, irradiance?: number, cellTemp?: number): number;
  voltage(current: number, irradiance?: number, cellTemp?: number): number;
  sample(n?: number, irradiance?: number, cellTemp?: number): Rows;
  mpps(irradiance: Iterable<number>, cellTemp: Iterable<number>, out?: Rows): Rows;
}
export interface Branch {
  curve: Curve;
  modules: number;
  strings?: number;
  irradiance?: number;
  cellTemp?: number;
}
export class Parallel {
  constructor(branches: Iterable<Branch>, options?: { blocked?: boolean });
  mpp(): Point;
  current(voltage: number): number;
  voltage(current: number): number;
}

export type Column = "global" | "beam" | "diffuse" | "temp" | "wind";
export type Origin = "missing" | "given" | "derived" | "estimated" | "synthetic";
export class Weather extends Handle {
  private constructor();
  static fromSeries(site: Site, columns: Partial<Record<Column, Iterable<number>>>,
    series?: Series | null): Weather;
  static fromMonths(site: Site, year?: number): Weather;
  readonly length: number;
  /** Minutes of an interval. */
  readonly step: number;
  time(row: number): { year: number; day: number; minute: number; julianDay: number };
  value(row: number, column: Column): number | null;
  origin(row: number, column: Column): Origin;
  column(column: Column, gap?: number): Float64Array;
  onPlane(tilt: number, azimuth: number, gap?: number): Float64Array;
  count(column: Column, origin?: Origin): number;
  runs(column: Column, origin?: Origin): Array<{ first: number; rows: number }>;
  readonly closure: { rows: number; mean: number; largest: number; row: number | null };
}
export interface Instant { latitude: number; longitude: number; julianDay: number; }
export function julianDay(year: number, day: number, hour: number): number;
export function sunPosition(at: Instant & { pressure?: number; temp?: number }):
  { azimuth: number; elevation: number };
export function splitGlobal(at: Instant & { global: number }): { beam: number; diffuse: number };
export function planeIrradiance(at: Instant & {
  beam: number; diffuse: number; tilt: number; azimuth: number; albedo?: number;
}): { beam: number; sky: number; ground: number; incidence: number; total: number };

export interface Bound {
  what: string;
  input: number | null;
  strings: number | null;
  rule: number;
  severity: Severity;
  compare: Compare;
  governs: boolean;
  value: number | null;
  limit: number;
  text: string;
}
export interface Stop { rule: number; value: number; limit: number; margin: number; }
export interface Acceptance {
  module: number;
  input: number;
  accepted: "yes" | "incomplete" | "no";
  missing: string | null;
  room: Record<string, number>;
  stops: Record<string, Stop>;
  text: string;
}
export interface Remark {
  name: string;
  severity: Severity;
  input: number | null;
  term: string | null;
  numbers: number[];
  text: string;
}
export class Review extends Handle {
  constructor();
  readonly bounds: Bound[];
  readonly modules: Acceptance[];
  readonly remarks: Remark[];
  render(options?: Rendering): string;
}
export function review(inverter: Inverter, options?: {
  rules?: Rules; site?: Site | null; enquiry?: Enquiry | null; page?: Review;
}): Review;
export function remarkTable(): Record<string, { condition: string; sentence: string }>;

export interface Cause {
  name: string;
  least: number;
  likeliest: number;
  most: number;
  distance: number;
  text: string;
}
export interface Judged {
  reading: number;
  measured: string;
  judged: "fits" | "differs" | "not_judged";
  why: string | null;
  value: number;
  expected: number | null;
  low: number | null;
  high: number | null;
  alike: number | null;
  causes: Cause[];
  text: string;
}
export class Judgement extends Sequence<Judged> {
  constructor();
  count(judged?: "fits" | "differs" | "not_judged" | null): number;
  render(options?: Rendering): string;
}
export function judge(system: System, rules?: Rules, judgement?: Judgement): Judgement;

export interface Mistake { name: string; text: string; value: number | string; }
export interface Question {
  kind: string;
  array: number;
  text: string;
  unit: string;
  choices: Record<string, string>;
  answer: number | string;
  tolerance: number;
  answerText: string;
  working: string;
  mistakes: Mistake[];
}
export class Exercise extends Sequence<Question> {
  constructor(level: string, seed: number, preset?: string | null);
  readonly level: string;
  readonly seed: number;
  readonly system: System;
  readonly rules: Rules;
  sheet(sheet?: "task" | "solution", options?: Rendering): string;
  text(i: number, what?: "question" | "unit" | "answer" | "working", options?: Rendering): string;
  mark(i: number, given: number | string):
    { mark: "right" | "rounded" | "mistaken" | "unknown"; mistakes: string[] };
}

export type Period = "one_year" | "five_years" | "longest";
/** Small-scale certificates of the Australian scheme. */
export namespace certificates {
  function firstYear(): number;
  function lastYear(): number;
  function rating(zone: number): number;
  function years(year: number, period?: Period): number;
  function count(of: { power: number; zone: number; year: number; period?: Period }): number;
  function value(count: number, price: number): number;
  function working(of: { power: number; zone: number; year: number; price: number;
    period?: Period; markdown?: boolean }): string;
}

export class Flag {
  /** Stops the searches that were given this flag. */
  raise(): void;
}
export interface Stringing {
  inverter: number;
  input: number;
  plane: number;
  module: number;
  modulesPerString: number;
  strings: number;
}
export class Layout {
  private constructor();
  readonly power: number;
  readonly energy: number | null;
  readonly modules: number;
  readonly strings: number;
  readonly devices: number;
  readonly outcome: Outcome;
  readonly arrays: readonly Stringing[];
  system(): System;
  report(): Report;
}
export interface Obstacle {
  rule: string | null;
  inverter: number | null;
  input: number | null;
  plane: number | null;
  secondPlane: number | null;
  module: number | null;
  modulesPerString: number | null;
  strings: number | null;
  passes: number | null;
  value: number;
  limit: number;
  margin: number;
  text: string;
}
export class Layouts extends Sequence<Layout> {
  private constructor();
  readonly ending: "proven" | "budget" | "cancelled";
  readonly complete: boolean;
  readonly bound: number | null;
  readonly nodes: number;
  readonly obstacles: Obstacle[];
}
export function search(question: Search, rules?: Rules): Layouts;
/** In the background; later changes of question and rules do not reach it. */
export function searchAsync(question: Search, rules?: Rules, flag?: Flag | null): Promise<Layouts>;
export interface RankedPair {
  module: number;
  inverter: number;
  power: number;
  energy: number | null;
  modules: number;
  strings: number;
}
export class Ranking extends Sequence<RankedPair> {
  constructor(question: Search, options?: { rules?: Rules; most?: number });
  add(module: Module, inverter: Inverter, moduleNumber: number, inverterNumber: number): boolean;
  addAll(modules: Module[], inverters: Inverter[], firstModule?: number,
    firstInverter?: number): number;
  addShard(shard?: number, shards?: number): number;
  merge(other: Ranking): void;
  readonly judged: { judged: number; fitting: number; unproven: number };
}

/** Names of the losses, in the order of the ledger. */
export const LOSSES: readonly string[];
/** Weather made ready for many systems. */
export class Light extends Handle {
  constructor(weather: Weather, outlook?: Outlook | null);
  specificYield(module: Module, plane: Plane): number;
}
/** The ledger of a system, inverter, input or array, in kWh; month is 1 to 12, or 0 for all. */
export class Part {
  private constructor();
  readonly subject: number;
  energy(name: string, month?: number): number;
  readonly output: number;
  readonly reference: number;
  loss(name: string, month?: number): number;
  losses(month?: number): Record<string, number>;
  active(loss: string): number;
  irradiation(month?: number): { onPlane: number; atCells: number };
  readonly rated: number;
  readonly specificYield: number;
  power(gap?: number): Float64Array;
}
export class Year extends Handle {
  constructor(system: System, light: Light, load?: Iterable<number> | null,
    options?: { supplyVoltage?: Iterable<number> | null });
  readonly rows: number;
  readonly step: number;
  readonly lit: number;
  readonly gaps: number;
  readonly system: Part;
  inverter(index?: number): Part;
  input(index?: number): Part;
  array(index?: number): Part;
  readonly assumptions: Array<{ name: string; subject: number | null; value: number; text: string }>;
  render(options?: Rendering): string;
}
