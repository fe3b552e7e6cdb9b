import { describe, expect, it } from 'vitest';
import {
  type CheckFacts,
  cableSubject,
  elementSubject,
  endSubject,
  exceeds,
  finding,
  given,
  lacks,
  lengthSaid,
  lookedUp,
  manualOf,
  marginAbove,
  marginBelow,
  missingOf,
  notApplicable,
  notKnown,
  openFinding,
  tagsOf,
  unknownOf,
  verdictOver,
  voltageGiven,
  voltageMissing,
} from '../../../engine/checks/check.ts';
import type { Element, ElementOf } from '../../../engine/lineup/elements.ts';
import { barePart, bareCable as loose } from '../bareParts.ts';
import { CABLE, cableScope, DRIVE, MOTOR, SUPPLY } from './scopes.ts';

/** The words that every check answers in, asked directly: each as it stands in a report. */

const FACTS: CheckFacts = {
  slug: 'warmth',
  title: 'Warmth',
  authority: 'guide',
  source: 'a book',
  rule: 'Not too warm.',
  why: 'It would melt.',
};
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const shown = (part: Parameters<typeof given>[0], path: string) => {
  const [input, ...rest] = given(part, path);
  return input && rest.length === 0 ? plain(input.value) : null;
};

describe('the one comparison', () => {
  it('is over a limit beyond the noise of rounding: a billionth of it, of either sign', () => {
    expect([exceeds(100, 100), exceeds(100 + 9e-8, 100), exceeds(100 + 2e-7, 100)]).toEqual([false, false, true]);
    expect([exceeds(-100, -100), exceeds(-100 + 9e-8, -100), exceeds(-100 + 2e-7, -100)]).toEqual([false, false, true]);
    expect([exceeds(0, 0), exceeds(9e-13, 0), exceeds(2e-12, 0), exceeds(0.1 + 0.2, 0.3)]).toEqual([false, false, true, false]);
  });
  it('of two limits tells the worse', () =>
    expect([3.1, 3, 2.1, 2, 0].map((value) => verdictOver(value, 3, 2))).toEqual(['caution', 'note', 'note', 'pass', 'pass']));
});

describe('what is left', () => {
  it('is in per cent of the limit, less than nothing beyond it, and nothing of no limit', () => {
    expect([marginBelow(60, 80), marginBelow(100, 80), marginBelow(5, 0)]).toEqual([25, -25, null]);
    expect([marginAbove(100, 80), marginAbove(60, 80), marginAbove(5, 0)]).toEqual([25, -25, null]);
  });
});

describe('a finding', () => {
  it('says of itself what its check does, and of all else nothing', () => {
    const found = finding(FACTS, elementSubject(MOTOR), ['M'], { verdict: 'pass', phrase: 'fine', text: 'It is fine.' });
    expect(found).toEqual({
      id: 'warmth/element/e2',
      check: 'warmth',
      title: 'Warmth',
      subject: { kind: 'element', id: 'e2', tag: 'M' },
      runs: ['M'],
      authority: 'guide',
      source: 'a book',
      quantity: 'Warmth',
      value: null,
      limit: null,
      unit: '',
      band: null,
      margin_pct: null,
      why: 'It would melt.',
      remedies: [],
      case: null,
      inputs: [],
      working: [],
      assumptions: [],
      missing: [],
      fixes: [],
      verdict: 'pass',
      phrase: 'fine',
      text: 'It is fine.',
    });
  });
  it('is named after its subject: a cable, one end of it, the line-up', () => {
    const id = (subject: Parameters<typeof finding>[1]) => notApplicable(FACTS, subject, [], 'why').id;
    expect([id(cableSubject(CABLE)), id(endSubject(CABLE, 'to')), id({ kind: 'lineup', id: '', tag: '' })]).toEqual([
      'warmth/cable/c1',
      'warmth/end/c1/to',
      'warmth/lineup',
    ]);
    expect(endSubject(CABLE, 'from')).toEqual({ kind: 'end', id: 'c1', tag: 'W', end: 'from' });
    expect(cableSubject({ ...CABLE, kind: 'link' })).toEqual({ kind: 'cable', id: 'c1', tag: 'W' });
    // One and the same for as long as the part is.
    expect(cableSubject(CABLE)).toBe(cableSubject(CABLE));
  });
  it('of what is not applicable says why', () => {
    const found = notApplicable(FACTS, elementSubject(MOTOR), ['M'], 'It is cold.');
    expect([found.verdict, found.phrase, found.text, found.runs]).toEqual(['not-applicable', 'not applicable', 'It is cold.', ['M']]);
  });
  it('what is said in place of the usual stands', () =>
    expect(finding(FACTS, elementSubject(MOTOR), [], { verdict: 'fail', phrase: '', text: '', source: 'another', limit: 3 })).toMatchObject(
      {
        source: 'another',
        limit: 3,
      },
    ));
});

