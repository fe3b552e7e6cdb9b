import { atEveryFineness, settledWave, type WaveNetwork } from '../../engine/physics/wave/characteristics.ts';
import { edgePeak } from '../../engine/physics/wave/edgePeak.ts';
import { type LatticeInput, latticePeak_V } from '../../engine/physics/wave/latticePeak.ts';
import { deckOf } from '../reference/deckOf.ts';
import { hasNgspice, simulate } from '../reference/ngspice.ts';
import { inMs, inTurns, type Row, times } from './row.ts';

/** What one run costs, beside the whole process of a circuit simulator on the same deck. */

const PLAIN: LatticeInput = {
  bus_V: 650,
  ramp_s: 125e-9,
  length_m: 60,
  velocity_mPerS: 150e6,
  impedanceLL_ohm: 80,
  motor_ohm: 1500,
  resistance_ohmPerM: 0.0053,
  skin_ohmPerMRootHz: 5e-5,
};
const lead = { from: 0, to: 1, impedance_ohm: 80, delay_s: 400e-9, resistance_ohm: 0 };
const motor = { node: 1, resistance_ohm: 1500 };
const edge: WaveNetwork = {
  lines: [lead],
  shunts: [motor],
  source: [
    [0, 0],
    [125e-9, 650],
  ],
  watch: [1],
  until_s: 4e-6,
};
/** Behind a coil no edge is steep: the step follows its ring, as in a review. */
const reactor: WaveNetwork = { ...edge, inductance_H: 3.02e-3, across_ohm: 5000, until_s: 22e-6, edge_s: 5e-6 };
const filter: WaveNetwork = {
  ...edge,
  inductance_H: 200e-6,
  across_ohm: 300,
  shunts: [motor, { node: 0, resistance_ohm: 20, capacitance_F: 15e-9 }],
  until_s: 20e-6,
  edge_s: 2.5e-6,
};
const terminator: WaveNetwork = { ...edge, shunts: [motor, { node: 1, resistance_ohm: 80, capacitance_F: 100e-9 }] };
const tee: WaveNetwork = {
  ...edge,
  lines: [lead, { ...lead, from: 1, to: 2, delay_s: 150e-9 }, { ...lead, from: 1, to: 3, delay_s: 230e-9 }],
  shunts: [
    { node: 2, resistance_ohm: 1500 },
    { node: 3, resistance_ohm: 2000 },
  ],
  watch: [3],
  until_s: 8e-6,
};

const NETWORKS = { reactor: reactor, 'dV/dt filter': filter, 'R-C terminator': terminator, 'tee of two motors': tee };

const beside = (what: string, ours: number, its: number): Row => ({
  what,
  figure: inMs(ours),
  ...(!hasNgspice
    ? { yardstick: 'ngspice is not on this machine' }
    : { yardstick: `${inMs(its)} for ngspice, whole process`, ratio: times(ours, its) }),
});

/** What gives up early is quick, and says nothing. */
function solved(network: WaveNetwork): void {
  if (!settledWave(atEveryFineness(network))) throw new Error('a network of this bench is not solved');
}

export async function rows(): Promise<readonly Row[]> {
  const found: Row[] = [];
  const spice = (network: WaveNetwork) => () => hasNgspice && simulate(deckOf(network));
  const plain = await inTurns({
    peak: () => latticePeak_V(PLAIN),
    band: () => edgePeak(PLAIN, false),
    spice: spice(edge),
  });
  found.push(
    beside('plain run in closed form, peak', plain.peak, plain.spice),
    beside('plain run in closed form, peak with its band', plain.band, plain.spice),
  );
  for (const [name, network] of Object.entries(NETWORKS)) {
    const lossy = { ...network, lines: network.lines.map((line) => ({ ...line, resistance_ohm: 0.01 * line.impedance_ohm })) };
    const ms = await inTurns({
      clean: () => solved(network),
      lossy: () => solved(lossy),
      spice: spice(network),
    });
    found.push(beside(`${name}, by characteristics`, ms.clean, ms.spice), beside(`${name}, lossy line`, ms.lossy, ms.spice));
  }
  return found;
}
