import { USUAL_RISE_S } from '../catalog/riseTimes.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element, ElementOf } from '../lineup/elements.ts';
import { fixed } from '../lineup/roundTo.ts';
import { commonModePeak_A, groundBounce_V, shareOutside, wireInductance_H } from '../physics/wave/commonMode.ts';
import { windingCapacitance_F } from '../physics/wave/lineConstants.ts';
import { cableLine } from './cableLine.ts';
import { worstLength_m } from './cableModel.ts';
import {
  type Check,
  elementSubject,
  finding,
  given,
  lacks,
  missingOf,
  notApplicable,
  openFinding,
  type RunScope,
  tagsOf,
  voltageGiven,
  voltageMissing,
} from './check.ts';
import type { Assumption, Finding, Missing } from './finding.ts';
import { busAssumed, busVoltage_V } from './runWave.ts';
import { carrierOf } from './shieldPath.ts';

/** How much current each edge sends to ground through cable and motor, and where it goes at a box that opens its way back. */

/** Of the current: winding capacitance is known within a factor of 2 to 3, common-mode impedance within 30 %. */
const FACTOR = 2;
/** Without shield or metal pipe the way back is the ground wire, and steel: all three phases, 60 to 150 ohm. */
const NO_CARRIER_OHM = 100;
/** A ground wire that goes through a box where the shield does not: about a metre. */
const GROUND_THROUGH_H = [1e-6, 1.5e-6] as const;
const WIRE_DIAMETER_M = 3e-3;
const USUAL_PIGTAIL_M = 0.1;
/** Circulating current through a bearing, at most, of the common-mode current (A. Muetze, A. Binder, IEEE Trans. Ind. Electron. 54(2), 2007). */
const BEARING_SHARE = 0.35;

interface Current {
  readonly peak_A: number;
  readonly length_m: number;
  readonly ramp_s: number;
  readonly working: readonly string[];
  readonly assumptions: readonly Assumption[];
}

export const commonMode: Check = {
  slug: 'common-mode',
  rule: 'Said, not limited: the current of each edge to ground within a factor of two, the share that leaves an opened shield within an order of magnitude, the lift of the opened box within a factor of 1.5 to 2.',
  title: 'Common-mode current',
  authority: 'estimate',
  source:
    'launch of a third of the bus into cable and winding, from full-line solutions; winding capacitance by size (from memory); ratio of inductances for what leaves the shield; A. Muetze, A. Binder, IEEE Trans. Ind. Electron. 54(2), 2007',
  why: 'Each edge lifts all three phases at once and drives a current through the capacitances of cable and winding to ground. In a whole shield it goes straight back. At a box that opens the shield it looks for other ways, by building steel, bearings and signal grounds, and lifts the box on every edge.',
  scope: 'run',
  judge(scope): readonly Finding[] {
    const { motor, cables } = scope;
    const real = cables.filter((cable) => worstLength_m(cable) !== 0);
    const subject = elementSubject(motor);
    const runs = [motor.tag];
    if (real.length === 0) return [notApplicable(this, subject, runs, 'No cable between drive and motor.')];
    const missing: readonly Missing[] = [
      ...real.flatMap((cable) => missingOf(cable, 'length_m')),
      ...(motor.windingCapacitance_F === undefined ? missingOf(motor, 'ratedPower_W') : []),
      ...voltageMissing(scope.voltageFrom),
    ];
    if (missing.length > 0) return [openFinding(this, subject, runs, missing)];
    const odd = real.filter((cable) => !cableLine(cable, scope.basis));
    const current = odd.length > 0 ? null : currentOf(scope, real);
    if (!current)
      return [
        openFinding(
          this,
          subject,
          runs,
          odd.map((cable) => lacks(cable, 'insulation.wall_mm')),
          {
            text: `Cannot be judged: the size and wall of ${tagsOf(odd).join(', ')} give no line that a wave could run on.`,
          },
        ),
      ];
    return [whole(this, scope, real, current), ...boxesOf(scope, real).map((box) => atBox(this, scope, box, current))];
  },
};

