import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inWords, type LineUp, load, oneLine, review, save, sayIn, sayOf, TERMS } from '../../../engine/index.ts';
import { EVERY_SHEET, sectionsOf } from '../../../engine/submittal/sections.ts';

const examples = readdirSync('examples')
  .filter((name) => name.endsWith('.json'))
  .map((name): readonly [string, LineUp] => {
    const loaded = load(readFileSync(`examples/${name}`, 'utf8'), name);
    if (!loaded.ok) throw new Error(loaded.what);
    return [name, loaded.lineUp];
  });
const inVocabulary = (lineUp: LineUp, vocabulary: 'us' | 'iec'): LineUp => ({ ...lineUp, project: { ...lineUp.project, vocabulary } });
const numbersIn = (data: unknown): readonly string[] => JSON.stringify(data).match(/\d+(?:\.\d+)?/g) ?? [];
/** What is written in it in several words. */
const stringsIn = (data: unknown): readonly string[] =>
  typeof data === 'string'
    ? data.includes(' ')
      ? [data]
      : []
    : typeof data === 'object' && data
      ? Object.values(data).flatMap(stringsIn)
      : [];
/** Words of the left column of the list that say nothing else. */
const US = new RegExp(
  `(?<![\\p{L}-])(${TERMS.filter(([us, iec]) => us !== iec)
    .map(([us]) => us)
    .join('|')})(?![\\p{L}-])`,
  'iu',
);

describe('words of the project', () => {
  it.each([
    ['The shield stops at DS-1.', 'The screen stops at DS-1.'],
    ['Shield gap', 'Screen gap'],
    ['An ampacity of 40 A', 'A current-carrying capacity of 40 A'],
    ['a load reactor, a disconnect', 'an output reactor, an isolator'],
    ['not grounded (IT)', 'not earthed (IT)'],
    ['corner-grounded', 'corner-earthed'],
    ['equipment grounding conductor', 'protective conductor'],
    ['laid direct in ground', 'laid direct in ground'],
    ['background, disconnected', 'background, disconnected'],
  ])('%s', (us, iec) => {
    expect(sayIn('iec')(us)).toBe(iec);
    expect(sayIn('us')(us)).toBe(us);
  });

  it('said twice is said once', () => {
    for (const [us] of TERMS) expect(sayIn('iec')(sayIn('iec')(us))).toBe(sayIn('iec')(us));
  });

  it.each(examples)('%s: no verdict and no number is another', (_, lineUp) => {
    const [us, iec] = (['us', 'iec'] as const).map((each) => inVocabulary(lineUp, each)) as [LineUp, LineUp];
    const [a, b] = [review(us), review(iec)];
    expect(b.findings.map(({ id, verdict, value, limit, fixes }) => [id, verdict, value, limit, fixes.map(({ edits }) => edits)])).toEqual(
      a.findings.map(({ id, verdict, value, limit, fixes }) => [id, verdict, value, limit, fixes.map(({ edits }) => edits)]),
    );
    expect(numbersIn(b)).toEqual(numbersIn(a));
    const sheets = (of: LineUp, answer: typeof a) => sectionsOf(of, answer, { sheets: EVERY_SHEET, wide: true, date: '2026-11-26' });
    const words = (of: LineUp, answer: typeof a) =>
      sheets(of, answer).map(({ blocks }) =>
        blocks.map((block) =>
          block.t === 'table' ? [block.title, block.columns.map(({ head }) => head), block.rows] : block.pictures.map(({ says }) => says),
        ),
      );
    expect(numbersIn(words(iec, b))).toEqual(numbersIn(words(us, a)));
  });

  it.each(examples)('%s: nothing of the other vocabulary is left in what is said', (_, lineUp) => {
    const iec = inVocabulary(lineUp, 'iec');
    const answer = review(iec);
    const own = stringsIn(lineUp);
    const left = answer.findings
      .flatMap(({ title, phrase, text, why, remedies, working }) => [title, phrase, text, why, ...remedies, ...working])
      .filter((each) => US.test(own.reduce((rest, words) => rest.replaceAll(words, ''), each.replaceAll(/in the ground|in ground/g, ''))));
    expect(left).toEqual([]);
  });

  it('leaves what the user wrote as it is, wherever it stands', () => {
    const [, lineUp] = examples[0] as (typeof examples)[number];
    const named: LineUp = {
      ...inVocabulary(lineUp, 'iec'),
      project: { ...lineUp.project, vocabulary: 'iec', title: 'Ground floor, shield wall' },
      elements: lineUp.elements.map((each, i) => ({ ...each, tag: `Disconnect ${i}`, note: 'Shield and ground it' })),
      cables: lineUp.cables.map((each, i) => ({ ...each, tag: `Raceway ${i}` })),
    };
    const answer = review(named);
    const said = answer.findings.map(({ text }) => text).join('\n');
    expect(said).toMatch(/Raceway \d|Disconnect \d/);
    expect(said).not.toMatch(/Containment \d|Isolator \d/);
    const drawn = oneLine(named, answer).items.flatMap((item) => (item.t === 'text' ? [item.text] : []));
    for (const { tag } of named.elements) expect(drawn).toContain(tag);
    const sheets = JSON.stringify(sectionsOf(named, answer, { sheets: EVERY_SHEET, wide: true, date: '2026-11-26' }));
    expect(sheets).not.toMatch(/Containment \d|Isolator \d|Screen and earth it/);
    expect(sayOf(named)('The shield of Raceway 1')).toBe('The screen of Raceway 1');
  });

  it('changes sentences only: edits, ids, paths and citations are the same objects', () => {
    const fix = { label: 'Land the shield', edits: [{ id: 'shield', path: 'installation.raceway', value: 'steel-conduit' }] };
    const said = inWords(
      { check: 'ground-path', source: 'NEC, ground', missing: [{ field: 'grounds.size', label: 'Ground' }], fixes: [fix] },
      sayIn('iec'),
    );
    expect(said).toEqual({
      check: 'ground-path',
      source: 'NEC, ground',
      missing: [{ field: 'grounds.size', label: 'Earth' }],
      fixes: [{ ...fix, label: 'Land the screen' }],
    });
    expect(said.fixes[0]?.edits).toBe(fix.edits);
  });

  it('is kept in the file', () => {
    const [name, lineUp] = examples[0] as (typeof examples)[number];
    const loaded = load(save(inVocabulary(lineUp, 'iec')), name);
    expect(loaded.ok && loaded.lineUp.project.vocabulary).toBe('iec');
  });
});
