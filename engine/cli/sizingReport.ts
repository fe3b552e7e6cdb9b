import type { Choice, InTheWay, LeastCopper } from '../index.ts';
import { fixed } from '../lineup/roundTo.ts';

/** The sizing as the report holds it, and as lines of text. */

/** The document with the sizes in it, and how long the search was, are left out. */
export const sizingReport = ({ lineUp: _lineUp, judged: _judged, ...rest }: LeastCopper) => rest;
export type SizingReport = ReturnType<typeof sizingReport>;

const LITRES_PER_M3 = 1000;
const shown = (choice: Choice | null): string =>
  choice ? `${choice.sets > 1 ? `${choice.sets} × ` : ''}${choice.size.replace('mm2', 'mm²')}` : 'none';

const barText = ({ sizes, breaks }: InTheWay): string =>
  ` ${sizes.map(({ tag, choice }) => `${tag} of ${shown(choice)}`).join(' and ')} would meet it. In the way of that: ${breaks
    .map(({ check, text, remedies }) => `${check}: ${text}${remedies.length > 0 ? ` What would make room: ${remedies.join(' ')}` : ''}`)
    .join(' ')}`;

export function sizingText({ cables, unmet, notProved, beside, left, volume_m3 }: SizingReport): readonly string[] {
  const now_m3 = cables.reduce((sum, each) => sum + (each.least ? (each.volumeNow_m3 ?? 0) : 0), 0);
  return [
    `  least copper: ${fixed(volume_m3 * LITRES_PER_M3, 3)} litres in the cables that have a size, ${fixed(now_m3 * LITRES_PER_M3, 3)} as drawn (length × 3 phases × sets × area)`,
    ...cables.map(({ tag, locked, now, least, below, breaks }) => {
      const why = locked
        ? 'kept: laid or bought'
        : !least
          ? 'no size passes, see below'
          : !below
            ? 'the smallest there is'
            : `${shown(below)} breaks ${breaks.map(({ check, text }) => `${check}: ${text}`).join(' ')}`;
      return `  size         ${tag.padEnd(8)} ${shown(now)} → ${shown(least)}; ${why}`;
    }),
    ...notProved.map(
      ({ cables: tags, volume_m3: found_m3, bound_m3 }) =>
        `  not proved least: ${tags.join(', ')}. The best found so far is ${fixed(found_m3 * LITRES_PER_M3, 3)} litres; no combination is below ${fixed(bound_m3 * LITRES_PER_M3, 3)}, and between the two not all were judged`,
    ),
    ...unmet.map(
      ({ check, text, proved, locked, inTheWay, remedies }) =>
        `  unmet        ${check}: ${text}${proved ? '' : ' Not proved: the search stopped before every combination was judged.'}${locked.length > 0 ? ` Locked: ${locked.join(', ')}.` : ''}${inTheWay ? barText(inTheWay) : ''}${remedies.length > 0 ? ` What would: ${remedies.join(' ')}` : ''}`,
    ),
    ...beside.map(({ verdict, check, subject, text }) => `  beside       ${verdict} ${subject.tag} ${check}: ${text}`),
    ...(left.length > 0 ? [`  left out     ${left.join(', ')}: not fed, of unknown length, or kept at a size that is not known`] : []),
  ];
}
