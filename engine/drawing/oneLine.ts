import type { Finding, Verdict } from '../checks/finding.ts';
import { VERDICTS } from '../checks/finding.ts';
import type { Review } from '../checks/solved.ts';
import type { Cable } from '../lineup/cable.ts';
import { elementOf } from '../lineup/elementOf.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { keynotes } from '../lineup/notes.ts';
import { sayOf } from '../lineup/vocabulary.ts';
import { boundaries, namePlace, sides } from './boundaries.ts';
import { COMPANION_mm, cableItems } from './cableItems.ts';
import { type Box, type Item, type Point, translate } from './displayList.ts';
import { around, extent } from './extent.ts';
import { gapItems, gapPhrase } from './gapItems.ts';
import { GROUND_mm, groundItems } from './groundItems.ts';
import { cableLines, elementLines } from './labels.ts';
import { tidyPositions } from './layout.ts';
import { beginDrawing, memory } from './memory.ts';
import { placeLabels, tagBlock, type Wanted } from './placeLabels.ts';
import { legs } from './polyline.ts';
import { cloud } from './revisionMarks.ts';
import { busLength, routeCable } from './route.ts';
import { type Family, symbolOf } from './symbols.ts';

export interface OneLinePart extends Box {
  readonly id: string;
  readonly kind: 'element' | 'cable';
  /** Symbol or cable without its labels, in place on the sheet. */
  readonly items: readonly Item[];
  /** Its labels and marks. */
  readonly said: readonly Item[];
  /** Round its tag and what is known of it; null where it shows none. */
  readonly label: Box | null;
}
export interface OneLine {
  readonly items: readonly Item[];
  readonly x_mm: number;
  readonly y_mm: number;
  readonly width_mm: number;
  readonly height_mm: number;
  readonly parts: readonly OneLinePart[];
  /** Lines round enclosures, with their names. */
  readonly boundaries: readonly Item[];
}
export interface OneLineOptions {
  readonly family?: Family;
  /** Numbers in rings, by id of finding. */
  readonly callouts?: ReadonlyMap<string, number>;
  /** Ids of the parts that changed since the last issue; each is clouded with a triangle that names this revision. */
  readonly changed?: ReadonlySet<string>;
}

const LOUD: readonly Verdict[] = ['fail', 'open', 'caution'];

