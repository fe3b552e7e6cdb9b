import { strToU8 } from 'fflate';
import type { Review } from '../checks/solved.ts';
import { badge } from '../drawing/marks.ts';
import { TRIANGLE_mm, triangle } from '../drawing/revisionMarks.ts';
import { svgOf } from '../drawing/svg.ts';
import { escaped } from '../drawing/xml.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { MAKER } from '../lineup/maker.ts';
import { sayOf } from '../lineup/vocabulary.ts';
import { groundRules } from '../review/groundRules.ts';
import { type Block, type Picture, type Section, type Table, verdictOf, writtenColumns } from './content.ts';
import { DEFERRAL } from './deferral.ts';
import { issuedHash } from './issuedText.ts';
import { standingText } from './openTables.ts';
import { packageDrawing } from './packageDrawing.ts';
import { type Choice, type SheetKind, sectionsOf } from './sections.ts';
import { basisText } from './sourceTables.ts';

/** The same sheets as one page for screens and for screen readers: headings, tables with scope, pictures with words. No script, nothing loaded. */

const STYLE = `
:root { color-scheme: light; }
body { font: 1rem/1.45 'Source Sans 3', system-ui, sans-serif; color: #1c2225; background: #fff; max-width: 90rem; margin: 0 auto; padding: 1.5rem; }
h1 { font-size: 2rem; margin: 0 0 0.5rem; } h2 { font-size: 1.5rem; margin: 2.5rem 0 0.5rem; border-top: 2px solid #1c2225; padding-top: 0.5rem; } h3 { font-size: 1.15rem; margin: 1.5rem 0 0.4rem; }
a { color: #14635d; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; min-width: 40rem; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.9rem 0.25rem 0; border-bottom: 1px solid #80827b; white-space: pre-line; overflow-wrap: break-word; }
thead th { border-bottom: 2px solid #1c2225; vertical-align: bottom; } tbody th { font-weight: 400; }
th:has(.changed) { white-space: nowrap; }
.changed { width: 1.5rem; height: 1.35rem; vertical-align: -0.2rem; margin-right: 0.35rem; }
.right { text-align: right; } .verdict { font-weight: 600; white-space: nowrap; } .verdict svg { width: 1rem; height: 1rem; vertical-align: -0.15rem; margin-right: 0.35rem; }
figure { display: inline-block; margin: 0.5rem 1.5rem 0.5rem 0; max-width: 100%; } figure svg { max-width: 100%; height: auto; }
@media print { h2 { break-before: page; } .wide { overflow: visible; } }
`;

export interface HtmlOptions {
  readonly date: string;
  readonly sheets: readonly SheetKind[];
  readonly against?: LineUp | undefined;
  readonly deciding?: Choice['deciding'];
}

export function htmlOf(lineUp: LineUp, review: Review, { date, sheets, against, deciding }: HtmlOptions): Uint8Array {
  const sections = sectionsOf(lineUp, review, { sheets, wide: true, date: lineUp.project.date ?? date, against, deciding });
  const anchors = new Set(
    sections.flatMap(({ blocks }) => blocks.flatMap((each) => (each.t === 'table' && each.anchor ? [each.anchor] : []))),
  );
  const { project } = lineUp;
  const say = sayOf(lineUp);
  const facts = [
    [project.number, project.revision && `revision ${project.revision}`, project.status, project.date ?? date].filter(Boolean).join(', '),
    standingText(review),
    [basisText(lineUp), groundRules(lineUp)].filter(Boolean).join(' '),
    `SHA-256 of the line-up file: ${issuedHash(lineUp)}`,
    `${MAKER}. ${DEFERRAL}`,
  ];
  const others = sections.filter((each) => each.slug !== 'cover');
  const page = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escaped(project.title)}</title>
<style>${STYLE}</style>
</head>
<body>
<header>
<h1>${escaped(project.title)}</h1>
${facts.map((each) => `<p>${escaped(say(each))}</p>`).join('\n')}
<nav aria-label="Contents"><ul>
${others.map((each) => `<li><a href="#${each.slug}">${escaped(each.title)}</a></li>`).join('\n')}
</ul></nav>
</header>
<main>
${others.map((each) => (each.slug === 'oneline' ? drawing(each, lineUp, review, against) : section(each, anchors))).join('\n')}
</main>
</body>
</html>
`;
  return strToU8(page);
}

const drawing = ({ slug, title }: Section, lineUp: LineUp, review: Review, against: LineUp | undefined): string => {
  const { items, x_mm, y_mm, width_mm, height_mm } = packageDrawing(lineUp, review, against);
  const says = sayOf(lineUp)(
    `The one-line, from source to motors: ${review.runs.map((run) => run.motorTag).join(', ')}. What it shows stands in the tables that follow.`,
  );
  return `<section aria-labelledby="${slug}">
