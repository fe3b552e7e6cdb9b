import { valueText } from '../checks/figureText.ts';
import type { Review } from '../checks/solved.ts';
import { asLineUp } from '../lineup/design.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { Units } from '../lineup/units.ts';
import { variantsOf } from '../lineup/variants.ts';
import { review as judge } from '../review/spoken.ts';
import { type Compared, type Comparison, compareDesigns, MOVES, type VerdictRow } from '../sizing/compareDesigns.ts';
import { type Column, type Table, VERDICT_WORD } from './content.ts';

/** The line-up beside the variants that are held aside in it, as many to a table as the sheet is wide. */

const SAYS = { better: 'better', worse: 'worse', asked: 'to ask', unchanged: 'unchanged', new: 'new', gone: 'gone' } as const;

export function variantTables(lineUp: LineUp, review: Review, wide: boolean): readonly Table[] {
  const variants = variantsOf(lineUp).map(({ name, design }): Compared => {
    const alone = asLineUp(design);
    return { name, lineUp: alone, review: judge(alone) };
  });
  const most = wide ? 5 : 2;
  const tables: Table[] = [];
  for (let from = 0; from < variants.length; from += most)
    tables.push(
      ...tablesOf(
        compareDesigns([{ name: 'Present', lineUp, review }, ...variants.slice(from, from + most)]),
        lineUp.project.units,
        from > 0,
      ),
    );
  return tables;
}

function tablesOf({ names, parts, verdicts, counts, totals }: Comparison, units: Units, continued: boolean): readonly Table[] {
  const titled = (title: string): string => (continued ? `${title}, continued` : title);
  const columns: readonly Column[] = names.map((head) => ({ head, grow: 1 }));
  return [
    {
      title: titled('What differs'),
      intro: 'Made by comparing each variant with the line-up as it is drawn here. Where parts stand on the sheet is no difference.',
      empty: 'Nothing: the documents are alike.',
      columns: [{ head: 'Part', w: 26 }, { head: 'Value', w: 44 }, ...columns],
      rows: parts.flatMap(({ tag, rows }) => rows.map(({ label, cells }, i) => [i === 0 ? tag : '', label, ...cells])),
    },
    {
      title: titled('Verdicts that differ'),
      intro: 'What is not said of a design, because the part is not there, is shown as –.',
      empty: 'None.',
      columns: [{ head: 'Of', w: 26 }, { head: 'Check', w: 44 }, ...columns],
      verdictColumns: names.map((_, i) => 2 + i),
      rows: verdicts.map((row) => [row.tag || 'line-up', row.title, ...verdictCells(row, units)]),
    },
    {
      title: titled('All together'),
      empty: '',
      columns: [{ head: 'Counted', w: 70 }, ...columns],
      rows: [
        [
          'Verdicts against the present one',
          ...counts.map((count, i) =>
            i === 0
              ? '–'
              : MOVES.filter((move) => count[move] > 0)
                  .map((move) => `${count[move]} ${SAYS[move]}`)
                  .join(', '),
          ),
        ],
        ...totals.map(({ label, cells }) => [label, ...cells]),
      ],
    },
  ];
}

const verdictCells = ({ cells }: VerdictRow, units: Units): readonly string[] =>
  cells.map((finding) => (finding ? [VERDICT_WORD[finding.verdict], valueText(finding, units)].filter(Boolean).join('  ') : '–'));
