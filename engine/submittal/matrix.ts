import { type Verdict, worst } from '../checks/finding.ts';
import { CHECKS } from '../checks/index.ts';
import type { Review } from '../checks/solved.ts';
import { type Table, VERDICT_WORD } from './content.ts';

/** Checks against runs: the worst verdict of each, by word and by shape. */
export function matrix(review: Review, wide: boolean): readonly Table[] {
  const given = new Map<string, Verdict[]>();
  for (const { check, runs, verdict } of review.findings)
    for (const run of runs) {
      const key = `${check}/${run}`;
      const own = given.get(key);
      if (own) own.push(verdict);
      else given.set(key, [verdict]);
    }
  const verdict = (slug: string, run: string): Verdict => worst(given.get(`${slug}/${run}`) ?? []);
  const runs = review.runs.map((run) => run.motorTag);
  const judged = CHECKS.filter((check) => runs.some((run) => verdict(check.slug, run) !== 'not-applicable'));
  const others = CHECKS.filter((check) => !judged.includes(check));
  const most = wide ? 11 : 4;
  const tables: Table[] = [];
  for (let from = 0; from < runs.length; from += most) {
    const shown = runs.slice(from, from + most);
    tables.push({
      title: runs.length <= most ? 'Check matrix' : `Check matrix, ${shown[0]} to ${shown.at(-1)}`,
      intro: from > 0 || others.length === 0 ? '' : `Nothing to judge here: ${others.map((each) => each.title.toLowerCase()).join(', ')}.`,
      empty: '',
      together: true,
      // A few runs leave most of a wide sheet blank.
      folds: shown.length <= 4,
      verdictColumns: shown.map((_, i) => i + 1),
      columns: [{ head: 'Check', w: 56 }, ...shown.map((run) => ({ head: run, w: 29 })), { head: '', grow: 1 }],
      rows: judged.map((check) => [check.title, ...shown.map((run) => VERDICT_WORD[verdict(check.slug, run)]), '']),
    });
  }
  return tables;
}
