import type { Cable, Element, ElementOf, LineUp } from '../../engine/index.ts';
import { leftOut, secondPeak } from './secondWave.ts';
import {
  AMBIENT_AIR_IEC,
  AMBIENT_GROUND_IEC,
  AMBIENT_US,
  AMPACITY_IEC,
  AMPACITY_US,
  AREA_US,
  CONDUCTOR_IEC,
  GROUPING_GROUND_IEC,
  GROUPING_IEC,
  IMPEDANCE_US,
  LOADED_US,
  MOTOR_CURRENT_US,
  SIZES_IEC,
  SOIL_IEC,
  WALL_IEC,
} from './tables.ts';

/**
 * The same figures once more, as plainly as they can be had: written from the standards and the printed rules, before and without a look at the engine.
 * It shares no table, no constant and no function with it; the shape of the document is all that both know.
 * Complex numbers are pairs [re, im]; voltages inside are per phase. Undefined means: not known.
 */

type C = readonly [number, number];
const add = (a: C, b: C): C => [a[0] + b[0], a[1] + b[1]];
const sub = (a: C, b: C): C => [a[0] - b[0], a[1] - b[1]];
const mul = (a: C, b: C): C => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
const abs = (a: C): number => Math.hypot(a[0], a[1]);
const ROOT3 = Math.sqrt(3);

export interface Said {
  /** Null: not compared. */
  readonly verdict: string | null;
  readonly value?: number | null;
  readonly limit?: number | null;
  /** Upper end, for a value that is known between two. */
  readonly most?: number;
  /** For what only has to agree as well as two methods do. */
  readonly relative?: number;
  /** The engine may be worse, never better: a value is missing, and this is one that it may have. */
  readonly atWorst?: boolean;
}

/** Hottest the conductor may be: NEC Table 310.4(1) by place, IEC 60502-1 by material. */
const CONDUCTOR_C: Readonly<Record<string, { dry: number; wet: number }>> = {
  THHN: { dry: 90, wet: 90 },
  THWN: { dry: 75, wet: 75 },
  'THWN-2': { dry: 90, wet: 90 },
  TW: { dry: 60, wet: 60 },
  THW: { dry: 75, wet: 75 },
  'THW-2': { dry: 90, wet: 90 },
  XHHW: { dry: 90, wet: 75 },
  'XHHW-2': { dry: 90, wet: 90 },
  RHH: { dry: 90, wet: 90 },
  RHW: { dry: 75, wet: 75 },
  'RHW-2': { dry: 90, wet: 90 },
  MTW: { dry: 90, wet: 60 },
  PVC: { dry: 70, wet: 70 },
  XLPE: { dry: 90, wet: 90 },
  EPR: { dry: 90, wet: 90 },
  HEPR: { dry: 90, wet: 90 },
};
const conductorC = (cable: Cable): number | undefined => {
  const type = cable.insulation.type;
  // Without letters what is entered holds, where the place is said.
  if (type === undefined) return cable.installation.moisture && cable.insulation.temperature_C;
  const place = cable.installation.moisture ?? 'wet';
  const table = CONDUCTOR_C[type]?.[place === 'wet' ? 'wet' : 'dry'] ?? 0;
  return Math.min(table, cable.insulation.temperature_C ?? 999);
};

const metric = (size: string): boolean => size.endsWith('mm2');
export const area_mm2 = (size: string): number | undefined => (metric(size) ? Number.parseFloat(size) : AREA_US[size]);

/** Ohm of the whole length at working temperature, sets in parallel; null for a size that the table leaves out, undefined where something is not known. */
export function impedance(cable: Cable, frequency_Hz: number): C | null | undefined {
  if (cable.kind === 'link') return [0, 0];
  const { size, metal, sets = 1 } = cable.conductor;
  const length_m = longest(cable);
  if (size === undefined || metal === undefined || length_m === undefined) return undefined;
  const perM = metric(size) ? metricPerM(cable, size, metal, frequency_Hz) : printedPerM(cable, size, metal, frequency_Hz);
  return perM && [(perM[0] * length_m) / sets, (perM[1] * length_m) / sets];
}

