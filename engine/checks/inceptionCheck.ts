import { conductorDiameter_mm } from '../catalog/conductors.ts';
import { INCEPTION } from '../catalog/inception.ts';
import { insulationFacts, wallThickness_mm } from '../catalog/insulation.ts';
import type { Cable } from '../lineup/cable.ts';
import { fixed } from '../lineup/roundTo.ts';
import { airDensity, empirical_V, type InceptionInput, inception_V, wedge_V } from '../physics/wave/inception.ts';
import { byValue } from './byValue.ts';
import {
  type Check,
  cableSubject,
  exceeds,
  finding,
  given,
  missingOf,
  type OutputScope,
  openFinding,
  tagsOf,
  voltageGiven,
} from './check.ts';
import type { Finding, Verdict } from './finding.ts';
import { isPeak, type NoPeak, type RunPeak, runPeak } from './runPeak.ts';
import { busAssumed } from './runWave.ts';
import { carrierOf } from './shieldPath.ts';
import { notASize, unlisted } from './unlistedSize.ts';
import { hopsTo } from './waveTree.ts';

/** Whether discharges are likely to begin on the insulation of a motor lead: three classes, never a life. */

const USUAL_ALTITUDE_M = 1000;

type Moisture = NonNullable<Cable['installation']['moisture']>;
type Class = 'below' | 'near' | 'above';

interface Inception {
  readonly ratio: number;
  readonly spread: number;
  readonly class: Class;
  readonly stress_V: number;
  readonly onset_V: number;
  readonly to: InceptionInput['to'];
  readonly working: readonly string[];
}

const placeOf = (cable: Cable): Moisture | undefined =>
  cable.installation.raceway === 'buried-duct' || cable.installation.raceway === 'direct-buried' ? 'wet' : cable.installation.moisture;

/** In dry air, and by the wedge alone at sea level: searched gap by gap, so wires that are alike are searched once. */
const airAt = byValue((input: InceptionInput) => ({ onset_V: inception_V(input), dense_V: wedge_V({ ...input, density: 1 }) }));

/** Null when size, type or wall are not known. */
function inceptionOf(cable: Cable, place: Moisture, peak: RunPeak, altitude_m: number): Inception | null {
  const { size } = cable.conductor;
  const diameter_mm = size === undefined ? null : conductorDiameter_mm(size);
  const nominal_mm = cable.insulation.wall_mm ?? wallThickness_mm(cable.insulation.type, size)?.wall_mm;
  const polymer = insulationFacts(cable.insulation.type)?.polymer;
  if (diameter_mm === null || nominal_mm === undefined || polymer === undefined) return null;
  const material = INCEPTION.materials[polymer];
  const thinnest = nominal_mm * ((cable.insulation.concentricity_pct ?? 100 * INCEPTION.thinnest) / 100);
  const density = airDensity(altitude_m, INCEPTION.temperature_C);
  const moist = place === 'dry' ? 1 : material.moist;
  const wet = place !== 'dry';
  // Metal is at the wire in a shield or metal pipe; a film of water is earthed metal too.
  const carrier = carrierOf(cable);
  const sides: readonly InceptionInput['to'][] = carrier === 'none' && !wet ? ['conductor'] : ['conductor', 'metal'];
  const each = sides.map((to): Inception => {
    const input: InceptionInput = {
      radius_m: diameter_mm / 2000,
      wall_m: thinnest / 1000,
      permittivity: material.permittivity,
      to,
      density,
    };
    const air = airAt(input);
    const onset_V = air.onset_V * moist * INCEPTION.ageing;
    const stress_V = peak.peak_V * (to === 'metal' ? INCEPTION.toEarth : 1);
    const ratio = stress_V / onset_V;
    const spread = wet ? material.moistSpread : INCEPTION.drySpread;
    return {
      ratio,
      spread,
      class: !exceeds(ratio, 1 - spread) ? 'below' : exceeds(ratio, 1 + spread) ? 'above' : 'near',
      stress_V,
      onset_V,
      to,
      working: [
        `thinnest wall ${fixed(thinnest, 3)} mm, conductor ${fixed(diameter_mm, 2)} mm, permittivity ${material.permittivity}`,
        `to ${to === 'metal' ? 'grounded metal' : 'another conductor'}: wedge ${fixed(air.dense_V, 0)} V, empirical ${fixed(empirical_V(input), 0)} V, in dense air; air at ${fixed(altitude_m, 0)} m and ${INCEPTION.temperature_C} °C ${fixed(density, 3)}`,
        `× ${moist} for ${place} × ${INCEPTION.ageing} for age = ${fixed(onset_V, 0)} V`,
        `stress ${fixed(peak.peak_V, 0)} V (${peak.says})${to === 'metal' ? ` × ${INCEPTION.toEarth} to ground` : ''} = ${fixed(stress_V, 0)} V; ${fixed(ratio, 2)} of the onset`,
      ],
    };
  });
  return each.reduce((worst, one) => (one.ratio > worst.ratio ? one : worst));
}

const VERDICT: Readonly<Record<Class, Verdict>> = { below: 'pass', near: 'note', above: 'caution' };

