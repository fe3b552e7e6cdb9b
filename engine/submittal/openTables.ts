import type { Review } from '../checks/solved.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { type Table, VERDICT_WORD } from './content.ts';
import { numbered } from './findingTables.ts';

/** What is not settled: what is missing, what was assumed, what departs from the rules. */

/** Whether anything stands against issuing it, in a sentence. */
export function standingText({ counts, runs }: Review): string {
  const against = [
    ...(runs.length === 0 ? ['no motor is fed yet'] : []),
    ...(counts.fail > 0 ? [`${counts.fail} ${counts.fail === 1 ? 'check fails' : 'checks fail'}`] : []),
    ...(counts.open > 0 ? [`${counts.open} cannot be judged yet`] : []),
  ];
  return against.length === 0 ? 'Nothing stands against issue.' : `Not ready to issue: ${against.join(', ')}.`;
}

/** What fails, and what cannot be judged for another reason than a missing value: those stand among the open items. */
export function standing(review: Review): Table {
  const numbers = numbered(review);
  return {
    title: 'Against issue',
    empty: 'Nothing fails.',
    columns: [
      { head: 'No.', w: 11, right: true },
      { head: 'Verdict', w: 25 },
      { head: 'Of', w: 26 },
      { head: 'Finding', grow: 3 },
      { head: 'Settled by, needed by', grow: 1 },
    ],
    verdictColumns: [1],
    rows: review.findings
      .filter((each) => each.verdict === 'fail' || (each.verdict === 'open' && each.missing.length === 0))
      .map((each) => [`${numbers.get(each.id) ?? ''}`, VERDICT_WORD[each.verdict], each.subject.tag || 'line-up', each.text, '']),
  };
}

/** Where the project departs from the rules by its own word: checks that it switches off, limits that it sets. What fails stands against issue. */
export function deviations(lineUp: LineUp): Table {
  const { limits, checks } = lineUp.project;
  const LIMITS = {
    feederDrop_pct: ['Drop in a feeder', '%'],
    leadDrop_pct: ['Drop in a motor lead', '%'],
    motorPeak_V: ['Peak at a motor', 'V'],
  } as const;
  return {
    title: 'Deviations',
    empty: 'None by the project’s own word: no check is switched off, and it sets no limit of its own.',
    columns: [
      { head: 'What is asked, and by whom', grow: 1.4 },
      { head: 'What is offered', grow: 1.6 },
      { head: 'Reason', grow: 1 },
    ],
    rows: [
      ...Object.entries(checks)
        .filter(([, check]) => check.off)
        .map(([slug, check]) => [`The check ${slug}`, 'switched off for this project', check.reason?.trim() || 'no reason given']),
      ...(['feederDrop_pct', 'leadDrop_pct', 'motorPeak_V'] as const).flatMap((name) => {
        const limit = limits[name];
        return limit === undefined ? [] : [[LIMITS[name][0], `limit of this project: ${limit} ${LIMITS[name][1]}`, 'set in the project']];
      }),
    ],
  };
}

const TITLE_BLOCK = {
  owner: 'Owner',
  createdBy: 'Created by',
  checkedBy: 'Checked by',
  approvedBy: 'Approved by',
  number: 'Identification number',
  revision: 'Revision',
  status: 'Status',
} as const;

/** What is missing, by who can be asked for it: a list to send. The same value of several parts is asked for once. */
export function openItems({ project }: LineUp, review: Review): Table {
  const asked = new Map<
    string,
    { readonly ask: string; readonly label: string; readonly tags: Set<string>; readonly checks: Set<string> }
  >();
  for (const finding of review.findings)
    for (const { ask, label, tag } of finding.missing) {
      const key = `${ask}/${label}`;
      const item = asked.get(key) ?? { ask, label, tags: new Set(), checks: new Set() };
      item.tags.add(tag || 'project');
      item.checks.add(finding.title);
      asked.set(key, item);
    }
  const blank = Object.entries(TITLE_BLOCK).flatMap(([field, label]) => (project[field as keyof typeof TITLE_BLOCK] ? [] : [label]));
  const rows = [...asked.values()].sort((a, b) => (a.ask < b.ask ? -1 : a.ask > b.ask ? 1 : 0));
  return {
    title: 'Open items',
    empty: 'Nothing is missing.',
    columns: [
      { head: 'Ask', w: 40 },
      { head: 'What is missing', grow: 1.2 },
      { head: 'Of', grow: 1 },
      { head: 'Checks that wait for it', grow: 1.2 },
      { head: 'Answer, by whom, date', grow: 1 },
    ],
    rows: [
      ...rows.map((each) => [each.ask, each.label, [...each.tags].join(', '), [...each.checks].join('; '), '']),
      ...(blank.length > 0 ? [['project', blank.join(', '), 'title block', 'none: what is missing prints as a blank', '']] : []),
    ],
  };
}

export function assumptionsTable(review: Review): Table {
  const rows = new Map<string, { cells: string[]; used: Set<string> }>();
  for (const finding of review.findings)
    for (const each of finding.assumptions) {
      const key = `${each.what}|${each.value}|${each.source}`;
      const row = rows.get(key) ?? { cells: [each.what, each.value, each.source], used: new Set<string>() };
      row.used.add(`${finding.title} (${finding.subject.tag || 'line-up'})`);
      rows.set(key, row);
    }
  return {
    title: 'Assumptions',
    empty: 'Nothing was assumed.',
    columns: [
      { head: 'What', grow: 1.2 },
      { head: 'Taken as', grow: 0.8 },
      { head: 'Source', grow: 1 },
      { head: 'Used by', grow: 1.6 },
    ],
    rows: [...rows.values()].map(({ cells, used }) => [...cells, [...used].join('; ')]),
  };
}