function currentOf(scope: RunScope, cables: readonly Cable[]): Current | null {
  const { drive, motor, nominal_V, basis } = scope;
  const [first] = cables;
  const line = first && cableLine(first, basis);
  if (nominal_V === null || !line) return null;
  const bus_V = busVoltage_V(nominal_V, drive);
  const bare = carrierOf(first) === 'none';
  const common_ohm = (bare ? NO_CARRIER_OHM : line.common_ohm / 3) / line.sets;
  let cable_F = 0;
  let length_m = 0;
  for (const cable of cables) {
    const each = cableLine(cable, basis);
    const metres = worstLength_m(cable) ?? 0;
    length_m += metres;
    if (!each) return null;
    cable_F += 3 * each.toShield_FPerM * metres * each.sets;
  }
  const winding_F = motor.windingCapacitance_F ?? windingCapacitance_F(motor.ratedPower_W ?? 0);
  const rise_s = drive.riseTime_s ?? USUAL_RISE_S;
  const ramp_s = 1.25 * rise_s;
  const peak_A = commonModePeak_A({ bus_V, common_ohm, cable_F, winding_F, ramp_s });
  return {
    peak_A,
    length_m,
    ramp_s,
    working: [
      `step ${fixed(bus_V, 1)} V / 3 = ${fixed(bus_V / 3, 1)} V in ${fixed(ramp_s * 1e6, 3)} µs`,
      `Zcm ${fixed(common_ohm, 1)} Ω, cable to ground ${fixed(cable_F * 1e9, 2)} nF, winding ${fixed(winding_F * 1e9, 2)} nF`,
      `the lesser of k1 × step / Zcm and C × step / tr: ${fixed(peak_A, 2)} A`,
    ],
    assumptions: [
      {
        what: 'common-mode impedance of the cable, three phases',
        value: `${fixed(common_ohm, 0)} Ω`,
        source: bare ? 'no shield or metal pipe: 60 to 150 Ω, by the ground wire' : line.source,
      },
      ...(motor.windingCapacitance_F === undefined
        ? [
            {
              what: `windings of ${motor.tag} to frame`,
              value: `${fixed(winding_F * 1e9, 1)} nF`,
              source: 'by size, form of a published fit (coefficients from memory), within a factor of 2 to 3',
            },
          ]
        : []),
      ...(drive.riseTime_s === undefined
        ? [{ what: `rise time of ${drive.tag}`, value: `${fixed(USUAL_RISE_S * 1e6, 1)} µs`, source: 'usual, fast (common practice)' }]
        : []),
      ...busAssumed(drive),
    ],
  };
}

const partsOf = ({ drive, motor, voltageFrom }: RunScope, cables: readonly Cable[]) => [
  ...voltageGiven(voltageFrom),
  ...given(drive, 'riseTime_s', 'frontEnd', 'busRaise_pct'),
  ...given(motor, 'ratedPower_W', 'windingCapacitance_F'),
  ...cables.flatMap((cable) =>
    given(
      cable,
      'length_m',
      'lengthMost_m',
      'construction',
      'conductor.size',
      'conductor.sets',
      'insulation.type',
      'insulation.wall_mm',
      'installation.raceway',
      'wave.toShield_FPerM',
    ),
  ),
];

