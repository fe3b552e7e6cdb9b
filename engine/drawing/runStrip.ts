import type { Verdict } from '../checks/finding.ts';
import type { Review, SolvedRun } from '../checks/solved.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { fixed } from '../lineup/roundTo.ts';
import { formatQuantity } from '../lineup/units.ts';
import { sayOf } from '../lineup/vocabulary.ts';
import type { PeaksAlong } from '../review/waveform.ts';
import { type Box, type Ink, type Item, type Point, stroke, type TextItem, translate, WEIGHT, words } from './displayList.ts';
import { meets, textBox } from './extent.ts';
import { groundEnd } from './groundItems.ts';
import { badge } from './marks.ts';

/** One run unrolled from source to motor: cables to one scale of length, parts as stations between them, what is known along it in lanes. */

/** One part of the run in words: the strip for those who do not see it. */
export interface StripPlace {
  readonly id: string;
  readonly tag: string;
  /** What it takes of the strip's length. */
  readonly from_mm: number;
  readonly to_mm: number;
  /** From the drive to its far end, less than nothing towards the source; null where a length between is not known. */
  readonly distance_m: number | null;
  /** Of the voltage where this level begins, at its far end. */
  readonly voltage_pct: number | null;
  readonly shield: string;
  /** Of its protective conductors; '' for what is no cable. */
  readonly grounds: string;
  /** Available at it, ahead of the drive; null where it is not known. */
  readonly fault_A: number | null;
  /** After one edge of the drive, at its far end; null where it is not solved. */
  readonly peak_V: number | null;
  readonly around: string;
  /** Ids of what is found here, worst first. */
  readonly findings: readonly string[];
}
export interface StripPin {
  readonly x_mm: number;
  readonly findings: readonly string[];
}
export interface RunStrip {
  readonly items: readonly Item[];
  readonly places: readonly StripPlace[];
  readonly pins: readonly StripPin[];
  readonly width_mm: number;
}

/** As much of a line-up as is seen of a run: not where its parts stand. */
type Stripped = Pick<LineUp, 'project' | 'elements' | 'cables'>;

export const STRIP_HEIGHT_mm = 72;
/** Words at the left, and the motor's gauge at the right. */
const LEFT = 27;
const GAUGE = 50;
const USUAL_mm = 250;
const STATION = 8.6;
/** A cable whose length is not known is drawn this long, and dashed. */
const UNKNOWN = 16;
const LEAST_SCALED = 60;
/** Tops of the lanes. */
const Y = { pins: 3, tags: 10, line: 13, voltage: 19.6, fault: 33, shield: 46, grounds: 52.5, around: 58, ruler: 66.5 } as const;
const LANE = { voltage: 9.4, fault: 8, shield: 4, grounds: 3, around: 5.6 } as const;
/** Room of a badge with its number; stations stand farther apart. */
const PIN_GAP = 8.5;

/** Takes a text at the first place where it meets no other; where there is none it is left to the table of the same run. */
interface Words {
  readonly items: readonly Item[];
  readonly put: (...places: readonly TextItem[]) => void;
}
function wordsWithin(width_mm: number): Words {
  const items: Item[] = [];
  const boxes: Box[] = [];
  const put = (...places: readonly TextItem[]): void => {
    const found = places.find((each) => {
      const box = textBox(each);
      return each.text !== '' && box.x >= 0 && box.x + box.w <= width_mm && !boxes.some((other) => meets(box, other));
    });
    if (!found) return;
    items.push(found);
    boxes.push(textBox(found));
  };
  return { items, put };
}

type Member = { readonly part: Element | Cable; readonly cable: Cable | null; readonly length_m: number | null };
type Stood = Member & { readonly from_mm: number; readonly to_mm: number };

function membersOf(lineUp: Stripped, run: SolvedRun): readonly Member[] {
  const elements = new Map(lineUp.elements.map((each) => [each.id, each]));
  const cables = new Map(lineUp.cables.map((each) => [each.id, each]));
  return run.path.flatMap((id): readonly Member[] => {
    const cable = cables.get(id);
    if (cable) return [{ part: cable, cable, length_m: cable.kind === 'link' ? 0 : (cable.length_m ?? null) }];
    const element = elements.get(id);
    return element ? [{ part: element, cable: null, length_m: 0 }] : [];
  });
}

