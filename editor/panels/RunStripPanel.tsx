import { type KeyboardEvent, useState } from 'react';
import { fixed, formatQuantity, type LineUp, type Review, runStrip, STRIP_HEIGHT_mm, type StripPlace } from '../../engine/index.ts';
import { Paint } from '../sheet/Paint.tsx';
import { arrange } from '../store/deskStore.ts';
import { select, showFinding, useEditor } from '../store/editorStore.ts';
import { useSay } from '../store/useSay.ts';
import { Folded } from './Folded.tsx';

export interface RunStripPanelProps {
  readonly lineUp: LineUp;
  readonly review: Review;
}

/** Arrows go along the run from part to part. */
function walk(event: KeyboardEvent<HTMLElement>): void {
  const to = { ArrowRight: 'nextElementSibling', ArrowLeft: 'previousElementSibling' } as const;
  if (event.key !== 'ArrowRight' && event.key !== 'ArrowLeft') return;
  const next = event.currentTarget[to[event.key]];
  if (next instanceof HTMLButtonElement) next.focus();
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
            <select value={run.motorId} onChange={({ target }) => select([target.value])}>
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
        <span className="grow" />
        <button type="button" className="quiet" onClick={() => arrange({ strip: false })}>
          Put the strip away
        </button>
      </p>
      {run && <Strip lineUp={lineUp} review={review} run={run} selected={selected} />}
    </section>
  );
}

interface StripProps extends RunStripPanelProps {
  readonly run: Review['runs'][number];
  readonly selected: readonly string[];
}

function Strip({ lineUp, review, run, selected }: StripProps) {
  const say = useSay();
  const { items, places, pins, width_mm } = runStrip(lineUp, review, run);
  const across = (mm: number): string => `${(100 * mm) / width_mm}%`;
  const down = (mm: number): string => `${(100 * mm) / STRIP_HEIGHT_mm}%`;
  const said = (ids: readonly string[]): string =>
    review.findings
      .flatMap(({ id, verdict, title, subject }) => (ids.includes(id) ? [`${verdict}: ${title}, ${subject.tag}`] : []))
      .join('; ');
  return (
    <>
      <div className="unrolled">
        {/* As large as its text can be read, and no smaller: then it scrolls. */}
        <div style={{ minWidth: width_mm * 3.1, aspectRatio: `${width_mm} / ${STRIP_HEIGHT_mm}` }}>
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
                  onClick={() => select([each.id])}
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
          <div className="wide-table">
            <table className="inputs" aria-label={`The run of ${run.motorTag}`}>
              <thead>
                <tr>
                  {['Part', 'From the drive', 'Voltage, of its start', 'Shield', 'Around it', 'Found here'].map((each) => (
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
                    <td>{each.shield}</td>
                    <td>{each.around}</td>
                    <td>{said(each.findings)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        )}
      </Folded>
    </>
  );
}

const distance = ({ distance_m }: StripPlace, { project }: LineUp): string =>
  distance_m === null ? 'not known' : formatQuantity(distance_m, 'length', project.units);
