import { describe, expect, it } from 'vitest';
import { type Finding, type Fix, type LineUp, proposeFixes } from '../../../engine/index.ts';
import { createReviewer } from '../../../engine/review/createReviewer.ts';
import type { Concerned, Kind } from '../../../engine/sizing/fixKind.ts';
import { KINDS } from '../../../engine/sizing/fixKinds.ts';
import { inSteel, LineUpBuilder } from '../lineUpBuilder.ts';
import { manyRuns } from '../manyRuns.ts';
import { broken, oneLead, twoMotors } from './oneLead.ts';

type FixEdit = Fix['edits'][number];

/** Which of the changes that are tried are proposed: with kinds that are made up, of a line-up of which every value is given. */

const idIn = ({ elements, cables }: LineUp, tag: string): string => {
  const part = [...elements, ...cables].find((each) => each.tag === tag);
  if (!part) throw new Error(`no ${tag}`);
  return part.id;
};
const said = (lineUp: LineUp, check: string, tag?: string): Finding => {
  const finding = createReviewer()
    .review(lineUp)
    .findings.find((each) => each.check === check && (tag === undefined || each.subject.tag === tag));
  if (!finding) throw new Error(`no ${check}`);
  return finding;
};
const kind = (name: string, ...lists: readonly (readonly Fix[])[]): Kind => ({ name, of: () => lists });
const tell = (fixes: Awaited<ReturnType<typeof proposeFixes>>) =>
  fixes.map(({ fix, kinds, asksMaker }) => [fix.label, kinds.join(), asksMaker]);

/** 4 AWG on terminals that take no more than 6 AWG: fails. */
const cramped = broken(oneLead(), { 'VFD-1': { terminalLargest: '6 AWG' } });
const drive = idIn(cramped, 'VFD-1');
const largest = (size: string | null, ...more: readonly FixEdit[]): Fix => ({
  label: `${size}`,
  edits: [{ id: drive, path: 'terminalLargest', value: size }, ...more],
});
const finding = said(cramped, 'terminal-range', 'W-1A');
const proposed = (...kinds: readonly Kind[]) => proposeFixes(cramped, finding.id, {}, kinds).then(tell);

