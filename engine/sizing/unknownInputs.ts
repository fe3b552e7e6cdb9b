import { USUAL_RISE_S } from '../catalog/riseTimes.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import { FIELDS, type Field, valueAt } from '../lineup/fields.ts';
import { describedAs } from '../lineup/isCable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { Quantity } from '../lineup/units.ts';

/** Inputs that nobody has vouched for: what the checks take in their place, and between what they may lie. */

export interface UnknownInput {
  /** Of the element or cable. */
  readonly id: string;
  readonly tag: string;
  readonly field: string;
  readonly label: string;
  readonly quantity: Quantity | null;
  /** Who usually knows it. */
  readonly ask: string;
  readonly because: 'not given' | 'assumed' | 'range' | 'estimate';
  readonly now: number | string;
  /** Numbers from the least to the most, or the answers there are. */
  readonly span: { readonly least: number; readonly most: number } | { readonly answers: readonly string[] };
}

/** What is taken where nothing is given, and what such parts have (common practice). The usual value lies between. */
const NOT_GIVEN: Readonly<Record<string, Readonly<Record<string, readonly [number, number, number]>>>> = {
  drive: {
    riseTime_s: [0.02e-6, USUAL_RISE_S, 1e-6],
    carrier_Hz: [1000, 4000, 16_000],
    inputPowerFactor: [0.6, 0.8, 0.98],
    outputRatio_pct: [90, 100, 100],
  },
  motor: { powerFactor: [0.7, 0.85, 0.95] },
  supply: { xOverR: [2, 10, 30], voltageLeast_pct: [85, 95, 100], voltageMost_pct: [100, 105, 115] },
  transformer: { xOverR: [1, 5, 15] },
  cable: { 'insulation.concentricity_pct': [67, 90, 100] },
};
/** Answers that are bounded by the worst where they are not given. */
const ANSWERS_NOT_GIVEN: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  motor: { insulation: 'mg1-part-30' },
  drive: { dcChoke: 'none' },
  cable: { 'installation.moisture': 'wet' },
};
/** Answers that say nothing by themselves: they ask for a number. */
const EMPTY_ANSWERS: readonly string[] = ['entered', 'curve'];

/** An assumed number may be half or twice as much; an estimated length a third less or more (common practice). */
const ASSUMED_FACTOR = 2;
const ESTIMATE = 0.3;
/** Temperatures are assumed to a few steps of the tables. */
const ASSUMED_DEGREES = 20;

export const unknownInputs = ({ elements, cables }: LineUp): readonly UnknownInput[] =>
  [...elements, ...cables.filter(({ kind }) => kind === 'cable')].flatMap((part) => {
    const kind = describedAs(part);
    return FIELDS[kind].flatMap((field) => inputOf(part, kind, field) ?? []);
  });

function inputOf(part: Element | Cable, kind: string, field: Field): UnknownInput | null {
  const { path, label, ask } = field;
  const value = valueAt(part, path);
  const known = { id: part.id, tag: part.tag, field: path, label, quantity: field.quantity ?? null, ask };
  const assumed = part.provenance?.[path]?.origin === 'assumed';
  if (field.kind === 'choice') {
    const answers = (field.choices ?? []).filter((each) => !EMPTY_ANSWERS.includes(each));
    const taken = ANSWERS_NOT_GIVEN[kind]?.[path];
    if (value === undefined && taken !== undefined) return { ...known, because: 'not given', now: taken, span: { answers } };
    return assumed && typeof value === 'string' ? { ...known, because: 'assumed', now: value, span: { answers } } : null;
  }
  if (field.kind !== 'quantity') return null;
  if (value === undefined) {
    const usual = NOT_GIVEN[kind]?.[path];
    return usual ? { ...known, because: 'not given', now: usual[1], span: { least: usual[0], most: usual[2] } } : null;
  }
  if (typeof value !== 'number') return null;
  if (path === 'length_m' && part.kind === 'cable') {
    const { lengthMost_m, lengthOrigin } = part;
    if (lengthMost_m !== undefined && lengthMost_m > value)
      return { ...known, because: 'range', now: lengthMost_m, span: { least: value, most: lengthMost_m } };
    if (lengthOrigin === 'estimated')
      return { ...known, because: 'estimate', now: value, span: { least: value * (1 - ESTIMATE), most: value * (1 + ESTIMATE) } };
  }
  if (!assumed) return null;
  const span =
    field.quantity === 'temperature'
      ? { least: value - ASSUMED_DEGREES, most: value + ASSUMED_DEGREES }
      : {
          least: value / ASSUMED_FACTOR,
          most: field.quantity === 'percent' && value <= 100 ? Math.min(100, value * ASSUMED_FACTOR) : value * ASSUMED_FACTOR,
        };
  return { ...known, because: 'assumed', now: value, span };
}
