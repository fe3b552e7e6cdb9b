import { useEffect, useMemo, useState } from 'react';
import {
  type LineUp,
  MAKER,
  newLineUp,
  parseQuantity,
  review,
  startFromFive,
  tidyPositions,
  type Units,
  VERDICTS,
  withUnit,
} from '../../engine/index.ts';
import { keeper } from '../files/autosave.ts';
import type { Kept } from '../files/keeper.ts';
import { arrange } from '../store/deskStore.ts';
import { openLineUp, select, showStart, useEditor } from '../store/editorStore.ts';
import { Badge } from './Badge.tsx';
import { late, notFetched } from './late.tsx';

/** The first page: five numbers in a sentence, judged while they are typed; examples; a file. */

const loadFiles = () => import('../files/lineUpFile.ts');
const Examples = late(() => import('./Examples.tsx'), <div className="examples" />);
const RunPreview = late(() => import('./RunPreview.tsx'), <div className="chart" />);

/** As people of this place write the day and the time. */
const timeText = (at: number): string => new Date(at).toLocaleString(undefined, { dateStyle: 'short', timeStyle: 'short' });

/** What was taken for granted, counted over all parts, with the sizes it led to. */
function taken(lineUp: LineUp): string {
  const marked = [...lineUp.elements, ...lineUp.cables].reduce(
    (sum, { provenance }) => sum + Object.values(provenance ?? {}).filter((each) => each.origin === 'assumed').length,
    0,
  );
  const sizes = lineUp.cables.flatMap(({ kind, tag, conductor: { sets, size, metal } }) =>
    kind === 'link' ? [] : [`${tag} ${(sets ?? 1) > 1 ? `${sets} × ` : ''}${size?.replace('mm2', 'mm²')} ${metal}`],
  );
  return `${sizes.join(', ')}. ${marked} values are assumed and marked; what has no usual value is asked for.`;
}

type Blank = 'power' | 'voltage' | 'length';
const BLANKS: readonly Blank[] = ['power', 'voltage', 'length'];
/** In SI; zero only where it is said. */
const REACH: Readonly<Record<Blank, { readonly below: number; readonly zero?: true; readonly says: string }>> = {
  power: { below: 1e7, says: 'lies above zero and below 10 MW' },
  voltage: { below: 1000, says: 'lies above zero and below 1000 V' },
  length: { below: 1e5, zero: true, says: 'lies at zero or above, and below 100 km' },
};

function readBlank(name: Blank, text: string, units: Units): { ok: true; value: number } | { ok: false; what: string } {
  const read = parseQuantity(text, name, units);
  const { below, zero, says } = REACH[name];
  if (!read.ok) return { ok: false, what: `The ${name}: ${read.what}` };
  const value = typeof read.value === 'number' ? read.value : Number.NaN;
  return value < below && (value > 0 || (zero === true && value === 0)) ? { ok: true, value } : { ok: false, what: `The ${name} ${says}` };
}

/** Its button stands below the answer: Enter in a blank presses it. */
const SENTENCE = 'five-numbers';

