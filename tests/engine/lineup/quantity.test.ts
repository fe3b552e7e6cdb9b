import { describe, expect, it } from 'vitest';
import {
  boxFields,
  celsius,
  fraction,
  id,
  lineCapacitance,
  lineImpedance,
  notNegative,
  percent,
  percentOfWhole,
  positive,
  provenance,
  terminalFields,
  text,
  waveVelocity,
  yesNo,
} from '../../../engine/lineup/quantity.ts';
import { rangeOf } from '../../../engine/lineup/range.ts';
import { z } from '../../../engine/lineup/zod.ts';

/** What a value of the document may be, at its limits: the limit itself, and a little beyond it. */

const takes = (schema: z.ZodMiniType, ...values: readonly unknown[]) => values.map((value) => schema.safeParse(value).success);

describe('numbers', () => {
  const least = 1e-15;
  const beyond = 0.9e-15;
  it.each([
    ['positive', positive, [least, 9e11], [0, beyond, -1, 1e12, Number.NaN, Number.POSITIVE_INFINITY, '1']],
    ['notNegative', notNegative, [0, least, 9e11], [-1, beyond, 1e12]],
    ['lineImpedance', lineImpedance, [2, 1000], [1.9, 1001]],
    // No wave is faster than light in empty space: 299 792 458 m/s.
    ['waveVelocity', waveVelocity, [5e7, 299_792_458], [4.9e7, 299_792_459]],
    ['lineCapacitance', lineCapacitance, [1e-12, 1e-8], [0.9e-12, 1.1e-8]],
    ['percent', percent, [0, 1000], [-0.1, 1000.1]],
    ['fraction', fraction, [least, 1], [0, 1.01]],
    ['percentOfWhole', percentOfWhole, [least, 100], [0, 100.1]],
    ['celsius', celsius, [-90, 0, -least, 400], [-90.1, 400.1, -beyond]],
    ['yesNo', yesNo, [true, false], [0, 'yes']],
    ['text', text, ['', 'x'.repeat(10_000)], ['x'.repeat(10_001), 1]],
  ] as const)('%s', (_name, schema, good, bad) => {
    expect(takes(schema, ...good)).toEqual(good.map(() => true));
    expect(takes(schema, ...bad)).toEqual(bad.map(() => false));
  });
});

describe('an id', () => {
  it('is 1 to 64 letters, digits, - or _, and no word that every object has', () => {
    expect(takes(id, 'a', 'A-1_z', 'x'.repeat(64))).toEqual([true, true, true]);
    const refused = ['', 'x'.repeat(65), 'a b', ' a', 'a\n', 'ä', 'prototype', 'constructor', '__proto__', 'toString', 'hasOwnProperty'];
    expect(takes(id, ...refused)).toEqual(refused.map(() => false));
  });
});

describe('how a value came to be', () => {
  it('is what was typed, an origin of five and a page, with room for what a later version says', () => {
    const origins = ['entered', 'assumed', 'measured', 'manual', 'nameplate'];
    expect(takes(provenance, ...origins.map((origin) => ({ length_m: { origin, typed: '3 m', page: '4', later: 1 } })))).toEqual(
      origins.map(() => true),
    );
    expect(takes(provenance, { a: { origin: 'guessed' } }, { a: { typed: 3 } }, { a: { page: 4 } }, { ['x'.repeat(121)]: {} })).toEqual([
      false,
      false,
      false,
      false,
    ]);
  });
});

describe('boxes and terminals', () => {
  const box = z.looseObject(boxFields);
  const terminals = z.looseObject(terminalFields);
  it('may be of what is listed, or not known', () => {
    expect(takes(box, {}, { box: 'metal' }, { box: 'plastic', bondBar: true }, { box: 'wood' }, { bondBar: 1 })).toEqual([
      true,
      true,
      true,
      false,
      false,
    ]);
    expect(
      takes(
        terminals,
        {},
        { terminalMetal: 'copper-only' },
        { terminalMetal: 'copper-aluminium' },
        { terminalMetal: 'tin' },
        {
          terminalTemperature_C: '75',
        },
      ),
    ).toEqual([true, true, true, false, false]);
    expect(takes(terminals, { terminalSmallest: 4 }, { terminalLargest: 4 }, { terminalsPerPhase: 0 })).toEqual([false, false, false]);
    expect(takes(terminals, { terminalSmallest: '4 AWG', terminalLargest: '1/0 AWG', terminalsPerPhase: 2 })).toEqual([true]);
  });
});

describe('the range of a value, as it is told', () => {
  it('has the limits of its kind, and whether they are within it', () => {
    expect(rangeOf('motor', 'powerFactor')).toEqual({ least: { value: 0, itself: false }, most: { value: 1, itself: true } });
    expect(rangeOf('cable', 'installation.ambient_C')).toEqual({ least: { value: -90, itself: true }, most: { value: 400, itself: true } });
    expect(rangeOf('supply', 'unbalance_pct')).toEqual({ least: { value: 0, itself: true }, most: { value: 1000, itself: true } });
  });
  it('of the part that is asked, where two have a value of that name', () => {
    expect(rangeOf('cable', 'ratedCurrent_A')).toEqual({});
    expect(rangeOf('disconnect', 'ratedCurrent_A')).toEqual({ least: { value: 0, itself: false } });
    expect(rangeOf('supply', 'powerFactor')).toEqual({});
  });
  it('leaves out what only keeps nonsense away, and what is no number', () => {
    expect(rangeOf('drive', 'carrier_Hz')).toEqual({ least: { value: 0, itself: false } });
    expect(rangeOf('cable', 'length_m')).toEqual({ least: { value: 0, itself: true } });
    for (const path of ['tag', 'construction', 'installation', 'nothing', 'tag.deeper', 'installation.nothing', ''])
      expect(rangeOf('cable', path)).toEqual({});
  });
});
