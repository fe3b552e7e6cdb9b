import { choiceText, type Field, parseQuantity, type Units, withUnit } from '../../engine/index.ts';

/** What a typed or pasted text means for a field. Empty is not known. */
export type Entry = { readonly ok: true; readonly value: unknown; readonly typed?: string } | { readonly ok: false; readonly what: string };

/** How listed values are compared: as anyone would write them. */
const plain = (text: string): string => text.toLowerCase().replaceAll(/[\s-]+/g, ' ');

/** How the trade writes what is listed by its name. */
const SIGNS = new Map([
  ['cu', 'copper'],
  ['al', 'aluminium'],
  ['aluminum', 'aluminium'],
]);

export function readEntry(field: Field, text: string, units: Units): Entry {
  if (text === '') return { ok: true, value: undefined };
  if (field.kind === 'text') return { ok: true, value: text };
  if (field.kind === 'count') return /^\d+$/.test(text) ? { ok: true, value: Number(text) } : no(`“${text}” is not a whole number`);
  if (field.kind === 'quantity') {
    const parsed = parseQuantity(text, field.quantity ?? 'number', units);
    return parsed.ok ? { ok: true, value: parsed.value, typed: withUnit(text, field.quantity ?? 'number', units) } : no(parsed.what);
  }
  const choices = field.kind === 'yesno' ? ['yes', 'no'] : (field.choices ?? []);
  const meant = SIGNS.get(plain(text)) ?? plain(text);
  const found = choices.find((each) => plain(each) === meant || plain(choiceText(each)) === meant);
  if (found === undefined) return no(`“${text}” is none of: ${choices.map(choiceText).join(', ')}`);
  return { ok: true, value: field.kind === 'yesno' ? found === 'yes' : found };
}

const no = (what: string): Entry => ({ ok: false, what });
