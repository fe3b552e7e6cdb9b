import { useEffect, useMemo, useState } from 'react';
import { load, newLineUp, parseQuantity, type Review, review, startFromFive, tidyPositions, VERDICTS } from '../../engine/index.ts';
import { type Kept, keptOnes } from '../files/autosave.ts';
import { openFile } from '../files/lineUpFile.ts';
import { openLineUp, openText, showStart, useEditor } from '../store/editorStore.ts';
import { Badge } from './Badge.tsx';

/** The first page: five numbers in a sentence, judged while they are typed; examples; a file. */

const FILES = import.meta.glob<string>('../../examples/*.json', { query: '?raw', import: 'default' });

interface Example {
  readonly text: string;
  readonly name: string;
  readonly title: string;
  readonly summary: string;
  readonly review: Review;
}

/** Read and judged one by one after the page is there. */
async function* examples(): AsyncGenerator<Example> {
  for (const [path, read] of Object.entries(FILES)) {
    const name = path.split('/').at(-1) ?? path;
    const text = await read();
    const loaded = load(text, name);
    if (!loaded.ok) continue;
    const { project } = loaded.lineUp;
    const summary = typeof project['summary'] === 'string' ? project['summary'] : '';
    yield { text, name, title: project.title, summary, review: review(loaded.lineUp) };
  }
}

function useExamples(): readonly Example[] {
  const [list, setList] = useState<readonly Example[]>([]);
  useEffect(() => {
    let here = true;
    void (async () => {
      for await (const each of examples()) {
        if (!here) return;
        setList((before) => [...before, each]);
      }
    })();
    return () => {
      here = false;
    };
  }, []);
  return list;
}

/** As people of this place write the day and the time. */
const timeText = (at: number): string => new Date(at).toLocaleString(undefined, { dateStyle: 'short', timeStyle: 'short' });

export function Start() {
  const open = useEditor((state) => state.lineUp);
  const shown = useExamples();
  const [kept, setKept] = useState<readonly Kept[]>([]);
  useEffect(() => void keptOnes().then(setKept), []);
  const [typed, setTyped] = useState({ power: '60 hp', voltage: '480 V', length: '210 ft', place: 'damp', basis: 'us' });
  const set = (change: Partial<typeof typed>) => setTyped({ ...typed, ...change });
  const answer = useMemo(() => {
    const units = typed.basis === 'iec' ? 'metric' : 'us';
    const [power, voltage, length] = [
      parseQuantity(typed.power, 'power', units),
      parseQuantity(typed.voltage, 'voltage', units),
      parseQuantity(typed.length, 'length', units),
    ];
    for (const each of [power, voltage, length]) if (!each.ok) return { ok: false as const, what: each.what };
    const numbers = [power, voltage, length].map((each) => (each.ok && typeof each.value === 'number' ? each.value : Number.NaN));
    const [power_W = Number.NaN, voltage_V = Number.NaN, length_m = Number.NaN] = numbers;
    if (!(power_W > 0 && voltage_V > 0 && length_m >= 0 && power_W < 1e7 && voltage_V < 1000 && length_m < 1e5))
      return { ok: false as const, what: 'power and voltage lie above zero (to 10 MW and 1000 V), the length at zero or above' };
    const basis = typed.basis === 'iec' ? 'iec' : 'us';
    const place = typed.place === 'dry' || typed.place === 'wet' ? typed.place : 'damp';
    const lineUp = startFromFive({ power_W, voltage_V, length_m, place, basis, typedLength: typed.length });
    return { ok: true as const, lineUp, review: review(lineUp) };
  }, [typed]);
  const draw = () => answer.ok && openLineUp({ ...answer.lineUp, positions: tidyPositions(answer.lineUp) });
  return (
    <main className="start">
      <h1>Copperline</h1>
      <h2>Say it in five numbers</h2>
      <form
        className="sentence"
        onSubmit={(event) => {
          event.preventDefault();
          draw();
        }}
      >
        A <input aria-label="Power" value={typed.power} onChange={(event) => set({ power: event.target.value })} /> motor on{' '}
        <input aria-label="Voltage" value={typed.voltage} onChange={(event) => set({ voltage: event.target.value })} />,{' '}
        <input aria-label="Length" value={typed.length} onChange={(event) => set({ length: event.target.value })} /> from its drive, in a{' '}
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
      <div className="verdict" role="status">
        {answer.ok ? (
          <>
            <b>Provisional</b>
            {VERDICTS.slice(0, 5).map((verdict) => (
              <span key={verdict} className={`v-${verdict}`} style={{ display: 'inline-flex', gap: 4, alignItems: 'center' }}>
                <Badge verdict={verdict} /> {answer.review.counts[verdict]} {verdict}
              </span>
            ))}
            <span className="muted">What was not said is assumed and marked, or asked for.</span>
          </>
        ) : (
          <span>{answer.what}</span>
        )}
        <button type="button" className="main" disabled={!answer.ok} onClick={draw}>
          Draw this
        </button>
      </div>
      {(open || kept.length > 0) && (
        <p className="again">
          {open && (
            <button type="button" className="main" onClick={() => showStart(false)}>
              Go on with {open.project.title}
            </button>
          )}
          {kept.map(({ at, lineUp }) => (
            <button key={at} type="button" onClick={() => openLineUp(lineUp)}>
              Take up {lineUp.project.title} again <span className="muted">{timeText(at)}</span>
            </button>
          ))}
        </p>
      )}
      <h2>Or open one and break it</h2>
      <div className="examples">
        {shown.map((each) => (
          <button key={each.name} type="button" onClick={() => openText(each.text, each.name)}>
            <b>{each.title}</b>
            <span className={`v-${each.review.verdict}`} style={{ display: 'inline-flex', gap: 4, alignItems: 'center' }}>
              <Badge verdict={each.review.verdict === 'note' ? 'pass' : each.review.verdict} />{' '}
              {each.review.verdict === 'pass' || each.review.verdict === 'note'
                ? 'in order'
                : `${each.review.counts[each.review.verdict]} ${each.review.verdict}`}
            </span>
            <span className="muted">{each.summary}</span>
          </button>
        ))}
      </div>
      <button type="button" onClick={() => openLineUp(newLineUp(typed.basis === 'iec' ? 'iec' : 'us'))}>
        Blank sheet
      </button>{' '}
      <button type="button" onClick={() => void openFile()}>
        Open a file…
      </button>
      <p className="muted" style={{ marginTop: 16 }}>
        Or drop a file anywhere here. Everything stays on this computer. A design aid: local codes, the makers’ instructions and a licensed
        engineer decide.
      </p>
    </main>
  );
}