/** NEC Chapter 9 Table 9; reactance in proportion to frequency. */
function printedPerM(cable: Cable, size: string, metal: 'copper' | 'aluminium', frequency_Hz: number): C | null {
  const row = IMPEDANCE_US[size];
  if (!row) return null;
  const pipe = cable.installation.raceway;
  const column = pipe === 'steel-conduit' ? 2 : pipe === 'aluminium-conduit' ? 1 : 0;
  const r = row[(metal === 'copper' ? 2 : 5) + column];
  const x = row[column === 2 ? 1 : 0];
  return r == null || x == null ? null : [r / 304.8, ((x / 304.8) * frequency_Hz) / 60];
}

/** IEC 60228 at 20 °C, to temperature and to alternating current by IEC 60287-1-1 2.1; reactance by IEC 60364-5-52 Annex G at 50 Hz. */
function metricPerM(cable: Cable, size: string, metal: 'copper' | 'aluminium', frequency_Hz: number): C | null | undefined {
  const row = CONDUCTOR_IEC[size];
  // Without a type the hottest that there is; the wall is then the thinnest of all, 0.7 mm.
  const type = cable.insulation.type ?? 'XLPE';
  const known = cable.insulation.type !== undefined;
  const hot = cable.insulation.temperature_C ?? CONDUCTOR_C[type]?.dry ?? 90;
  if (!row) return null;
  const column = metal === 'aluminium' ? 3 : cable.conductor.build === 'solid' ? 0 : cable.conductor.build === 'flexible' ? 2 : 1;
  const [r20, d, wall] = [row[column], row[4], known ? WALL_IEC[size]?.[['PVC', 'XLPE', 'EPR', 'HEPR'].indexOf(type)] : 0.7];
  if (r20 == null || d == null || wall == null) return null;
  const dc = (r20 / 1000) * (1 + (metal === 'copper' ? 0.00393 : 0.00403) * (hot - 20));
  const x4 = (((8 * Math.PI * frequency_Hz) / dc) * 1e-7) ** 2;
  const skin = x4 / (192 + 0.8 * x4);
  const ratio2 = (d / (d + 2 * wall)) ** 2;
  const proximity = skin * ratio2 * (0.312 * ratio2 + 1.18 / (skin + 0.27));
  return [dc * (1 + skin + proximity), (0.08e-3 * frequency_Hz) / 50];
}

/** First row that is not exceeded. */
const notExceeded = (rows: readonly (readonly (number | null)[])[], value: number): readonly (number | null)[] | undefined =>
  rows.find((row) => value <= (row[0] ?? 0));

/** What all sets together may carry; null where the tables give nothing, undefined where something is not known. */
export function ampacity(cable: Cable, basis: 'us' | 'iec', terminal_C: number): number | null | undefined {
  const { size, metal, sets = 1 } = cable.conductor;
  const { ambient_C } = cable.installation;
  const hot = conductorC(cable);
  if (size === undefined || metal === undefined || ambient_C === undefined || hot === undefined) return undefined;
  return basis === 'us'
    ? usAmpacity(cable, size, metal, ambient_C, hot, terminal_C, sets)
    : iecAmpacity(cable, size, metal, ambient_C, hot, sets);
}

function usAmpacity(cable: Cable, size: string, metal: string, ambient_C: number, hot: number, terminal_C: number, sets: number) {
  const { loadedConductors } = cable.installation;
  if (loadedConductors === undefined) return undefined;
  const at = (celsius: number): number => (celsius >= 90 ? 2 : celsius >= 75 ? 1 : 0);
  const row = AMPACITY_US[size];
  const shift = metal === 'copper' ? 0 : 3;
  const table = row?.[shift + at(hot)];
  const factor = notExceeded(AMBIENT_US, Math.ceil(ambient_C))?.[1 + at(hot)];
  if (table == null || factor == null) return null;
  const crowd = (LOADED_US.find(([most]) => loadedConductors <= most)?.[1] ?? 0) / 100;
  const cap = row?.[shift + at(terminal_C)];
  return cap == null ? table * factor * crowd * sets : Math.min(table * factor * crowd, cap) * sets;
}

