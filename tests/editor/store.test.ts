import { beforeEach, describe, expect, it } from 'vitest';
import { edit, openLineUp, redo, undo, useEditor } from '../../editor/store/editorStore.ts';
import { addRow, branchOff, insertInto, move, setValue, switchCheck, takeRow } from '../../editor/store/edits.ts';
import { lieBeside } from '../../editor/store/lieBeside.ts';
import { type LineUp, remove, tidyPositions } from '../../engine/index.ts';
import { manyRuns } from '../engine/manyRuns.ts';

/** How much one gesture costs, in counts, and that undo gives back the very document. */

const site = manyRuns(10);
let changes = 0;
useEditor.subscribe(() => changes++);

beforeEach(() => {
  openLineUp(site);
  changes = 0;
});

const state = () => useEditor.getState();

describe('the store', () => {
  it('a field edit is one change, and judges only what hangs on it', () => {
    const cable = site.cables.find((each) => each.tag === 'W-1');
    edit('Length', (before) => setValue(before, cable?.id ?? '', 'length_m', 61));
    expect(changes).toBe(1);
    expect(state().review?.recomputed).toBeGreaterThan(0);
    expect(state().review?.recomputed).toBeLessThan((state().review?.findings.length ?? 0) / 10);
  });

  it('a move judges nothing anew', () => {
    edit('Move', (before) => move(before, new Map([['e1', { x_mm: 400, y_mm: 10 }]])));
    expect(state().review?.recomputed).toBe(0);
  });

  it('an edit that changes nothing is no step', () => {
    edit('Nothing', (before) => before);
    expect([changes, state().past.length]).toEqual([0, 0]);
  });

  it('undo and redo give back the very documents', () => {
    edit('Off', (before) => switchCheck(before, 'harmonics', 'a study is at hand'));
    const after = state().lineUp;
    undo();
    expect(state().lineUp).toBe(site);
    redo();
    expect(state().lineUp).toBe(after);
    expect(
      state()
        .review?.findings.filter((each) => each.check === 'harmonics')
        .every((each) => each.verdict === 'out-of-scope'),
    ).toBe(true);
  });

  it('a check is judged again when it is switched on', () => {
    const off = switchCheck(site, 'harmonics', 'not here');
    expect(switchCheck(off, 'harmonics', null).project.checks).toEqual(site.project.checks);
  });

  it('lengths by category come and go, and leave no empty list behind', () => {
    const drive = site.elements.find((each) => each.kind === 'drive');
    const one = addRow(site, drive?.id ?? '', 'manual.emcLengths');
    const none = takeRow(one, drive?.id ?? '', 'manual.emcLengths', 0);
    const found = none.elements.find((each) => each.id === drive?.id);
    expect(found?.kind === 'drive' && found.manual?.emcLengths).toBeUndefined();
  });

  it('what was typed for a row moves with it when one before it is taken out', () => {
    const id = site.elements.find((each) => each.kind === 'motor')?.id ?? '';
    const two = addRow(addRow(site, id, 'peakCurve'), id, 'peakCurve');
    const typed = setValue(two, id, 'peakCurve.1.peak_V', 1300, '1.3 kV');
    const left = takeRow(typed, id, 'peakCurve', 0).elements.find((each) => each.id === id);
    expect(left?.kind === 'motor' && left.peakCurve?.map((each) => each.peak_V)).toEqual([1300]);
    expect(left?.provenance?.['peakCurve.0.peak_V']?.typed).toBe('1.3 kV');
  });

  it('a part put into a cable keeps the data of both halves and asks how the new ends are landed', () => {
    const cable = site.cables.find((each) => each.tag === 'W-1');
    const made = insertInto(site, cable?.id ?? '', 'disconnect', { x_mm: 0, y_mm: 0 });
    const halves = made?.lineUp.cables.filter((each) => each.conductor === cable?.conductor) ?? [];
    expect(halves.length).toBe(2);
    expect(halves[0]?.to.landing).toBeUndefined();
    expect(halves[1]?.from.landing).toBeUndefined();
  });
});

