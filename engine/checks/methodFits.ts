import type { Cable } from '../lineup/cable.ts';
import { choiceText } from '../lineup/fields.ts';

/**
 * Reference methods of IEC 60364-5-52 Table B.52.1 that would let a cable carry more than where it lies: B1 single conductors and B2 a cable
 * in a pipe, C on a wall, D1 in a duct in the ground, D2 straight in it, E a cable and F single cores in free air. A method that allows less
 * than the place would is left to whoever entered it.
 */
const PIPE = ['C', 'D2', 'E', 'F'];
const NOT_IN: Readonly<Record<NonNullable<Cable['installation']['raceway']>, readonly string[]>> = {
  'steel-conduit': PIPE,
  'aluminium-conduit': PIPE,
  'plastic-conduit': PIPE,
  'flexible-metal': PIPE,
  'buried-duct': ['B1', 'B2', 'C', 'D2', 'E', 'F'],
  'direct-buried': ['B1', 'B2', 'C', 'D1', 'E', 'F'],
  tray: ['D1', 'D2'],
  ladder: ['D1', 'D2'],
  none: ['D1', 'D2'],
};
/** Of single conductors alone. */
const OF_SINGLES = ['B1', 'F'];

/** What of a cable its method contradicts, in words, or null. */
export function methodMisfit({ tag, construction, installation: { method, raceway } }: Cable): string | null {
  if (method === undefined) return null;
  if (raceway !== undefined && NOT_IN[raceway].includes(method))
    return `${tag} has method ${method}, which is not that of ${choiceText(raceway)}`;
  if (construction !== undefined && construction !== 'singles' && OF_SINGLES.includes(method))
    return `${tag} has method ${method}, which is not that of ${choiceText(construction)}`;
  return null;
}
