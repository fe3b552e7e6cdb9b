import type { Review, SolvedRun } from '../checks/solved.ts';
import type { Cable } from '../lineup/cable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { type Item, stroke, WEIGHT } from './displayList.ts';

/** A line-up at a glance: feeder, first drive and its leads lying flat, the leads to one scale, each with its shield and where that stops. */

export const SKETCH = { width_mm: 92, height_mm: 14 } as const;
const Y = 2.5;
const DRIVE = { x: 26, half: 2 } as const;
const LEADS_END = 86;
const PITCH = 3.2;
const MOST_RUNS = 4;
const BELOW = 1.4;

const metalInk = (cable: Cable | undefined) => (cable?.conductor.metal === 'aluminium' ? 'aluminium' : 'copper');

export function runSketch(lineUp: LineUp, review: Review): readonly Item[] {
  const cables = new Map(lineUp.cables.map((each) => [each.id, each]));
  const first = review.runs[0];
  if (!first) return [];
  const runs = review.runs
    .filter((each) => each.driveId === first.driveId)
    .sort((a, b) => (b.leadLength_m ?? 0) - (a.leadLength_m ?? 0))
    .slice(0, MOST_RUNS);
  const longest_m = Math.max(...runs.map((each) => each.leadLength_m ?? 0));
  const drawn = (ids: readonly string[]) => ids.flatMap((id) => cables.get(id) ?? []).filter((each) => each.kind === 'cable');
  const at = first.path.indexOf(first.driveId ?? '');
  const feeder = drawn(first.path.slice(0, Math.max(0, at))).at(-1);
  const items: Item[] = [line(2, DRIVE.x - DRIVE.half, Y, metalInk(feeder))];
  runs.forEach((run, i) => {
    const y = Y + i * PITCH;
    const share = longest_m > 0 && run.leadLength_m !== null ? run.leadLength_m / longest_m : 1;
    const from = DRIVE.x + DRIVE.half;
    const to = from + Math.max(0.15, share) * (LEADS_END - from);
    const leads = drawn(run.path.slice(run.path.indexOf(run.driveId ?? '') + 1));
    if (i > 0)
      items.push(
        stroke(
          [
            [from + 1, Y],
            [from + 1, y],
          ],
          WEIGHT.line,
          metalInk(leads[0]),
        ),
      );
    items.push(line(i > 0 ? from + 1 : from, to, y, metalInk(leads[0])), ...shieldOf(run, leads, review, from, to, y + BELOW));
    items.push({ t: 'circle', x: to + 1.2, y, r: 1.2, weight_mm: WEIGHT.thin, ink: 'ink', fill: 'canvas' });
  });
  const { x, half } = DRIVE;
  items.push(
    { t: 'rect', x: x - half, y: Y - half, w: 2 * half, h: 2 * half, weight_mm: WEIGHT.thin, ink: 'ink', fill: 'canvas' },
    stroke(
      [
        [x - half, Y + half],
        [x + half, Y - half],
      ],
      WEIGHT.thin,
    ),
  );
  return items;
}

const line = (from: number, to: number, y: number, ink: 'copper' | 'aluminium'): Item =>
  stroke(
    [
      [from, y],
      [to, y],
    ],
    WEIGHT.heavy,
    ink,
  );

/** The companion line of each lead, dashed for a shield and plain for metal around it; two strokes where it is cut at a box. */
function shieldOf(run: SolvedRun, leads: readonly Cable[], review: Review, from: number, to: number, y: number): readonly Item[] {
  const carried = new Map(review.cables.map((each) => [each.id, each.shield]));
  const total_m = leads.reduce((sum, each) => sum + (each.length_m ?? 0), 0);
  const cut = new Set(run.breaks.flatMap((each) => (each.state === 'broken' ? each.ends.map(({ cableId }) => cableId) : [])));
  let x = from;
  return leads.flatMap((lead, i): readonly Item[] => {
    const end = x + (total_m > 0 ? (lead.length_m ?? 0) / total_m : 1 / leads.length) * (to - from);
    const [start, isLast] = [x, i === leads.length - 1];
    x = end;
    const shield = carried.get(lead.id);
    if (shield !== 'shield' && shield !== 'raceway') return [];
    const gap = !isLast && cut.has(lead.id);
    return [
      stroke(
        [
          [start + (i > 0 ? 0.9 : 0), y],
          [gap ? end - 0.9 : end, y],
        ],
        WEIGHT.thin,
        'ink',
        shield === 'shield' ? [1.4, 0.7] : undefined,
      ),
      ...(gap
        ? [end - 0.9, end + 0.9].map((each) =>
            stroke(
              [
                [each, y - 1],
                [each, y + 1],
              ],
              WEIGHT.line,
              'fail',
            ),
          )
        : []),
    ];
  });
}
