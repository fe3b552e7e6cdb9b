import { CHECKS, type Fix, fixed, type InTheWay, type LeastCopper, type LineUp, type Obstacle, resizing } from '../../engine/index.ts';
import { madeOf } from './madeOf.ts';
import { useAnswer } from './useAnswer.ts';
import { VerdictWord } from './VerdictWord.tsx';
import { Waiting } from './Waiting.tsx';

/** The answer beside what is drawn: size by size what keeps it from being less, and what no size mends. */
export interface LeastSizesProps {
  readonly lineUp: LineUp;
  readonly locked: readonly string[];
  readonly stop: () => void;
  readonly take: (edits: Fix['edits']) => void;
}

const titleOf = (check: string): string => CHECKS.find(({ slug }) => slug === check)?.title ?? check;

/** So many tags are read; of more the table tells. */
const MOST_NAMED = 12;
const named = (tags: readonly string[]): string => (tags.length > MOST_NAMED ? `${tags.length} cables` : tags.join(', '));

const VOLUMES = { us: { perM3: 61_023.744, unit: 'in³' }, metric: { perM3: 1000, unit: 'dm³' } } as const;

export function LeastSizes({ lineUp, locked, stop, take }: LeastSizesProps) {
  const word = useAnswer('least', lineUp, locked);
  if (!('answer' in word))
    return (
      <>
        <Waiting word={word} />
        <button type="button" onClick={stop}>
          Stop
        </button>
      </>
    );
  const { cables, unmet, notProved, beside, left, judged } = word.answer;
  const { perM3, unit } = VOLUMES[lineUp.project.units];
  const volume = (m3: number) => `${fixed(m3 * perM3, 1)} ${unit}`;
  const edits = lineUp.cables.flatMap((cable) => {
    const sized = cables.find(({ id }) => id === cable.id);
    return sized?.least && !sized.locked ? resizing(cable, sized.least) : [];
  });
  const without = cables.filter(({ least, locked: kept }) => least === null && !kept).map(({ tag }) => tag);
  const compared = cables.flatMap(({ volumeNow_m3: now, volume_m3: least }) => (now === null || least === null ? [] : [{ now, least }]));
  return (
    <>
      {without.length > 0 && (
        <p className="reason">
          No size of <b>{named(without)}</b> passes: below stands what is in the way.
          {compared.length > 0 && ' Of the others:'}
        </p>
      )}
      {compared.length > 0 && (
        <p className="reason">
          {volume(compared.reduce((sum, { now }) => sum + now, 0))} of conductor now,{' '}
          {volume(compared.reduce((sum, { least }) => sum + least, 0))} with these sizes.{' '}
          {notProved.length === 0 ? `Nothing smaller passes: ${judged} combinations were judged.` : `${judged} combinations were judged.`}
        </p>
      )}
      {notProved.map(({ cables: tags, volume_m3, bound_m3 }) => (
        <p key={tags.join()} className="reason">
          <b>Not proved least:</b> {tags.join(', ')}. These sizes pass and are the best found so far, {volume(volume_m3)}. No combination is
          below {volume(bound_m3)}; between the two, not all were judged.
        </p>
      ))}
      {cables.length > 0 && (
        <div className="wide">
          <table className="least" aria-label="Least sizes">
            <thead>
              <tr>
                <th scope="col">Cable</th>
                <th scope="col">Now</th>
                <th scope="col">Least</th>
                <th scope="col">Volume</th>
                <th scope="col">What keeps it from being less</th>
              </tr>
            </thead>
            <tbody>
              {cables.map((sized) => (
                <tr key={sized.id}>
                  <th scope="row">{sized.tag}</th>
                  <td>{sized.now ? madeOf(sized.now) : 'not given'}</td>
                  <td>{sized.least ? <b>{madeOf(sized.least)}</b> : sized.locked ? 'as it is' : 'none passes'}</td>
                  <td>
                    {sized.volumeNow_m3 !== null && volume(sized.volumeNow_m3)}
                    {sized.volume_m3 !== null && sized.volume_m3 !== sized.volumeNow_m3 && ` → ${volume(sized.volume_m3)}`}
                  </td>
                  <td className="told">
                    <Governing sized={sized} />
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {cables.length > 0 && (
        <p>
          <button type="button" className="main" disabled={edits.length === 0} onClick={() => take(edits)}>
            Take these sizes
          </button>{' '}
          {edits.length === 0 ? (
            <span className="muted">There is none to change.</span>
          ) : (
            without.length > 0 && (
              <span className="muted">
                {named(without)} {without.length === 1 ? 'stays' : 'stay'} as drawn.
              </span>
            )
          )}
        </p>
      )}
      {unmet.length > 0 && (
        <>
          <h2>What no size mends</h2>
          <ul>
            {unmet.map((each) => (
              <li key={each.id}>
                <Objection of={each} />
                {!each.proved && <p>Not proved: the search stopped before every combination was judged. None that it judged meets it.</p>}
                {each.inTheWay && <Barred by={each.inTheWay} />}
                {each.locked.length > 0 ? (
                  <p>
                    {each.locked.join(', ')} {each.locked.length === 1 ? 'keeps its size and has' : 'keep their sizes and have'} a part in
                    it: let {each.locked.length === 1 ? 'it' : 'them'} change above, and find them again.
                  </p>
                ) : (
                  each.remedies.length > 0 && <p className="muted">What would: {each.remedies.join(' ')}</p>
                )}
              </li>
            ))}
          </ul>
        </>
      )}
      {beside.length > 0 && (
        <>
          <h2>Said with these sizes too</h2>
          <ul>
            {beside.map((each) => (
              <li key={each.id}>
                <Objection of={each} />
              </li>
            ))}
          </ul>
        </>
      )}
      {left.length > 0 && <p className="muted">Not sized, because they are not fed or their length is not known: {left.join(', ')}.</p>}
    </>
  );
}

function Governing({ sized: { locked, least, below, governs, breaks } }: { readonly sized: LeastCopper['cables'][number] }) {
  if (locked) return least ? 'keeps its size' : 'keeps its size, to which a check objects: see below';
  if (!least) return 'see below';
  if (!below) return 'no smaller size is made';
  if (governs === null) return `${madeOf(below)} would have to be judged with the others`;
  return (
    <>
      <b>{titleOf(governs)}</b> with {madeOf(below)}: {breaks[0]?.text}
    </>
  );
}

const Barred = ({ by: { sizes, breaks } }: { readonly by: InTheWay }) => (
  <>
    <p>
      {sizes.map(({ tag, choice }) => `${tag} of ${madeOf(choice)}`).join(' and ')} would meet it. In the way of that{' '}
      {breaks.length === 1 ? 'is' : 'are'}:
    </p>
    <ul>
      {breaks.map((each) => (
        <li key={each.id}>
          <Objection of={each} />
          {each.remedies.length > 0 && <p className="muted">What would make room: {each.remedies.join(' ')}</p>}
        </li>
      ))}
    </ul>
  </>
);

const Objection = ({ of: { verdict, check, text } }: { readonly of: Obstacle }) => (
  <p>
    <VerdictWord verdict={verdict} /> <b>{titleOf(check)}</b> {text}
  </p>
);
