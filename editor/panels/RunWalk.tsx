import { useRef, useState } from 'react';
import {
  type Box,
  type Cable,
  cableItems,
  cableLines,
  type Element,
  elementLines,
  type Finding,
  type Item,
  isCable,
  type LineUp,
  type Review,
  sayOf,
  symbolOf,
} from '../../engine/index.ts';
import { landingWords } from '../../engine/submittal/formats.ts';
import { partsOf } from '../commands/related.ts';
import { Paint } from '../sheet/Paint.tsx';
import { familyOf } from '../sheet/scale.ts';
import { select } from '../store/editorStore.ts';
import { FindingList } from './FindingList.tsx';
import { Steps } from './Steps.tsx';

export interface RunWalkProps {
  readonly lineUp: LineUp;
  readonly review: Review;
}

const QUIET: readonly string[] = ['pass', 'not-applicable', 'out-of-scope'];

/** A run from source to motor, part by part, with what is known and found of each and how every cable is ended. */
export default function RunWalk({ lineUp, review }: RunWalkProps) {
  const [chosen, setChosen] = useState('');
  const list = useRef<HTMLOListElement>(null);
  const gone = useRef<HTMLElement>(null);
  const run = review.runs.find((each) => each.motorId === chosen) ?? review.runs[0];
  if (!run) return <p className="muted">No motor is fed yet: there is no run to walk.</p>;
  const parts = new Map(partsOf(lineUp).map((part) => [part.id, part]));
  const cut = new Set(run.breaks.flatMap((each) => each.ends.map(({ cableId, end }) => `${cableId}/${end}`)));
  const steps = run.path.flatMap((id) => {
    const part = parts.get(id);
    const own = review.findings.filter((each) => each.subject.id === id && !QUIET.includes(each.verdict));
    return part && !(part.kind === 'link' && own.length === 0) ? [{ part, own }] : [];
  });
  const found = steps.reduce((sum, { own }) => sum + own.length, 0);
  const walkOn = (by: 1 | -1) => {
    gone.current = list.current && goOn(list.current, gone.current, by);
  };
  return (
    <>
      {review.runs.length > 1 && (
        <label className="ask">
          Run of{' '}
          <select value={run.motorId} onChange={({ target }) => setChosen(target.value)}>
            {review.runs.map(({ motorId, motorTag }) => (
              <option key={motorId} value={motorId}>
                {motorTag}
              </option>
            ))}
          </select>
        </label>
      )}
      <ol className="walk" aria-label={`Run of ${run.motorTag}`} ref={list}>
        {steps.map(({ part, own }) => (
          <Step key={part.id} part={part} lineUp={lineUp} own={own} cut={cut} />
        ))}
      </ol>
      {found > 0 && (
        <Steps step={walkOn} titles={['Finding before on this run', 'Next finding on this run']}>
          <span className="muted">
            {found} {found === 1 ? 'finding' : 'findings'} on this run
          </span>
        </Steps>
      )}
    </>
  );
}

/** To the next finding of the run, or the one before: from the last that was gone to while it is in sight, else from what is. */
function goOn(walk: HTMLElement, last: HTMLElement | null, by: 1 | -1): HTMLElement | null {
  const all = [...walk.querySelectorAll<HTMLElement>('.finding')];
  const { top, bottom } = (walk.closest('.reader') ?? walk).getBoundingClientRect();
  const topOf = (each: HTMLElement): number => each.getBoundingClientRect().top;
  const at = last ? all.indexOf(last) : -1;
  const passed = all.filter((each) => topOf(each) < top).length;
  const inSight = last && at >= 0 && topOf(last) >= top && topOf(last) < bottom;
  const next = all[((inSight ? at : by > 0 ? passed - 1 : passed) + by + all.length) % all.length] ?? null;
  next?.scrollIntoView({ block: 'center' });
  next?.focus({ preventScroll: true });
  return next;
}

interface StepProps {
  readonly part: Element | Cable;
  readonly lineUp: LineUp;
  readonly own: readonly Finding[];
  /** Ends of cables, 'id/from', at which the way of the shield stops. */
  readonly cut: ReadonlySet<string>;
}

function Step({ part, lineUp, own, cut }: StepProps) {
  const { units } = lineUp.project;
  const picture = isCable(part) ? cablePicture(part, cut) : symbolPicture(part, lineUp);
  const say = sayOf(lineUp);
  const known = (isCable(part) ? cableLines(part, units) : elementLines(part, units)).map(say);
  return (
    <li>
      <svg viewBox={`${picture.box.x} ${picture.box.y} ${picture.box.w} ${picture.box.h}`} aria-hidden="true">
        <Paint items={picture.items} />
      </svg>
      <div>
        <button type="button" className="quiet" onClick={() => select([part.id])}>
          {part.tag}
        </button>
        <p className="muted">{known.join(', ')}</p>
        {part.kind === 'cable' && (
          <p className="muted">
            Start: {say(landingWords(part, 'from'))}. End: {say(landingWords(part, 'to'))}.
          </p>
        )}
        {own.length > 0 && <FindingList findings={own} />}
      </div>
    </li>
  );
}

interface StepPicture {
  readonly items: readonly Item[];
  readonly box: Box;
}
/** All steps to one scale, the line-up's axis down the middle. */
const WIDTH_mm = 26;

function symbolPicture(part: Element, lineUp: LineUp): StepPicture {
  const { items, height_mm } = symbolOf(part, familyOf(lineUp));
  return { items, box: { x: -WIDTH_mm / 2, y: -1, w: WIDTH_mm, h: Math.max(height_mm, 4) + 2 } };
}

const CABLE_mm = 24;
function cablePicture(cable: Cable, cut: ReadonlySet<string>): StepPicture {
  const items = cableItems({
    points: [
      [0, 0],
      [0, CABLE_mm],
    ],
    cable,
    verdict: 'pass',
    gapFrom: cut.has(`${cable.id}/from`),
    gapTo: cut.has(`${cable.id}/to`),
  });
  return { items, box: { x: -WIDTH_mm / 2, y: -1, w: WIDTH_mm, h: CABLE_mm + 2 } };
}