<h2 id="${slug}">${escaped(title)}</h2>
${figure(svgOf(items, { x: x_mm - 1, y: y_mm - 1, w: width_mm + 2, h: height_mm + 2 }), says)}
</section>`;
};

const section = ({ slug, title, blocks }: Section, anchors: ReadonlySet<string>): string => `<section aria-labelledby="${slug}">
<h2 id="${slug}">${escaped(title)}</h2>
${blocks.map((each, i) => block(each, title, `${slug}-${i + 1}`, anchors)).join('\n')}
</section>`;

function block(each: Block, section: string, id: string, anchors: ReadonlySet<string>): string {
  const own = each.t === 'table' && each.anchor ? each.anchor : id;
  const head = each.title === section || each.title === '' ? '' : `<h3 id="${own}">${escaped(each.title)}</h3>\n`;
  if (each.t === 'pictures') return `${head}${each.pictures.map(drawn).join('\n')}`;
  return `${head}${table(each, anchors)}${each.beside ? `\n${drawn(each.beside)}` : ''}`;
}

const drawn = ({ items, w, h, says }: Picture): string => figure(svgOf(items, { x: -1, y: -1, w: w + 2, h: h + 2 }), says);

const figure = (svg: string, says: string): string =>
  `<figure>${svg.replace('<svg ', () => `<svg role="img" aria-label="${escaped(says)}" `)}</figure>`;

function table(whole: Table, anchors: ReadonlySet<string>): string {
  const { title, intro, columns, rows, empty, links, verdictColumns, changed } = whole;
  const before = intro ? `<p>${escaped(intro)}</p>\n` : '';
  // Rows for a pencil are of no use on a screen.
  const written = rows.map((row, r) => ({ row, r })).filter(({ row }) => row.some((each) => each !== ''));
  if (written.length === 0) return `${before}<p>${escaped(empty)}</p>`;
  const side = (i: number): string => (columns[i]?.right ? ' class="right"' : '');
  const shown = writtenColumns(whole);
  const head = shown
    .map((i) => `<th scope="col"${side(i)}>${revisionMark(columns[i]?.changed)}${escaped(columns[i]?.head ?? '')}</th>`)
    .join('');
  const body = written.map(({ row, r }) => {
    const cells = shown.map((i) => {
      const text = row[i] ?? '';
      const verdict = verdictColumns?.includes(i) ? verdictOf(text) : undefined;
      if (verdict) return `<td class="verdict">${mark(verdict)}${escaped(text)}</td>`;
      const link = i === 0 ? links?.[r] : undefined;
      const content = link && anchors.has(link) ? `<a href="#${link}">${escaped(text)}</a>` : escaped(text);
      return i === 0 && text !== ''
        ? `<th scope="row"${side(i)}>${revisionMark(changed?.[r])}${content}</th>`
        : `<td${side(i)}>${content}</td>`;
    });
    return `<tr>${cells.join('')}</tr>`;
  });
  // A table wider than the screen is scrolled, by keyboard too.
  return `${before}<div class="wide" role="group" aria-label="${escaped(title)}" tabindex="0"><table>
<thead><tr>${head}</tr></thead>
<tbody>
${body.join('\n')}
</tbody>
</table></div>`;
}

const mark = (verdict: Parameters<typeof badge>[0]): string =>
  svgOf(badge(verdict), { x: -2.4, y: -2.4, w: 4.8, h: 4.8 }).replace('<svg ', '<svg aria-hidden="true" ');

/** The triangle that names the revision, as on paper. */
const revisionMark = (revision: string | undefined): string =>
  revision === undefined
    ? ''
    : svgOf(triangle(revision, 0, 0), { x: -0.3, y: 0.7 - TRIANGLE_mm * 0.87, w: TRIANGLE_mm + 0.6, h: TRIANGLE_mm * 0.87 + 0.6 }).replace(
        '<svg ',
        () => `<svg class="changed" role="img" aria-label="changed in revision ${escaped(revision)}" `,
      );