function iecAmpacity(cable: Cable, size: string, metal: string, ambient_C: number, hot: number, sets: number) {
  const { method, groupedCircuits, soil_KmPerW = 2.5 } = cable.installation;
  if (method === undefined || groupedCircuits === undefined) return undefined;
  if (hot < 70) return null;
  const material = (cable.insulation.type ?? 'PVC') === 'PVC' || hot < 90 ? 'PVC' : 'XLPE';
  const printed = (by: string) => AMPACITY_IEC[`${metal} ${material} ${by}`]?.[SIZES_IEC.indexOf(Number.parseFloat(size))] ?? null;
  // Aluminium, cross-linked: the printed B1 lies above C for some sizes; a conductor in a pipe is never cooler than one on the wall.
  const [own, wall] = [printed(method), printed('C')];
  const table = own !== null && wall !== null && method === 'B1' ? Math.min(own, wall) : own;
  const ground = method === 'D1' || method === 'D2';
  const ambient = notExceeded(ground ? AMBIENT_GROUND_IEC : AMBIENT_AIR_IEC, ambient_C)?.[material === 'PVC' ? 1 : 2];
  const soil = ground ? notExceeded(SOIL_IEC, soil_KmPerW)?.[method === 'D1' ? 1 : 2] : 1;
  const group = notExceeded(method === 'D2' ? GROUPING_GROUND_IEC : GROUPING_IEC, groupedCircuits)?.[1];
  return table === null || ambient == null || soil == null || group == null ? null : table * ambient * soil * group * sets;
}

/** NEC Table 430.250 for a motor of one of its ratings (3 % for rounded kilowatts), else the nameplate; undefined where that hangs on what is not known. */
function motorCurrent(motor: ElementOf<'motor'>, basis: 'us' | 'iec'): number | undefined {
  const { ratedPower_W, ratedVoltage_V, ratedCurrent_A } = motor;
  if (basis === 'iec') return ratedCurrent_A;
  if (ratedPower_W === undefined || ratedVoltage_V === undefined || ratedCurrent_A === undefined) return undefined;
  const hp = ratedPower_W / 745.6998715822702;
  const near = MOTOR_CURRENT_US.filter((row) => Math.abs((row[0] ?? 0) / hp - 1) <= 0.03);
  const row = near.sort((a, b) => Math.abs(hp - (a[0] ?? 0)) - Math.abs(hp - (b[0] ?? 0)))[0];
  const within = (low: number, high: number) => ratedVoltage_V >= low && ratedVoltage_V <= high;
  const column = within(200, 200) ? 1 : within(208, 208) ? 2 : within(220, 240) ? 3 : within(440, 480) ? 4 : within(550, 600) ? 5 : 0;
  // NEC 430.6(A)(1): a motor for low speed or high torque draws more than the table says, and goes by its plate.
  return Math.max((column > 0 ? row?.[column] : undefined) ?? 0, ratedCurrent_A);
}

interface Load {
  readonly id: string;
  readonly rated_A: number;
  readonly rated_V: number;
  readonly powerFactor: number;
  /** A drive takes the same power at any voltage; a motor no more than its rated current above its rated voltage. */
  readonly power: 'same' | 'at most rated current';
}
export interface Flow {
  readonly volts: ReadonlyMap<string, number>;
  readonly amperes: ReadonlyMap<string, number>;
  readonly drops: ReadonlyMap<string, number>;
}

/** The document as a tree: cables in the direction they are drawn. */
export class Tree {
  readonly lineUp: LineUp;
  readonly elements: ReadonlyMap<string, Element>;
  readonly #below = new Map<string, Cable[]>();
  constructor(lineUp: LineUp) {
    this.lineUp = lineUp;
    this.elements = new Map(lineUp.elements.map((each) => [each.id, each]));
    for (const cable of lineUp.cables) {
      const from = cable.from.element ?? '';
      this.#below.set(from, [...(this.#below.get(from) ?? []), cable]);
    }
  }
  below(id: string): readonly Cable[] {
    return this.#below.get(id) ?? [];
  }
  all<K extends Element['kind']>(kind: K): readonly ElementOf<K>[] {
    return this.lineUp.elements.filter((each): each is ElementOf<K> => each.kind === kind);
  }
  /** Parts of one kind fed through this part, up to and with the next drive. */
  fed<K extends Element['kind']>(id: string, kind: K): ElementOf<K>[] {
    return this.below(id).flatMap((cable) => this.behind(cable, kind));
  }
  behind<K extends Element['kind']>(cable: Cable, kind: K): ElementOf<K>[] {
    const far = this.elements.get(cable.to.element ?? '');
    if (!far) return [];
    if (far.kind === kind) return [far as ElementOf<K>];
    return far.kind === 'drive' ? [] : this.fed(far.id, kind);
  }
}

/**
 * Sweeps back and forth over a tree until nothing moves: currents summed up to the root, voltages handed down. Null: the load cannot be carried.
 */
