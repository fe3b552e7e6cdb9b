import fc from 'fast-check';
import type { Choice, Element, LineUp } from '../../engine/index.ts';
import { volume_m3 } from '../../engine/sizing/choices.ts';
import { leastCopper } from '../../engine/sizing/leastCopper.ts';
import { Site } from '../../engine/sizing/site.ts';
import { badness, SIZE_RULES, worstByUnit } from '../../engine/sizing/sizeChecks.ts';
import { LineUpBuilder } from '../engine/lineUpBuilder.ts';
import { real } from './oneRun.ts';

/** Small line-ups of every form whose cables are to be sized, and every combination of sizes that there is. */

const SIZES = ['12 AWG', '8 AWG', '4 AWG', '1/0 AWG'] as const;
const MOST_SETS = 2;

export interface Drawn {
  readonly form: 'run' | 'two leads' | 'two drives' | 'two motors';
  readonly amperes: number;
  readonly metres: readonly [number, number, number];
  readonly sizes: readonly string[];
  readonly sets: number;
  readonly carrier_Hz: number;
  readonly room: number;
  readonly largest: string;
  readonly pipe: string;
  readonly places: number;
  readonly fault_A: number;
  readonly locked: boolean;
  readonly moisture: 'dry' | 'wet';
  readonly type: 'THHN' | 'XHHW-2';
  /** Of the search, in some so small that the proof is given up. */
  readonly budget: number | undefined;
}

const sizesOf = (count: number) => fc.uniqueArray(fc.constantFrom(...SIZES), { minLength: count, maxLength: count });
const length = fc.oneof(real(5, 60), real(60, 250), real(150, 400));

export const drawn: fc.Arbitrary<Drawn> = fc
  .record({
    form: fc.constantFrom('run' as const, 'two leads' as const, 'two drives' as const, 'two motors' as const),
    amperes: real(5, 60),
    // Short and long alike, so that the drop sometimes binds one cable, sometimes several.
    metres: fc.tuple(length, length, length),
    choice: fc.oneof(
      // Two sizes are enough to go wrong with. More, and more sets, are a few of them: every combination of them must be judged.
      { weight: 20, arbitrary: fc.record({ sizes: sizesOf(2), sets: fc.constant(1) }) },
      { weight: 2, arbitrary: fc.record({ sizes: sizesOf(3), sets: fc.constant(1) }) },
      { weight: 1, arbitrary: fc.record({ sizes: sizesOf(2), sets: fc.constant(MOST_SETS) }) },
    ),
    carrier_Hz: fc.constantFrom(2000, 4000, 8000),
    room: real(1.02, 1.6),
    largest: fc.constantFrom('8 AWG', '4 AWG', '1/0 AWG', '500 kcmil'),
    pipe: fc.constantFrom('3/4', '1 1/4', '3'),
    places: fc.constantFrom(1, 2, 3),
    fault_A: real(3000, 40_000),
    locked: fc.boolean(),
    moisture: fc.constantFrom('dry' as const, 'wet' as const),
    type: fc.constantFrom('THHN' as const, 'XHHW-2' as const),
    budget: fc.constantFrom(undefined, undefined, undefined, 1),
  })
  .map(({ choice, ...each }): Drawn => ({ ...each, ...choice }));