/** The whole one-line with what the review says of it: quiet where right, loud where wrong, at the place. */
export function oneLine(lineUp: LineUp, review: Review, options: OneLineOptions = {}): OneLine {
  const family = options.family ?? lineUp.project.symbols ?? lineUp.project.basis;
  const positions = lineUp.elements.every((each) => lineUp.positions[each.id])
    ? lineUp.positions
    : { ...tidyPositions(lineUp), ...lineUp.positions };
  const units = lineUp.project.units;
  const say = sayOf(lineUp);
  const gapSays = (state: Gap['state'] | undefined): string => (state ? say(gapPhrase(state)) : '');
  const grounds = lineUp.project.showGrounds === true;
  beginDrawing();
  const byPart = byPartOf(review, [], () => findingsByPart(review));
  const noted = keynotes(lineUp);
  const gaps = gapsOf(review);
  const cutEnds = new Set([...gaps.values()].flatMap((gap) => gap.ends));
  const parts: (Omit<OneLinePart, 'said' | 'label'> & { readonly said: Item[]; label: Box | null })[] = [];
  const wantedOfCables: (Wanted & { readonly id: string })[] = [];
  const wantedOfElements: (Wanted & { readonly id: string })[] = [];
  const obstacles: Box[] = [];
  const clouds: Item[] = [];
  const brackets: Item[] = [];
  const mark = (id: string, boxOf: () => Box): void => {
    if (!options.changed?.has(id)) return;
    const bumps = cloud(boxOf());
    clouds.push(bumps);
    obstacles.push(extent([bumps]));
  };
  const revisionOf = (id: string): string | undefined => (options.changed?.has(id) ? (lineUp.project.revision ?? '?') : undefined);
  /** Further out by the bumps of its cloud. */
  const room = (id: string): number => (options.changed?.has(id) ? 3 : 0);

  for (const cable of lineUp.cables) {
    const verdict = loudOf(byPart.get(cable.id))?.verdict ?? 'pass';
    const [gapFrom, gapTo] = [cutEnds.has(`${cable.id}/from`), cutEnds.has(`${cable.id}/to`)];
    const ends = [cable.from, cable.to].flatMap(({ element }) => [
      elementOf(lineUp.elements, element),
      element === undefined ? undefined : positions[element],
    ]);
    const { points, items, box } = drawnCable(cable, [...ends, verdict, gapFrom, gapTo, family, grounds], () => {
      const route = routeCable(lineUp, positions, cable, family);
      const made =
        route.length === 0
          ? []
          : [...cableItems({ points: route, cable, verdict, gapFrom, gapTo }), ...(grounds ? groundItems(cable, route) : [])];
      return { points: route, items: made, box: extent(made) };
    });
    if (points.length === 0) continue;
    parts.push({ id: cable.id, kind: 'cable', items, said: [], label: null, ...box });
    for (const leg of legs(points)) obstacles.push(legBox(leg, grounds));
    mark(cable.id, () => alongCable(points));
    const middle = labelPlace(points);
    const gap = gaps.get(cable.id);
    const said = {
      owner: cable,
      id: cable.id,
      tag: cable.tag,
      lines: linesOf(cable, [units, say], () => cableLines(cable, units).map(say)),
      findings: byPart.get(cable.id) ?? [],
      gap: gap?.state,
      gapSays: gapSays(gap?.state),
      revision: revisionOf(cable.id),
      moved: lineUp.labels?.[cable.id],
      notes: noted.get(cable.id),
    };
    // A link shows its tag only when something is to be said of it.
    if (cable.kind === 'cable' || said.notes || said.findings.some((each) => LOUD.includes(each.verdict)))
      wantedOfCables.push({ ...said, x: middle[0], y: middle[1], right: 4.5 + room(cable.id), left: 4 + room(cable.id) });
  }
  for (const element of lineUp.elements) {
    const at = positions[element.id] ?? { x_mm: 0, y_mm: 0 };
    const symbol = symbolOf(element, family, element.kind === 'bus' ? busLength(lineUp, positions, element.id) : undefined);
    const bridge = 'box' in element && element.bondBar === true && !gaps.has(element.id) && landedBothSides(lineUp.cables, element.id);
    const { items, box } = drawnElement(element, [at.x_mm, at.y_mm, family, symbol.width_mm, bridge], () => {
      const placed = translate([...symbol.items, ...(bridge ? [bridgeThrough(symbol.height_mm)] : [])], at.x_mm, at.y_mm);
      return { items: placed, box: extent(placed) };
    });
    const marks: Item[] = [];
    parts.push({ id: element.id, kind: 'element', items, said: marks, label: null, ...box });
    obstacles.push(box);
    mark(element.id, () => grown(box));
    const gap = gaps.get(element.id);
    if (gap) {
      const side = (port: 'line' | 'load') =>
        lineUp.cables.some(
          (c) =>
            (c.from.element === element.id && (c.from.port ?? 'load') === port && gap.ends.includes(`${c.id}/from`)) ||
            (c.to.element === element.id && (c.to.port ?? 'line') === port && gap.ends.includes(`${c.id}/to`)),
        );
      const bracket = gapItems({
        x: at.x_mm,
        top: at.y_mm,
        bottom: at.y_mm + symbol.height_mm,
        above: side('line'),
        below: side('load'),
        state: gap.state,
      });
      marks.push(...bracket);
      brackets.push(...bracket);
      obstacles.push(extent(bracket));
    }
    const inLead = (byPart.get(element.id) ?? []).some(({ check }) => check === 'output-disconnect');
    const said = {
      owner: element,
      id: element.id,
      tag: element.tag,
      lines: linesOf(element, [units, say, inLead], () => elementLines(element, units, inLead).map(say)),
      findings: byPart.get(element.id) ?? [],
      gap: gap?.state,
      gapSays: gapSays(gap?.state),
      revision: revisionOf(element.id),
      moved: lineUp.labels?.[element.id],
      notes: noted.get(element.id),
    };
    if (element.kind === 'bus')
      wantedOfElements.push({ ...said, x: at.x_mm + symbol.left_mm, y: at.y_mm - 6.5 - said.lines.length * 2.35, right: 0, left: 0 });
    else
      wantedOfElements.push({
        ...said,
        x: at.x_mm,
        y: at.y_mm + symbol.height_mm / 2,
        right: (gap ? 14 : Math.max(6, symbol.left_mm + symbol.width_mm) + 2.5) + room(element.id),
        left: Math.max(6, -symbol.left_mm) + room(element.id),
      });
  }
  // The first has its own place: a part beside its symbol, a cable along its line, the name of an enclosure wherever is room.
  const wanted = [...wantedOfElements, ...wantedOfCables];
  const symbols = new Map(parts.flatMap((part) => (part.kind === 'element' ? [[part.id, part] as const] : [])));
  const rooms = new Map(
    wanted.map((each) => {
      const [symbol, tag] = [symbols.get(each.id), tagBlock(each).box];
      return [each.id, symbol ? around([symbol, tag]) : tag] as const;
    }),
  );
  const enclosures = boundaries(lineUp, rooms);
  const names = enclosures.map(
    ({ name, box }): Wanted => ({
      owner: box,
      tag: name,
      lines: [],
      findings: [],
      gap: undefined,
      gapSays: '',
      revision: undefined,
      ...namePlace(box),
      right: 0,
      left: 0,
    }),
  );
  const lines = enclosures.flatMap(({ box }) => sides(box));
  const labels = placeLabels([...wanted, ...names], [...obstacles, ...lines], options.callouts ?? new Map());
  const bounds = [...enclosures.flatMap((each) => each.items), ...labels.slice(wanted.length).flatMap((each) => each.items)];
  const byId = new Map(parts.map((part) => [part.id, part]));
  wanted.forEach(({ id }, index) => {
    const part = byId.get(id);
    const label = labels[index];
    if (!part || !label) return;
    part.said.push(...label.items);
    part.label = label.box;
  });
  // Cables below, parts upon them, what is said of both on top.
  const inOrder = [...parts].sort((a, b) => (a.kind === b.kind ? 0 : a.kind === 'cable' ? -1 : 1));
  const items = [...bounds, ...inOrder.flatMap((part) => part.items), ...clouds, ...inOrder.flatMap((part) => part.said)];
  // What each part takes is known already; to read the width of every word again would take as long as all the rest.
  const box = around([
    ...parts.flatMap((part) => (part.items.length > 0 ? [part] : [])),
    ...labels.flatMap((label) => label.extents),
    ...[enclosures.flatMap((each) => each.items), clouds, brackets].flatMap((each) => (each.length > 0 ? [extent(each)] : [])),
  ]);
  return { items, x_mm: box.x, y_mm: box.y, width_mm: box.w, height_mm: box.h, parts: inOrder, boundaries: bounds };
}

