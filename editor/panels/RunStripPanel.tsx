import { type KeyboardEvent, useLayoutEffect, useMemo, useRef, useState } from 'react';
import {
  fixed,
  formatQuantity,
  type LineUp,
  type Review,
  runPeaks,
  runStrip,
  STRIP_HEIGHT_mm,
  type StripPlace,
} from '../../engine/index.ts';
import { Paint } from '../sheet/Paint.tsx';
import { view } from '../sheet/view.ts';
import { setStrip } from '../store/deskStore.ts';
import { select, showFinding, useEditor } from '../store/editorStore.ts';
import { useSay } from '../store/useSay.ts';
import { Folded } from './Folded.tsx';

export interface RunStripPanelProps {
  readonly lineUp: LineUp;
  readonly review: Review;
}

/** As large as its text can be read; a run that needs more than the room there is scrolls. */
const PX_A_MM = 3.15;

/** Arrows go along the run from part to part. */
function walk(event: KeyboardEvent<HTMLElement>): void {
  const to = { ArrowRight: 'nextElementSibling', ArrowLeft: 'previousElementSibling' } as const;
  if (event.key !== 'ArrowRight' && event.key !== 'ArrowLeft') return;
  const next = event.currentTarget[to[event.key]];
  if (next instanceof HTMLButtonElement) next.focus();
}

/** The sheet goes along with who walks here. */
function choose(id: string): void {
  select([id]);
  view()?.bring(id);
}

/** The run of what is chosen, unrolled under the sheet: what is chosen in one is chosen in the other. */
export default function RunStripPanel({ lineUp, review }: RunStripPanelProps) {
  const selected = useEditor((state) => state.selected);
  const [last, setLast] = useState<string | null>(null);
  const touched = review.runs.filter(({ path }) => path.some((id) => selected.includes(id)));
  // A part of several runs does not leave the one that is being looked at.
  const run =
    touched.find((each) => each.motorId === last) ?? touched[0] ?? review.runs.find((each) => each.motorId === last) ?? review.runs[0];
  if (run && run.motorId !== last) setLast(run.motorId);
  return (
    <section className="strip" aria-label="Run strip">
      <p className="acts">
        {run ? (
          <label>
            Run of{' '}
            <select value={run.motorId} onChange={({ target }) => choose(target.value)}>
              {review.runs.map((each) => (
                <option key={each.motorId} value={each.motorId}>
                  {each.motorTag}
                </option>
              ))}
            </select>
          </label>
        ) : (
          <span className="muted">No motor is fed yet: there is no run to unroll.</span>
        )}
        {run && <span className="muted">{lengthsSaid(lineUp, review, run)}</span>}
        <span className="grow" />
        <button type="button" className="quiet" onClick={() => setStrip(false)}>
          Put the strip away
        </button>
      </p>
      {run && <Strip lineUp={lineUp} review={review} run={run} selected={selected} />}
    </section>
  );
}

/** What hangs on the drive in all counts for its charging current, and the way to this motor for its peak. */
function lengthsSaid({ cables, project }: LineUp, { runs }: Review, run: Review['runs'][number]): string {
  const siblings = runs.filter(({ driveId }) => driveId !== null && driveId === run.driveId);
  const behind = new Set(siblings.flatMap(({ path, driveId }) => path.slice(path.indexOf(driveId ?? '') + 1)));
  const lengths = cables.flatMap(({ id, kind, length_m }) => (kind === 'cable' && behind.has(id) ? [length_m] : []));
  if (siblings.length < 2 || run.leadLength_m === null || lengths.includes(undefined)) return '';
  const said = (metres: number): string => formatQuantity(metres, 'length', project.units);
  return `${said(lengths.reduce<number>((sum, each) => sum + (each ?? 0), 0))} in all, ${said(run.leadLength_m)} this way`;
}

interface StripProps extends RunStripPanelProps {
  readonly run: Review['runs'][number];
  readonly selected: readonly string[];
}

