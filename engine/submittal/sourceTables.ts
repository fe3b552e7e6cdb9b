import type { Review } from '../checks/solved.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { sourcesPage } from '../review/sourcesPage.ts';
import type { Table } from './content.ts';

/** On what the verdicts rest: rule set, rules that were applied, tables that were read. */

export function basisText({ project }: LineUp): string {
  const practice = project.basis === 'us' ? 'US practice' : 'IEC practice';
  return `${practice}${project.edition ? `, ${project.edition}` : ''}. Symbols after ${(project.symbols ?? project.basis) === 'us' ? 'IEEE Std 315' : 'IEC 60617'}, from memory.`;
}

export function sourceTables(lineUp: LineUp, review: Review): readonly Table[] {
  const page = sourcesPage([review]);
  // One that only the other basis reads has no part in this set.
  const tables = page.tables.filter(({ basis }) => basis === null || basis === lineUp.project.basis);
  const applied = new Set(
    review.findings.filter((each) => each.verdict !== 'not-applicable' && each.verdict !== 'out-of-scope').map((each) => each.check),
  );
  return [
    {
      title: 'Rules applied',
      intro: basisText(lineUp),
      empty: 'No rule applies.',
      columns: [
        { head: 'Check', w: 50 },
        { head: 'Rule', grow: 1.6 },
        { head: 'Authority', w: 24 },
        { head: 'Source', grow: 1.2 },
      ],
      rows: page.checks.filter((each) => applied.has(each.slug)).map((each) => [each.title, each.rule, each.authority, each.source]),
    },
    {
      title: 'Tables',
      folds: true,
      intro: `From memory means: to be verified against the document before it is relied on. Tables that are read on the ${lineUp.project.basis === 'us' ? 'IEC' : 'US'} basis alone are left out.`,
      empty: '',
      columns: [
        { head: 'Table', grow: 1 },
        { head: 'Source', grow: 1.4 },
        { head: 'Edition', w: 24 },
        { head: 'Status', w: 31 },
      ],
      rows: tables.map((each) => [each.title, each.source, each.edition || '–', each.status]),
    },
  ];
}
