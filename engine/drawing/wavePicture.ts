import { fixed } from '../lineup/roundTo.ts';
import { formatQuantity, inUnitOf, type Units, unitOf } from '../lineup/units.ts';
import type { Waveform } from '../review/waveform.ts';
import { type Ink, type Item, type Point, stroke, words } from './displayList.ts';

/** Two charts of a run's wave: the motor's terminals after one edge, and the peak against the length of the lead. Readable without colour. */

export const CHART = { w: 118, h: 70 } as const;
const PLOT = { x: 16, y: 6, w: 96, h: 48 } as const;

interface Axis {
  readonly most: number;
  readonly step: number;
  readonly digits: number;
}
/** Round steps, four to seven of them. */
function axis(most: number): Axis {
  const raw = most / 5;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 2.5, 5, 10].map((each) => each * power).find((each) => each >= raw) ?? 10 * power;
  return {
    step,
    most: Math.ceil(most / step - 1e-9) * step,
    digits: Math.max(0, -Math.floor(Math.log10(step) + 1e-9) + (step / power === 2.5 ? 1 : 0)),
  };
}

interface Chart {
  readonly title: string;
  readonly across: string;
  readonly points: readonly (readonly [number, number])[];
  readonly levels: readonly { readonly volts: number; readonly says: string; readonly ink: Ink; readonly dash: readonly number[] }[];
  /** Lines that bound it, drawn thin. */
  readonly bounds?: readonly (readonly (readonly [number, number])[])[];
  /** Places on the curve that are explained, with a number beside each. */
  readonly spots?: readonly { readonly at: readonly [number, number]; readonly says: string }[];
  /** What the value may be, at the dot. */
  readonly bar?: readonly [number, number];
  readonly upright?: { readonly at: number; readonly says: string };
  readonly dot?: readonly [number, number];
}

function chart({ title, across, points, levels, bounds = [], spots = [], bar, upright, dot }: Chart): readonly Item[] {
  // Room at the right for the words of the levels, clear of the curve.
  const xs = axis(1.35 * Math.max(...points.map(([x]) => x)) || 1);
  const ys = axis(1.1 * Math.max(...[points, ...bounds].flatMap((list) => list.map(([, y]) => y)), ...levels.map((each) => each.volts)));
  const least = Math.min(0, Math.floor(Math.min(...points.map(([, y]) => y)) / ys.step + 0.05) * ys.step);
  const at = (x: number, y: number): Point => [
    PLOT.x + (x / xs.most) * PLOT.w,
    PLOT.y + PLOT.h - ((Math.max(least, y) - least) / (ys.most - least)) * PLOT.h,
  ];
  const [left, bottom] = at(0, least);
  const items: Item[] = [words(title, 0, 3.4, 'start', 600)];
  for (let y = least; y <= ys.most + 1e-9; y += ys.step) {
    const [, py] = at(0, y);
    items.push(
      stroke(
        [
          [left, py],
          [left + PLOT.w, py],
        ],
        0.18,
        'rule',
      ),
      words(fixed(y, ys.digits), left - 1.5, py + 1.3, 'end'),
    );
  }
  for (let x = 0; x <= xs.most + 1e-9; x += xs.step) {
    const [px] = at(x, least);
    items.push(
      stroke(
        [
          [px, bottom],
          [px, bottom + 1.2],
        ],
        0.25,
        'ink',
      ),
      words(fixed(x, xs.digits), px, bottom + 5.2, 'middle'),
    );
  }
  items.push(
    stroke(
      [
        [left, PLOT.y],
        [left, bottom],
        [left + PLOT.w, bottom],
      ],
      0.35,
      'ink',
    ),
    words(across, left + PLOT.w, bottom + 10.4, 'end'),
  );
  for (const level of levels) {
    const [, py] = at(0, level.volts);
    items.push(
      stroke(
        [
          [left, py],
          [left + PLOT.w, py],
        ],
        0.35,
        level.ink,
        level.dash,
      ),
      words(level.says, left + PLOT.w, py - 1, 'end', 600, level.ink),
    );
  }
  if (upright && upright.at <= xs.most) {
    const [px] = at(upright.at, least);
    items.push(
      stroke(
        [
          [px, PLOT.y],
          [px, bottom],
        ],
        0.25,
        'ink',
        [0.6, 1],
      ),
      words(upright.says, px + 1, bottom - 1.5),
    );
  }
  items.push(
    stroke(
      points.map(([x, y]) => at(x, y)),
      0.5,
      'ink',
    ),
  );
  for (const bound of bounds)
    items.push(
      stroke(
        bound.map(([x, y]) => at(x, y)),
        0.25,
        'ink2',
        [1.2, 0.8],
      ),
    );
  for (const { at: spot, says } of spots) {
    const [x, y] = at(...spot);
    items.push({ t: 'circle', x, y, r: 0.8, weight_mm: 0.35, ink: 'ink', fill: 'canvas' }, words(says, x + 1.4, y - 1.4, 'start', 600));
  }
  if (dot && bar) {
    const [x, low] = at(dot[0], bar[0]);
    const [, high] = at(dot[0], bar[1]);
    items.push(
      stroke(
        [
          [x, low],
          [x, high],
        ],
        0.7,
        'ink',
      ),
      ...[low, high].map((y) =>
        stroke(
          [
            [x - 1.2, y],
            [x + 1.2, y],
          ],
          0.5,
          'ink',
        ),
      ),
    );
  }
  if (dot) {
    const [x, y] = at(...dot);
    items.push({ t: 'circle', x, y, r: 1.3, weight_mm: 0.5, ink: 'ink', fill: 'canvas' });
  }
  return items;
}

