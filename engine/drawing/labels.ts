import type { Cable } from '../lineup/cable.ts';
import type { Element, ElementOf } from '../lineup/elements.ts';
import { asTyped, formatQuantity, type Quantity, type Units } from '../lineup/units.ts';
import { TEXT_mm } from './displayList.ts';
import { textWidth_mm } from './extent.ts';

/** What stands beside a part or cable: its tag, then up to two lines of what is known of it. */

const shown = (value: number | undefined, quantity: Quantity, units: Units): string | null =>
  value === undefined ? null : formatQuantity(value, quantity, units);
const joined = (...parts: readonly (string | null | undefined)[]): string =>
  parts.filter((part) => part !== null && part !== undefined && part !== '').join('  ');

const DEVICES = { switch: 'switch', breaker: 'breaker', fuse: 'fuse', 'fused-switch': 'fused switch' } as const;
const ROLES = { 'emc-input': 'EMC filter', dvdt: 'dV/dt filter', sine: 'sine filter', terminator: 'terminator' } as const;
const EARTHING: Readonly<Record<string, string>> = {
  'solid-wye': 'solid wye',
  tn: 'TN',
  tt: 'TT',
  'corner-grounded': 'corner grounded',
  'midpoint-grounded': 'midpoint grounded',
  'resistance-grounded': 'resistance grounded',
  ungrounded: 'ungrounded',
};

function boxLine(element: Element): string {
  if (!('box' in element) || !element.box) return '';
  return `${element.box} box${element.bondBar === true ? ', bond bar' : element.bondBar === false ? ', no bond bar' : ''}`;
}

/** What a device is bought by: where it opens of itself, its trip; a switch opens by hand, whatever trips beside it. */
const deviceCurrent = ({ device, tripCurrent_A, ratedCurrent_A }: ElementOf<'disconnect'>): number | undefined =>
  device === 'switch' ? (ratedCurrent_A ?? tripCurrent_A) : (tripCurrent_A ?? ratedCurrent_A);

/** @param inLead a disconnect between drive and motor: what its hand must know stands beside it */
export function elementLines(element: Element, units: Units, inLead = false): readonly string[] {
  const u = (value: number | undefined, quantity: Quantity) => shown(value, quantity, units);
  switch (element.kind) {
    case 'supply':
      return lines(
        joined(u(element.voltage_V, 'voltage'), u(element.frequency_Hz, 'frequency'), EARTHING[element.earthing ?? '']),
        element.faultCurrent_A === undefined ? '' : `fault ${u(element.faultCurrent_A, 'current')}`,
      );
    case 'transformer':
      return lines(
        joined(u(element.ratedPower_VA, 'apparentPower'), u(element.impedance_pct, 'percent')),
        joined(u(element.secondaryVoltage_V, 'voltage'), EARTHING[element.secondaryEarthing ?? '']),
      );
    case 'bus':
      return lines(element.ratedCurrent_A === undefined ? '' : `rated ${u(element.ratedCurrent_A, 'current')}`, '');
    case 'disconnect':
      return lines(
        joined(u(deviceCurrent(element), 'current'), element.device ? DEVICES[element.device] : null),
        boxLine(element),
        inLead ? (element.earlyBreakContact === 'wired' ? 'early break wired' : 'not under load') : '',
      );
    case 'reactor':
      return lines(joined(u(element.impedance_pct, 'percent'), u(element.ratedCurrent_A, 'current')), boxLine(element));
    case 'filter':
      return lines(element.role ? ROLES[element.role] : '', joined(u(element.ratedCurrent_A, 'current')));
    case 'drive':
      return lines(
        joined(u(element.ratedPower_W, 'power'), u(element.outputCurrent_A, 'current')),
        joined(u(element.carrier_Hz, 'frequency'), element.riseTime_s === undefined ? null : u(element.riseTime_s, 'time')),
      );
    case 'junction':
      return lines(boxLine(element), '');
    case 'contactor':
      return lines(joined(u(element.ratedCurrent_A, 'current'), element.role), boxLine(element));
    case 'motor':
      return lines(
        joined(u(element.ratedPower_W, 'power'), u(element.ratedVoltage_V, 'voltage')),
        joined(u(element.ratedCurrent_A, 'current')),
      );
  }
}