export const insulationInception: Check = {
  slug: 'insulation-inception',
  rule: 'The peak lies clearly below the voltage at which discharges begin at the wire: below, near or above, within 30 %, damp or wet PVC 50 %. Never a fail: it is an estimate.',
  title: 'Discharge inception',
  authority: 'estimate',
  source:
    'lower of an air wedge (Paschen) and an empirical law (from memory); damp PVC at half (one drive maker’s published wiring guide); walls by NEC Table 310.4(1)',
  why: 'In the film of air where insulated wires touch each other or metal, a high enough peak strikes a discharge, thousands of times a second. It makes ozone and eats the insulation. Moisture, a thin wall, age, heat and altitude all let it begin sooner.',
  scope: 'output',
  judge(scope): readonly Finding[] {
    return scope.tree.hops
      .filter(({ cable }) => cable.kind === 'cable')
      .map(({ cable }) => {
        const behind = scope.motors.filter((motor) => hopsTo(scope.tree, motor.id).some((hop) => hop.cable === cable));
        const peaks = behind.map((motor) => runPeak(scope, motor));
        // The highest of those that run through it, and none while one of them is not known.
        const known = peaks.filter(isPeak);
        const highest =
          known.length === peaks.length ? known.reduce<RunPeak | null>((a, b) => (a && a.peak_V >= b.peak_V ? a : b), null) : null;
        const lacking = new Map(
          peaks.flatMap((peak) => (isPeak(peak) ? [] : peak.lacking)).map((each) => [`${each.id} ${each.field}`, each]),
        );
        return judgeCable(this, scope, cable, highest ?? { lacking: [...lacking.values()] }, tagsOf(behind));
      });
  },
};

function judgeCable(
  check: Check,
  { project, drive, voltageFrom, tree }: OutputScope,
  cable: Cable,
  peak: RunPeak | NoPeak,
  runs: readonly string[],
): Finding {
  const subject = cableSubject(cable);
  const altitude_m = project.altitude_m ?? USUAL_ALTITUDE_M;
  const place = placeOf(cable);
  const lacking = [
    ...missingOf(cable, 'insulation.type', 'conductor.size'),
    ...(place === undefined ? missingOf(cable, 'installation.moisture') : []),
  ];
  if (!isPeak(peak))
    return openFinding(check, subject, runs, [...lacking, ...peak.lacking], {
      phrase: 'peak?',
      text: runs.length > 0 ? `The peak at ${runs.join(', ')} is not solved yet: see it first.` : 'No motor is fed by it yet.',
    });
  const [dry, wet] = [inceptionOf(cable, 'dry', peak, altitude_m), inceptionOf(cable, 'wet', peak, altitude_m)];
  if (!dry || !wet) {
    const { size } = cable.conductor;
    const strange = unlisted(size);
    if (strange.length > 0) return openFinding(check, subject, runs, lacking, notASize(strange));
    // With type and size it is the wall that no table has.
    const noWall = size !== undefined && cable.insulation.type !== undefined ? missingOf(cable, 'insulation.wall_mm') : [];
    return openFinding(check, subject, runs, [...lacking, ...noWall]);
  }
  const found = place === 'dry' ? dry : place === 'damp' ? (inceptionOf(cable, place, peak, altitude_m) ?? wet) : wet;
  const shown = {
    quantity: found.to === 'metal' ? 'peak to ground at the wire' : 'peak between conductors',
    value: found.stress_V,
    limit: found.onset_V,
    unit: 'V',
    margin_pct: 100 * (1 - found.ratio),
    band: {
      low: found.stress_V * (1 - found.spread),
      high: found.stress_V * (1 + found.spread),
      confidence: 'rough' as const,
    },
    case: 'rated' as const,
    inputs: [
      ...given(
        cable,
        'conductor.size',
        'insulation.type',
        'insulation.wall_mm',
        'insulation.concentricity_pct',
        'installation.moisture',
        'installation.raceway',
        'construction',
      ),
      ...given(drive, 'riseTime_s', 'frontEnd', 'busRaise_pct'),
      ...voltageGiven(voltageFrom),
      ...tree.hops.flatMap((hop) => given(hop.cable, 'length_m')),
    ],
    working: found.working,
    assumptions: [
      ...(project.altitude_m === undefined
        ? [
            {
              what: 'altitude',
              value: `${USUAL_ALTITUDE_M} m`,
              source: 'not given: to which drives and motors are usually rated (common practice)',
            },
          ]
        : []),
      ...(cable.insulation.concentricity_pct === undefined
        ? [{ what: 'thinnest wall, of nominal', value: `${100 * INCEPTION.thinnest} %`, source: 'ICEA S-95-658, UL 758' }]
        : []),
      { what: 'peak to ground, of that between phases', value: `${INCEPTION.toEarth}`, source: 'IEC 60034-18-41, from extracts' },
      ...busAssumed(drive),
    ],
  };
  if (place === undefined && dry.class !== wet.class)
    return openFinding(check, subject, runs, lacking, {
      ...shown,
      text: `Whether it is dry around ${cable.tag} is not known: dry, the peak lies ${dry.class} the onset of discharges, wet ${wet.class}.`,
    });
  const words = { below: 'likely below', near: 'near', above: 'likely above' }[found.class];
  return finding(check, subject, runs, {
    ...shown,
    verdict: VERDICT[found.class],
    phrase: `${words} inception`,
    text: `${fixed(found.stress_V, 0)} V ${found.to === 'metal' ? 'to ground' : 'between conductors'} on ${cable.tag}; discharges begin at about ${fixed(found.onset_V, 0)} V there${place === undefined ? ' when wet' : ` (${place})`}, give or take ${100 * found.spread} %: ${words} inception.`,
    remedies:
      found.class === 'below'
        ? []
        : [
            'A thicker wall or a cross-linked cable (XHHW-2, RHW-2).',
            'A dV/dt or sine filter: it lowers the peak, and does not dry the pipe.',
            'A shorter lead.',
          ],
  });
}
