import { choiceText, type Field } from './fields.ts';
import { formatQuantity, type Units } from './units.ts';

/** A value as people read it, in the units of the project. */
export function shownValue(field: Field, value: unknown, units: Units): string {
  if (field.quantity && (typeof value === 'number' || typeof value === 'string')) return formatQuantity(value, field.quantity, units);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return field.kind === 'choice' ? choiceText(String(value)) : String(value);
}
