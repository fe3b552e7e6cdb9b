import { useState } from 'react';
import { type Finding, VERDICTS, type Verdict } from '../../engine/index.ts';
import { chooseFindings, GROUPINGS, type Grouping, useFindingsChoice } from '../store/findingsChoice.ts';
import { Badge } from './Badge.tsx';
import { FindingList, walkFindings } from './FindingList.tsx';
import { askedFor, findingGroups } from './findingGroups.ts';
import { Questions } from './Questions.tsx';
import { WorstFirst } from './WorstFirst.tsx';

/** The whole list: under headings where they are wanted, of one verdict or with some words in it, and the questions it leaves open. */
export function AllFindings({ findings }: { readonly findings: readonly Finding[] }) {
  const { grouping, verdict } = useFindingsChoice();
  const [words, setWords] = useState('');
  const shown = askedFor(findings, verdict, words);
  // Whoever looks for something wants it in sight, whatever is folded otherwise.
  const sought = verdict !== null || words.trim() !== '';
  const List = sought ? FindingList : WorstFirst;
  return (
    <>
      <search className="sieve">
        <select aria-label="Order" value={grouping} onChange={({ target }) => chooseFindings({ grouping: target.value as Grouping })}>
          {Object.entries(GROUPINGS).map(([value, label]) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </select>
        <select
          aria-label="Of verdict"
          value={verdict ?? ''}
          onChange={({ target }) => chooseFindings({ verdict: target.value === '' ? null : (target.value as Verdict) })}
        >
          <option value="">all verdicts</option>
          {VERDICTS.slice(0, 5).map((each) => (
            <option key={each} value={each}>
              {each} only
            </option>
          ))}
        </select>
        <input
          type="search"
          aria-label="Words in a finding"
          placeholder="with these words"
          value={words}
          onChange={({ target }) => setWords(target.value)}
          onKeyDown={(event) => event.key === 'ArrowDown' && walkFindings(event)}
        />
        {sought && (
          <span className="muted" role="status">
            {shown.length} of {findings.length}
          </span>
        )}
      </search>
      {findingGroups(shown, grouping).map((group) =>
        group.title === '' ? (
          <List key="" findings={group.findings} />
        ) : (
          <section key={group.title}>
            <h2 className="heading">
              {group.title}
              {VERDICTS.slice(0, 4).map((each) => {
                const count = group.findings.filter((one) => one.verdict === each).length;
                return count === 0 ? null : (
                  <span key={each} className={`v-${each}`}>
                    <Badge verdict={each} /> {count} {each}
                  </span>
                );
              })}
            </h2>
            <List findings={group.findings} />
          </section>
        ),
      )}
      <Questions findings={findings} />
    </>
  );
}
