import fc from 'fast-check';
import { type Cable, type Finding, type LineUp, review } from '../../engine/index.ts';
import { LineUpBuilder } from '../engine/lineUpBuilder.ts';

/** One run whose every value is drawn at random, for laws of the whole review. */

export const RUNS = { numRuns: 10_000, seed: 20261125 };
export const real = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

interface Drawn {
  readonly size: string;
  readonly metal: 'copper' | 'aluminium';
  readonly sets: number;
  readonly length_m: number;
  readonly type: 'THHN' | 'XHHW-2' | 'RHW-2' | 'THWN-2';
  readonly moisture: 'dry' | 'damp' | 'wet';
  readonly ambient_C: number;
  readonly amperes: number;
  readonly rise_s: number;
  readonly basis: 'us' | 'iec';
}
export const drawn: fc.Arbitrary<Drawn> = fc.record({
  size: fc.constantFrom('8 AWG', '2 AWG', '1/0 AWG', '500 kcmil', '16 mm2', '95 mm2'),
  metal: fc.constantFrom('copper' as const, 'aluminium' as const),
  sets: fc.integer({ min: 1, max: 3 }),
  length_m: real(1, 200),
  type: fc.constantFrom('THHN' as const, 'XHHW-2' as const, 'RHW-2' as const, 'THWN-2' as const),
  moisture: fc.constantFrom('dry' as const, 'damp' as const, 'wet' as const),
  ambient_C: real(0, 50),
  amperes: real(5, 60),
  rise_s: real(0.05e-6, 0.5e-6),
  basis: fc.constantFrom('us' as const, 'iec' as const),
});

const cableOf = (each: Drawn): Omit<Cable, 'id' | 'tag' | 'kind' | 'from' | 'to'> => ({
  conductor: { size: each.size, metal: each.metal, sets: each.sets },
  insulation: { type: each.type, concentricity_pct: 90 },
  construction: 'singles',
  grounds: { count: 1, size: each.size, metal: 'copper' },
  auxiliary: [],
  length_m: each.length_m,
  installation: {
    raceway: 'steel-conduit',
    ambient_C: each.ambient_C,
    loadedConductors: 3,
    groupedCircuits: 1,
    method: 'B1',
    moisture: each.moisture,
  },
});

/** Supply, drive, motor; feeder and lead of the same make. */
export function run(each: Drawn): LineUp {
  const marks = { box: 'metal', terminalTemperature_C: 75, terminalMetal: 'copper-aluminium' } as const;
  const ends = { from: { landing: 'full' as const }, to: { landing: 'full' as const } };
  return new LineUpBuilder({ title: 'one', basis: each.basis })
    .part('supply', { tag: 'S', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 20_000, earthing: 'solid-wye' })
    .cable({ ...cableOf(each), ...ends, tag: 'F' } as never)
    .part('drive', {
      tag: 'D',
      ratedVoltage_V: 480,
      inputCurrent_A: each.amperes,
      outputCurrent_A: each.amperes,
      riseTime_s: each.rise_s,
      inputPowerFactor: 0.9,
      ...marks,
    })
    .cable({ ...cableOf(each), ...ends, tag: 'W' } as never)
    .part('motor', {
      tag: 'M',
      ratedPower_W: 480 * each.amperes,
      ratedVoltage_V: 460,
      ratedFrequency_Hz: 60,
      ratedCurrent_A: each.amperes,
      powerFactor: 0.86,
      insulation: 'mg1-part-31',
      ...marks,
    })
    .build();
}
export const idOf = (lineUp: LineUp, tag: string): string =>
  [...lineUp.elements, ...lineUp.cables].find((each) => each.tag === tag)?.id ?? '';
export const cableIn = (lineUp: LineUp, tag: string) => review(lineUp).cables.find((each) => each.tag === tag);
export const facts = (findings: readonly Finding[]) => findings.map((each) => [each.id, each.verdict, each.value, each.limit]);