export default function Start() {
  const open = useEditor((state) => state.lineUp);
  const [kept, setKept] = useState<readonly Kept[]>([]);
  useEffect(() => void keeper.others().then(setKept, () => undefined), []);
  const [typed, setTyped] = useState({ power: '60 hp', voltage: '480 V', length: '210 ft', place: 'damp', basis: 'us' });
  const set = (change: Partial<typeof typed>) => setTyped({ ...typed, ...change });
  const units = typed.basis === 'iec' ? 'metric' : 'us';
  const answer = useMemo(() => {
    const read = BLANKS.map((name) => readBlank(name, typed[name], units));
    const what = read.flatMap((each) => (each.ok ? [] : [each.what])).join('. ');
    if (what !== '') return { ok: false as const, what };
    const [power_W = Number.NaN, voltage_V = Number.NaN, length_m = Number.NaN] = read.map((each) => (each.ok ? each.value : Number.NaN));
    const basis = typed.basis === 'iec' ? 'iec' : 'us';
    const place = typed.place === 'dry' || typed.place === 'wet' ? typed.place : 'damp';
    const lineUp = startFromFive({ power_W, voltage_V, length_m, place, basis, typedLength: withUnit(typed.length, 'length', units) });
    return { ok: true as const, lineUp, review: review(lineUp) };
  }, [typed, units]);
  const blank = (name: Blank, label: string) => (
    <input
      aria-label={label}
      aria-invalid={!readBlank(name, typed[name], units).ok}
      value={typed[name]}
      onChange={(event) => set({ [name]: event.target.value })}
    />
  );
  const draw = () => {
    if (!answer.ok) return;
    openLineUp({ ...answer.lineUp, positions: tidyPositions(answer.lineUp) });
    // The first question is ready to be answered.
    const asked = answer.review.findings.find(({ verdict, missing }) => verdict === 'open' && missing.length > 0)?.missing[0];
    if (asked) select([asked.id], asked.field);
  };
  return (
    <main className="start">
      <div className="top">
        <svg viewBox="0 0 30 16" width="30" height="16" aria-hidden="true">
          <path d="M0 5h30" stroke="var(--copper)" strokeWidth="4" />
          <path d="M0 13h4m3 0h4m8 0h4m3 0h4" stroke="var(--ink)" strokeWidth="2.4" />
        </svg>
        <h1>Copperline</h1>
        <span className="grow" />
        <button type="button" className="quiet" onClick={() => void loadFiles().then(({ openFile }) => openFile(), notFetched)}>
          Open a file…
        </button>
        <span className="muted">or drop one anywhere here</span>
      </div>
      <h2 className="say">Say it in five numbers</h2>
      <form
        id={SENTENCE}
        className="sentence"
        onSubmit={(event) => {
          event.preventDefault();
          draw();
        }}
      >
        A {blank('power', 'Power')} motor on {blank('voltage', 'Voltage')}, {blank('length', 'Length')} from its drive, in a{' '}
        <select aria-label="Place" value={typed.place} onChange={(event) => set({ place: event.target.value })}>
          <option>dry</option>
          <option>damp</option>
          <option>wet</option>
        </select>{' '}
        place, by{' '}
        <select aria-label="Practice" value={typed.basis} onChange={(event) => set({ basis: event.target.value })}>
          <option value="us">US practice</option>
          <option value="iec">IEC practice</option>
        </select>
        .
      </form>
      <div className="answer">
        {/* Its place stays while a number is typed anew: nothing below moves under the eye. */}
        <div className="unrolled" aria-hidden="true">
          {answer.ok ? <RunPreview lineUp={answer.lineUp} review={answer.review} /> : <div className="chart" />}
        </div>
        <div className="verdict">
          <div className="grow" role="status">
            {answer.ok ? (
              <>
                <b>Provisional</b>
                {VERDICTS.slice(0, 5).map((verdict) => (
                  <span key={verdict} className={answer.review.counts[verdict] > 0 ? `v-${verdict}` : 'v-none'}>
                    <Badge verdict={verdict} /> {answer.review.counts[verdict]} {verdict}
                  </span>
                ))}
                <span className="muted">{taken(answer.lineUp)}</span>
              </>
            ) : (
              <p className="v-fail">{answer.what}</p>
            )}
          </div>
          <button type="submit" form={SENTENCE} className="main" disabled={!answer.ok}>
            Draw this
          </button>
        </div>
      </div>
      {(open || kept.length > 0) && (
        <p className="again">
          {open && (
            <button type="button" className="main" onClick={() => showStart(false)}>
              Go on with {open.project.title}
            </button>
          )}
          {kept.map(({ at, document, lineUp, text }) =>
            lineUp ? (
              <span key={document} className="pair">
                <button type="button" onClick={() => void keeper.takeUp(document)}>
                  Take up {lineUp.project.title} again <span className="muted">{timeText(at)}</span>
                </button>
                <button
                  type="button"
                  aria-label={`Earlier states of ${lineUp.project.title}`}
                  onClick={() => void keeper.takeUp(document).then(() => arrange({ recovering: true }))}
                >
                  Earlier…
                </button>
              </span>
            ) : (
              <button
                key={document}
                type="button"
                onClick={() => void loadFiles().then(({ saveText }) => saveText(text, 'not-readable.json'), notFetched)}
              >
                Save to a file what cannot be read <span className="muted">{timeText(at)}</span>
              </button>
            ),
          )}
        </p>
      )}
      <h2>Or open one and break it</h2>
      <Examples />
      <button type="button" onClick={() => openLineUp(newLineUp(typed.basis === 'iec' ? 'iec' : 'us'))}>
        Blank sheet
      </button>
      <p className="muted foot">
        Everything stays on this computer. A design aid: local codes, the makers’ instructions and a licensed engineer decide. {MAKER}.
      </p>
    </main>
  );
}
