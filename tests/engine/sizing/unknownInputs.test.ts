import { describe, expect, it } from 'vitest';
import type { Cable, Element, LineUp } from '../../../engine/index.ts';
import { unknownInputs } from '../../../engine/sizing/unknownInputs.ts';
import { bareCable, barePart } from '../bareParts.ts';
import { LineUpBuilder } from '../lineUpBuilder.ts';

/** What nobody has vouched for of a part, what is taken in its place, and between what it may lie. */

const of = (...parts: readonly (Element | Cable)[]) => {
  const isWire = (part: Element | Cable): part is Cable => part.kind === 'cable' || part.kind === 'link';
  const lineUp: LineUp = {
    ...new LineUpBuilder().build(),
    elements: parts.filter((part): part is Element => !isWire(part)),
    cables: parts.filter(isWire),
  };
  return unknownInputs(lineUp);
};
const told = (part: Element | Cable) => of(part).map(({ field, because, now, span }) => [field, because, now, span]);
const assumed = (...paths: readonly string[]) => ({ provenance: Object.fromEntries(paths.map((path) => [path, { origin: 'assumed' }])) });
const wire = (more: object = {}): Cable => ({ ...bareCable('W', '', ''), ...more });
const known = { insulation: { concentricity_pct: 90 }, installation: { moisture: 'dry' } };

describe('what is not given', () => {
  it('is taken as usual, between what such parts have', () => {
    expect(told(barePart('supply', 'S'))).toEqual([
      ['xOverR', 'not given', 10, { least: 2, most: 30 }],
      ['voltageLeast_pct', 'not given', 95, { least: 85, most: 100 }],
      ['voltageMost_pct', 'not given', 105, { least: 100, most: 115 }],
    ]);
    expect(told(barePart('transformer', 'T'))).toEqual([['xOverR', 'not given', 5, { least: 1, most: 15 }]]);
    expect(told(barePart('motor', 'M')).filter(([field]) => field === 'powerFactor')).toEqual([
      ['powerFactor', 'not given', 0.85, { least: 0.7, most: 0.95 }],
    ]);
    const drive = new Map(told(barePart('drive', 'D')).map(([field, ...each]) => [field, each]));
    expect([...drive.keys()].sort()).toEqual(['carrier_Hz', 'dcChoke', 'inputPowerFactor', 'outputRatio_pct', 'riseTime_s']);
    expect(drive.get('carrier_Hz')).toEqual(['not given', 4000, { least: 1000, most: 16_000 }]);
    expect(drive.get('inputPowerFactor')).toEqual(['not given', 0.8, { least: 0.6, most: 0.98 }]);
    expect(drive.get('outputRatio_pct')).toEqual(['not given', 100, { least: 90, most: 100 }]);
    expect(drive.get('riseTime_s')?.[2]).toEqual({ least: 0.02e-6, most: 1e-6 });
    expect(told(barePart('bus', 'B'))).toEqual([]);
  });

  it('is the worst of the answers, where one is asked', () => {
    expect(told(wire())).toEqual([
      ['insulation.concentricity_pct', 'not given', 90, { least: 67, most: 100 }],
      ['installation.moisture', 'not given', 'wet', { answers: ['dry', 'damp', 'wet'] }],
    ]);
    // Answers that ask for a number say nothing by themselves.
    expect(told(barePart('motor', 'M')).find(([field]) => field === 'insulation')).toEqual([
      'insulation',
      'not given',
      'mg1-part-30',
      { answers: ['mg1-part-30', 'mg1-part-31', 'ivic-a', 'ivic-b', 'ivic-c', 'ivic-d'] },
    ]);
    expect(told(barePart('drive', 'D')).find(([field]) => field === 'dcChoke')).toEqual([
      'dcChoke',
      'not given',
      'none',
      { answers: ['none', 'fitted'] },
    ]);
  });

  it('is nothing where it is given, nor of links, nor where no usual value stands for it', () => {
    expect(told(barePart('supply', 'S', { xOverR: 6, voltageLeast_pct: 95, voltageMost_pct: 105 }))).toEqual([]);
    expect(told(wire(known))).toEqual([]);
    expect(told(wire({ kind: 'link' }))).toEqual([]);
  });

  it('is told with its part, its name, its measure and whom to ask', () => {
    expect(of(barePart('transformer', 'T'))[0]).toMatchObject({
      ...{ id: 'T', tag: 'T', quantity: 'number', ask: 'utility or the owner’s engineer' },
    });
    expect(of(barePart('drive', 'D')).find(({ field }) => field === 'carrier_Hz')).toMatchObject({
      quantity: 'frequency',
      ask: 'drive supplier',
    });
    expect(of(wire()).map(({ quantity }) => quantity)).toEqual(['percent', null]);
  });
});