export function build(each: Drawn): LineUp {
  const marks = {
    box: 'metal',
    terminalTemperature_C: 75,
    terminalMetal: 'copper-aluminium',
    terminalSmallest: '14 AWG',
    terminalLargest: each.largest,
    terminalsPerPhase: each.places,
  } as const;
  const cable = (tag: string, length_m: number, output: boolean) =>
    ({
      tag,
      conductor: { size: each.sizes[0] ?? '', metal: 'copper', sets: each.sets },
      insulation: { type: each.type, concentricity_pct: 95 },
      construction: 'singles',
      grounds: { count: 1, size: '8 AWG', metal: 'copper', arrangement: 'single' },
      length_m,
      from: { landing: 'full', groundsLanded: 1 },
      to: { landing: 'full', groundsLanded: 1 },
      installation: {
        raceway: 'steel-conduit',
        racewaySize: output ? each.pipe : '3',
        ambient_C: 30,
        loadedConductors: 3,
        moisture: each.moisture,
      },
    }) as const;
  const motors = each.form === 'two motors' ? 2 : 1;
  const drive = (tag: string) => ({
    tag,
    ratedVoltage_V: 480,
    inputCurrent_A: each.amperes * motors,
    outputCurrent_A: each.amperes * motors * each.room,
    inputPowerFactor: 0.9,
    riseTime_s: 0.1e-6,
    carrier_Hz: each.carrier_Hz,
    faultRating_A: 10_000,
    faultRatingDevice: 'the breaker',
    faultRatingDeviceDrawn: true,
    manual: { lengthShielded_m: 300, lengthUnshielded_m: 400, inputVoltageLeast_pct: 90 },
    ...marks,
  });
  const motor = (tag: string): Omit<Extract<Element, { kind: 'motor' }>, 'id' | 'kind'> => ({
    tag,
    ratedPower_W: 460 * 1.3 * each.amperes,
    ratedVoltage_V: 460,
    ratedFrequency_Hz: 60,
    ratedCurrent_A: each.amperes,
    powerFactor: 0.85,
    insulation: 'mg1-part-31',
    ...marks,
  });
  const [a, b, c] = each.metres;
  const made = new LineUpBuilder({ title: 'drawn' })
    .part('supply', { tag: 'S', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: each.fault_A, xOverR: 6, earthing: 'solid-wye' })
    .part('disconnect', { tag: 'CB', device: 'breaker', tripCurrent_A: 60, ratedCurrent_A: 200, ...marks });
  switch (each.form) {
    case 'run':
      return made
        .cable(cable('F', a, false))
        .part('drive', drive('D'))
        .cable(cable('W', b, true))
        .part('motor', motor('M'))
        .build();
    case 'two leads':
      return made
        .cable(cable('F', a, false))
        .part('drive', drive('D'))
        .cable(cable('W1', b, true))
        .part('disconnect', { tag: 'DS', device: 'switch', ratedCurrent_A: 200, ...marks })
        .cable(cable('W2', c, true))
        .part('motor', motor('M'))
        .build();
    case 'two drives':
      return made
        .cable(cable('T', a, false))
        .part('bus', { tag: 'B', ...marks })
        .cable(cable('F1', b, false))
        .part('drive', drive('D1'))
        .part('motor', motor('M1'))
        .from('B')
        .cable(cable('F2', c, false))
        .part('drive', drive('D2'))
        .part('motor', motor('M2'))
        .build();
    case 'two motors':
      return made
        .part('drive', drive('D'))
        .cable(cable('W', a, true))
        .part('junction', { tag: 'JB', ...marks })
        .cable(cable('W1', b, true))
        .part('motor', motor('M1'))
        .from('JB')
        .cable(cable('W2', c, true))
        .part('motor', motor('M2'))
        .build();
  }
}

/** Every combination, judged by the same reviewer: the least volume of those in which nothing is worse than the best of all combinations. */
export function everyCombination(lineUp: LineUp, sizes: readonly string[], mostSets: number, locked: readonly string[]) {
  const site = new Site(lineUp);
  const judge = site.judge();
  const choices = sizes.flatMap((size) => Array.from({ length: mostSets }, (_, i): Choice => ({ size, sets: i + 1 })));
  let all: ReadonlyMap<string, Choice>[] = [new Map()];
  for (const cable of site.cables) all = all.flatMap((each) => choices.map((choice) => new Map([...each, [cable.id, choice]])));
  const said = all.map((each) => worstByUnit(judge(each).findings));
  const best = new Map<string, number>();
  for (const unit of new Set(said.flatMap((each) => [...each.keys()])))
    best.set(
      unit,
      said.reduce((least, each) => {
        const finding = each.get(unit);
        return Math.min(least, finding ? badness(finding) : 0);
      }, 3),
    );
  const free = all.flatMap((each, i) => {
    const keeps = site.cables.every((cable) => {
      const own = each.get(cable.id);
      return !locked.includes(cable.id) || (own?.size === cable.conductor.size && own?.sets === cable.conductor.sets);
    });
    const passes = [...(said[i] ?? [])].every(([unit, finding]) => badness(finding) <= (best.get(unit) ?? 0));
    const volume = site.cables.reduce((sum, cable) => sum + volume_m3(cable, each.get(cable.id) ?? { size: '', sets: 0 }), 0);
    return keeps && passes ? [volume] : [];
  });
  const floorsMet = [...best].every(([unit, least]) => least === 0 || SIZE_RULES[unit.split('/')[0] ?? '']?.floor !== true);
  return { least_m3: free.length === 0 ? null : Math.min(...free), floorsMet, judged: all.length, site, judge, best };
}

/** One drawn, with what every combination gives and what is answered. */
export async function sized(each: Drawn) {
  const lineUp = build(each);
  const cables = lineUp.cables.filter(({ kind }) => kind === 'cable');
  const last = cables.at(-1);
  const locked = each.locked && last ? [last.id] : [];
  const answer = await leastCopper(lineUp, {
    sizes: each.sizes,
    mostSets: each.sets,
    locked,
    ...(each.budget !== undefined && { budget: each.budget }),
  });
  return { cables, locked, all: everyCombination(lineUp, each.sizes, each.sets, locked), answer };
}
