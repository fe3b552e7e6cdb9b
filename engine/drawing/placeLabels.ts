import type { Finding, Verdict } from '../checks/finding.ts';
import { type Box, type Ink, type Item, LINE_PITCH_mm, TEXT_mm, translate, WEIGHT } from './displayList.ts';
import { extent, textWidth_mm } from './extent.ts';
import { gapText } from './gapItems.ts';
import { keynoteFlags } from './keynote.ts';
import { firstOf, fitText, wrapText } from './labels.ts';
import { badge, callout, type Numbered, ringed, ringSize_mm } from './marks.ts';
import { memory } from './memory.ts';
import { type Occupied, occupied } from './occupied.ts';
import { TRIANGLE_mm, triangle } from './revisionMarks.ts';

/** Puts tags, ratings and verdict phrases beside their parts so that none covers another. */

export interface Wanted {
  /** Whose label it is: what was set for it is kept with it. */
  readonly owner: object;
  readonly tag: string;
  readonly lines: readonly string[];
  readonly findings: readonly Finding[];
  readonly gap: 'broken' | 'open' | undefined;
  /** What the gap is called. */
  readonly gapSays: string;
  /** Of a part that changed with it. */
  readonly revision: string | undefined;
  /** Axis and middle of the part. */
  readonly x: number;
  readonly y: number;
  /** Free of the part from here on, to the right and to the left of the axis. */
  readonly right: number;
  readonly left: number;
  /** How far its label was moved by hand. */
  readonly moved?: { readonly dx_mm: number; readonly dy_mm: number } | undefined;
  /** Of the notes that are tied to it. */
  readonly notes?: readonly number[] | undefined;
}

const LOUD: readonly Verdict[] = ['fail', 'open', 'caution'];
const PHRASE_mm = 30;
const RINGS_mm = 30;
/** Between two rings. */
const RING_GAP_mm = 0.6;

export interface Placed {
  readonly items: readonly Item[];
  /** Round the tag and what is known. */
  readonly box: Box | null;
  /** Round all of it. */
  readonly extents: readonly Box[];
}

/** @returns the labels of each, in the order asked for */
export function placeLabels(
  wanted: readonly Wanted[],
  obstacles: readonly Box[],
  callouts: ReadonlyMap<string, number>,
): readonly Placed[] {
  const taken = occupied(obstacles.filter((box) => box.w > 0 && box.h > 0));
  const labels = wanted.map((): { items: Item[]; box: Box | null; extents: Box[] } => ({ items: [], box: null, extents: [] }));
  const draw = (index: number, items: readonly Item[], box: Box): void => {
    if (items.length === 0) return;
    labels[index]?.items.push(...items);
    labels[index]?.extents.push(box);
  };
  const lead = (index: number, owner: Wanted, to: Box): void => {
    const line = leader(owner, to);
    draw(index, line, extent(line));
  };
  const put = (index: number, { items, box: tight }: Block): Box | null => {
    if (items.length === 0) return null;
    const box = padded(tight);
    const [dx, dy] = freePlace(box, taken);
    const there = { ...box, x: box.x + dx, y: box.y + dy };
    taken.add(there);
    if (dx === 0 && dy === 0) draw(index, items, tight);
    else draw(index, translate(items, dx, dy), { ...tight, x: tight.x + dx, y: tight.y + dy });
    const owner = wanted[index];
    if (owner && Math.hypot(dx, dy) > LEADER_FROM_mm) lead(index, owner, there);
    return there;
  };
  const putTag = (index: number, block: Block): void => {
    const label = labels[index];
    const there = put(index, block);
    if (label) label.box = there;
  };
  // What a hand has placed stands there; the others keep off it.
  wanted.forEach((each, index) => {
    if (!each.moved) return;
    const { items, box } = tagBlock(each);
    const { dx_mm: dx, dy_mm: dy } = each.moved;
    const tight = { ...box, x: box.x + dx, y: box.y + dy };
    const there = padded(tight);
    taken.add(there);
    lead(index, each, there);
    draw(index, translate(items, dx, dy), tight);
    const label = labels[index];
    if (label) label.box = there;
  });
  wanted.forEach((each, index) => {
    if (!each.moved) putTag(index, tagBlock(each));
  });
  wanted.forEach((each, index) => {
    put(index, verdictBlock(each, callouts));
  });
  return labels;
}

/** Farther from its part than this, a thin line leads back to it. */
const LEADER_FROM_mm = 12;

function leader({ x: axis, y, right, left }: Wanted, box: Box): readonly Item[] {
  // From the side of the part that faces the label.
  const x = box.x > axis ? axis + Math.max(0, right - 2) : box.x + box.w < axis ? axis - left : axis;
  const nearest = { x: Math.min(Math.max(x, box.x), box.x + box.w), y: Math.min(Math.max(y, box.y), box.y + box.h) };
  if (Math.hypot(nearest.x - x, nearest.y - y) < LEADER_FROM_mm) return [];
  return [
    {
      t: 'line',
      points: [
        [x, y],
        [nearest.x, nearest.y],
      ],
      weight_mm: WEIGHT.hair,
      ink: 'ink3',
    },
  ];
}

const padded = (box: Box): Box => ({ x: box.x - 0.4, y: box.y - 0.3, w: box.w + 0.8, h: box.h + 0.6 });

