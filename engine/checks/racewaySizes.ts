import { conduitArea_mm2, TRADE_SIZES } from '../catalog/conduitFill.ts';
import { KINDS } from './fillChecks.ts';

/** What may be written as the size of a raceway and can be judged: the trade sizes of any pipe it may be, then of each by name. */
export function racewaySizes(raceway: string): readonly string[] {
  const kinds = KINDS[raceway] ?? [];
  const named = kinds.map((kind) => TRADE_SIZES.filter((trade) => conduitArea_mm2(kind, trade) !== null));
  return [
    ...TRADE_SIZES.filter((trade) => named.some((made) => made.includes(trade))),
    ...named.flatMap((made, i) => made.map((trade) => `${trade} ${kinds[i]}`)),
  ];
}
