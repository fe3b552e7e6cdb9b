import { type Cable, type Element, racewaySizes, valueAt } from '../../engine/index.ts';

/** What a value may be chosen from, where anything else may be written too: of all parts alike, or nothing. */
export function offersOf(parts: readonly (Element | Cable)[], path: string): readonly string[] {
  if (path !== 'installation.racewaySize') return [];
  const raceways = new Set(parts.map((each) => valueAt(each, 'installation.raceway')));
  const [raceway] = raceways;
  return raceways.size === 1 && typeof raceway === 'string' ? racewaySizes(raceway) : [];
}