function stand(members: readonly Member[], wanted_mm: number): { readonly stood: readonly Stood[]; readonly end_mm: number } {
  const fixed_mm = members.reduce((sum, each) => sum + (each.cable === null ? STATION : each.length_m === null ? UNKNOWN : 0), 0);
  const total_m = members.reduce((sum, each) => sum + (each.length_m ?? 0), 0);
  const scaled_mm = Math.max(LEAST_SCALED, wanted_mm - LEFT - GAUGE - fixed_mm);
  let x = LEFT;
  const stood = members.map((each): Stood => {
    const from_mm = x;
    x += each.cable === null ? STATION : each.length_m === null ? UNKNOWN : total_m > 0 ? (each.length_m / total_m) * scaled_mm : 0;
    return { ...each, from_mm, to_mm: x };
  });
  return { stood, end_mm: x };
}

/** Distance of the far end of each member from the one at zero. */
function distances(members: readonly Member[], zero: number): readonly (number | null)[] {
  const between = (from: number, to: number): number | null =>
    members.slice(from, to).reduce<number | null>((sum, each) => (sum === null || each.length_m === null ? null : sum + each.length_m), 0);
  return members.map((_, i) => {
    if (i >= zero) return between(zero + 1, i + 1);
    const back = between(i + 1, zero);
    return back === null ? null : -back;
  });
}

const CHANGING: readonly string[] = ['transformer', 'reactor', 'filter', 'drive'];

/** Voltage at both ends of each cable, of what it is where its level begins: behind the supply, a transformer or the drive. */
function voltages(members: readonly Member[], review: Review): readonly ({ readonly start: number; readonly end: number } | null)[] {
  const volts = new Map(review.elements.map((each) => [each.id, each.voltage_V]));
  const drops = new Map(review.cables.map((each) => [each.id, each.drop_V]));
  let level: number | null = null;
  return members.map(({ part, cable }, i) => {
    if (part.kind === 'supply' || part.kind === 'transformer' || part.kind === 'drive') level = null;
    if (!cable) return null;
    const far = volts.get(members[i + 1]?.part.id ?? '') ?? null;
    const drop = cable.kind === 'link' ? (drops.get(cable.id) ?? 0) : (drops.get(cable.id) ?? null);
    if (far === null || drop === null) return null;
    // A part is solved at its line side: behind one that changes the voltage it is known from the far end alone.
    const before = members[i - 1]?.part;
    const near = before && !CHANGING.includes(before.kind) ? (volts.get(before.id) ?? null) : null;
    const start = near ?? far + drop;
    level ??= start;
    return { start: (100 * start) / level, end: (100 * far) / level };
  });
}

const SHIELDS = { shield: 'shield, whole', raceway: 'metal around it', none: 'no shield', unknown: 'not known' } as const;

/** What the check of the grounding conductor starts from, in words. */
function groundsOf({ cable }: Member): string {
  if (cable?.kind !== 'cable') return '';
  const { count, size } = cable.grounds;
  if (count === undefined) return 'not known';
  if (count === 0) return 'none';
  const ENDS = { landed: '', lost: 'not all landed', unknown: 'not known whether landed' } as const;
  const said = new Set([ENDS[groundEnd(cable, 'from')], ENDS[groundEnd(cable, 'to')]]);
  return [`${count} × ${size ?? 'size not known'}`, ...said].filter(Boolean).join(', ');
}

function aroundOf({ cable }: Member): string {
  if (!cable || cable.kind === 'link') return '';
  const { moisture } = cable.installation;
  const { type, voltage_V } = cable.insulation ?? {};
  return [moisture ?? 'moisture not known', [type, voltage_V === undefined ? '' : `${voltage_V} V`].filter(Boolean).join(' ')]
    .filter(Boolean)
    .join(', ');
}

