import { useEffect, useState } from 'react';
import { type LineUp, load, type Review, review, runSketch, SKETCH } from '../../engine/index.ts';
import { Paint } from '../sheet/Paint.tsx';
import { openText } from '../store/editorStore.ts';
import { Badge } from './Badge.tsx';

/** Line-ups to open and break, each with its verdict. */

const FILES = import.meta.glob<string>('../../examples/*.json', { query: '?raw', import: 'default' });

interface Example {
  readonly text: string;
  readonly lineUp: LineUp;
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
    yield { text, lineUp: loaded.lineUp, name, title: project.title, summary, review: review(loaded.lineUp) };
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

export default function Examples() {
  const shown = useExamples();
  return (
    <div className="examples">
      {shown.map((each) => (
        <button key={each.name} type="button" onClick={() => openText(each.text, each.name)}>
          <svg className="chart" viewBox={`0 0 ${SKETCH.width_mm} ${SKETCH.height_mm}`} aria-hidden="true">
            <Paint items={runSketch(each.lineUp, each.review)} />
          </svg>
          <b>{each.title}</b>
          <span className={`verdict-of v-${each.review.verdict}`}>
            <Badge verdict={each.review.verdict === 'note' ? 'pass' : each.review.verdict} />{' '}
            {each.review.verdict === 'pass' || each.review.verdict === 'note'
              ? 'in order'
              : `${each.review.counts[each.review.verdict]} ${each.review.verdict}`}
          </span>
          <span className="muted">{each.summary}</span>
        </button>
      ))}
    </div>
  );
}