describe('beside what a cable lies', () => {
  const site = manyRuns(4);
  const [a, b, c, d] = site.cables.map(({ id }) => id) as [string, string, string, string];
  const shares = (lineUp: LineUp) => [a, b, c, d].map((id) => lineUp.cables.find((each) => each.id === id)?.installation.sharedWith);
  const hub = [
    [a, [b, c]],
    [d, [c]],
  ] as const;
  const shared = hub.reduce<LineUp>((now, [id, list]) => setValue(now, id, 'installation.sharedWith', list), {
    ...site,
    cables: site.cables.map((each) => ({ ...each, installation: { ...each.installation, sharedWith: undefined } })),
  });

  it('is said of a raceway: one that is no more among the others is out of it, and they are together still', () => {
    expect(shares(lieBeside(shared, b, [c, d]))).toEqual([undefined, [c, d], undefined, [c]]);
    expect(shares(lieBeside(shared, a, []))).toEqual([[], [c, d], undefined, [c]]);
    expect(shares(lieBeside(shared, c, undefined))).toEqual([[b, d], undefined, undefined, []]);
    expect(shares(lieBeside(setValue(shared, d, 'installation.sharedWith', []), d, [b]))).toEqual([[b, c], undefined, undefined, [b]]);
  });
  it('is not known of the half that is new; and one that is taken away leaves the others together', () => {
    const made = insertInto(shared, b, 'disconnect', { x_mm: 0, y_mm: 0 });
    const halves = made?.lineUp.cables.filter(({ from, to }) => from.element === made.id || to.element === made.id) ?? [];
    expect([halves.map(({ id }) => id)[0], halves[1]?.installation.sharedWith]).toEqual([b, undefined]);
    expect(shares(remove(shared, [c]))).toEqual([[b, d], undefined, undefined, []]);
  });
});

describe('room for what is put into a cable', () => {
  const site = { ...manyRuns(2), positions: tidyPositions(manyRuns(2)) };
  const lead = site.cables.find((each) => site.elements.find(({ id }) => id === each.to.element)?.kind === 'motor');
  const [drive, motor] = [lead?.from.element ?? '', lead?.to.element ?? ''];
  const top = (lineUp: LineUp, id: string) => lineUp.positions[id]?.y_mm ?? Number.NaN;

  it('moves the motor below it, and nothing beside or above', () => {
    const made = insertInto(site, lead?.id ?? '', 'disconnect', { x_mm: site.positions[drive]?.x_mm ?? 0, y_mm: top(site, motor) - 20 });
    if (!made) throw new Error('nothing inserted');
    expect(top(made.lineUp, made.id) - top(site, drive)).toBeGreaterThanOrEqual(26);
    expect(top(made.lineUp, motor) - top(made.lineUp, made.id)).toBeGreaterThanOrEqual(26);
    for (const { id } of site.elements) if (id !== motor) expect(made.lineUp.positions[id]).toBe(site.positions[id]);
  });

  it('stands below what feeds it, wherever on its cable it was let go', () => {
    const made = insertInto(site, lead?.id ?? '', 'disconnect', { x_mm: 0, y_mm: top(site, drive) - 5 });
    expect(made && top(made.lineUp, made.id) - top(site, drive)).toBeGreaterThanOrEqual(26);
  });

  it('a motor at a cable is fed from a junction in it, and stands clear of all others', () => {
    const made = branchOff(site, lead?.id ?? '', 'motor', { x_mm: site.positions[drive]?.x_mm ?? 0, y_mm: top(site, motor) - 20 });
    if (!made) throw new Error('nothing branched off');
    const { cables, elements, positions } = made.lineUp;
    const feeds = cables.find(({ to }) => to.element === made.id);
    const box = elements.find(({ id }) => id === feeds?.from.element);
    expect(box?.kind).toBe('junction');
    expect(cables.filter(({ from }) => from.element === box?.id).map(({ to }) => to.element)).toEqual([motor, made.id]);
    expect(cables.find(({ to }) => to.element === box?.id)?.from.element).toBe(drive);
    const own = positions[made.id] ?? { x_mm: 0, y_mm: 0 };
    const near = Object.entries(positions).filter(([id, at]) => id !== made.id && Math.hypot(at.x_mm - own.x_mm, at.y_mm - own.y_mm) < 45);
    expect(near).toEqual([]);
    expect(branchOff(site, lead?.id ?? '', 'supply', own)).toBeNull();
  });

  it('moves nothing where there is room', () => {
    const wide = { ...site, positions: { ...site.positions, [motor]: { x_mm: 0, y_mm: top(site, motor) + 200 } } };
    const made = insertInto(wide, lead?.id ?? '', 'disconnect', { x_mm: 0, y_mm: top(site, motor) + 60 });
    expect(made && top(made.lineUp, motor)).toBe(top(wide, motor));
  });
});