/**
 * @param wanted_mm how wide it should be; parts that need more have it
 * @param peaks along the lead, where they can be told
 */
export function runStrip(lineUp: Stripped, review: Review, run: SolvedRun, wanted_mm = USUAL_mm, peaks: PeaksAlong = []): RunStrip {
  const members = membersOf(lineUp, run);
  const say = sayOf(lineUp);
  const { stood, end_mm } = stand(members, wanted_mm);
  const width_mm = end_mm + GAUGE;
  const text = wordsWithin(width_mm);
  const items: Item[] = [];
  // Lengths count from the drive, or from the source where there is none.
  const zero = Math.max(
    0,
    members.findIndex((each) => each.part.id === run.driveId),
  );
  const far = distances(members, zero);
  const volts = voltages(members, review);
  const carriers = new Map(review.cables.map((each) => [each.id, each.shield]));
  const faults = new Map(review.elements.map((each) => [each.id, each.faultCurrent_A]));
  const ids = new Set(run.path);
  const own = review.findings.filter((each) => (each.subject.kind === 'run' ? each.subject.id === run.motorId : ids.has(each.subject.id)));
  const broken = new Map(run.breaks.flatMap((each) => (each.elementId === null ? [] : [[each.elementId, each.state] as const])));
  const shieldAt = ({ part, cable }: Member): string => {
    if (cable) return say(SHIELDS[carriers.get(cable.id) ?? 'unknown']);
    const state = broken.get(part.id);
    return state === 'broken' ? 'broken here' : state === 'open' ? 'not known' : '';
  };

  for (const [y, heading, unit] of [
    [Y.tags, run.motorTag, ''],
    [Y.voltage + 3, 'Voltage', '% of its start'],
    [Y.fault + 3, 'Fault, kA', peaks.length > 0 ? 'peak, V' : ''],
    [Y.shield + 3, say('Shield'), ''],
    [Y.grounds + 2.8, say('Grounds'), ''],
    [Y.around + 4, 'Around it', ''],
    [Y.ruler + 4.2, lineUp.project.units === 'us' ? 'ft' : 'm', ''],
  ] as const) {
    text.put(words(heading, 0, y, 'start', 600));
    text.put(words(unit, 0, y + 4.7, 'start', 400, 'ink2'));
  }

  const pins = pinsOf(stood, own, run);
  for (const pin of pins) {
    const verdict = own.find((each) => each.id === pin.findings[0])?.verdict ?? 'note';
    items.push(
      stroke(
        [
          [pin.x_mm, Y.pins + 2.2],
          [pin.x_mm, Y.tags - 3.2],
        ],
        WEIGHT.thin,
        INKS[verdict] ?? 'ink2',
        verdict === 'fail' ? undefined : [0.8, 0.8],
      ),
      ...translate(badge(verdict), pin.x_mm, Y.pins),
    );
    if (pin.findings.length > 1) text.put(words(`${pin.findings.length}`, pin.x_mm + 2.4, Y.pins + 1.3, 'start', 600));
  }

  items.push(
    ...voltageLane(stood, volts, text, end_mm),
    ...faultLane(stood, faults, text, end_mm),
    ...peakLane(stood.slice(zero), peaks, limitOf(review, run), text),
  );
  stood.forEach((each, i) => {
    const { part, cable, from_mm, to_mm } = each;
    const middle = (from_mm + to_mm) / 2;
    if (cable) items.push(...cableItems(each, carriers.get(cable.id) ?? 'unknown'), ...groundsItems(each));
    else {
      items.push(
        stroke(
          [
            [from_mm, Y.line],
            [to_mm, Y.line],
          ],
          WEIGHT.thin,
        ),
        { t: 'rect', x: middle - 1.1, y: Y.line - 1.1, w: 2.2, h: 2.2, weight_mm: WEIGHT.line, ink: 'ink', fill: 'canvas' },
        ...breakItems(middle, broken.get(part.id)),
      );
    }
    // Tags of stations stand above the line; where two are close, the second goes below it. Those of cables go where there is room left.
    if (!cable) text.put(words(part.tag, middle, Y.tags, 'middle', 600), words(part.tag, middle, Y.line + 5, 'middle', 600));
    if (cable?.kind === 'cable') {
      // Each counts at the end that is farther from the drive.
      const [at, distance] = i > zero ? [to_mm, far[i]] : [from_mm, far[i - 1]];
      items.push(
        stroke(
          [
            [at, Y.ruler - 1],
            [at, Y.ruler + 1],
          ],
          WEIGHT.thin,
        ),
      );
      const length = typeof distance === 'number' ? formatQuantity(Math.abs(distance), 'length', lineUp.project.units) : '';
      text.put(words(length.replace(/\s.*$/, ''), at, Y.ruler + 4.2, 'middle'));
    }
    if (i === zero) text.put(words('0', middle, Y.ruler + 4.2, 'middle', 600));
  });
  for (const { part, cable, from_mm, to_mm, length_m } of stood) {
    if (!cable || cable.kind === 'link') continue;
    const middle = (from_mm + to_mm) / 2;
    const size = cable.conductor?.size;
    text.put(
      words(size === undefined ? part.tag : `${part.tag}  ${size}`, middle, Y.tags, 'middle'),
      words(part.tag, middle, Y.tags, 'middle'),
      words(part.tag, middle, Y.line + 5, 'middle'),
    );
    if (length_m === null) text.put(words('?', middle, Y.ruler + 4.2, 'middle', 600, 'open'));
  }
  for (const each of stood) {
    const says = aroundOf(each);
    const room = (some: string): TextItem => words(some, (each.from_mm + each.to_mm) / 2, Y.around + 3.9, 'middle');
    text.put(...[says, says.split(', ')[0] ?? ''].map(room).filter((one) => textBox(one).w <= each.to_mm - each.from_mm - 1));
  }
  items.push(
    stroke(
      [
        [LEFT, Y.ruler],
        [end_mm, Y.ruler],
      ],
      WEIGHT.thin,
      'rule2',
    ),
    ...gauge(review, run, end_mm, text),
  );
  const places = stood.map(
    (each, i): StripPlace => ({
      id: each.part.id,
      tag: each.part.tag,
      from_mm: each.from_mm,
      to_mm: each.to_mm,
      distance_m: far[i] ?? null,
      voltage_pct: volts[i]?.end ?? null,
      shield: shieldAt(each),
      grounds: say(groundsOf(each)),
      fault_A: faults.get(each.part.id) ?? null,
      peak_V: i < zero ? null : peakAt(peaks, far[i] ?? null),
      around: aroundOf(each),
      findings: own.filter(({ subject, verdict }) => subject.id === each.part.id && SHOWN.includes(verdict)).map(({ id }) => id),
    }),
  );
  return { items: [...items, ...text.items], places, pins, width_mm };
}