export function sweep(
  tree: Tree,
  root: string,
  line_V: number,
  source: C,
  loads: readonly Load[],
  frequency_Hz: number,
): Flow | null | undefined {
  const byId = new Map(loads.map((load) => [load.id, load]));
  const volts = new Map<string, C>();
  const amperes = new Map<string, C>();
  const start: C = [line_V / ROOT3, 0];
  const drawn = (id: string): C => {
    const load = byId.get(id);
    if (load) {
      const here = volts.get(id) ?? start;
      const lower = load.rated_V / ROOT3 / abs(here);
      const size = load.rated_A * (load.power === 'same' ? lower : Math.max(1, lower));
      const unit: C = [here[0] / abs(here), here[1] / abs(here)];
      return mul(mul(unit, [load.powerFactor, -Math.sqrt(1 - load.powerFactor ** 2)]), [size, 0]);
    }
    let sum: C = [0, 0];
    for (const cable of tree.below(id)) {
      const own = drawn(cable.to.element ?? '');
      amperes.set(cable.id, own);
      sum = add(sum, own);
    }
    return sum;
  };
  const hand = (id: string, here: C): boolean => {
    volts.set(id, here);
    if (byId.has(id)) return true;
    return tree.below(id).every((cable) => {
      const z = impedance(cable, frequency_Hz);
      return z != null && hand(cable.to.element ?? '', sub(here, mul(z, amperes.get(cable.id) ?? [0, 0])));
    });
  };
  let last = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < 500; turn++) {
    const total = drawn(root);
    if (!hand(root, sub(start, mul(source, total)))) return undefined;
    const sum = [...volts.values()].reduce((a, v) => a + v[0] * 3 + v[1], 0);
    if (Math.abs(sum - last) <= 1e-14 * Math.abs(sum)) {
      // Under half of what stands there without load nothing runs: past the nose of the curve. Just above, sweeps creep: that is left out.
      const least = Math.min(...[...volts.values()].map(abs)) / abs(start);
      if (least <= 0.65) return least <= 0.5 ? null : undefined;
      const drops = new Map<string, number>();
      for (const cable of tree.lineUp.cables) {
        const [near, far] = [volts.get(cable.from.element ?? ''), volts.get(cable.to.element ?? '')];
        if (near && far) drops.set(cable.id, ROOT3 * (abs(near) - abs(far)));
      }
      const sizes = (from: ReadonlyMap<string, C>, by: number) => new Map([...from].map(([id, each]) => [id, abs(each) * by]));
      return { volts: sizes(volts, ROOT3), amperes: sizes(amperes, 1), drops };
    }
    last = sum;
  }
  return null;
}

