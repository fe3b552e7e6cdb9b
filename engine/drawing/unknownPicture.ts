import { choiceText } from '../lineup/fields.ts';
import { formatQuantity, type Units } from '../lineup/units.ts';
import type { DecidingUnknown } from '../sizing/decidingUnknowns.ts';
import type { Turn } from '../sizing/turns.ts';
import { type Item, stroke, TEXT_mm, WEIGHT, words } from './displayList.ts';
import { textWidth_mm } from './extent.ts';
import { fitText } from './labels.ts';

/** An unknown as a bar over all that it may be: a ring where it is taken now, uprights where verdicts turn, filled as far as none does. Readable without colour. */

export const UNKNOWN_PICTURE = { w: 118, h: 27 } as const;
/** The ends of the bar have their values beside them. */
const BAR = { x: 26, y: 15.8, w: 66, h: 3.2 } as const;
const MIDDLE = BAR.y + BAR.h / 2;
const FOOT = BAR.y + BAR.h;

/** Why it is not known, in words. */
export const BECAUSE = {
  'not given': 'not given',
  assumed: 'assumed',
  range: 'the far end of a range',
  estimate: 'estimated',
} as const satisfies Record<DecidingUnknown['because'], string>;

/** A value of its span as anyone would write it. */
export const unknownValue = ({ quantity }: DecidingUnknown, value: number | string, units: Units): string => {
  if (typeof value === 'string') return choiceText(value);
  return quantity ? formatQuantity(value, quantity, units) : String(value);
};
const turnText = (unknown: DecidingUnknown, { at, from, to, finding }: Turn, units: Units): string =>
  `${from} → ${to} at ${unknownValue(unknown, at, units)}: ${finding.title}, ${finding.subject.tag || 'line-up'}`;

/** The same in words, for those who do not see it. */
export function unknownWords(unknown: DecidingUnknown, units: Units): string {
  const { label, tag, because, ask, now, turns } = unknown;
  const [least, most] = endsOf(unknown);
  const said = (value: number | string): string => unknownValue(unknown, value, units);
  const between = 'answers' in unknown.span ? '' : `, between ${said(least)} and ${said(most)}`;
  return `${label}, ${tag}: taken as ${said(now)}, ${BECAUSE[because]}${between}. ${ask && `Ask: ${ask}. `}${turns.map((turn) => `${turnText(unknown, turn, units)}.`).join(' ')}`;
}

/** The nearest turn is told in words; the others are marked, fainter. */
export function unknownPicture(unknown: DecidingUnknown, units: Units): readonly Item[] {
  const { label, tag, ask, because, now, span, turns } = unknown;
  const [nearest, ...others] = turns;
  const [least, most] = endsOf(unknown);
  const place = placeOf(unknown);
  const end = (value: number | string): string => fitText(unknownValue(unknown, value, units), BAR.x - 3, 400);
  const upright = (x: number, over: number, weight_mm: number, dash?: readonly number[]): Item =>
    stroke(
      [
        [x, BAR.y - over],
        [x, FOOT + over],
      ],
      weight_mm,
      'ink',
      dash,
    );
  return [
    words(fitText(`${label}, ${tag}`, UNKNOWN_PICTURE.w, 600), 0, 3.4, 'start', 600),
    words(fitText(`${BECAUSE[because]}${ask && `; ask: ${ask}`}`, UNKNOWN_PICTURE.w, 400), 0, 8.1, 'start', 400, 'ink2'),
    { t: 'rect', x: BAR.x, y: BAR.y, w: BAR.w, h: BAR.h, weight_mm: WEIGHT.thin, ink: 'ink', fill: 'canvas' },
    ...stillAround(place, unknown),
    words(end(least), BAR.x - 3, FOOT - 0.4, 'end'),
    words(end(most), BAR.x + BAR.w + 3, FOOT - 0.4),
    ...('answers' in span ? span.answers.slice(1, -1).map((answer) => upright(place(answer), 0, WEIGHT.hair)) : []),
    ...others.map(({ at }) => upright(place(at), 0, 0.35, [0.8, 0.6])),
    ...(nearest
      ? [upright(place(nearest.at), 0.9, WEIGHT.heavy), within(turnText(unknown, nearest, units), place(nearest.at), FOOT + 5.4, 600)]
      : []),
    { t: 'circle', x: place(now), y: MIDDLE, r: 1.2, weight_mm: WEIGHT.line, ink: 'ink', fill: 'canvas' },
    within(`taken: ${unknownValue(unknown, now, units)}`, place(now), BAR.y - 2.2, 400),
  ];
}

const endsOf = ({ span }: DecidingUnknown): readonly [number | string, number | string] =>
  'answers' in span ? [span.answers[0] ?? '', span.answers.at(-1) ?? ''] : [span.least, span.most];

/** Numbers in proportion; answers stand a step apart. */
function placeOf({ span }: DecidingUnknown): (value: number | string) => number {
  const share = (value: number | string): number =>
    'answers' in span
      ? span.answers.indexOf(String(value)) / Math.max(1, span.answers.length - 1)
      : (Number(value) - span.least) / (span.most - span.least);
  return (value) => BAR.x + BAR.w * Math.min(1, Math.max(0, share(value)));
}

/** From what is taken to the next turn on either side, else to the end. Answers have no order: nothing lies between two. */
function stillAround(place: (value: number | string) => number, { now, span, turns }: DecidingUnknown): readonly Item[] {
  if ('answers' in span) return [];
  const taken = place(now);
  const places = turns.map(({ at }) => place(at));
  const from = Math.max(BAR.x, ...places.filter((x) => x <= taken));
  const to = Math.min(BAR.x + BAR.w, ...places.filter((x) => x > taken));
  return [{ t: 'rect', x: from, y: BAR.y, w: to - from, h: BAR.h, weight_mm: WEIGHT.thin, ink: 'ink', fill: 'rule' }];
}

/** Centred on its mark, as far as the picture has room. */
function within(says: string, x: number, y: number, weight: 400 | 600): Item {
  const { w } = UNKNOWN_PICTURE;
  const text = fitText(says, w, weight);
  const half = textWidth_mm(text, TEXT_mm, weight) / 2;
  return words(text, Math.min(w - half, Math.max(half, x)), y, 'middle', weight);
}
