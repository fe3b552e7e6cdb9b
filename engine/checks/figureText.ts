import { fixed } from '../lineup/roundTo.ts';
import { formatQuantity, type Units } from '../lineup/units.ts';
import type { Finding } from './finding.ts';

/** The number of a finding as it is told, rounded for that alone: lengths in the units of the project. */

export function figureText({ unit, value, quantity }: Finding, number: number, units: Units): string {
  if (unit === 'm') return formatQuantity(number, 'length', units);
  if (quantity === 'thinnest wall') return formatQuantity(number, 'smallLength', units);
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
