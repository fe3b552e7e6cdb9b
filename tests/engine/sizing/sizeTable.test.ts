import { describe, expect, it } from 'vitest';
import { sizeTable, VERDICTS } from '../../../engine/index.ts';
import { readExample } from './readExample.ts';

describe('one cable in every size', () => {
  const alder = readExample('alder-mill-fan');
  const table = sizeTable(alder, alder.cables.find(({ tag }) => tag === 'W-1')?.id ?? '');
  const column = (check: string) =>
    table?.rows.map(({ choice, cells }) => ({ size: choice.size, ...cells.find((each) => each.check === check)?.finding }));

  it('has a row for each size of NEC Chapter 9 Table 8, and marks that which is drawn', () => {
    expect(table?.rows.length).toBe(26);
    expect(table?.rows.filter(({ now }) => now).map(({ choice }) => choice)).toEqual([{ size: '8 AWG', sets: 1 }]);
  });

  it('carries more the thicker it is: 33.75 A are reached at 10 AWG (Table 310.16, 35 A)', () => {
    const carried = column('lead-ampacity')?.filter(({ verdict }) => verdict !== 'open');
    expect(carried?.find(({ verdict }) => verdict === 'pass')).toMatchObject({ size: '10 AWG', value: 35, limit: 33.75 });
    const margins = carried?.map(({ margin_pct }) => margin_pct ?? 0) ?? [];
    expect(margins).toEqual([...margins].sort((a, b) => a - b));
  });

  it('loses less the thicker it is, and charging takes more', () => {
    const ends = (check: string) => {
      const margins = column(check)?.flatMap(({ margin_pct, unit }) =>
        typeof margin_pct === 'number' && unit === '%' ? [margin_pct] : [],
      );
      return [margins?.[0] ?? 0, margins?.at(-1) ?? 0] as const;
    };
    expect(ends('lead-drop')[1]).toBeGreaterThan(ends('lead-drop')[0]);
    expect(ends('charging-current')[1]).toBeLessThan(ends('charging-current')[0]);
  });

  it('has a verdict in every cell that has a finding', () => {
    const verdicts = table?.rows.flatMap(({ cells }) => cells.flatMap(({ finding }) => (finding ? [finding.verdict] : [])));
    expect(verdicts?.every((verdict) => VERDICTS.includes(verdict))).toBe(true);
  });

  it('has a column for what is asked of a lead, and none that is empty', () => {
    const checks = table?.columns.map(({ check }) => check) ?? [];
    expect(checks).toEqual(expect.arrayContaining(['lead-ampacity', 'lead-drop', 'charging-current']));
    for (const check of checks)
      expect([check, column(check)?.some(({ verdict = 'not-applicable' }) => verdict !== 'not-applicable')]).toEqual([check, true]);
  });

  it('shows what its size decides: a lead nothing of the feeder, a feeder what it leaves for the lead', () => {
    const columns = (tag: string) =>
      sizeTable(alder, alder.cables.find((each) => each.tag === tag)?.id ?? '')?.columns.map(({ check }) => check) ?? [];
    const [lead, feeder] = [columns('W-1'), columns('F-1')];
    expect(lead.filter((check) => ['feeder-ampacity', 'feeder-drop', 'fault-rating', 'supply-stiffness'].includes(check))).toEqual([]);
    expect(feeder).toEqual(expect.arrayContaining(['feeder-ampacity', 'feeder-drop', 'lead-drop']));
    expect(feeder).not.toContain('lead-ampacity');
  });

  it.each([
    ['as are asked for', {}, 2, [2], []],
    ['as are drawn', { sets: 3 }, undefined, [3], ['8 AWG']],
    ['as one, where neither size nor sets are drawn', { size: undefined, sets: undefined }, undefined, [1], []],
  ] as const)('is of as many sets %s', (_what, conductor, asked, sets, drawn) => {
    const cables = alder.cables.map((each) => (each.tag === 'W-1' ? { ...each, conductor: { ...each.conductor, ...conductor } } : each));
    const rows = sizeTable({ ...alder, cables }, cables.find(({ tag }) => tag === 'W-1')?.id ?? '', asked)?.rows ?? [];
    expect([...new Set(rows.map(({ choice }) => choice.sets))]).toEqual(sets);
    expect(rows.filter(({ now }) => now).map(({ choice }) => choice.size)).toEqual(drawn);
  });

  it('is none for a cable that is not fed', () => expect(sizeTable({ ...alder, elements: [] }, 'c1')).toBeNull());
});
