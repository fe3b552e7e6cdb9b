import type { Review } from '../checks/solved.ts';
import type { Cable } from '../lineup/cable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { notesOf } from '../lineup/notes.ts';
import { sayOf } from '../lineup/vocabulary.ts';
import { cableItems } from './cableItems.ts';
import { type Item, TEXT_mm, translate } from './displayList.ts';
import { extent } from './extent.ts';
import { gapItems } from './gapItems.ts';
import { groundEnd, groundItems } from './groundItems.ts';
import { keynoteFlags } from './keynote.ts';
import { badge, callout, verdictAlong } from './marks.ts';
import { cloud, TRIANGLE_mm, triangle } from './revisionMarks.ts';

/** What the marks on this one-line mean: only those that are on it. Drawn by the very functions that draw them there. */

const PITCH_mm = 7;
const SAMPLE_mm = 14;

interface Row {
  readonly sample: readonly Item[];
  readonly says: string;
}

const LYING = [
  [0, 0],
  [SAMPLE_mm, 0],
] as const;
const GROUND_ENDS = ['landed', 'lost', 'unknown'] as const;
const GROUND_WORDS = {
  landed: 'grounding conductors, landed at both ends',
  lost: 'grounding conductors, not all landed',
  unknown: 'grounding conductors, not known whether landed',
} as const;

/** A cable of the document lying on its side, as a sample. */
const lying = (cable: Parameters<typeof cableItems>[0]['cable']): readonly Item[] =>
  cableItems({
    points: LYING,
    cable,
    verdict: 'pass',
    gapFrom: false,
    gapTo: false,
  });

/** @param clouded whether anything changed since the issue before */
export function legend(lineUp: LineUp, review: Review, clouded: boolean): readonly Item[] {
  const rows: Row[] = [];
  const real = lineUp.cables.filter((cable) => cable.kind === 'cable');
  const plain: Cable = {
    id: 'x',
    tag: 'x',
    kind: 'cable',
    from: {},
    to: {},
    conductor: {},
    insulation: {},
    grounds: {},
    auxiliary: [],
    installation: {},
  };
  const sample = (
    construction: 'foil-and-braid' | 'singles',
    raceway: 'tray' | 'steel-conduit',
    landing?: 'full' | 'clamp' | 'pigtail' | 'none',
  ) =>
    lying({
      ...plain,
      construction,
      installation: { raceway },
      from: landing ? { landing } : { landing: 'full' },
      to: landing ? { landing } : { landing: 'full' },
    });
  const shields = real.filter((cable) => cable.construction === 'foil-and-braid' || cable.construction === 'copper-tape');
  const pipes = real.some((cable) => ['steel-conduit', 'aluminium-conduit', 'flexible-metal'].includes(cable.installation.raceway ?? ''));
  if (shields.length > 0) rows.push({ sample: sample('foil-and-braid', 'tray'), says: 'cable with its shield, landed all round' });
  if (pipes) rows.push({ sample: sample('singles', 'steel-conduit'), says: 'cable in a metal raceway' });
  const landings = new Set(shields.flatMap((cable) => [cable.from.landing, cable.to.landing]));
  const WORDS = { clamp: 'shield landed by clamps', pigtail: 'shield landed by pigtails', none: 'shield not landed' } as const;
  for (const landing of ['clamp', 'pigtail', 'none'] as const)
    if (landings.has(landing)) rows.push({ sample: sample('foil-and-braid', 'tray', landing), says: WORDS[landing] });
  if (landings.has(undefined))
    rows.push({
      sample: lying({ ...plain, construction: 'foil-and-braid' }),
      says: 'how the shield is landed is not known',
    });
  if (review.runs.some((run) => run.breaks.length > 0)) {
    const bracket = gapItems({ x: -10, top: -0.5, bottom: 0.5, above: true, below: true, state: 'broken' });
    rows.push({ sample: translate(bracket, SAMPLE_mm / 2, 0), says: 'the shield is interrupted at this box' });
  }
  const onCables = new Set(
    review.findings.filter((each) => real.some((cable) => cable.id === each.subject.id)).map((each) => each.verdict),
  );
  const middle = (verdict: 'fail' | 'open' | 'caution' | 'note', along: boolean): readonly Item[] => [
    ...(along
      ? [
          ...lying(plain),
          ...verdictAlong(verdict, [
            [0, 0],
            [SAMPLE_mm - 4.6, 0],
          ]),
        ]
      : []),
    ...translate(badge(verdict), along ? SAMPLE_mm - 2 : SAMPLE_mm / 2, 0),
  ];
  const shown = lineUp.project.showGrounds === true ? real : [];
  const grounds = new Set(shown.flatMap((cable) => [groundEnd(cable, 'from'), groundEnd(cable, 'to')]));
  for (const end of GROUND_ENDS)
    if (grounds.has(end)) {
      const count = end === 'unknown' ? {} : { groundsLanded: end === 'landed' ? 1 : 0 };
      const like: Cable = { ...plain, grounds: { count: 1 }, from: count, to: count };
      rows.push({ sample: groundItems(like, LYING), says: GROUND_WORDS[end] });
    }
  if (notesOf(lineUp).some((each) => (each.parts ?? []).length > 0))
    rows.push({ sample: keynoteFlags([1], SAMPLE_mm / 2 - 2.5, 1.3), says: 'number in the notes of this drawing' });
  const VERDICT_WORDS = { fail: 'fails', open: 'cannot be judged yet', caution: 'caution', note: 'note' } as const;
  for (const verdict of ['fail', 'open', 'caution'] as const)
    if (review.counts[verdict] > 0) rows.push({ sample: middle(verdict, onCables.has(verdict)), says: VERDICT_WORDS[verdict] });
  if (review.findings.some((each) => ['fail', 'open', 'caution', 'note'].includes(each.verdict)))
    rows.push({ sample: callout([1, 1], SAMPLE_mm / 2, 0), says: 'number in the table of findings' });
  if (clouded)
    rows.push({
      sample: [cloud({ x: 1.7, y: -1.7, w: 3.4, h: 3.4 }), ...triangle(lineUp.project.revision ?? '?', SAMPLE_mm - TRIANGLE_mm + 1, 2.5)],
      says: 'new or changed in this revision',
    });
  const say = sayOf(lineUp);
  let y = 0;
  return rows.flatMap(({ sample: items, says }) => {
    const box = extent(items);
    // Each row as high as its sample, and no lower than a line of text.
    const [above, below] = [Math.max(PITCH_mm / 2, 1 - box.y), Math.max(PITCH_mm / 2, box.y + box.h + 1)];
    y += above;
    const row: readonly Item[] = [
      ...translate(items, 0, y),
      { t: 'text', x: SAMPLE_mm + 4, y: y + 1.3, text: say(says), size_mm: TEXT_mm, weight: 400, anchor: 'start', ink: 'ink' },
    ];
    y += below;
    return row;
  });
}