describe('of the changes that are tried', () => {
  it('the first of each list that helps is proposed', async () => {
    expect(finding.verdict).toBe('fail');
    expect(await proposed(kind('a', [largest('8 AWG'), largest('4 AWG'), largest('2 AWG')]))).toEqual([['4 AWG', 'a', false]]);
    expect(await proposed(kind('a', [largest('4 AWG')], [largest('8 AWG')], [largest('2 AWG')]))).toEqual([
      ['4 AWG', 'a', false],
      ['2 AWG', 'a', false],
    ]);
    expect(await proposed(kind('a', []), kind('b'))).toEqual([]);
  });

  it('what two kinds or parts have in common is proposed once', async () => {
    expect(await proposed(kind('a', [largest('4 AWG')], [largest('4 AWG')]), kind('b', [largest('4 AWG')]))).toEqual([
      ['4 AWG', 'b', false],
    ]);
  });

  it('what leaves a question is proposed only of a kind that asks, and last', async () => {
    const asks: Kind = { ...kind('asks', [largest(null)]), asks: true };
    expect(await proposed(kind('a', [largest(null)]))).toEqual([]);
    expect(await proposed(asks, kind('b', [largest('4 AWG')]))).toEqual([
      ['4 AWG', 'b', false],
      ['null', 'asks', true],
    ]);
    // Said of the cable, no longer of its end, it still waits. One that settles it does not ask.
    expect(await proposed({ ...asks, of: () => [[largest('4 AWG')]] })).toEqual([['4 AWG', 'asks', false]]);
  });

  it('what leaves a question of another part asks its maker too', async () => {
    // The manuals of the two new drives have yet to say how long their cables may be.
    const lineUp = broken(twoMotors(), { 'VFD-1': { 'manual.lengthShielded_m': 30 } });
    const kinds = KINDS.filter(({ name }) => name === 'a drive for each motor');
    expect((await proposeFixes(lineUp, said(lineUp, 'manual-limits').id, {}, kinds)).map(({ asksMaker }) => asksMaker)).toEqual([true]);
  });

  it('what makes less worse comes first; alike, in the order of the kinds', async () => {
    const worse: FixEdit = { id: idIn(cramped, 'CB-1'), path: 'faultRating_A', value: 100 };
    expect(await proposed(kind('a', [largest('4 AWG', worse)]), kind('b', [largest('3 AWG')]), kind('c', [largest('2 AWG')]))).toEqual([
      ['3 AWG', 'b', false],
      ['2 AWG', 'c', false],
      ['4 AWG', 'a', false],
    ]);
  });

  it('what puts in a part that fails itself is none', async () => {
    const cable = idIn(cramped, 'W-1A');
    const box = (made: string): Fix => ({
      label: made,
      edits: [],
      inserts: [
        {
          kind: 'junction',
          values: {
            box: made,
            bondBar: made === 'metal',
            terminalSmallest: '14 AWG',
            terminalLargest: '4 AWG',
            terminalsPerPhase: 2,
            terminalTemperature_C: 75,
          },
          cable,
          end: 'from',
          port: 'load',
          tail: { 'conductor.size': '6 AWG', length_m: 2 },
        },
      ],
    });
    expect(await proposed(kind('tails', [box('plastic'), box('metal')]))).toEqual([['metal', 'tails', false]]);
  });

  it('nothing is proposed for what passes, what waits for a value, or what is not said', async () => {
    const helps = kind('a', [largest('4 AWG')]);
    const open = broken(oneLead(), { 'VFD-1': { terminalLargest: null } });
    expect(said(open, 'terminal-range').verdict).toBe('open');
    expect(await proposeFixes(open, said(open, 'terminal-range').id, {}, [helps])).toEqual([]);
    const fine = oneLead();
    expect(await proposeFixes(fine, said(fine, 'terminal-range').id, {}, [helps])).toEqual([]);
    expect(await proposeFixes(cramped, 'none', {}, [helps])).toEqual([]);
  });

  it('a finding that waits itself is asked for too, of a kind that asks', async () => {
    const weak = broken(oneLead(), { 'VFD-1': { faultRating_A: 5000 } });
    const unrated: Fix = { label: 'unrated', edits: [{ id: idIn(weak, 'VFD-1'), path: 'faultRating_A', value: null }] };
    const { id } = said(weak, 'fault-rating', 'VFD-1');
    expect(tell(await proposeFixes(weak, id, {}, [{ ...kind('asks', [unrated]), asks: true }]))).toEqual([['unrated', 'asks', true]]);
    expect(await proposeFixes(weak, id, {}, [kind('plain', [unrated])])).toEqual([]);
    // A kind that asks and leaves it as it is helps nobody.
    const same: Fix = { label: 'same', edits: [{ id: idIn(weak, 'VFD-1'), path: 'note', value: 'said' }] };
    expect(await proposeFixes(weak, id, {}, [{ ...kind('asks', [same]), asks: true }])).toEqual([]);
  });

  it('a number that hardly moves is no help, though its verdict turns', async () => {
    const at = (m: number) => broken(oneLead(), { 'W-1A': { length_m: m } });
    const { value, limit } = said(at(165), 'lead-drop');
    // The drop goes with the length of both leads, the other of 10 ft: 0.3 % above the limit, and 0.3 % below it.
    const metres = (share: number): number => (165 + 3.048) * share * ((limit ?? 0) / (value ?? 1)) - 3.048;
    const over = at(metres(1.003));
    const drop = said(over, 'lead-drop');
    const shorter = (m: number): Fix => ({ label: m.toFixed(0), edits: [{ id: idIn(over, 'W-1A'), path: 'length_m', value: m }] });
    expect([drop.verdict, said(at(metres(0.997)), 'lead-drop').verdict]).toEqual(['caution', 'note']);
    expect(tell(await proposeFixes(over, drop.id, {}, [kind('shorter', [shorter(metres(0.997)), shorter(90)])]))).toEqual([
      ['90', 'shorter', false],
    ]);
  });

  it('a caution is helped too', async () => {
    const long = broken(oneLead(), { 'W-1A': { length_m: 165 } });
    const drop = said(long, 'lead-drop');
    expect(drop.verdict).toBe('caution');
    const shorter = (m: number): Fix => ({ label: `${m}`, edits: [{ id: idIn(long, 'W-1A'), path: 'length_m', value: m }] });
    expect(tell(await proposeFixes(long, drop.id, {}, [kind('shorter', [shorter(164.9), shorter(100)])]))).toEqual([
      ['100', 'shorter', false],
    ]);
  });
});