const INKS: Partial<Readonly<Record<Verdict, Ink>>> = { fail: 'fail', open: 'open', caution: 'caution' };
const SHOWN: readonly Verdict[] = ['fail', 'open', 'caution'];

/** Pins over the places they belong to, the worst first: what would lie on a pin that stands already joins it. */
function pinsOf(stood: readonly Stood[], own: Review['findings'], run: SolvedRun): readonly StripPin[] {
  const pins: { readonly x_mm: number; readonly findings: string[] }[] = [];
  for (const verdict of SHOWN)
    for (const { id, subject } of own.filter((each) => each.verdict === verdict)) {
      const at = stood.find((each) => each.part.id === (subject.kind === 'run' ? run.motorId : subject.id));
      if (!at) continue;
      const x_mm = subject.end === 'from' ? at.from_mm : subject.end === 'to' ? at.to_mm : (at.from_mm + at.to_mm) / 2;
      const near = pins
        .filter((pin) => Math.abs(pin.x_mm - x_mm) < PIN_GAP)
        .sort((a, b) => Math.abs(a.x_mm - x_mm) - Math.abs(b.x_mm - x_mm))[0];
      if (near) near.findings.push(id);
      else pins.push({ x_mm, findings: [id] });
    }
  return pins.sort((a, b) => a.x_mm - b.x_mm);
}

