import { asLineUp, type Finding, groundRules, type LeastCopper, type LineUp, type Review, review, variantsOf } from '../index.ts';
import { type SizingReport, sizingReport, sizingText } from './sizingReport.ts';

/** What is told of one line-up, as `--json` holds it and as lines of text. Plain data and words alone: a page says the same. */

/** One entry of `--json`; reportSchema.ts is its published shape. */
export interface Report {
  readonly file: string;
  readonly verdict: Review['verdict'];
  readonly counts: Review['counts'];
  readonly rules: string;
  /** Everything but the edits that would mend it. */
  readonly findings: readonly Omit<Finding, 'fixes'>[];
  readonly solved: Pick<Review, 'elements' | 'cables' | 'runs'>;
  /** Where the document has any. */
  readonly variants?: readonly (Pick<Review, 'verdict' | 'counts'> & { readonly name: string })[];
  readonly sizing?: SizingReport;
}

export function reportOf(file: string, lineUp: LineUp, result: Review, sized: LeastCopper | null = null): Report {
  const variants = variantsOf(lineUp).map(({ name, design }) => {
    const { verdict, counts } = review(asLineUp(design));
    return { name, verdict, counts };
  });
  return {
    file,
    verdict: result.verdict,
    counts: result.counts,
    rules: groundRules(lineUp),
    findings: result.findings.map(({ fixes: _fixes, ...rest }) => rest),
    solved: { elements: result.elements, cables: result.cables, runs: result.runs },
    ...(variants.length > 0 ? { variants } : {}),
    ...(sized ? { sizing: sizingReport(sized) } : {}),
  };
}

export function reportText({ file, verdict, counts, rules, findings, sizing }: Report): readonly string[] {
  return [
    `${file}: ${verdict.toUpperCase()}  ${counts.fail} fail, ${counts.open} open, ${counts.caution} caution, ${counts.note} note, ${counts.pass} pass`,
    ...(rules === '' ? [] : [`  ${rules}`]),
    ...findings.flatMap((each) =>
      each.verdict === 'not-applicable'
        ? []
        : [
            `  ${each.verdict.padEnd(12)} ${each.subject.tag.padEnd(8)} ${each.check.padEnd(20)} ${each.text} [${each.authority}: ${each.source}]`,
          ],
    ),
    ...(sizing ? sizingText(sizing) : []),
  ];
}
