import { describe, expect, it } from 'vitest';
import { type Cable, type Element, type LineUp, newLineUp } from '../../../engine/index.ts';
import { differences } from '../../../engine/lineup/differences.ts';
import { bareCable, barePart as part } from '../bareParts.ts';

/** What changed from one design to another, told change by change. */

const lineUpOf = (elements: readonly Element[], cables: readonly Cable[] = [], project: object = {}): LineUp => {
  const empty = newLineUp('iec');
  return { ...empty, project: { ...empty.project, ...project } as LineUp['project'], elements: [...elements], cables: [...cables] };
};
const told = (before: LineUp, after: LineUp) =>
  differences(before, after).map(({ id, tag, kind, changes }) => [
    `${kind} ${id} ${tag}`,
    ...changes.map((each) => `${each.label}: ${each.before} → ${each.after}`.replaceAll('\u00a0', ' ')),
  ]);
const supply = part('supply', 's', { voltage_V: 400 });
const run = bareCable('w', 's', 'm');
const motor = part('motor', 'm');

describe('of parts', () => {
  it('is nothing of what stands alike, wherever it stands and however it was typed', () => {
    const typed = { ...supply, provenance: { voltage_V: { typed: '0.4 kV' } } };
    const [a, b] = [lineUpOf([supply, motor], [run]), lineUpOf([motor, typed], [{ ...run }])];
    expect(told(a, { ...b, positions: { s: { x_mm: 1, y_mm: 2 } } })).toEqual([]);
    const { tag, ...others } = supply;
    expect(told(a, lineUpOf([{ ...others, tag } as Element, motor], [run]))).toEqual([]);
  });
  it('is what came and what went, last what went', () => {
    expect(told(lineUpOf([supply, motor], [run]), lineUpOf([supply, part('motor', 'n')]))).toEqual([
      ['added n n'],
      ['removed m m'],
      ['removed w w'],
    ]);
  });
  it('is each value that changed, in the units that hold now', () => {
    const after = { ...supply, tag: 'S-2', voltage_V: 690, earthing: 'tn' };
    const changes = [
      'changed s S-2',
      'Tag: s → S-2',
      expect.stringMatching(/^Voltage.*: 400 V → 690 V$/),
      expect.stringMatching(/: not known → TN$/),
    ];
    expect(told(lineUpOf([supply]), lineUpOf([after as Element]))).toEqual([changes]);
    const [short, long] = [lineUpOf([], [{ ...run, length_m: 30.48 }]), lineUpOf([], [run], { units: 'us' })];
    expect(told(short, long)[1]).toEqual(['changed w w', expect.stringMatching(/: 100 ft → not known$/)]);
  });
  it('is another kind of part under the same id', () => {
    expect(told(lineUpOf([part('bus', 'b')]), lineUpOf([part('junction', 'b')]))).toEqual([['changed b b', 'Kind: bus → junction']]);
  });
  it('is where a cable lands, on which side, or nowhere', () => {
    const site = [supply, motor, part('drive', 'd')];
    const landed = (from: string, to: string) => lineUpOf(site, [bareCable('w', from, to)]);
    expect(told(landed('s', 'd:line'), landed('d:load', ''))).toEqual([
      ['changed w w', 'Starts at: s → d, load', 'Ends at: d, line → nowhere'],
    ]);
    expect(told(landed('s', 'd:line'), landed('s', 'd:load'))).toEqual([['changed w w', 'Ends at: d, line → d, load']]);
    // Two parts of one name.
    const twins = [supply, motor, { ...part('motor', 'n'), tag: 'm' }];
    expect(told(lineUpOf(twins, [run]), lineUpOf(twins, [bareCable('w', 's', 'n')]))).toEqual([
      ['changed w w', 'Other values: as before → changed'],
    ]);
  });
  it('is something else where no row tells it, beside what is told too', () => {
    const cores = { ...run, auxiliary: [{ use: 'brake' as const }] };
    const other = 'Other values: as before → changed';
    expect(told(lineUpOf([], [run]), lineUpOf([], [cores]))).toEqual([['changed w w', other]]);
    expect(told(lineUpOf([], [run]), lineUpOf([], [{ ...cores, tag: 'W-2' }]))).toEqual([['changed w W-2', 'Tag: w → W-2', other]]);
    expect(told(lineUpOf([], [run]), lineUpOf([], [{ ...run, tag: 'W-2' }]))).toEqual([['changed w W-2', 'Tag: w → W-2']]);
    expect(told(lineUpOf([supply]), lineUpOf([{ ...supply, later: 1 }]))).toEqual([['changed s s', other]]);
  });
});

describe('of the project', () => {
  const changed = (before: object, after: object) => told(lineUpOf([], [], before), lineUpOf([], [], after))[0]?.slice(1);
  it('is nothing of the title block of an issue', () => {
    const block = ['revision', 'date', 'status', 'createdBy', 'checkedBy', 'approvedBy'].map((name) => [name, 'x']);
    expect(changed({}, { ...Object.fromEntries(block), sheetSize: 'A3', showGrounds: true, summary: 'y' })).toBeUndefined();
  });
  it('stands first, under its own name', () =>
    expect(told(lineUpOf([]), lineUpOf([supply], [], { site: 'North' }))[0]?.[0]).toBe('changed  project'));
  it('is what it is called, and what short words of the file mean', () => {
    expect(changed({ site: 'North' }, { site: 'South' })).toEqual(['Site: North → South']);
    expect(changed({}, { site: 'South' })).toEqual(['Site: not set → South']);
    expect(
      changed({ basis: 'us', units: 'us', symbols: 'us' }, { basis: 'iec', units: 'metric', symbols: 'iec' })?.map((each) =>
        each.replace(/^[^:]*: /, ''),
      ),
    ).toEqual(expect.arrayContaining(['US practice → IEC practice', 'ft, hp → m, kW', 'of US practice → of IEC practice']));
    expect(changed({ limits: {} }, { limits: { motorPeak_V: 1300 } })).toEqual([expect.stringMatching(/^Peak.*: not set → 1300 V$/)]);
  });
  it('is a check that is switched off or on, and why', () => {
    const off = { off: true, reason: ' tested ' };
    expect(changed({ checks: {} }, { checks: { moisture: off } })).toEqual(['Check moisture: on → switched off, tested']);
    expect(changed({ checks: { moisture: off } }, { checks: { moisture: { off: true, reason: ' ' } } })).toEqual([
      'Check moisture: switched off, tested → switched off, no reason given',
    ]);
    expect(changed({ checks: { moisture: off } }, { checks: { moisture: { off: false } } })).toEqual([
      'Check moisture: switched off, tested → on',
    ]);
    expect(changed({ checks: { moisture: off } }, { checks: { moisture: { ...off } } })).toBeUndefined();
  });
  it('is what this version does not name', () => {
    expect(changed({ later: { b: 1, a: 2 } }, { later: { a: 2, b: 1 } })).toBeUndefined();
    expect(changed({ later: { a: 1 } }, { later: 'x' })).toEqual(['later: {"a":1} → x']);
    expect(changed({}, { later: [1] })).toEqual(['later: not set → [1]']);
    expect(changed({ later: 1 }, {})).toEqual(['later: 1 → not set']);
  });
});
