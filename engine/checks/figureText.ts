import { fixed, toFigures } from '../lineup/roundTo.ts';
import { formatQuantity, type Units } from '../lineup/units.ts';
import type { Confidence, Finding } from './finding.ts';

/** The number of a finding as it is told, rounded for that alone: lengths in the units of the project. */

/** More figures than these would say that an estimate is known better than it is. */
const FIGURES: Readonly<Record<Confidence, number>> = { good: 4, fair: 4, rough: 3, 'order of magnitude': 1 };

/** An estimate with the figures that it is known to, or as many more as keep it on its own side of the limit. */
export function vouched(number: number, confidence: Confidence, limit: number | null): number {
  for (let figures = FIGURES[confidence]; figures < 15; figures++) {
    const rounded = toFigures(number, figures);
    if (limit === null || Math.sign(rounded - limit) === Math.sign(number - limit)) return rounded;
  }
  return number;
}

/** A number of a finding as it may be told: rounded where it is an estimate, as it is elsewhere. */
export const toldNumber = ({ band, limit }: Pick<Finding, 'band' | 'limit'>, number: number): number =>
  band && number !== limit ? vouched(number, band.confidence, limit) : number;

export function figureText(finding: Finding, number: number, units: Units): string {
  const { unit, value, quantity, band, limit } = finding;
  if (band && unit !== 'm' && number !== limit) return `${`${toldNumber(finding, number)}`.replace('-', '−')}${unit && ` ${unit}`}`;
  if (unit === 'm') return formatQuantity(number, 'length', units);
  if (quantity === 'thinnest wall') return formatQuantity(number, 'smallLength', units);
  // A round limit beside an estimate, which is told without decimals.
  if (band && Number.isInteger(number)) return `${number}${unit && ` ${unit}`}`;
  const digits = unit === 'V' || unit === 'A' ? 1 : unit === '' && Number.isInteger(value) ? 0 : 2;
  return `${fixed(number, digits)}${unit && ` ${unit}`}`;
}

/** '1256.0 V, limit 1426.0 V'; '' for a finding without a number. */
export function valueText(finding: Finding, units: Units): string {
  const { value, limit } = finding;
  if (value === null) return '';
  return `${figureText(finding, value, units)}${limit === null ? '' : `, limit ${figureText(finding, limit, units)}`}`;
}

/** '1480.0 V → 1256.0 V, limit 1426.0 V'; both limits where they differ; '' where no number moves. */
export function movedText(before: Finding | null, after: Finding | null, units: Units): string {
  const [was, is] = [before, after].map((each) => (each ? valueText(each, units) : ''));
  if (!was || !is) return was ? `was ${was}` : (is ?? '');
  if (was === is) return '';
  const sameLimit =
    before?.value != null && before.quantity === after?.quantity && before.unit === after.unit && before.limit === after.limit;
  return `${sameLimit ? figureText(before, before.value, units) : was} → ${is}`;
}