function voltageLane(
  stood: readonly Stood[],
  volts: readonly ({ readonly start: number; readonly end: number } | null)[],
  text: Words,
  end_mm: number,
): readonly Item[] {
  const least = Math.min(95, ...volts.map((each) => Math.floor(each?.end ?? 100)));
  const at = (pct: number): number => Y.voltage + ((100 - pct) / (100 - least)) * LANE.voltage;
  const items: Item[] = [100, least].map((pct) =>
    stroke(
      [
        [LEFT, at(pct)],
        [end_mm, at(pct)],
      ],
      WEIGHT.hair,
      'rule',
    ),
  );
  let line: Point[] = [];
  const end = (): void => {
    const last = line.at(-1);
    // Inside one enclosure nothing is lost that could be seen.
    if (last && last[0] !== line[0]?.[0]) {
      items.push(stroke(line, WEIGHT.line));
      const pct = 100 - ((last[1] - Y.voltage) / LANE.voltage) * (100 - least);
      const says = `${fixed(pct, 2)} %`;
      text.put(words(says, last[0] - 1, last[1] + 4.2, 'end'), words(says, last[0] - 1, last[1] - 1.2, 'end'));
    }
    line = [];
  };
  stood.forEach(({ part, cable, from_mm, to_mm }, i) => {
    const here = volts[i];
    if (cable && here) line.push([from_mm, at(here.start)], [to_mm, at(here.end)]);
    else if (cable) {
      end();
      if (cable.kind === 'cable') text.put(words('?', (from_mm + to_mm) / 2, Y.voltage + LANE.voltage / 2 + 1.3, 'middle', 600, 'open'));
    } else if (part.kind === 'drive' || part.kind === 'transformer') end();
  });
  end();
  for (const pct of [100, least]) text.put(words(`${pct}`, LEFT - 1, at(pct) + 1.3, 'end', 400, 'ink2'));
  return items;
}

/** What is available at each station ahead of the drive, anew behind a transformer; behind the drive it limits the current itself. */
function faultLane(stood: readonly Stood[], faults: ReadonlyMap<string, number | null>, text: Words, end_mm: number): readonly Item[] {
  const levels: { readonly x: number; readonly amperes: number }[][] = [[]];
  for (const { part, from_mm, to_mm } of stood) {
    const amperes = faults.get(part.id) ?? null;
    // A transformer is solved at its own line side: what follows it stands at another voltage.
    if (amperes !== null) levels.at(-1)?.push({ x: (from_mm + to_mm) / 2, amperes });
    if (part.kind === 'transformer') levels.push([]);
  }
  const bottom = Y.fault + LANE.fault;
  const most = Math.max(...levels.flat().map(({ amperes }) => amperes));
  const at = (amperes: number): number => bottom - (amperes / most) * LANE.fault;
  const items: Item[] = [
    stroke(
      [
        [LEFT, bottom],
        [end_mm, bottom],
      ],
      WEIGHT.hair,
      'rule',
    ),
  ];
  for (const level of levels) {
    const ends = new Set([level[0], level.at(-1)].flatMap((each) => each ?? []));
    for (const { x, amperes } of ends) {
      const says = fixed(amperes / 1000, 2);
      const [y, end] = [at(amperes), 'end' as const];
      const beside = [
        words(says, x + 1, y - 1),
        words(says, x + 1.2, y + 4),
        words(says, x - 1, y - 1, end),
        words(says, x - 1, y + 4, end),
      ];
      // Behind the last one the lane is that of the peak.
      text.put(...(x === levels.at(-1)?.at(-1)?.x ? beside.reverse() : beside));
    }
    if (level.length > 1)
      items.push(
        stroke(
          level.map(({ x, amperes }): Point => [x, at(amperes)]),
          WEIGHT.line,
        ),
      );
    for (const { x, amperes } of level)
      items.push({ t: 'circle', x, y: at(amperes), r: 0.5, weight_mm: WEIGHT.thin, ink: 'ink', fill: 'ink' });
  }
  return items;
}