function Strip({ lineUp, review, run, selected }: StripProps) {
  const say = useSay();
  const frame = useRef<HTMLDivElement>(null);
  const [room_px, setRoom] = useState(0);
  useLayoutEffect(() => {
    const watching = new ResizeObserver(([seen]) => seen && setRoom(Math.floor(seen.contentRect.width)));
    if (frame.current) watching.observe(frame.current);
    return () => watching.disconnect();
  }, []);
  // Moving parts about changes nothing of it.
  const { elements, cables, project } = lineUp;
  const peaks = useMemo(() => runPeaks({ elements, cables, project }, run), [elements, cables, project, run]);
  const { items, places, pins, width_mm } = useMemo(
    () => runStrip({ elements, cables, project }, review, run, room_px / PX_A_MM, peaks),
    [elements, cables, project, review, run, room_px, peaks],
  );
  const across = (mm: number): string => `${(100 * mm) / width_mm}%`;
  const down = (mm: number): string => `${(100 * mm) / STRIP_HEIGHT_mm}%`;
  const said = (ids: readonly string[]): string =>
    review.findings
      .flatMap(({ id, verdict, title, subject }) => (ids.includes(id) ? [`${verdict}: ${title}, ${subject.tag}`] : []))
      .join('; ');
  return (
    <>
      <div className="unrolled" ref={frame}>
        <div style={{ width: width_mm * PX_A_MM, height: STRIP_HEIGHT_mm * PX_A_MM }}>
          {places
            .filter((each) => selected.includes(each.id))
            .map((each) => (
              <span key={each.id} className="band" style={{ left: across(each.from_mm), width: across(each.to_mm - each.from_mm) }} />
            ))}
          <svg
            className="chart"
            viewBox={`0 0 ${width_mm} ${STRIP_HEIGHT_mm}`}
            role="img"
            aria-label={`The run of ${run.motorTag}, unrolled`}
          >
            <Paint items={items} />
          </svg>
          <div>
            {places
              .filter((each) => each.to_mm > each.from_mm)
              .map((each) => (
                <button
                  key={each.id}
                  type="button"
                  className="place"
                  aria-label={`${each.tag} on the strip`}
                  aria-pressed={selected.includes(each.id)}
                  title={each.tag}
                  style={{ left: across(each.from_mm), width: across(each.to_mm - each.from_mm), top: down(6.5), bottom: 0 }}
                  onKeyDown={walk}
                  onFocus={() => view()?.bring(each.id)}
                  onClick={() => choose(each.id)}
                />
              ))}
          </div>
          {pins.map(({ x_mm, findings }) => (
            <button
              key={findings[0]}
              type="button"
              className="pin"
              aria-label={said(findings)}
              title={said(findings)}
              style={{ left: across(x_mm), top: down(3) }}
              onClick={() => showFinding(findings[0] ?? null)}
            />
          ))}
        </div>
      </div>
      <Folded summary="The run as a table">
        {() => (
          // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
          <section className="wide-table" aria-label={`Table of the run of ${run.motorTag}`} tabIndex={0}>
            <table className="inputs" aria-label={`The run of ${run.motorTag}`}>
              <thead>
                <tr>
                  {[
                    'Part',
                    'From the drive',
                    'Voltage, of its start',
                    'Fault current',
                    'Peak at its far end',
                    'Shield',
                    'Grounds',
                    'Around it',
                    'Found here',
                  ].map((each) => (
                    <th key={each} scope="col">
                      {say(each)}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {places.map((each) => (
                  <tr key={each.id}>
                    <th scope="row">{each.tag}</th>
                    <td>{distance(each, lineUp)}</td>
                    <td>{each.voltage_pct === null ? '' : `${fixed(each.voltage_pct, 2)} %`}</td>
                    <td>{each.fault_A === null ? '' : `${fixed(each.fault_A / 1000, 2)} kA`}</td>
                    <td>{each.peak_V === null ? '' : `${fixed(each.peak_V, 0)} V`}</td>
                    <td>{each.shield}</td>
                    <td>{each.grounds}</td>
                    <td>{each.around}</td>
                    <td>{said(each.findings)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        )}
      </Folded>
    </>
  );
}

const distance = ({ distance_m }: StripPlace, { project }: LineUp): string =>
  distance_m === null ? 'not known' : formatQuantity(distance_m, 'length', project.units);