function whole(check: Check, scope: RunScope, cables: readonly Cable[], current: Current): Finding {
  const { motor, shield } = scope;
  const { peak_A } = current;
  const inShield = shield.state === 'continuous';
  const bearing =
    (motor.ratedPower_W ?? 0) > 20_000
      ? ` Of it up to ${fixed(BEARING_SHARE * peak_A, 1)} A may circulate through the bearings of ${motor.tag}.`
      : '';
  const way =
    shield.state === 'continuous'
      ? 'it returns in the shield'
      : shield.state === 'none'
        ? 'there is no shield, and it returns by the ground wire and whatever lies near'
        : shield.state === 'broken'
          ? 'the shield is broken on its way back'
          : 'whether the shield is whole on its way back is not known';
  return finding(check, elementSubject(motor), [motor.tag], {
    verdict: inShield ? 'pass' : 'note',
    quantity: 'common-mode current of each edge, peak',
    case: 'rated',
    value: peak_A,
    band: { low: peak_A / FACTOR, high: peak_A * FACTOR, confidence: 'rough' },
    unit: 'A',
    inputs: partsOf(scope, cables),
    working: current.working,
    assumptions: current.assumptions,
    phrase: `${fixed(peak_A, 0)} A to ground`,
    text: `Each edge sends about ${fixed(peak_A, 0)} A (${fixed(peak_A / FACTOR, 0)} to ${fixed(peak_A * FACTOR, 0)} A) to ground by cable and motor; ${way}.${bearing}`,
    remedies: inShield ? [] : ['A shield that is whole from drive to motor.', 'Common-mode cores at the drive.'],
  });
}

interface OpenedBox {
  readonly box: Element;
  readonly before: Cable;
  readonly after: Cable;
  readonly beforeEnd: 'from' | 'to';
  readonly afterEnd: 'from' | 'to';
}

/** Boxes between two shielded cables of the way at which the shield is not joined all round. */
function boxesOf({ boxes, shield }: RunScope, cables: readonly Cable[]): readonly OpenedBox[] {
  return cables.slice(1).flatMap((after, i): readonly OpenedBox[] => {
    const before = cables[i];
    if (!before || carrierOf(before) === 'none' || carrierOf(after) === 'none') return [];
    const box = boxes.find(
      (each) =>
        [before.from, before.to].some((end) => end.element === each.id) && [after.from, after.to].some((end) => end.element === each.id),
    );
    if (!box) return [];
    const beforeEnd = before.to.element === box.id ? 'to' : 'from';
    const afterEnd = after.from.element === box.id ? 'from' : 'to';
    const broken = shield.breaks.some((each) => each.state === 'broken' && each.elementId === box.id);
    const tails = before[beforeEnd].landing === 'pigtail' || after[afterEnd].landing === 'pigtail';
    return broken || tails ? [{ box, before, after, beforeEnd, afterEnd }] : [];
  });
}

/** The two ends that meet in it. */
const endsOf = ({ before, after, beforeEnd, afterEnd }: OpenedBox) =>
  [
    [before, beforeEnd],
    [after, afterEnd],
  ] as const;

interface Gap {
  /** Least and most inductance in the way back; null where there is no metal way at all. */
  readonly henry: readonly [number, number] | null;
  readonly says: string;
  readonly missing: readonly Missing[];
  readonly assumptions: readonly Assumption[];
}

function gapAt({ shield }: RunScope, opened: OpenedBox): Gap {
  const { box } = opened;
  const ends = endsOf(opened);
  if (!shield.breaks.some((each) => each.state === 'broken' && each.elementId === box.id)) {
    const tails = ends.filter(([cable, end]) => cable[end].landing === 'pigtail');
    const henry = tails.reduce((sum, [cable, end]) => {
      const length_m = (cable[end].pigtailLength_mm ?? USUAL_PIGTAIL_M * 1000) / 1000;
      return sum + wireInductance_H(length_m, WIRE_DIAMETER_M);
    }, 0);
    const assumptions = tails
      .filter(([cable, end]) => cable[end].pigtailLength_mm === undefined)
      .map(([cable]) => ({
        what: `pigtail of ${cable.tag} at ${box.tag}`,
        value: `${1000 * USUAL_PIGTAIL_M} mm`,
        source: 'usual (common practice)',
      }));
    return { henry: [0.7 * henry, 1.3 * henry], says: 'the shields are joined by pigtails', missing: [], assumptions };
  }
  const landed = ends.map(([cable, end]) => (cable.grounds.count === 0 ? 0 : cable[end].groundsLanded));
  if (landed.some((each) => each === 0))
    return { henry: null, says: 'neither shield nor ground wire goes through', missing: [], assumptions: [] };
  const missing = ends.filter((_, i) => landed[i] === undefined).map(([cable, end]) => lacks(cable, `${end}.groundsLanded`));
  return { henry: GROUND_THROUGH_H, says: 'only the ground wire goes through', missing, assumptions: [] };
}