/** Everything that is reckoned twice, by check and tag. */
export function reckon(lineUp: LineUp): ReadonlyMap<string, Said> {
  const tree = new Tree(lineUp);
  const basis = lineUp.project.basis;
  const said = new Map<string, Said>();
  const supply = tree.all('supply')[0];
  if (!supply) return said;
  const mains_Hz = supply.frequency_Hz ?? (basis === 'us' ? 60 : 50);
  const supply_V = supply.voltage_V;

  // The source: size from the fault current, direction from X/R (10 where it is not given).
  const xOverR = supply.xOverR ?? 10;
  // It is then taken as one that sags by nothing: what arrives is the most that can, and may be too little all the same.
  const sourceUnknown = supply.faultCurrent_A === undefined;
  const size = supply_V === undefined || supply.faultCurrent_A === undefined ? 0 : supply_V / ROOT3 / supply.faultCurrent_A;
  const source: C = [size / Math.hypot(1, xOverR), (size * xOverR) / Math.hypot(1, xOverR)];

  const drives = tree.all('drive');
  const inputs = drives.map((drive) => ({
    id: drive.id,
    rated_A: drive.inputCurrent_A ?? Number.NaN,
    rated_V: drive.ratedVoltage_V ?? supply_V ?? Number.NaN,
    powerFactor: drive.inputPowerFactor ?? Number.NaN,
    power: 'same' as const,
  }));
  // A motor straight from the supply, too, takes the same power whatever arrives.
  const besides = tree.fed(supply.id, 'motor');
  inputs.push(
    ...besides.map((motor) => ({
      id: motor.id,
      rated_A: motor.ratedCurrent_A ?? Number.NaN,
      rated_V: motor.ratedVoltage_V ?? Number.NaN,
      powerFactor: motor.powerFactor ?? Number.NaN,
      power: 'same' as const,
    })),
  );
  const known = (load: Load) => [load.rated_A, load.rated_V, load.powerFactor].every(Number.isFinite);
  // Without a power factor each of these may be the true one.
  const guesses = inputs.some((load) => Number.isNaN(load.powerFactor)) ? [0.5, 0.8, 0.95, 1] : [1];
  const flows = guesses.map((guess) => {
    const loads = inputs.map((load) => (Number.isNaN(load.powerFactor) ? { ...load, powerFactor: guess } : load));
    return supply_V !== undefined && loads.every(known) ? sweep(tree, supply.id, supply_V, source, loads, mains_Hz) : undefined;
  });
  const atWorst = flows.length > 1;
  const flow = flows[0];

  for (const cable of reachOf(supply.id)) feeder(cable);
  for (const drive of drives) outputs(drive);
  return said;

  /** The colder marking of both ends, with what is taken for an end without one; a supply has no terminals of its own. */
  function terminal_C(cable: Cable, unmarked: number): number {
    const ends = [cable.from.element, cable.to.element].map((id) => tree.elements.get(id ?? ''));
    return Math.min(
      ...ends.map((part) =>
        part?.kind === 'supply' ? 999 : ((part && 'terminalTemperature_C' in part ? part.terminalTemperature_C : undefined) ?? unmarked),
      ),
    );
  }

  function carries(check: string, cable: Cable, currents: readonly (number | undefined)[], floor: number, good: () => string): void {
    if (cable.kind === 'link') return;
    if (currents.length === 0) return;
    const amperes = currents.filter((each): each is number => each !== undefined);
    const sum = amperes.reduce((a, b) => a + b, 0);
    const needed = Math.max(floor, basis === 'us' ? sum + 0.25 * Math.max(...amperes) : sum);
    const key = `${check} ${cable.tag}`;
    // NEC 110.14(C): a terminal that is not marked may be for 60 °C or for 75 °C.
    const [low, high] = [60, 75].map((unmarked) => ampacity(cable, basis, terminal_C(cable, unmarked)));
    // A method of another place, or of another build of cable, which would carry more than where it lies: nothing passes by it.
    const { method = '', raceway } = cable.installation;
    const odd =
      basis === 'iec' &&
      ((raceway !== 'tray' && ['C', 'D2', 'E', 'F'].includes(method)) ||
        (raceway === 'tray' && method.startsWith('D')) ||
        (cable.construction !== 'singles' && (method === 'B1' || method === 'F')));
    if (amperes.length < currents.length || low == null || high == null) said.set(key, { verdict: 'open' });
    else if (odd && high >= needed) said.set(key, { verdict: 'open' });
    // NEC Table 310.4(1): wet, letters may stand for less than dry, so that a temperature alone does not say it.
    else if (basis === 'us' && cable.insulation.type === undefined && cable.installation.moisture === 'wet' && high >= needed)
      said.set(key, { verdict: 'open' });
    else if (low >= needed) said.set(key, { verdict: good(), value: low, limit: needed });
    else if (high >= needed) said.set(key, { verdict: 'open' });
    else said.set(key, { verdict: 'fail', value: high, limit: needed });
  }

  function feeder(cable: Cable): void {
    if (cable.kind === 'link') return;
    const fed = tree.behind(cable, 'drive');
    const direct = tree.behind(cable, 'motor');
    // An oversized drive drags its feeder up with it: over 1.3 times what its motors take is worth a note.
    const worn = fed.flatMap((drive) => tree.fed(drive.id, 'motor')).reduce((sum, motor) => sum + (motor.ratedCurrent_A ?? 0), 0);
    const oversized = fed.length > 0 && fed.reduce((sum, drive) => sum + (drive.inputCurrent_A ?? 0), 0) > 1.3 * worn;
    carries(
      'feeder-ampacity',
      cable,
      [
        ...fed.map((drive) => drive.inputCurrent_A),
        // NEC 430.24, 430.122(D): beside the rated input of drives what the code reckons for each motor.
        ...direct.map((motor) => motorCurrent(motor, basis)),
      ],
      0,
      () => (oversized ? 'note' : 'pass'),
    );
    const key = `feeder-drop ${cable.tag}`;
    if (flows.includes(null)) {
      if (!atWorst) said.set(key, { verdict: 'fail' });
      return;
    }
    const drops = flows.map((each) => each?.drops.get(cable.id));
    const drop_V = drops.includes(undefined) ? undefined : Math.max(...drops.map((each) => each ?? 0));
    const limit = lineUp.project.limits.feederDrop_pct ?? (basis === 'us' ? 3 : 5);
    if (drop_V === undefined || supply_V === undefined) {
      const lacking =
        impedance(cable, mains_Hz) === undefined ||
        fed.some((drive) => drive.inputCurrent_A === undefined) ||
        direct.some((motor) => motor.ratedCurrent_A === undefined);
      if (lacking) said.set(key, { verdict: 'open' });
      return;
    }
    const value = (100 * drop_V) / supply_V;
    // IEC 60364-5-52 Annex G, NEC 215.2(A)(2): 5 % from the supply on, told at the cable where it is first passed.
    const ahead = aheadOf(cable.from.element, flows);
    const [whole, wholeLimit] = [value + sumOf(ahead), allowed()];
    const told = sumOf(ahead) > wholeLimit || ahead.some((each) => each > limit);
    if (!atWorst && value <= limit && !told && whole > wholeLimit) {
      said.set(key, { verdict: 'note', value: whole, limit: wholeLimit });
      said.set(`amperes ${cable.tag}`, { verdict: null, value: flow?.amperes.get(cable.id) ?? null });
      return;
    }
    const over = lineUp.project.limits.feederDrop_pct === undefined ? 'caution' : 'fail';
    // Where the supply may sag, a drive draws more: at half of its voltage, where none runs any more, twice as much.
    const mayGrow = !atWorst && sourceUnknown && 2 * value > limit;
    said.set(key, { verdict: value > limit ? over : mayGrow ? 'open' : 'pass', value, limit, atWorst });
    if (!atWorst) said.set(`amperes ${cable.tag}`, { verdict: null, value: flow?.amperes.get(cable.id) ?? null });
  }

  /** A limit of the project's own that is larger stands above the 5 %. */
  function allowed(): number {
    return Math.max(5, lineUp.project.limits.feederDrop_pct ?? 0, lineUp.project.limits.leadDrop_pct ?? 0);
  }

  /** Per cent lost in each cable with a length from the supply to this part; with an unknown angle the most of those tried. */
  function aheadOf(id: string | undefined, tried: typeof flows): number[] {
    const cable = lineUp.cables.find((each) => each.to.element === id);
    if (!cable) return [];
    const drop = Math.max(...tried.map((each) => each?.drops.get(cable.id) ?? 0));
    const own = cable.kind === 'link' ? [] : [(100 * drop) / (supply_V ?? Number.NaN)];
    return [...own, ...aheadOf(cable.from.element, tried)];
  }

  function outputs(drive: ElementOf<'drive'>): void {
    const motors = tree.fed(drive.id, 'motor');
    const left = atWorst ? undefined : flow?.volts.get(drive.id);
    const loads = motors.map((motor) => ({
      id: motor.id,
      rated_A: motor.ratedCurrent_A ?? Number.NaN,
      rated_V: motor.ratedVoltage_V ?? Number.NaN,
      powerFactor: motor.powerFactor ?? Number.NaN,
      power: 'at most rated current' as const,
    }));
    const most_Hz = Math.max(...motors.map((motor) => motor.ratedFrequency_Hz ?? (basis === 'us' ? 60 : 50)));
    const out_V = left === undefined ? undefined : (left * (drive.outputRatio_pct ?? 100)) / 100;
    const out = out_V !== undefined && loads.every(known) ? sweep(tree, drive.id, out_V, [0, 0], loads, most_Hz) : undefined;
    for (const cable of reachOf(drive.id)) {
      const behind = tree.behind(cable, 'motor');
      const manual = drive.manual;
      const floor = manual?.protectsOutputConductors === true ? (manual.outputAmpacityLeast_A ?? 0) : 0;
      carries(
        'lead-ampacity',
        cable,
        behind.map((motor) => motorCurrent(motor, basis)),
        basis === 'us' ? floor : 0,
        () => 'pass',
      );
      const wire = cable.conductor.size;
      if (cable.kind === 'cable' && wire !== undefined) {
        const value = area_mm2(wire) ?? null;
        const limit = metric(wire) ? 1.5 : 2.08;
        said.set(`smallest-conductor ${cable.tag}`, { verdict: value === null ? null : value < limit ? 'caution' : 'pass', value, limit });
      }
      const amperes = out?.amperes.get(cable.id);
      if (amperes !== undefined && cable.kind === 'cable') said.set(`amperes ${cable.tag}`, { verdict: null, value: amperes });
    }
    charging(drive, motors);
    for (const motor of motors) {
      waves(drive, motor);
      const key = `lead-drop ${motor.tag}`;
      if (out === null) {
        said.set(key, { verdict: 'fail' });
        continue;
      }
      const at = out?.volts.get(motor.id);
      if (at === undefined || out_V === undefined || motor.ratedVoltage_V === undefined) {
        const path = pathTo(tree, drive.id, motor.id);
        const lacking =
          path.some((cable) => impedance(cable, 60) === undefined) || loads.some((load) => !Number.isFinite(load.rated_A + load.rated_V));
        if (lacking && !flows.includes(null)) said.set(key, { verdict: 'open' });
        continue;
      }
      const drop = (100 * (out_V - at)) / motor.ratedVoltage_V;
      const share = (100 * at) / motor.ratedVoltage_V;
      const own = lineUp.project.limits.leadDrop_pct;
      const limit = own ?? 3;
      const verdict = drop > limit ? (own === undefined ? 'caution' : 'fail') : own === undefined && drop > 2 ? 'note' : 'pass';
      const settled = verdict === 'fail' || !sourceUnknown;
      // NEC 210.19 informational note, IEC 60364-5-52 Annex G: 5 % of the supply's voltage up to the motor, unless a part of it was told already.
      const feeders = aheadOf(drive.id, flows);
      const most = allowed();
      const before = lineUp.project.limits.feederDrop_pct ?? (basis === 'us' ? 3 : 5);
      const whole = sumOf(feeders) + (100 * (out_V - at)) / (supply_V ?? Number.NaN);
      const told = drop > limit || sumOf(feeders) > most || feeders.some((each) => each > before);
      if (share >= 90 && !told && whole > most) {
        said.set(key, { verdict: sourceUnknown ? 'open' : 'note', value: whole, limit: most });
        said.set(`terminal ${motor.tag}`, { verdict: null, value: share });
        continue;
      }
      said.set(
        key,
        share < 90 ? { verdict: 'fail', value: share, limit: 90 } : { verdict: settled ? verdict : 'open', value: drop, limit },
      );
      said.set(`terminal ${motor.tag}`, { verdict: null, value: share });
    }
  }

  function reachOf(id: string): readonly Cable[] {
    return tree.below(id).flatMap((each) => reach(tree, each));
  }

  function waves(drive: ElementOf<'drive'>, motor: ElementOf<'motor'>): void {
    const path = pathTo(tree, drive.id, motor.id);
    const lead = path[0];
    const length = path.reduce((sum, cable) => sum + (cable.kind === 'link' ? 0 : (longest(cable) ?? Number.NaN)), 0);
    if (drive.riseTime_s === undefined || !Number.isFinite(length) || supply_V === undefined || lead === undefined) return;
    const speeds = path.map((cable) => cable.wave?.velocity_mPerS ?? 150e6);
    const velocity_mPerS = speeds[0] ?? 150e6;
    const bus_V = Math.SQRT2 * supply_V * (drive.frontEnd === 'active' ? 1.1 : 1);
    said.set(`bus ${motor.tag}`, { verdict: null, value: bus_V });
    const others = reachOf(drive.id).map((cable) => (cable.kind === 'link' ? 0 : longest(cable)));
    if (new Set(speeds).size === 1 && !others.includes(undefined))
      said.set(`critical-length ${motor.tag}`, { verdict: null, value: length, limit: (1.25 * drive.riseTime_s * velocity_mPerS) / 2 });
    // One line with entered constants and one motor: the closed form.
    const power_W = motor.ratedPower_W;
    const line_ohm = lead.wave?.impedance_ohm;
    const { size, metal, sets } = lead.conductor;
    if (path.length > 1 || line_ohm === undefined || size === undefined || metal !== 'copper' || sets !== 1) return;
    // 7600 / √kW, at most 5000 Ω: a fit to a joint trade working group's figures (from memory).
    const motor_ohm = motor.surgeImpedance_ohm ?? (power_W === undefined ? undefined : Math.min(5000, 7600 / Math.sqrt(power_W / 1000)));
    const wire_mm2 = area_mm2(size);
    if (motor_ohm === undefined || wire_mm2 === undefined || motor_ohm < line_ohm) return;
    // On a line far shorter than its edge nothing happens but the edge.
    if (length < 0.1 * 1.25 * drive.riseTime_s * velocity_mPerS) return;
    const line = {
      bus_V,
      rise_s: drive.riseTime_s,
      length_m: length,
      velocity_mPerS,
      line_ohm,
      motor_ohm,
      // 17.241 nΩ m (IEC 60287-1-1 Table 1); a stranded conductor is some 13 % wider than a bar of its metal.
      resistance_ohmPerM: 17.241e-3 / wire_mm2,
      diameter_m: 1.13 * Math.sqrt((4 * wire_mm2) / Math.PI) * 1e-3,
    };
    // Between the lossy line and one without loss, which is the safe side: the engine takes off only what the first front loses.
    const [value, most] = [line, { ...line, resistance_ohmPerM: 0, diameter_m: 1e9 }].map((each) => Math.max(bus_V, secondPeak(each)));
    // A line that loses much also stops being one of constant impedance, which the plain sum of waves leaves out: at 4 % lost it is off by 2 %.
    if ((value ?? 0) < 0.97 * (most ?? 0)) return;
    const least = Math.max(bus_V, (value ?? 0) * (1 - leftOut(line)));
    said.set(`peak ${motor.tag}`, { verdict: null, value: least, most: most ?? 0, relative: 0.02 });
  }

  function charging(drive: ElementOf<'drive'>, motors: readonly ElementOf<'motor'>[]): void {
    const leads = tree.below(drive.id);
    const lead = leads[0];
    const { impedance_ohm, velocity_mPerS, toShield_FPerM } = lead?.wave ?? {};
    const { carrier_Hz, outputCurrent_A, riseTime_s } = drive;
    const motor_A = motors.reduce((sum, motor) => sum + (motor.ratedCurrent_A ?? Number.NaN), 0);
    const length = lead && longest(lead);
    if (motors.length !== 1 || leads.length !== 1 || lead?.conductor.sets !== 1 || length === undefined) return;
    if (impedance_ohm === undefined || velocity_mPerS === undefined || toShield_FPerM === undefined) return;
    if (carrier_Hz === undefined || outputCurrent_A === undefined || riseTime_s === undefined || supply_V === undefined) return;
    const key = `charging-current ${drive.tag}`;
    if (Number.isNaN(motor_A)) {
      said.set(key, { verdict: 'open' });
      return;
    }
    // First launch into both modes of the line, rising with the length up to the critical one; 0.85 of the ring left each turn.
    const bus_V = Math.SQRT2 * supply_V * (drive.frontEnd === 'active' ? 1.1 : 1);
    const common_ohm = 1 / (velocity_mPerS * toShield_FPerM);
    const share = Math.min(1, length / ((1.25 * riseTime_s * velocity_mPerS) / 2));
    const peak_A = ((2 / 3) * (bus_V / (impedance_ohm / 2)) + (1 / 3) * (bus_V / common_ohm)) * share;
    const rms_A = peak_A * Math.sqrt((4 * (length / velocity_mPerS) * carrier_Hz) / (1 - 0.85 ** 2));
    const of = (times: number) => (100 * Math.hypot(motor_A, times * rms_A)) / outputCurrent_A;
    const over = of(1) > 100 || peak_A > 2 * outputCurrent_A;
    // A note where the charging, not the motor, takes it over 90 %, and where its 40 % decide.
    const noted = (of(1) > 90 && of(0) <= 90) || of(1.4) > 100;
    said.set(key, { verdict: over ? 'caution' : noted ? 'note' : 'pass', value: of(1), limit: 100 });
  }
}

const sumOf = (list: readonly number[]): number => list.reduce((sum, each) => sum + each, 0);
const longest = (cable: Cable): number | undefined => cable.lengthMost_m ?? cable.length_m;

/** A cable and all behind it, up to the next drive. */
function reach(tree: Tree, cable: Cable): Cable[] {
  const far = tree.elements.get(cable.to.element ?? '');
  return far === undefined || far.kind === 'drive' ? [cable] : [cable, ...tree.below(far.id).flatMap((each) => reach(tree, each))];
}

function pathTo(tree: Tree, from: string, to: string): Cable[] {
  for (const cable of tree.below(from)) {
    if (cable.to.element === to) return [cable];
    const rest = pathTo(tree, cable.to.element ?? '', to);
    if (rest.length > 0) return [cable, ...rest];
  }
  return [];
}