/** The nearest shift that is free: up or down first, then sideways. Far out the sheet is empty, so one is found. */
function freePlace(box: Box, taken: Occupied): readonly [number, number] {
  for (let ring = 0; ring < 240; ring++) {
    for (const dx of [0, 3, -3, 8, -8, 16, -16]) {
      for (const dy of ring === 0 ? [0] : [ring * 1.5, ring * -1.5]) {
        if (Math.abs(dx) > ring * 3) continue;
        const there = { ...box, x: box.x + dx, y: box.y + dy };
        if (taken.isFree(there)) return [dx, dy];
      }
    }
  }
  return [0, 0];
}

/** The gap is named once: by the finding at the left when there is one. */
const namesGap = (each: Wanted): boolean =>
  each.gap !== undefined && !each.findings.some((finding) => LOUD.includes(finding.verdict) && /shield/.test(finding.check));

interface Block {
  readonly items: readonly Item[];
  readonly box: Box;
}
const blockOf = (items: readonly Item[]): Block => ({ items, box: extent(items) });
const tagBlocks = memory<Block>();
const verdictBlocks = memory<Block>();

/** The tag and what is known, at the wanted place. */
export const tagBlock = (each: Wanted): Block =>
  tagBlocks(
    each.owner,
    [
      each.tag,
      ...each.lines,
      each.gap && namesGap(each),
      each.gap,
      each.gapSays,
      each.revision,
      each.x,
      each.y,
      each.right,
      ...(each.notes ?? []),
    ],
    () => blockOf(tagItems(each)),
  );

/** The worst badge and its phrase, then the numbers of all findings of this part. */
function verdictBlock(each: Wanted, callouts: ReadonlyMap<string, number>): Block {
  const numbers = callouts.size === 0 ? [] : each.findings.flatMap((finding) => callouts.get(finding.id) ?? []).sort((a, b) => a - b);
  return verdictBlocks(each.owner, [...each.findings, ...numbers, each.x, each.y, each.left], () => blockOf(verdictItems(each, numbers)));
}

function tagItems(each: Wanted): readonly Item[] {
  const x = each.x + each.right;
  const count = 1 + each.lines.length + (namesGap(each) ? 1 : 0);
  let y = each.y - ((count - 1) * LINE_PITCH_mm) / 2 + 1.3;
  const items: Item[] = [{ t: 'text', x, y, text: fitText(each.tag, 46, 600), size_mm: TEXT_mm, weight: 600, anchor: 'start', ink: 'ink' }];
  let end = x + textWidth_mm(fitText(each.tag, 46, 600), TEXT_mm, 600) + 2;
  if (each.revision !== undefined) {
    items.push(...triangle(each.revision, end, y));
    end += TRIANGLE_mm + 1;
  }
  items.push(...keynoteFlags(each.notes ?? [], end, y));
  for (const text of each.lines) {
    y += LINE_PITCH_mm;
    items.push({
      t: 'text',
      x,
      y,
      text,
      size_mm: TEXT_mm,
      weight: 400,
      anchor: 'start',
      ink: 'ink2',
      less: [each.right > 0 ? firstOf(text) : '', ''],
    });
  }
  if (each.gap && namesGap(each)) items.push(gapText(each.gap, each.gapSays, x, y + LINE_PITCH_mm));
  return items;
}

function verdictItems(each: Wanted, numbers: readonly number[]): readonly Item[] {
  const loud = each.findings.find((finding) => LOUD.includes(finding.verdict));
  if (!loud && numbers.length === 0) return [];
  const right = each.x - Math.max(each.left + 4, 8.5);
  const phrase = loud ? wrapText(loud.phrase, PHRASE_mm, 600, 2) : [];
  const rows = ringRows(ringed(numbers));
  const height = phrase.length * LINE_PITCH_mm + rows.reduce((sum, each) => sum + each.height_mm, 0);
  let y = each.y - height / 2;
  const items: Item[] = [];
  if (loud) {
    items.push(...translate(badge(loud.verdict), right, y + LINE_PITCH_mm / 2));
    for (const [i, text] of phrase.entries()) {
      items.push({
        t: 'text',
        x: right - 3.2,
        y: y + LINE_PITCH_mm / 2 + 1.3,
        text,
        size_mm: TEXT_mm,
        weight: 600,
        anchor: 'end',
        ink: loud.verdict as Ink,
        less: [text, i === 0 ? loud.verdict : ''],
      });
      y += LINE_PITCH_mm;
    }
  }
  for (const { rings, height_mm } of rows) {
    // From left to right in each row, the row ending at the axis.
    let end = right + 2;
    for (const ring of [...rings].reverse()) {
      const { w } = ringSize_mm(ring);
      items.push(...callout(ring, end - w / 2, y + height_mm / 2));
      end -= w + RING_GAP_mm;
    }
    y += height_mm;
  }
  return items;
}

function ringRows(all: readonly Numbered[]): readonly { readonly rings: readonly Numbered[]; readonly height_mm: number }[] {
  const rows: { rings: Numbered[]; width: number; height_mm: number }[] = [];
  for (const ring of all) {
    const [{ w, h }, row] = [ringSize_mm(ring), rows.at(-1)];
    if (row && row.width + w <= RINGS_mm) {
      row.rings.push(ring);
      row.width += w + RING_GAP_mm;
      row.height_mm = Math.max(row.height_mm, h + RING_GAP_mm);
    } else rows.push({ rings: [ring], width: w + RING_GAP_mm, height_mm: h + RING_GAP_mm });
  }
  return rows;
}
