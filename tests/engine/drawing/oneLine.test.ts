import { describe, expect, it } from 'vitest';
import type { TextItem } from '../../../engine/drawing/displayList.ts';
import { meets, textBox } from '../../../engine/drawing/extent.ts';
import { tidyPositions } from '../../../engine/drawing/layout.ts';
import { oneLine } from '../../../engine/drawing/oneLine.ts';
import { routeCable } from '../../../engine/drawing/route.ts';
import { svgOf } from '../../../engine/drawing/svg.ts';
import { kindSymbol } from '../../../engine/drawing/symbols.ts';
import { ELEMENT_KINDS, newLineUp, PORTS, review } from '../../../engine/index.ts';
import { threeRuns } from './threeRuns.ts';

const texts = (lineUp = threeRuns()) => oneLine(lineUp, review(lineUp)).items.filter((item): item is TextItem => item.t === 'text');

describe('one-line', () => {
  it('sets no text over another', () => {
    const all = texts();
    expect(all.length).toBeGreaterThan(30);
    const covered = all.flatMap((a, i) =>
      all.slice(i + 1).flatMap((b) => (meets(textBox(a), textBox(b)) ? [`${a.text} / ${b.text}`] : [])),
    );
    expect(covered).toEqual([]);
  });

  it('shows every tag once, and the phrase of the worst finding of a part', () => {
    const lineUp = threeRuns();
    const shown = texts(lineUp).map((item) => item.text);
    for (const element of lineUp.elements) expect(shown.filter((text) => text === element.tag)).toHaveLength(1);
    const worst = review(lineUp).findings[0];
    expect(worst?.verdict).toBe('fail');
    expect(shown.join(' ')).toContain(worst?.phrase.split(' ')[0] ?? 'no phrase');
  });

  it('says beside a switch in a motor lead how it may be opened, and beside no other', () => {
    const opened = (earlyBreakContact?: 'wired' | 'absent') => {
      const lineUp = threeRuns();
      const elements = lineUp.elements.map((each) =>
        each.kind === 'disconnect' ? { ...each, ...(earlyBreakContact ? { earlyBreakContact } : { earlyBreakContact: undefined }) } : each,
      );
      const answer = review({ ...lineUp, elements });
      const inLeads = new Set(answer.findings.flatMap(({ check, subject }) => (check === 'output-disconnect' ? [subject.id] : [])));
      const said = oneLine({ ...lineUp, elements }, answer).items.flatMap((item) => (item.t === 'text' ? [item.text] : []));
      expect(inLeads.size).toBeGreaterThan(0);
      return [
        inLeads.size,
        said.filter((text) => text === 'not under load').length,
        said.filter((text) => text === 'early break wired').length,
      ];
    };
    for (const contact of [undefined, 'absent'] as const) {
      const [switches, stopped, wired] = opened(contact);
      expect([stopped, wired]).toEqual([switches, 0]);
    }
    const [switches, stopped, wired] = opened('wired');
    expect([stopped, wired]).toEqual([0, switches]);
  });

  it('is drawn the same twice, whatever the order of the keys in the positions', () => {
    const lineUp = threeRuns();
    const again = { ...lineUp, positions: Object.fromEntries(Object.entries(tidyPositions(lineUp)).reverse()) };
    expect(oneLine(again, review(again)).items).toEqual(oneLine(lineUp, review(lineUp)).items);
  });

  it('prints nothing smaller than 3.8 mm', () => {
    expect(Math.min(...texts().map((item) => item.size_mm))).toBeGreaterThanOrEqual(3.8);
  });

  it('draws an empty line-up as nothing', () => {
    const empty = newLineUp();
    expect(oneLine(empty, review(empty)).items).toEqual([]);
  });

  it('escapes what people type', () => {
    const lineUp = threeRuns();
    const odd = { ...lineUp, elements: lineUp.elements.map((each) => ({ ...each, tag: `<${each.tag}&"` })) };
    const drawn = oneLine(odd, review(odd));
    const svg = svgOf(drawn.items, { x: drawn.x_mm, y: drawn.y_mm, w: drawn.width_mm, h: drawn.height_mm });
    expect(svg).toContain('&lt;M-1&amp;&quot;');
    expect(svg).not.toMatch(/NaN|undefined/);
  });
});

describe('tidy', () => {
  it('puts the source on top, the bus level, one run a column', () => {
    const lineUp = threeRuns();
    const at = tidyPositions(lineUp);
    const of = (tag: string) => at[lineUp.elements.find((each) => each.tag === tag)?.id ?? ''] ?? { x_mm: NaN, y_mm: NaN };
    expect(of('UTIL').y_mm).toBe(0);
    const xs = ['M-1', 'M-2', 'M-3'].map((tag) => of(tag).x_mm);
    expect(new Set(['M-1', 'M-2', 'M-3'].map((tag) => of(tag).y_mm)).size).toBe(1);
    expect((xs[1] ?? 0) - (xs[0] ?? 0)).toBeGreaterThanOrEqual(75);
    expect((xs[2] ?? 0) - (xs[1] ?? 0)).toBeGreaterThanOrEqual(75);
  });

  it('is total for loops, islands and loose cables', () => {
    const lineUp = threeRuns();
    const [first, ...others] = lineUp.cables;
    if (!first) throw new Error('no cable');
    const loop = { ...first, id: 'loop', from: { element: 'e9' }, to: { element: 'e1' } };
    const loose = { ...first, id: 'loose', to: {} };
    const torn = { ...lineUp, cables: [...others, loop, loose] };
    const at = tidyPositions(torn);
    expect(Object.keys(at).sort()).toEqual(torn.elements.map((each) => each.id).sort());
    for (const cable of torn.cables) expect(routeCable(torn, at, cable, 'us').length).toBeGreaterThan(1);
    expect(() => oneLine(torn, review(torn))).not.toThrow();
  });
});

describe('symbols', () => {
  it.each(ELEMENT_KINDS)('%s has its ports in both families', (kind) => {
    for (const family of ['us', 'iec'] as const) {
      const symbol = kindSymbol(kind, family);
      expect(symbol.items.length).toBeGreaterThan(0);
      expect(Object.keys(symbol.ports).sort()).toEqual([...PORTS[kind]].sort());
      expect(JSON.stringify(symbol)).not.toContain('null');
    }
  });
});
