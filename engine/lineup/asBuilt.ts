import type { Cable } from './cable.ts';
import type { Element } from './elements.ts';
import { AS_BUILT, valueAt, withValueAt } from './fields.ts';
import type { LineUp } from './lineUp.ts';

/** The line-up as it stands on site: what was recorded takes the place of what was designed, to be judged like any other. */

type Part = Element | Cable;
type Recorded = Cable | Extract<Element, { kind: 'motor' }>;

/** The parts of which anything can be recorded. A link has no length and no route. */
export const isRecorded = (part: Part): part is Recorded => part.kind === 'cable' || part.kind === 'motor';

export const recordedAt = (part: Part, path: string): unknown => valueAt(part, `asBuilt.${path}`);

const WALL = ['insulation.wall_mm', 'outerDiameter_mm', 'wave'];
const RACEWAY = ['racewaySize', 'method', 'ambient_C', 'ambientLeast_C', 'loadedConductors', 'groupedCircuits', 'moisture', 'sunlight']
  .concat('soil_KmPerW', 'divider', 'sharedWith', 'toControl_mm', 'toPower_mm', 'parallel_m')
  .map((each) => `installation.${each}`);
const PLATE = ['ratedCurrent_A', 'powerFactor', 'efficiency_pct', 'serviceFactor', 'surgeImpedance_ohm', 'windingCapacitance_F'];

/** What was said of the designed thing is not known of another one: by the value that turned out otherwise. */
const FALLS: Readonly<Record<string, readonly string[]>> = {
  'conductor.size': [...WALL, 'shieldArea_mm2'],
  'insulation.type': [...WALL]
    .concat('insulation.voltage_V', 'insulation.concentricity_pct', 'insulation.temperature_C', 'insulation.wetRated')
    .concat('insulation.temperatureLeast_C', 'insulation.sunlightRated'),
  'installation.raceway': RACEWAY,
  'from.landing': ['from.pigtailLength_mm', 'from.pigtailWidth_mm'],
  'to.landing': ['to.pigtailLength_mm', 'to.pigtailWidth_mm'],
  ratedPower_W: PLATE,
  ratedVoltage_V: PLATE,
  insulation: ['peakLimit_V', 'riseLimit_s', 'peakCurve', 'peakCurveSource'],
};

export function asBuiltOf(lineUp: LineUp): LineUp {
  const built = <T extends Part>(part: T): T => (isRecorded(part) && part.asBuilt !== undefined ? asFound(part) : part);
  return { ...lineUp, elements: lineUp.elements.map(built), cables: lineUp.cables.map(built) };
}

function asFound<T extends Part & Recorded>(part: T): T {
  const { asked, others } = AS_BUILT[part.kind === 'motor' ? 'motor' : 'cable'];
  const found: string[] = [...asked, ...others].filter((path) => recordedAt(part, path) !== undefined);
  const otherwise = (path: string): boolean => {
    const designed = valueAt(part, path);
    return designed !== undefined && designed !== recordedAt(part, path);
  };
  const fallen = found.filter(otherwise).flatMap((path) => FALLS[path] ?? []);
  // The range of the design is over, and nothing is estimated any more.
  const measured = found.includes('length_m') ? [['lengthMost_m', undefined] as const, ['lengthOrigin', 'measured'] as const] : [];
  const values = [
    ...fallen.map((path) => [path, undefined] as const),
    ...found.map((path) => [path, recordedAt(part, path)] as const),
    ...measured,
  ];
  const provenance = { ...part.provenance };
  for (const [path] of values) {
    for (const key of Object.keys(provenance)) if (key === path || key.startsWith(`${path}.`)) delete provenance[key];
  }
  for (const path of found) provenance[path] = { ...part.provenance?.[`asBuilt.${path}`], origin: 'measured' };
  return withoutAsBuilt({ ...values.reduce((now, [path, value]) => withValueAt(now, path, value), part), provenance });
}

/** What was recorded holds of the very thing that was looked at: not of a copy, of half of it, nor where an end has been landed elsewhere. */
export function withoutAsBuilt<T extends Part>(part: T): T {
  if (!('asBuilt' in part)) return part;
  const { asBuilt: _gone, ...rest } = part;
  const provenance = Object.fromEntries(Object.entries(part.provenance ?? {}).filter(([path]) => !path.startsWith('asBuilt.')));
  return { ...rest, ...(part.provenance && { provenance }) } as T;
}

/** A part that was given the values of another keeps what was found of itself. */
export function withAsBuiltOf<T extends Part>(part: T, own: Part): T {
  const bare = withoutAsBuilt(part);
  if (!('asBuilt' in own)) return bare;
  const kept = Object.entries(own.provenance ?? {}).filter(([path]) => path.startsWith('asBuilt.'));
  return { ...bare, asBuilt: own.asBuilt, provenance: { ...bare.provenance, ...Object.fromEntries(kept) } };
}