const BUILDS = {
  singles: 'singles',
  multicore: 'multicore',
  'foil-and-braid': 'shielded',
  'copper-tape': 'tape shield',
  'corrugated-armour': 'corrugated armour',
  'interlocked-armour': 'interlocked armour',
} as const;
const RACEWAYS: Readonly<Record<string, string>> = {
  'steel-conduit': 'steel conduit',
  'aluminium-conduit': 'aluminium conduit',
  'plastic-conduit': 'plastic conduit',
  'flexible-metal': 'flexible metal',
  tray: 'tray',
  ladder: 'ladder',
  'buried-duct': 'buried duct',
  'direct-buried': 'direct buried',
};

/** As it was typed, else in the units of the project. */
export function lengthText(cable: Cable, units: Units): string | null {
  const least = cable.length_m === undefined ? null : asTyped(cable.provenance?.length_m?.typed, cable.length_m, 'length', units);
  const most = shown(cable.lengthMost_m, 'length', units);
  return least && most && least !== most ? `${least} to ${most}` : (least ?? most);
}

export const sizeText = (cable: Cable): string | null => cable.conductor.size?.replace('mm2', 'mm²') ?? null;
export const metalText = (cable: Cable): string | null =>
  cable.conductor.metal === 'copper' ? 'Cu' : cable.conductor.metal === 'aluminium' ? 'Al' : null;
/** Null where not even their number is known. */
export const groundsText = ({ grounds: { count, size } }: Cable): string | null =>
  count === undefined ? null : count === 0 ? 'none' : `${count} × ${size?.replace('mm2', 'mm²') ?? 'size not known'}`;
export const buildText = (cable: Cable): string | null => (cable.construction ? BUILDS[cable.construction] : null);
export const racewayText = (cable: Cable): string | null =>
  cable.installation.raceway ? (RACEWAYS[cable.installation.raceway] ?? null) : null;

export function cableLines(cable: Cable, units: Units): readonly string[] {
  if (cable.kind === 'link') return [];
  const sets = (cable.conductor.sets ?? 1) > 1 ? `${cable.conductor.sets} ×` : null;
  const what = [sets, sizeText(cable), metalText(cable), cable.insulation.type].filter(Boolean).join(' ');
  const where = [
    lengthText(cable, units),
    cable.construction === 'singles' || cable.construction === undefined ? racewayText(cable) : buildText(cable),
  ]
    .filter(Boolean)
    .join(', ');
  return lines(what, where);
}

function lines(...texts: readonly string[]): readonly string[] {
  return texts.filter((text) => text !== '').map((text) => fitText(text, 46, 400));
}

/** Of a line of what is known: its first value alone. A bus has one current, and its words stand short of what hangs over it. */
export const firstOf = (line: string): string => /^.*?(?= {2}|, | (?:Cu|Al)\b|$)/.exec(line)?.[0].replace(/^rated /, '') ?? line;

/** Shortened with an ellipsis to a width; the sheets list everything in full. */
export function fitText(text: string, width_mm: number, weight: 400 | 600): string {
  const fits = (candidate: string): boolean => textWidth_mm(candidate, TEXT_mm, weight) <= width_mm;
  // From its beginning: a text may go on for thousands of letters, of which some thirty are drawn.
  const kept: string[] = [];
  for (const letter of text) {
    kept.push(letter);
    if (fits(kept.join(''))) continue;
    while (kept.length > 0 && !fits(`${kept.join('')}…`)) kept.pop();
    return `${kept.join('').trimEnd()}…`;
  }
  return text;
}

/** Broken at spaces into at most `most` lines; a word longer than the line stands alone. */
export function wrapText(text: string, width_mm: number, weight: 400 | 600, most: number): readonly string[] {
  const made: string[] = [];
  for (const word of text.split(' ')) {
    const last = made.at(-1);
    const longer = `${last ?? ''} ${word}`;
    if (last !== undefined && (textWidth_mm(longer, TEXT_mm, weight) <= width_mm || made.length === most)) made[made.length - 1] = longer;
    else made.push(word);
  }
  return made;
}