type Peak = PeaksAlong[number];

/** Between the places that were solved the curve is straight. */
function peakAt(peaks: PeaksAlong, at_m: number | null, of: keyof Omit<Peak, 'at_m' | 'from'> = 'central_V'): number | null {
  const next = peaks.findIndex((each) => at_m !== null && each.at_m >= at_m - 1e-6);
  const [a, b] = [peaks[Math.max(0, next - 1)], peaks[next]];
  if (at_m === null || !a || !b) return null;
  return a[of] + (b.at_m > a.at_m ? (at_m - a.at_m) / (b.at_m - a.at_m) : 1) * (b[of] - a[of]);
}

/** How high one edge of the drive stands at each place of the lead, what it may be between thin lines, and the motor's limit above. */
function peakLane(lead: readonly Stood[], peaks: PeaksAlong, { limit_V, ink }: Limit, text: Words): readonly Item[] {
  const [first, last] = [lead[0], lead.at(-1)];
  if (peaks.length === 0 || !first || !last) return [];
  const bottom = Y.fault + LANE.fault;
  // At the drive nothing stands above the bus: there the lane begins.
  const bus_V = Math.min(...peaks.map((each) => each.low_V));
  const least = Math.min(bus_V, limit_V ?? bus_V);
  const most = Math.max(limit_V ?? 0, ...peaks.map((each) => each.high_V));
  const y = (volts: number): number => bottom - ((volts - least) / (most - least)) * LANE.fault;
  text.put(words(`bus ${fixed(bus_V, 0)}`, last.from_mm - 1, y(bus_V) + 3.7, 'end', 400, 'ink2'));
  const across = (at: number, weight: number, as: Ink, dash?: readonly number[]): Item =>
    stroke(
      [
        [first.to_mm, at],
        [last.from_mm, at],
      ],
      weight,
      as,
      dash,
    );
  const along: { readonly x: number; readonly at_m: number }[] = [];
  let start_m = 0;
  for (const { length_m, from_mm, to_mm } of lead) {
    const [from_m, long_m] = [start_m, length_m ?? 0];
    const inside = peaks.filter(({ at_m }) => at_m > from_m && at_m < from_m + long_m);
    if (long_m > 0)
      for (const at_m of [from_m, ...inside.map((each) => each.at_m), from_m + long_m])
        along.push({ x: from_mm + ((at_m - from_m) / long_m) * (to_mm - from_mm), at_m });
    start_m += long_m;
  }
  const curve = (of: keyof Omit<Peak, 'at_m' | 'from'>): Point[] =>
    along.flatMap(({ x, at_m }): readonly Point[] => {
      const volts = peakAt(peaks, at_m, of);
      return volts === null ? [] : [[x, y(volts)]];
    });
  return [
    across(y(bus_V), WEIGHT.hair, 'rule2'),
    ...(limit_V === null ? [] : [across(y(limit_V), WEIGHT.line, ink, [1.2, 0.6])]),
    stroke(curve('low_V'), WEIGHT.thin, 'ink2', [0.8, 0.8]),
    stroke(curve('high_V'), WEIGHT.thin, 'ink2', [0.8, 0.8]),
    stroke(curve('central_V'), WEIGHT.line),
  ];
}

/** One line for each grounding conductor; one that is not landed ends in an open ring, one that may not be in dots. */
function groundsItems({ cable, from_mm, to_mm }: Stood): readonly Item[] {
  if (cable?.kind !== 'cable' || cable.grounds.count === 0) return [];
  const count = Math.min(cable.grounds.count ?? 1, MOST_GROUNDS);
  return Array.from({ length: count }, (_, i) => {
    const y = Y.grounds + ((i + 0.5) * LANE.grounds) / count;
    const ends = (['from', 'to'] as const).map((end) => (cable.grounds.count === undefined ? 'unknown' : landedAt(cable, end, i)));
    const ring = (x: number): Item => ({ t: 'circle', x, y, r: 0.6, weight_mm: WEIGHT.thin, ink: 'ink', fill: 'canvas' });
    const [x0, x1] = [from_mm + (ends[0] === 'lost' ? 1 : 0), to_mm - (ends[1] === 'lost' ? 1 : 0)];
    return [
      stroke(
        [
          [x0, y],
          [x1, y],
        ],
        WEIGHT.thin,
        ends.includes('unknown') ? 'open' : 'ink',
        ends.includes('unknown') ? [0.3, 1.2] : undefined,
      ),
      ...(ends[0] === 'lost' ? [ring(x0)] : []),
      ...(ends[1] === 'lost' ? [ring(x1)] : []),
    ];
  }).flat();
}
/** More cannot be told apart in their lane. */
const MOST_GROUNDS = 3;