describe('two changes together', () => {
  // 200 m of 4 AWG drop 3.6 %: neither 180 m nor 3 AWG alone is enough for 3 %, both are.
  const long = broken(oneLead(), { 'W-1A': { length_m: 200 } });
  const drop = said(long, 'lead-drop');
  const [a, b] = [idIn(long, 'W-1A'), idIn(long, 'W-1B')];
  const shorter = (m: number, more: Partial<Fix> = {}): Fix => ({
    label: `${m} m`,
    edits: [{ id: a, path: 'length_m', value: m }],
    ...more,
  });
  const thicker = (more: Partial<Fix> = {}): Fix => ({
    label: '3 AWG',
    edits: [a, b].map((id) => ({ id, path: 'conductor.size', value: '3 AWG' })),
    ...more,
  });
  const together = (...kinds: readonly Kind[]) => proposeFixes(long, drop.id, {}, kinds).then(tell);
  const both = [['180 m, and 3 AWG', 'route,size', false]];

  it('are tried where none helps alone, each pair once', async () => {
    expect(await together(kind('route', [shorter(180)]), kind('size', [thicker()]))).toEqual(both);
    expect(await together(kind('route', [shorter(180)]), kind('size', [thicker()]), kind('other', [shorter(100)]))).toEqual([
      ['100 m', 'other', false],
    ]);
    expect(await together(kind('route', [shorter(180)]), kind('nothing', [{ label: 'nothing', edits: [] }]))).toEqual([]);
    expect(await together(kind('nothing', [{ label: 'nothing', edits: [] }]))).toEqual([]);
  });

  it('are of two kinds, the smallest or the largest step of each', async () => {
    expect(await together(kind('one', [shorter(180)], [thicker()]))).toEqual([]);
    expect(await together(kind('route', [shorter(215), shorter(190), shorter(180)]), kind('size', [thicker()]))).toEqual(both);
    expect(await together(kind('route', [shorter(180), shorter(178)]), kind('size', [thicker()]))).toEqual(both);
    expect(await together(kind('route', [shorter(215), shorter(180), shorter(214)]), kind('size', [thicker()]))).toEqual([]);
  });

  it('touch nothing twice: no value, no cable that a part is put into, no part that is moved or taken out', async () => {
    const box = (cable: string, end: 'from' | 'to') => {
      const values = { box: 'metal', bondBar: true, terminalSmallest: '14 AWG', terminalLargest: '1/0 AWG', terminalTemperature_C: 75 };
      return { inserts: [{ kind: 'junction', values, cable, end, port: end === 'from' ? 'load' : 'line' }] } as const;
    };
    const tried = (one: Partial<Fix>, other: Partial<Fix>) => together(kind('route', [shorter(180, one)]), kind('size', [thicker(other)]));
    expect(await tried(box(a, 'from'), box(b, 'to'))).toEqual(both);
    expect(await tried(box(a, 'from'), box(a, 'to'))).toEqual([]);
    const switchId = idIn(long, 'DS-1');
    const moves = [{ id: switchId, beside: idIn(long, 'VFD-1'), port: 'load' as const, asks: [] }];
    expect(await tried({ moves }, {})).toEqual(both);
    expect(await tried({ moves }, { takesOut: [switchId] })).toEqual([]);
    // What lands on a part that goes is touched with it.
    expect(await tried({ takesOut: [switchId] }, box(b, 'to'))).toEqual([]);
    expect(await tried({ takesOut: [switchId] }, box(a, 'from'))).toEqual([]);
    // What both put in is put in.
    const [made] = await proposeFixes(long, drop.id, {}, [
      kind('route', [shorter(180, box(a, 'from'))]),
      kind('size', [thicker(box(b, 'to'))]),
    ]);
    expect(made?.fix.inserts).toEqual([...box(a, 'from').inserts, ...box(b, 'to').inserts]);
    const [out] = await proposeFixes(long, drop.id, {}, [kind('route', [shorter(180)]), kind('size', [thicker({ takesOut: [switchId] })])]);
    expect(out?.fix.takesOut).toEqual([switchId]);
    expect(await tried({ takesOut: [switchId] }, { takesOut: [switchId] })).toEqual([]);
    expect(
      await together(
        kind('route', [shorter(180)]),
        kind('size', [thicker({ edits: [...thicker().edits, { id: a, path: 'length_m', value: 230 }] })]),
      ),
    ).toEqual([]);
  });

  it('make all that each makes', async () => {
    const one = (more: Partial<Fix>): Partial<Fix> => more;
    const parts = { moves: [{ id: idIn(long, 'DS-1'), beside: idIn(long, 'VFD-1'), port: 'load' as const, asks: [] }] };
    const [made] = await proposeFixes(long, drop.id, {}, [kind('route', [shorter(180)]), kind('size', [thicker(one(parts))])]);
    expect(made?.fix).toEqual({
      ...parts,
      label: '180 m, and 3 AWG',
      edits: [...shorter(180).edits, ...thicker().edits],
      inserts: [],
      takesOut: [],
      removes: [],
    });
  });

  it('are tried where one only says something else of it', async () => {
    // Both leads of a motor of 37 kW have one ground to one side: with one of them mended the other is told.
    const one = { 'grounds.arrangement': 'single', 'grounds.count': 1 };
    const sided = broken(oneLead(), { 'W-1A': one, 'W-1B': one, 'M-1': { ratedPower_W: 37_000 } });
    const symmetry = said(sided, 'symmetry');
    expect([symmetry.verdict, symmetry.margin_pct]).toEqual(['caution', null]);
    const mended = (tag: string): Fix => ({
      label: tag,
      edits: [
        { id: idIn(sided, tag), path: 'grounds.arrangement', value: 'symmetrical' },
        { id: idIn(sided, tag), path: 'grounds.count', value: 3 },
      ],
    });
    const nothing: Fix = { label: 'nothing', edits: [{ id: idIn(sided, 'W-1A'), path: 'note', value: 'said' }] };
    const tried = (...kinds: readonly Kind[]) => proposeFixes(sided, symmetry.id, {}, kinds).then(tell);
    expect(await tried(kind('a', [mended('W-1A')]), kind('b', [mended('W-1B')]))).toEqual([['W-1A, and W-1B', 'a,b', false]]);
    expect(await tried(kind('a', [mended('W-1A')]), kind('b', [nothing]))).toEqual([]);
  });
});

