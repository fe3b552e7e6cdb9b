import { TABLES } from '../catalog/index.ts';
import { cite } from '../catalog/source.ts';
import type { Finding } from '../checks/finding.ts';
import { CHECKS } from '../checks/index.ts';
import type { Review } from '../checks/solved.ts';

/**
 * What is checked, by which rule and on whose word, and which tables it rests on: made from the checks and the catalogue themselves.
 * Examples are findings of the reviews it is given.
 */

export interface CheckPage {
  readonly slug: string;
  readonly title: string;
  readonly why: string;
  readonly rule: string;
  readonly authority: string;
  readonly source: string;
  /** What is assumed where a value is not given, as met in the examples. */
  readonly assumptions: readonly string[];
  readonly example: { readonly verdict: string; readonly text: string; readonly working: readonly string[] } | null;
}

export interface SourcesPage {
  readonly checks: readonly CheckPage[];
  readonly tables: readonly {
    readonly title: string;
    readonly source: string;
    readonly edition: string;
    readonly status: string;
    readonly basis: 'us' | 'iec' | null;
  }[];
}

/** The more a finding shows of its numbers, the better an example it is. */
const telling = (each: Finding): number =>
  (each.value !== null ? 4 : 0) + (each.working.length > 0 ? 2 : 0) + (each.verdict === 'fail' || each.verdict === 'caution' ? 1 : 0);

export function sourcesPage(reviews: readonly Review[]): SourcesPage {
  const findings = reviews.flatMap((review) => review.findings);
  return {
    checks: CHECKS.map(({ slug, title, why, rule, authority, source }) => {
      const own = findings.filter((each) => each.check === slug);
      const judged = own.filter((each) => each.verdict !== 'not-applicable' && each.verdict !== 'out-of-scope');
      const best = judged.reduce<Finding | null>((held, each) => (held === null || telling(each) > telling(held) ? each : held), null);
      const assumptions = new Set(
        own.flatMap((each) => each.assumptions.map(({ what, value, source: from }) => `${what}: ${value} (${from})`)),
      );
      return {
        slug,
        title,
        why,
        rule,
        authority,
        source,
        assumptions: [...assumptions],
        example: best && { verdict: best.verdict, text: best.text, working: best.working },
      };
    }),
    tables: TABLES.map(({ title, source, basis = null }) => ({
      title,
      source: cite(source),
      edition: source.edition ?? '',
      status: source.status,
      basis,
    })),
  };
}

/** The page as Markdown. */
export function sourcesMarkdown(page: SourcesPage): string {
  const cell = (text: string): string => text.replaceAll('|', '\\|');
  return [
    '# Checks and their sources',
    '',
    'A design aid: the local code, the makers’ instructions and a licensed engineer decide.',
    '',
    ...page.checks.flatMap((check) => [
      `## ${check.title} (\`${check.slug}\`)`,
      '',
      check.why,
      '',
      `- Rule: ${check.rule}`,
      `- Authority: ${check.authority}`,
      `- Source: ${check.source}`,
      ...(check.assumptions.length > 0 ? ['- Assumed where not given:', ...check.assumptions.map((each) => `  - ${each}`)] : []),
      ...(check.example
        ? [`- Example (${check.example.verdict}): ${check.example.text}`, ...check.example.working.map((each) => `  - ${each}`)]
        : []),
      '',
    ]),
    '## Tables',
    '',
    '| table | source | edition | status |',
    '| --- | --- | --- | --- |',
    ...page.tables.map((each) => `| ${cell(each.title)} | ${cell(each.source)} | ${cell(each.edition)} | ${each.status} |`),
    '',
  ].join('\n');
}