/** Of those that are drawn, as many are landed as the document says. */
function landedAt({ grounds, ...cable }: Cable, end: 'from' | 'to', i: number): 'landed' | 'lost' | 'unknown' {
  const landed = cable[end].groundsLanded;
  return landed === undefined ? 'unknown' : i < landed - Math.max(0, (grounds.count ?? 0) - MOST_GROUNDS) ? 'landed' : 'lost';
}

function cableItems({ cable, from_mm, to_mm, length_m }: Stood, carrier: keyof typeof SHIELDS): readonly Item[] {
  const metal: Ink = cable?.conductor?.metal === 'aluminium' ? 'aluminium' : cable?.conductor?.metal === 'copper' ? 'copper' : 'ink';
  const items: Item[] = [
    stroke(
      [
        [from_mm, Y.line],
        [to_mm, Y.line],
      ],
      WEIGHT.heavy,
      metal,
      length_m === null ? [2, 1.2] : undefined,
    ),
  ];
  if (cable?.kind !== 'cable') return items;
  const across = (y: number, weight: number, ink: Ink, dash?: readonly number[]): Item =>
    stroke(
      [
        [from_mm, y],
        [to_mm, y],
      ],
      weight,
      ink,
      dash,
    );
  const [top, bottom] = [Y.shield, Y.shield + LANE.shield];
  if (carrier === 'shield')
    items.push(
      { t: 'rect', x: from_mm, y: top, w: to_mm - from_mm, h: LANE.shield, weight_mm: 0, ink: 'noteTint', fill: 'noteTint' },
      across(top, WEIGHT.line, 'ink', [1.6, 0.8]),
      across(bottom, WEIGHT.line, 'ink', [1.6, 0.8]),
    );
  else if (carrier === 'raceway') items.push(across(top, WEIGHT.thin, 'ink'), across(bottom, WEIGHT.thin, 'ink'));
  else if (carrier === 'unknown') items.push(across((top + bottom) / 2, WEIGHT.line, 'open', [0.3, 1.2]));
  const { moisture } = cable.installation;
  items.push({
    t: 'rect',
    x: from_mm,
    y: Y.around,
    w: to_mm - from_mm,
    h: LANE.around,
    weight_mm: WEIGHT.thin,
    ink: moisture === undefined ? 'rule' : 'rule2',
  });
  // Wetness lies at the foot of the zone: short strokes for damp, long ones for wet.
  if (moisture === 'damp' || moisture === 'wet')
    items.push(across(Y.around + LANE.around - 0.7, WEIGHT.line, 'ink2', moisture === 'wet' ? [2.6, 0.7] : [0.8, 1.4]));
  return items;
}

function breakItems(x: number, state: 'broken' | 'open' | undefined): readonly Item[] {
  const [top, bottom] = [Y.shield, Y.shield + LANE.shield];
  const upright = (at: number, ink: Ink): Item =>
    stroke(
      [
        [at, top - 0.8],
        [at, bottom + 0.8],
      ],
      WEIGHT.heavy,
      ink,
    );
  if (state === 'broken')
    return [
      upright(x - 3, 'fail'),
      upright(x + 3, 'fail'),
      stroke(
        [
          [x - 1.3, top + 0.7],
          [x + 1.3, bottom - 0.7],
        ],
        WEIGHT.line,
        'fail',
      ),
      stroke(
        [
          [x - 1.3, bottom - 0.7],
          [x + 1.3, top + 0.7],
        ],
        WEIGHT.line,
        'fail',
      ),
    ];
  return state === 'open' ? translate(badge('open'), x, (top + bottom) / 2) : [];
}