describe('what waits for a value', () => {
  it('is given what its check knows, where that makes the question idle', async () => {
    const lineUp = broken(oneLead(), { 'DS-1': { box: null } });
    const open = said(lineUp, 'shield-continuity');
    expect([open.verdict, open.fixes.length > 0]).toEqual(['open', true]);
    expect((await proposeFixes(lineUp, open.id, {}, KINDS.slice(0, 1))).map(({ kinds }) => kinds[0])).toContain('as the check proposes');
  });
});

describe('whom a finding concerns', () => {
  const seen = async (lineUp: LineUp, of: Finding): Promise<Concerned> => {
    let told: Concerned | undefined;
    const spy: Kind = {
      name: 'spy',
      of: (concerned) => {
        told = concerned;
        return [];
      },
    };
    await proposeFixes(lineUp, of.id, {}, [spy]);
    if (!told) throw new Error('not asked');
    return told;
  };
  const tags = (parts: readonly { readonly tag: string }[]) => parts.map(({ tag }) => tag);

  it('of a cable: itself, and every part on its runs', async () => {
    const told = await seen(cramped, finding);
    expect([tags(told.cables), told.finding.id, told.lineUp]).toEqual([['W-1A'], finding.id, cramped]);
    expect(tags(told.elements)).toEqual(['S-1', 'CB-1', 'VFD-1', 'DS-1', 'M-1']);
    expect(told.runs.map(({ motor }) => motor.tag)).toEqual(['M-1']);
  });

  it('of a part: it, the cables of its runs, no links, and nothing of other runs', async () => {
    const two = broken(twoMotors(), { 'M-1': { insulation: 'mg1-part-30' }, 'M-2': { insulation: 'mg1-part-30' } });
    const told = await seen(two, said(two, 'motor-peak-voltage'));
    const [own, other] = told.finding.subject.tag === 'M-1' ? ['W-1B', 'W-1C'] : ['W-1C', 'W-1B'];
    expect(tags(told.cables)).toEqual(expect.arrayContaining(['F-1', 'W-1A', own]));
    expect(tags(told.cables)).not.toContain(other);
    expect(told.cables.every(({ kind: of }) => of === 'cable')).toBe(true);
    expect(told.runs).toHaveLength(1);
    expect(tags(told.elements)).toContain(told.finding.subject.tag);
  });

  it('of a cable as a whole: itself alone', async () => {
    const thin = broken(oneLead(), { 'W-1A': { 'conductor.size': '10 AWG' } });
    const told = await seen(thin, said(thin, 'lead-ampacity', 'W-1A'));
    expect(tags(told.cables)).toEqual(['W-1A']);
  });

  it('of more than twelve runs: what lands on the part, and where that leads', async () => {
    const site = new LineUpBuilder().part('supply', { tag: 'S', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 30_000, xOverR: 8 });
    site.cable(inSteel('4/0 AWG', 50, { tag: 'T' })).part('bus', { tag: 'B', faultRating_A: 100 });
    for (let i = 1; i <= 13; i++)
      site
        .from('B')
        .cable(inSteel('10 AWG', 50, { tag: `F${i}` }))
        .part('motor', { tag: `M${i}`, ratedCurrent_A: 5 });
    site
      .from('M13')
      .cable(inSteel('10 AWG', 50, { tag: 'beyond' }))
      .part('junction', { tag: 'J' });
    const lineUp = site.build();
    const told = await seen(lineUp, said(lineUp, 'fault-rating', 'B'));
    const numbers = Array.from({ length: 13 }, (_, i) => i + 1);
    expect(tags(told.cables)).toEqual(['T', ...numbers.map((i) => `F${i}`)]);
    expect(tags(told.elements)).toEqual(['S', 'B', ...numbers.map((i) => `M${i}`)]);
    expect(told.runs).toEqual([]);
  });

  it('of more than twelve runs: the part itself and what lands on it', async () => {
    const site = (count: number) => broken(manyRuns(count), { 'B-1': { faultRating_A: 5000 } });
    const told = async (count: number) => {
      const lineUp = site(count);
      const rating = createReviewer()
        .review(lineUp)
        .findings.find(({ check, subject }) => check === 'fault-rating' && subject.tag === 'B-1');
      if (!rating) throw new Error('no rating');
      return seen(lineUp, rating);
    };
    const many = await told(13);
    expect([tags(many.cables), many.runs]).toEqual([[], []]);
    expect(tags(many.elements)).toEqual(['B-1']);
    const few = await told(12);
    expect([few.cables.length, few.runs.length]).toEqual([24, 12]);
  });
});
