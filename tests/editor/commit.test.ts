import { describe, expect, it } from 'vitest';
import { objection } from '../../editor/store/commit.ts';
import { setValue } from '../../editor/store/edits.ts';
import { type ElementKind, FIELDS, type LineUp, newLineUp, type Units } from '../../engine/index.ts';
import { bareCable, barePart as part } from '../engine/bareParts.ts';

/** Why a value may not stand in a field, with limits that a person would write. */

const said = (kind: ElementKind | 'cable', path: string, value: unknown, units: Units = 'us') => {
  const [elements, cables] =
    kind === 'cable' ? [[part('supply', 's'), part('motor', 'm')], [bareCable('x', 's', 'm')]] : [[part(kind, 'x')], []];
  const site: LineUp = { ...newLineUp(), elements, cables };
  const lineUp = { ...site, project: { ...site.project, units } };
  const field = FIELDS[kind].find((each) => each.path === path);
  return field && objection(field, setValue(lineUp, 'x', path, value), lineUp)?.replaceAll('\u00a0', ' ');
};

describe('what is said of a value out of bounds', () => {
  const HUGE = 'It is too large to be meant: is the unit right?';
  it('a limit that only keeps nonsense out is no number that anybody would write', () => {
    for (const units of ['us', 'metric'] as const)
      expect([said('cable', 'length_m', 1e300, units), said('drive', 'ratedPower_W', 1e12, units)]).toEqual([HUGE, HUGE]);
    expect([said('cable', 'grounds.count', 51), said('motor', 'terminalsPerPhase', 1e12)]).toEqual(['It must be at most 50', HUGE]);
  });
  it('is the limit of that very field', () => {
    expect([said('drive', 'riseTime_s', 1), said('drive', 'riseTime_s', 1e300)]).toEqual(['It must be below 1 s', 'It must be below 1 s']);
    expect([said('cable', 'grounds.count', -1), said('cable', 'conductor.sets', 0)]).toEqual([
      'It must be at least 0',
      'It must be at least 1',
    ]);
    expect(said('motor', 'windingCapacitance_F', 1e300)).toBe('It must be below 1000 µF');
  });
  it('it is not rounded to what is refused itself, and stands in the unit in which it is shortest', () => {
    expect([said('cable', 'wave.velocity_mPerS', 3e8), said('cable', 'wave.toShield_FPerM', 1e-13)]).toEqual([
      'It must be at most 299.792 m/µs',
      'It must be at least 1 pF/m',
    ]);
    expect([said('cable', 'length_m', -1), said('motor', 'ratedVoltage_V', 0), said('transformer', 'tap_pct', -51)]).toEqual([
      'It must be at least 0 ft',
      'It must be above 0 V',
      'It must be at least −50 %',
    ]);
    expect([said('cable', 'insulation.temperature_C', 401), said('cable', 'insulation.temperature_C', 401, 'metric')]).toEqual([
      'It must be at most 752 °F',
      'It must be at most 400 °C',
    ]);
  });
  it('what is within them is no objection', () => expect(said('cable', 'length_m', 64)).toBeUndefined());
});