function atBox(check: Check, scope: RunScope, opened: OpenedBox, current: Current): Finding {
  const { motor } = scope;
  const { box } = opened;
  const { peak_A, length_m, ramp_s } = current;
  const gap = gapAt(scope, opened);
  const subject = elementSubject(box);
  const id = `${check.slug}/element/${box.id}/${motor.id}`;
  const runs = [motor.tag];
  const inputs = [
    ...endsOf(opened).flatMap(([cable, end]) =>
      given(cable, `${end}.landing`, `${end}.groundsLanded`, `${end}.pigtailLength_mm`, 'grounds.count', 'length_m'),
    ),
    ...given(box as ElementOf<'disconnect'>, 'box', 'bondBar'),
  ];
  const remedies = ['A metal box with glands all round on both sides.', 'A bond bar that joins both shields.'];
  if (!gap.henry)
    return finding(check, subject, runs, {
      id,
      verdict: 'note',
      case: 'rated',
      quantity: 'share of the common-mode current that leaves the cable',
      inputs,
      working: [...current.working, 'no metal way back at this box: half to all of it goes by the structure'],
      assumptions: current.assumptions,
      phrase: 'all of it leaves here',
      text: `At ${box.tag} ${gap.says}: half to all of the ${fixed(peak_A, 0)} A of each edge goes by building steel and whatever else it finds.`,
      remedies,
    });
  const [least_H, most_H] = gap.henry;
  const middle_H = Math.sqrt(least_H * most_H);
  const value = groundBounce_V(middle_H, peak_A, ramp_s);
  const share = [shareOutside(least_H, length_m, ramp_s)[0], shareOutside(most_H, length_m, ramp_s)[1]] as const;
  const shown = {
    id,
    quantity: 'lift of the box on each edge',
    case: 'rated' as const,
    value,
    band: { low: value / FACTOR, high: value * FACTOR, confidence: 'rough' as const },
    unit: 'V',
    inputs,
    working: [
      ...current.working,
      `L ${fixed(least_H * 1e6, 2)} to ${fixed(most_H * 1e6, 2)} µH in the way back; L I / tr = ${fixed(middle_H * 1e6, 2)} µH × ${fixed(peak_A, 2)} A / ${fixed(ramp_s * 1e6, 3)} µs = ${fixed(value, 1)} V`,
      `share outside: L / (L + L' l) with L' 0.4 to 1.2 µH/m, and ωL / (ωL + 2 Z) with Z 100 to 300 Ω on a long run: ${fixed(100 * share[0], 1)} to ${fixed(100 * share[1], 1)} %`,
    ],
    assumptions: [...current.assumptions, ...gap.assumptions],
    phrase: `box lifted ${fixed(value, 0)} V`,
    text: `At ${box.tag} ${gap.says}: the box is lifted by about ${fixed(value, 0)} V (${fixed(value / FACTOR, 0)} to ${fixed(value * FACTOR, 0)} V) on each edge, and ${percent(share[0])} to ${percent(share[1])} of the current, ${amperes(share[0] * peak_A)} to ${amperes(share[1] * peak_A)}, goes outside the cable (order of magnitude).`,
    remedies,
  };
  if (gap.missing.length > 0)
    return openFinding(check, subject, runs, gap.missing, {
      ...shown,
      text: `At ${box.tag} the shield does not go through, and whether the ground wire does is not known. If it does, the box is lifted by about ${fixed(value, 0)} V on each edge; if not, half to all of the ${fixed(peak_A, 0)} A goes by building steel.`,
    });
  return finding(check, subject, runs, { ...shown, verdict: 'note' });
}

const percent = (share: number): string => `${fixed(100 * share, share < 0.1 ? 1 : 0)} %`;
const amperes = (value: number): string => `${fixed(value, value < 1 ? 2 : 1)} A`;