interface Limit {
  readonly limit_V: number | null;
  readonly says: string;
  readonly ink: Ink;
}

function limitOf({ findings }: Review, run: SolvedRun): Limit {
  const judged = findings.find((each) => each.check === 'motor-peak-voltage' && each.subject.id === run.motorId);
  const limit_V = judged?.limit ?? null;
  return {
    limit_V,
    // A limit that stands for one that is not known says so.
    says: limit_V === null ? '' : `limit ${fixed(limit_V, 0)}${judged?.verdict === 'open' ? '?' : ''}`,
    ink: judged?.verdict === 'fail' || judged?.verdict === 'open' ? judged.verdict : 'ink',
  };
}

/** What the motor sees after an edge, against what its winding is built for. */
function gauge(review: Review, run: SolvedRun, from_mm: number, text: Words): readonly Item[] {
  const x = from_mm + 6;
  const [top, bottom] = [Y.line + 3, Y.ruler];
  text.put(words('At the motor, V', x, Y.tags, 'start', 600));
  const { limit_V: limit, says: limitSays, ink: limitInk } = limitOf(review, run);
  const { peak_V: peak, peakLow_V: low, peakHigh_V: high } = run;
  if (peak === null) {
    text.put(words('peak not known', x, top + 6, 'start', 400, 'open'));
    if (limit !== null) text.put(words(limitSays, x, top + 12));
    return [];
  }
  const most = 1.1 * Math.max(peak, high ?? 0, limit ?? 0);
  const y = (volts: number): number => bottom - (volts / most) * (bottom - top);
  const mark = (volts: number, weight: number, ink: Ink, dash?: readonly number[]): Item =>
    stroke(
      [
        [x - 1, y(volts)],
        [x + 5, y(volts)],
      ],
      weight,
      ink,
      dash,
    );
  const items: Item[] = [
    { t: 'rect', x, y: top, w: 4, h: bottom - top, weight_mm: WEIGHT.thin, ink: 'rule2' },
    { t: 'rect', x: x + 1, y: y(peak), w: 2, h: bottom - y(peak), weight_mm: 0, ink: 'rule2', fill: 'rule2' },
    mark(peak, WEIGHT.heavy, 'ink'),
  ];
  if (low !== null && high !== null)
    items.push(
      stroke(
        [
          [x + 2, y(low)],
          [x + 2, y(high)],
        ],
        WEIGHT.line,
        'ink',
      ),
      ...[low, high].map((each) =>
        stroke(
          [
            [x + 0.8, y(each)],
            [x + 3.2, y(each)],
          ],
          WEIGHT.line,
          'ink',
        ),
      ),
    );
  if (limit !== null) items.push(mark(limit, WEIGHT.line, limitInk, [1.2, 0.6]));
  if (run.bus_V !== null) items.push(mark(run.bus_V, WEIGHT.thin, 'ink2'));
  const says = [
    { at: peak, says: `peak ${fixed(peak, 0)}`, weight: 600 as const, ink: 'ink' as const },
    ...(limit === null ? [] : [{ at: limit, says: limitSays, weight: 600 as const, ink: limitInk }]),
    ...(run.bus_V === null ? [] : [{ at: run.bus_V, says: `bus ${fixed(run.bus_V, 0)}`, weight: 400 as const, ink: 'ink2' as const }]),
  ].sort((a, b) => b.at - a.at);
  // Each beside its mark, or as far below it as those above need.
  let free = top;
  for (const each of says) {
    const baseline = Math.max(free + 3.6, y(each.at) + 1.3);
    text.put(words(each.says, x + 7, baseline, 'start', each.weight, each.ink));
    free = baseline + 1.2;
  }
  if (low !== null && high !== null) text.put(words(`${fixed(low, 0)} to ${fixed(high, 0)}`, x, Y.ruler + 4.2));
  return items;
}
