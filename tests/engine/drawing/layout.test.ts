import { describe, expect, it } from 'vitest';
import { textBox } from '../../../engine/drawing/extent.ts';
import { type Item, type LineUp, oneLine, review, tidyPositions } from '../../../engine/index.ts';
import { LineUpBuilder } from '../lineUpBuilder.ts';
import { manyRuns } from '../manyRuns.ts';

/** One drive, a trunk from box to box, and at each box what branches off to its motor. */
function onTees(motors: number, between: readonly ('disconnect' | 'contactor')[] = []): LineUp {
  const site = new LineUpBuilder({ title: `${motors} motors on tees` })
    .part('supply', { tag: 'S-1', voltage_V: 480, frequency_Hz: 60 })
    .part('drive', { tag: 'VFD-1', ratedVoltage_V: 480 });
  for (let i = 1; i <= motors; i++) {
    site.cable({ tag: `T-${i}` }).part('junction', { tag: `J-${i}`, box: 'metal' });
    for (const kind of between) site.cable({ tag: `D-${i}` }).part(kind, { tag: `DS-${i}`, box: 'plastic' });
    site
      .cable({ tag: `W-${i}` })
      .part('motor', { tag: `M-${i}` })
      .from(`J-${i}`);
  }
  return site.build();
}

const places = (lineUp: LineUp) => {
  const at = tidyPositions(lineUp);
  return (tag: string) => at[lineUp.elements.find((each) => each.tag === tag)?.id ?? ''] ?? { x_mm: Number.NaN, y_mm: Number.NaN };
};

const common = (a: { x: number; y: number; w: number; h: number }, b: typeof a): number =>
  Math.max(0, Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x)) * Math.max(0, Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y));

describe('a trunk with a box for each motor', () => {
  it.each([[[]], [['disconnect']], [['disconnect', 'contactor']]] as const)(
    'goes straight down, with %j before each motor beside it',
    (between) => {
      const of = places(onTees(20, between));
      const trunk = Array.from({ length: 20 }, (_, i) => of(`J-${i + 1}`));
      expect(new Set([of('VFD-1').x_mm, ...trunk.map((each) => each.x_mm)]).size).toBe(1);
      trunk.forEach((each, i) => {
        const motor = of(`M-${i + 1}`);
        expect(motor.y_mm).toBeGreaterThan(each.y_mm);
        // The last box has its motor straight below.
        expect(Math.abs(motor.x_mm - each.x_mm)).toBe(i === 19 ? 0 : 100);
      });
    },
  );

  it('takes both sides by turns', () => {
    const of = places(onTees(20));
    const sides = Array.from({ length: 19 }, (_, i) => Math.sign(of(`M-${i + 1}`).x_mm - of('J-1').x_mm));
    for (let i = 1; i < sides.length; i++) expect(sides[i]).toBe(-(sides[i - 1] ?? 0));
  });

  it.each([
    [2, []],
    [5, []],
    [20, []],
    [20, ['disconnect']],
    [7, ['disconnect', 'contactor']],
  ] as const)('of %i motors, %j before each, has nothing on anything else', (motors, between) => {
    const lineUp = onTees(motors, between);
    const drawing = oneLine(lineUp, review(lineUp));
    const elements = drawing.parts.filter((part) => part.kind === 'element');
    const clashes: string[] = [];
    elements.forEach((a, i) => {
      for (const b of elements.slice(i + 1)) if (common(a, b) > 0) clashes.push(`${a.id} on ${b.id}`);
    });
    const texts = drawing.items.filter((item): item is Extract<Item, { t: 'text' }> => item.t === 'text');
    texts.forEach((a, i) => {
      for (const b of texts.slice(i + 1)) if (common(textBox(a), textBox(b)) > 0.3) clashes.push(`${a.text} on ${b.text}`);
    });
    // No cable runs over a part that it does not end at.
    for (const cable of lineUp.cables) {
      const line = drawing.parts.find((part) => part.id === cable.id)?.items.find((item) => item.t === 'line');
      const points = line?.t === 'line' ? line.points : [];
      points.slice(1).forEach((to, i) => {
        const from = points[i] ?? to;
        const box = {
          x: Math.min(from[0], to[0]) - 0.1,
          y: Math.min(from[1], to[1]) - 0.1,
          w: Math.abs(from[0] - to[0]) + 0.2,
          h: Math.abs(from[1] - to[1]) + 0.2,
        };
        for (const part of elements)
          if (part.id !== cable.from.element && part.id !== cable.to.element && common(box, part) > 0)
            clashes.push(`${cable.tag} over ${part.id}`);
      });
    }
    expect(clashes).toEqual([]);
  });

  it('may carry several motors at one box, and end in a box with two', () => {
    const site = new LineUpBuilder().part('drive', { tag: 'VFD-1' }).cable({}).part('junction', { tag: 'J-1' });
    for (const i of [1, 2, 3])
      site
        .cable({})
        .part('motor', { tag: `M-${i}` })
        .from('J-1');
    site.cable({}).part('junction', { tag: 'J-2' });
    for (const i of [4, 5])
      site
        .cable({})
        .part('motor', { tag: `M-${i}` })
        .from('J-2');
    const of = places(site.build());
    expect(of('J-2').x_mm).toBe(of('J-1').x_mm);
    expect([1, 2, 3].map((i) => of(`M-${i}`).x_mm - of('J-1').x_mm)).toEqual([100, -100, 200]);
    // Those at the end stand lower than all that left before.
    expect([4, 5].map((i) => of(`M-${i}`).x_mm - of('J-2').x_mm)).toEqual([-50, 50]);
    expect(of('J-2').y_mm).toBeGreaterThanOrEqual(of('M-1').y_mm + 16);
  });
});

it('boxes that divide alike stand side by side under their middle', () => {
  const site = new LineUpBuilder().part('junction', { tag: 'J' });
  for (const i of [1, 2]) {
    site.cable({}).part('junction', { tag: `J-${i}` });
    for (const j of [1, 2])
      site
        .cable({})
        .part('motor', { tag: `M-${i}${j}` })
        .from(`J-${i}`);
    site.from('J');
  }
  const of = places(site.build());
  expect(['M-11', 'M-12', 'M-21', 'M-22'].map((tag) => of(tag).x_mm)).toEqual([0, 100, 200, 300]);
  expect([of('J-1').x_mm, of('J').x_mm, of('J-2').x_mm]).toEqual([50, 150, 250]);
});

it('a run of five thousand boxes is laid out', () => {
  const row = manyRuns(1);
  const [first] = row.elements;
  const [cable] = row.cables;
  if (!first || !cable) throw new Error('no run');
  const elements = Array.from({ length: 5000 }, (_, i) => ({
    id: `j${i}`,
    tag: `J-${i}`,
    kind: 'junction' as const,
    box: 'metal' as const,
  }));
  const cables = elements.slice(1).map((each, i) => ({ ...cable, id: `k${i}`, from: { element: `j${i}` }, to: { element: each.id } }));
  const at = tidyPositions({ ...row, elements, cables });
  expect(Object.keys(at)).toHaveLength(5000);
  expect(new Set(Object.values(at).map((each) => each.x_mm)).size).toBe(1);
});