describe('what is not known', () => {
  it('is named with its part, and with who knows it', () => {
    expect(lacks(MOTOR, 'ratedVoltage_V')).toEqual({
      id: 'e2',
      tag: 'M',
      field: 'ratedVoltage_V',
      label: 'Rated voltage',
      named: 'Rated voltage of M',
      ask: 'motor supplier',
    });
    expect(lacks(CABLE, 'length_m')).toMatchObject({ id: 'c1', label: 'Length, one way', named: 'Length of W, one way' });
    expect(lacks(CABLE, 'installation.sharedWith')).toMatchObject({ label: 'Cables in the same raceway', ask: 'installer' });
    expect(lacks(DRIVE, 'manual.allowedEarthing')).toMatchObject({
      named: 'Grounding the manual of D allows',
      label: 'Grounding the manual allows',
      ask: 'drive supplier',
    });
    expect(lacks(DRIVE, 'no.such')).toEqual({
      id: 'e1',
      tag: 'D',
      field: 'no.such',
      label: 'no.such',
      named: 'no.such of D',
      ask: 'specification',
    });
    expect(lacks(MOTOR, 'ratedVoltage_V')).toBe(lacks(MOTOR, 'ratedVoltage_V'));
    expect(unknownOf({ id: '', tag: 'the site' }, 'altitude_m', { label: 'Altitude', ask: 'owner' })).toEqual({
      id: '',
      tag: 'the site',
      field: 'altitude_m',
      label: 'Altitude',
      named: 'Altitude of the site',
      ask: 'owner',
    });
  });
  it('is what is not there; nothing, no and zero are there', () => {
    const part = barePart('drive', 'd', { inputCurrent_A: 0, builtInFilter: false, manual: { page: '' } });
    const paths = ['inputCurrent_A', 'builtInFilter', 'manual.page', 'manual.shieldRequired', 'ratedVoltage_V'];
    expect(missingOf(part, ...paths).map(({ field }) => field)).toEqual(['manual.shieldRequired', 'ratedVoltage_V']);
  });
  it('makes a sentence', () => {
    const missing = [lacks(MOTOR, 'ratedVoltage_V'), lacks(CABLE, 'length_m')];
    expect(notKnown(missing)).toBe('Not known: rated voltage of M; length of W, one way.');
  });
  it('leaves a finding open, which asks each who knows once', () => {
    const missing = [lacks(CABLE, 'length_m'), lacks(MOTOR, 'ratedVoltage_V'), lacks(MOTOR, 'ratedCurrent_A')];
    const found = openFinding(FACTS, cableSubject(CABLE), ['M'], missing);
    expect([found.verdict, found.phrase, found.text]).toEqual([
      'open',
      'length?',
      'Cannot be judged yet. Not known: length of W, one way; rated voltage of M; nameplate current of M.',
    ]);
    expect([found.missing, found.runs, found.remedies]).toEqual([missing, ['M'], ['Ask: installer, motor supplier.']]);
  });
  it('of nothing that can be named says that, and asks nobody', () => {
    const found = openFinding(FACTS, cableSubject(CABLE), [], []);
    expect([found.phrase, found.text, found.remedies, found.missing]).toEqual([
      'value?',
      'Cannot be judged yet: what lies ahead of it cannot be made out.',
      [],
      [],
    ]);
    expect(openFinding(FACTS, cableSubject(CABLE), [], [], { phrase: 'else' }).phrase).toBe('else');
  });
  it.each([
    ['Terminals marked for', 'terminals marked for what?'],
    ['Laid in', 'laid in what?'],
    ['Joined with', 'joined with what?'],
    ['From', 'from?'],
    ['Landed, start', 'landed?'],
    ['X/R', 'X/R?'],
    ['For installation', 'for installation?'],
  ])('%s asks: %s', (label, phrase) =>
    expect(openFinding(FACTS, cableSubject(CABLE), [], [unknownOf({ id: '', tag: 'T' }, 'x', { label, ask: 'a' })]).phrase).toBe(phrase),
  );
});