/**
 * The first turns of the wave: the front doubles, comes back from the drive upside down, and so on. Spots lie halfway through each, a
 * transit apart.
 */
function turns({ samples, turn_s }: Waveform): readonly { readonly at: readonly [number, number]; readonly says: string }[] {
  if (turn_s === null) return [];
  const transit_s = turn_s / 2;
  const end_s = samples.at(-1)?.[0] ?? 0;
  return [2, 4, 6].flatMap((transits, i) => {
    const sample = samples.find(([s]) => s >= transits * transit_s);
    return sample && transits * transit_s < end_s ? [{ at: [sample[0] * 1e6, sample[1]] as const, says: `${i + 1}` }] : [];
  });
}

/** What the numbered spots of a chart over time are. */
export const TURNS = [
  '1: the front arrives and is thrown back by the winding, which nearly doubles it.',
  '2: that wave comes back from the drive turned over, one way there and back later.',
  '3: and once more the right way up: the ring goes on until losses have eaten it.',
] as const;

/** @param limit_V what the winding is built for, or null where it is not known
 * @param units of the lengths */
export function waveCharts(wave: Waveform, limit_V: number | null, units: Units): readonly (readonly Item[])[] {
  // Colour is for what is wrong: a limit that is kept is a line like others.
  const ink = limit_V !== null && wave.peak_V > limit_V ? 'fail' : 'ink';
  const limit = limit_V === null ? [] : [{ volts: limit_V, says: `limit ${fixed(limit_V, 0)} V`, ink, dash: [2.4, 1] } as const];
  const bus = { volts: wave.bus_V, says: `bus ${fixed(wave.bus_V, 0)} V`, ink: 'ink2' as const, dash: [0.8, 0.8] };
  const along = (length_m: number): number => inUnitOf(length_m, 'length', units);
  const charts: (readonly Item[])[] = [
    chart({
      title: `${wave.motorTag}, V at the terminals after one edge`,
      across: 'µs after the edge',
      points: wave.samples.map(([s, volts]) => [s * 1e6, volts]),
      levels: [bus, ...limit],
      spots: turns(wave),
    }),
  ];
  if (wave.byLength.length > 0)
    charts.push(
      chart({
        title: `${wave.motorTag}, peak in V against length`,
        across: `${unitOf('length', units)} from drive to motor`,
        points: wave.byLength.map(({ length_m, central_V }) => [along(length_m), central_V]),
        bounds: [
          wave.byLength.map(({ length_m, low_V }) => [along(length_m), low_V]),
          wave.byLength.map(({ length_m, high_V }) => [along(length_m), high_V]),
        ],
        levels: [bus, ...limit],
        upright: { at: along(wave.critical_m), says: `critical ${formatQuantity(wave.critical_m, 'length', units)}` },
        dot: [along(wave.length_m), wave.peak_V],
        bar: [wave.low_V, wave.high_V],
      }),
    );
  return charts;
}