interface Drawn {
  readonly items: readonly Item[];
  readonly box: Box;
}
const drawnCable = memory<Drawn & { readonly points: readonly Point[] }>();
const drawnElement = memory<Drawn>();
const linesOf = memory<readonly string[]>();
const byPartOf = memory<ReturnType<typeof findingsByPart>>();

/** The bond of a box, from the shield of one side to that of the other. */
const bridgeThrough = (height_mm: number): Item => ({
  t: 'line',
  points: [
    [COMPANION_mm, 0],
    [COMPANION_mm, height_mm],
  ],
  weight_mm: 0.4,
  ink: 'ink',
  dash: [1.8, 1],
});

/** Middle of the longest upright piece, else of the longest piece. */
function labelPlace(points: readonly Point[]): Point {
  const all = [...legs(points)];
  const upright = all.filter((leg) => Math.abs(leg.uy) > 0.5);
  const longest = (upright.length > 0 ? upright : all).sort((a, b) => b.length - a.length)[0];
  return longest ? [longest.x + (longest.ux * longest.length) / 2, longest.y + (longest.uy * longest.length) / 2] : (points[0] ?? [0, 0]);
}

const grown = ({ x, y, w, h }: Box): Box => ({ x: x - 1, y: y - 1, w: w + 2, h: h + 2 });

/** Round the longest piece of a cable, short of the parts at its ends, which may have clouds of their own. */
function alongCable(points: readonly Point[]): Box {
  const [widest] = [...legs(points)].sort((a, b) => b.length - a.length);
  return widest
    ? legBox({ ...widest, x: widest.x + 3 * widest.ux, y: widest.y + 3 * widest.uy, length: Math.max(4, widest.length - 6) })
    : extent([]);
}

/** A cable with its pipe, shield and marks. */
function legBox({ x, y, ux, uy, length }: ReturnType<typeof legs>[number], grounds = false): Box {
  const half = grounds ? GROUND_mm + 0.6 : 2.8;
  return {
    x: Math.min(x, x + ux * length) - half,
    y: Math.min(y, y + uy * length),
    w: Math.abs(ux) * length + 2 * half,
    h: Math.abs(uy) * length + 0.1,
  };
}

const rank = (finding: Finding): number => VERDICTS.indexOf(finding.verdict);

function findingsByPart(review: Review): ReadonlyMap<string, readonly Finding[]> {
  const found = new Map<string, Finding[]>();
  for (const finding of review.findings) {
    if (finding.subject.id === '') continue;
    const list = found.get(finding.subject.id) ?? [];
    list.push(finding);
    found.set(finding.subject.id, list);
  }
  for (const list of found.values()) list.sort((a, b) => rank(a) - rank(b));
  return found;
}

const loudOf = (findings: readonly Finding[] | undefined): Finding | undefined => findings?.find((each) => LOUD.includes(each.verdict));

interface Gap {
  readonly state: 'broken' | 'open';
  readonly ends: readonly string[];
}

/** By box or cable, over all runs; broken in one run is broken. */
function gapsOf(review: Review): ReadonlyMap<string, Gap> {
  const found = new Map<string, Gap>();
  for (const run of review.runs)
    for (const each of run.breaks) {
      const id = each.elementId ?? each.ends[0]?.cableId;
      if (id === undefined) continue;
      const before = found.get(id);
      const ends = [...new Set([...(before?.ends ?? []), ...each.ends.map((end) => `${end.cableId}/${end.end}`)])];
      found.set(id, { state: before?.state === 'broken' ? 'broken' : each.state, ends });
    }
  return found;
}

function landedBothSides(cables: readonly Cable[], id: string): boolean {
  const ends = cables
    .filter((each) => each.kind === 'cable' && (each.construction === 'foil-and-braid' || each.construction === 'copper-tape'))
    .flatMap((cable) => [cable.from, cable.to])
    .filter((end) => end.element === id);
  return ends.length >= 2 && ends.every((end) => end.landing === 'full' || end.landing === 'clamp');
}