describe('a value as an input', () => {
  const part = (kind: Element['kind'], more: object) => barePart(kind, 'x', more);
  it('is shown in the unit of its field, with its part and where it came from', () => {
    expect(given(CABLE, 'length_m')).toEqual([{ what: 'Length of W, one way', value: '60\u00a0m', origin: 'entered', source: '' }]);
    const known = { ...CABLE, provenance: { length_m: { origin: 'manual' as const, page: '12', typed: '60' } } };
    expect(given(known, 'length_m')).toEqual([{ what: 'Length of W, one way', value: '60\u00a0m', origin: 'manual', source: '12' }]);
  });
  it('is shown as it was typed too, where that is another way to say it', () => {
    const typed = (text: string, length_m = 30.48) =>
      shown({ ...CABLE, length_m, provenance: { length_m: { origin: 'entered', typed: text } } }, 'length_m');
    const size = {
      ...CABLE,
      conductor: { size: '35 mm2' },
      provenance: { 'conductor.size': { origin: 'entered' as const, typed: '35 mm2' } },
    };
    expect(shown(size, 'conductor.size')).toBe('35 mm² (typed 35 mm2)');
    expect([typed('100 ft'), typed('30.48 m'), typed('99 ft')]).toEqual(['30.5 m (typed 100 ft)', '30.5 m (typed 30.48 m)', '30.5 m']);
  });
  it('is said as its kind is said', () => {
    expect([
      shown(part('drive', { builtInFilter: true }), 'builtInFilter'),
      shown(part('drive', { builtInFilter: false }), 'builtInFilter'),
    ]).toEqual(['yes', 'no']);
    expect(shown({ ...CABLE, conductor: { size: '35 mm2' } }, 'conductor.size')).toBe('35 mm²');
    expect(shown(part('filter', { role: 'emc-input' }), 'role')).toBe('EMC input');
    expect(shown(part('drive', { faultRatingDevice: 'emc-input' }), 'faultRatingDevice')).toBe('emc-input');
    expect(shown({ ...CABLE, conductor: { sets: 2 } }, 'conductor.sets')).toBe('2');
    expect(shown(part('drive', { ratedVoltage_V: true }), 'ratedVoltage_V')).toBe('yes');
  });
  it('a list is counted or told, as it is', () => {
    const shared = (list: readonly string[]) =>
      shown({ ...CABLE, installation: { ...CABLE.installation, sharedWith: [...list] } }, 'installation.sharedWith');
    expect([shared([]), shared(['c2']), shared(['c2', 'c3'])]).toEqual(['none', '1 other', '2 others']);
    const allowed = part('drive', { manual: { allowedEarthing: ['solid-wye', 'tn'] } });
    expect(given(allowed, 'manual.allowedEarthing')[0]).toMatchObject({ what: 'Grounding the manual of x allows', value: 'solid wye, TN' });
    expect(given(part('drive', { strange: [1, 2] }), 'strange')[0]).toMatchObject({ what: 'strange of x', value: '1, 2' });
  });
  it('is left out where it is missing, each in its order, and made once', () => {
    const inputs = given(MOTOR, 'ratedVoltage_V', 'ratedSpeed', 'ratedCurrent_A');
    expect(inputs.map(({ what }) => what)).toEqual(['Rated voltage of M', 'Nameplate current of M']);
    expect(given(MOTOR, 'ratedSpeed')).toEqual([]);
    expect(given(MOTOR, 'ratedCurrent_A')[0]).toBe(inputs[1]);
  });
  it('from a table says which', () =>
    expect(lookedUp('ampacity', '130 A', 'Table 310.16')).toEqual({
      what: 'ampacity',
      value: '130 A',
      origin: 'looked up',
      source: 'Table 310.16',
    }));
});

describe('the nominal voltage', () => {
  it('is made by a supply, or behind a transformer', () => {
    const transformer = barePart('transformer', 't', { secondaryVoltage_V: 480, primaryVoltage_V: 4160, voltage_V: 1 });
    expect([...voltageGiven(SUPPLY), ...voltageGiven(transformer)].map(({ what, value }) => `${what}: ${plain(value)}`)).toEqual([
      'Voltage of S, line to line: 480 V',
      'Secondary voltage of t: 480 V',
    ]);
    expect([barePart('supply', 's'), barePart('transformer', 't')].flatMap(voltageMissing).map(({ field }) => field)).toEqual([
      'voltage_V',
      'secondaryVoltage_V',
    ]);
    expect([voltageMissing(SUPPLY), voltageGiven(barePart('bus', 'b', { voltage_V: 5 })), voltageMissing(barePart('bus', 'b'))]).toEqual([
      [],
      [],
      [],
    ]);
  });
});

describe('in sentences', () => {
  it('a length is in the unit of the project', () => {
    const { project } = cableScope();
    expect([lengthSaid(30.48, { ...project, units: 'us' }), lengthSaid(30.48, { ...project, units: 'metric' })].map(plain)).toEqual([
      '100 ft',
      '30.5 m',
    ]);
  });
  it('a manual is cited with its page, or without', () => {
    const of = (manual: ElementOf<'drive'>['manual']) => manualOf({ ...DRIVE, manual });
    expect([of({ page: '12' }), of({}), of(undefined)]).toEqual([
      'the manual of D, page 12; it overrides the screening rules',
      'the manual of D, page not given; it overrides the screening rules',
      'the manual of D, page not given; it overrides the screening rules',
    ]);
  });
  it('parts go by their tags', () => expect(tagsOf([MOTOR, DRIVE, loose('c9', '', '')])).toEqual(['M', 'D', 'c9']));
});