describe('what is assumed', () => {
  it('may be half or twice as much, a share no more than all', () => {
    const bus = (more: object, ...paths: readonly string[]) => told(barePart('bus', 'B', { ...more, ...assumed(...paths) }));
    expect(bus({ ratedCurrent_A: 100, faultRating_A: 5000 }, 'ratedCurrent_A')).toEqual([
      ['ratedCurrent_A', 'assumed', 100, { least: 50, most: 200 }],
    ]);
    const ratio = (outputRatio_pct: number) =>
      told(barePart('drive', 'D', { outputRatio_pct, ...assumed('outputRatio_pct') })).find(([field]) => field === 'outputRatio_pct')?.[3];
    expect([ratio(40), ratio(60), ratio(100), ratio(110)]).toEqual([
      { least: 20, most: 80 },
      { least: 30, most: 100 },
      { least: 50, most: 100 },
      { least: 55, most: 220 },
    ]);
  });

  it('is a temperature twenty degrees off, an answer any of those there are', () => {
    const laid = { ...known, installation: { moisture: 'damp', ambient_C: 30 } };
    expect(told(wire({ ...laid, ...assumed('installation.ambient_C', 'installation.moisture') }))).toEqual([
      ['installation.ambient_C', 'assumed', 30, { least: 10, most: 50 }],
      ['installation.moisture', 'assumed', 'damp', { answers: ['dry', 'damp', 'wet'] }],
    ]);
    expect(told(wire(laid))).toEqual([]);
  });

  it('is no size, no text, no count, and nothing that is measured or typed', () => {
    const size = { ...known, conductor: { size: '4 AWG' }, note: 'x', grounds: { count: 3 }, setsAlike: true };
    expect(told(wire({ ...size, ...assumed('conductor.size', 'note', 'grounds.count', 'setsAlike') }))).toEqual([]);
    expect(told(wire({ ...known, length_m: 5, provenance: { length_m: { origin: 'measured' } } }))).toEqual([]);
  });
});

describe('a length', () => {
  const length = (more: object) => told(wire({ ...known, ...more }));
  it('is a range, taken at its long end', () => {
    expect(length({ length_m: 10, lengthMost_m: 40 })).toEqual([['length_m', 'range', 40, { least: 10, most: 40 }]]);
    expect(length({ length_m: 10, lengthMost_m: 10 })).toEqual([]);
    const warm = { installation: { moisture: 'dry', ambient_C: 30 }, ...assumed('installation.ambient_C') };
    expect(
      length({ length_m: 10, lengthMost_m: 40, lengthOrigin: 'estimated', ...warm }).map(([field, because]) => [field, because]),
    ).toEqual([
      ['length_m', 'range'],
      ['installation.ambient_C', 'assumed'],
    ]);
    expect(length({ length_m: 10, lengthMost_m: 40, lengthOrigin: 'estimated' })[0]?.[1]).toBe('range');
  });
  it('is estimated to a third less or more', () => {
    const [[field, because, now, span] = []] = length({ length_m: 100, lengthOrigin: 'estimated' });
    expect([field, because, now, span]).toEqual(['length_m', 'estimate', 100, { least: 70, most: 130 }]);
    expect(length({ length_m: 100, lengthOrigin: 'measured' })).toEqual([]);
  });
  it('is assumed like any other, and of a cable alone', () => {
    expect(length({ length_m: 30, ...assumed('length_m') })).toEqual([['length_m', 'assumed', 30, { least: 15, most: 60 }]]);
  });
});
