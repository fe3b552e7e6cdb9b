import type { Review } from '../checks/solved.ts';
import { translate } from '../drawing/displayList.ts';
import { extent } from '../drawing/extent.ts';
import { legend } from '../drawing/legend.ts';
import { UNKNOWN_PICTURE, unknownPicture, unknownWords } from '../drawing/unknownPicture.ts';
import { CHART, TURNS, waveCharts } from '../drawing/wavePicture.ts';
import { commentsOf } from '../lineup/comments.ts';
import { inWords } from '../lineup/inWords.ts';
import { comparedWith } from '../lineup/issues.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { notesOf } from '../lineup/notes.ts';
import { formatQuantity } from '../lineup/units.ts';
import { variantsOf } from '../lineup/variants.ts';
import { sayOf } from '../lineup/vocabulary.ts';
import { waveformOf } from '../review/waveform.ts';
import type { DecidingUnknown } from '../sizing/decidingUnknowns.ts';
import { asBuiltTables, recordsAnything } from './asBuilt.ts';
import { calculations } from './calculations.ts';
import { commissioning } from './commissioning.ts';
import { type Block, type Section, table } from './content.ts';
import { CAUTION, notCovered } from './deferral.ts';
import { endDetails } from './ends.ts';
import { fieldSheets } from './fieldSheet.ts';
import { findingsTable, notJudgedTable, passesTable } from './findingTables.ts';
import { matrix } from './matrix.ts';
import { ABBREVIATIONS, NOTES } from './notes.ts';
import { assumptionsTable, deviations, openItems, standing } from './openTables.ts';
import { pathTables } from './pathTables.ts';
import { projectNotes } from './projectNotes.ts';
import { changeMarks, clouded, revisionTables } from './revisions.ts';
import { cableSchedule, cableTotals, equipmentList, plates } from './scheduleTables.ts';
import { sourceTables } from './sourceTables.ts';
import { variantTables } from './variantTables.ts';

/** The sheets a package may hold, in their order. Cover and one-line are drawn by hand, the others are made of blocks. */
export const SHEET_KINDS = {
  cover: 'Cover',
  open: 'Open items and deviations',
  oneline: 'One-line',
  legend: 'Legend and general notes',
  findings: 'Findings',
  cables: 'Cable schedule',
  equipment: 'Equipment and motors',
  matrix: 'Check matrix',
  path: 'Shield and ground path',
  ends: 'End preparation',
  waves: 'Waves at the motors',
  variants: 'Comparison of variants',
  calculations: 'Calculations',
  sources: 'Assumptions, sources and basis',
  built: 'As built',
  revisions: 'Revision history and comment log',
  commissioning: 'Commissioning form',
  field: 'Field sheets',
} as const;
export type SheetKind = keyof typeof SHEET_KINDS;
const ON_SITE: readonly SheetKind[] = ['commissioning', 'field'];
export const EVERY_SHEET = Object.keys(SHEET_KINDS) as readonly SheetKind[];

/**
 * What a reviewer needs. The calculations are half of it and stay: a size without its basis, or a result without its inputs, sends a set
 * back. They stand behind what is read first, and whoever wants less says so. A matrix of one run says nothing new, a first issue without comments
 * has no history, and forms and field sheets are for the site.
 */
export const usualSheets = (lineUp: LineUp, review: Review, against?: LineUp): readonly SheetKind[] =>
  EVERY_SHEET.filter(
    (each) =>
      each !== 'commissioning' &&
      each !== 'field' &&
      (each !== 'built' || recordsAnything(lineUp)) &&
      (each !== 'variants' || variantsOf(lineUp).length > 0) &&
      (each !== 'matrix' || review.runs.length > 1) &&
      (each !== 'revisions' || comparedWith(lineUp, against) !== undefined || commentsOf(lineUp).length > 0),
  );

export interface Choice {
  readonly sheets: readonly SheetKind[];
  /** Room for many columns. */
  readonly wide: boolean;
  readonly date: string;
  /** The line-up as it was issued before; the last issue in the document where nothing is said. */
  readonly against?: LineUp | undefined;
  /** Values that nobody vouches for and that decide a verdict, the nearest first, where they were looked for. */
  readonly deciding?: readonly DecidingUnknown[] | undefined;
}

export const sectionsOf = (lineUp: LineUp, review: Review, choice: Choice): readonly Section[] =>
  EVERY_SHEET.filter((each) => choice.sheets.includes(each))
    .map((slug) =>
      inWords(
        {
          slug,
          title: SHEET_KINDS[slug],
          blocks: blocksOf(slug, lineUp, review, choice),
          onSite: ON_SITE.includes(slug),
        },
        sayOf(lineUp),
      ),
    )
    .filter(({ slug, blocks }) => slug === 'cover' || slug === 'oneline' || blocks.length > 0);

function blocksOf(
  slug: SheetKind,
  lineUp: LineUp,
  review: Review,
  { sheets, wide, date, against, deciding = [] }: Choice,
): readonly Block[] {
  const before = comparedWith(lineUp, against);
  switch (slug) {
    case 'cover':
    case 'oneline':
      return [];
    case 'open':
      return [...[standing(review), openItems(lineUp, review)].map(table), ...nearest(lineUp, deciding), table(deviations(lineUp))];
    case 'legend':
      return [
        ...key(lineUp, review, before),
        ...[...(notesOf(lineUp).length > 0 ? [projectNotes(lineUp)] : []), NOTES, ABBREVIATIONS, CAUTION, notCovered(lineUp)].map(table),
      ];
    case 'findings':
      // What passes stands in the calculations too, with its working.
      return [
        findingsTable(lineUp, review, wide),
        ...(sheets.includes('calculations') ? [] : [passesTable(review)]),
        notJudgedTable(lineUp, review),
      ].map(table);
    case 'cables':
      return [cableSchedule(lineUp, review, wide, changeMarks(lineUp, before)), cableTotals(lineUp)].map(table);
    case 'equipment': {
      const marks = changeMarks(lineUp, before);
      return [
        equipmentList(lineUp, review, marks),
        ...plates(lineUp, review, 'drives', wide, marks),
        ...plates(lineUp, review, 'motors', wide, marks),
      ].map(table);
    }
    case 'matrix':
      return matrix(review, wide).map(table);
    case 'path':
      return pathTables(lineUp, review).map(table);
    case 'ends':
      return endDetails(lineUp);
    case 'waves':
      return waves(lineUp, review);
    case 'variants':
      return variantTables(lineUp, review, wide).map(table);
    case 'calculations':
      return calculations(lineUp, review, wide);
    case 'sources':
      return [assumptionsTable(review), ...sourceTables(lineUp, review)].map(table);
    case 'built':
      return asBuiltTables(lineUp, review).map(table);
    case 'revisions':
      return revisionTables(lineUp, date, before).map(table);
    case 'commissioning':
      return commissioning(lineUp, review).map(table);
    case 'field':
      return fieldSheets(lineUp);
  }
}

/** The ones to ask about first: a small error in them turns a verdict. */
function nearest(lineUp: LineUp, deciding: readonly DecidingUnknown[]): readonly Block[] {
  const { units } = lineUp.project;
  const pictures = deciding
    .slice(0, 3)
    .map((each) => ({ items: unknownPicture(each, units), ...UNKNOWN_PICTURE, says: unknownWords(each, units) }));
  return pictures.length === 0
    ? []
    : [{ t: 'pictures', title: 'Unknown values nearest to turning a verdict: filled as far as nothing turns', pictures }];
}

function key(lineUp: LineUp, review: Review, before: LineUp | undefined): readonly Block[] {
  const items = legend(lineUp, review, clouded(lineUp, before));
  if (items.length === 0) return [];
  const box = extent(items);
  const says = `What the marks mean: ${items.flatMap((item) => (item.t === 'text' && item.text.length > 3 ? item.text : [])).join('; ')}.`;
  return [
    {
      t: 'pictures',
      title: 'Marks on the one-line',
      pictures: [{ items: translate(items, 2 - box.x, 1 - box.y), w: box.w + 4, h: box.h + 2, says }],
    },
  ];
}

function waves(lineUp: LineUp, review: Review): readonly Block[] {
  let turns = false;
  const pictures = review.runs.flatMap((run) => {
    const wave = waveformOf(lineUp, run);
    if (!wave) return [];
    turns ||= wave.turn_s !== null;
    const limit = review.findings.find((each) => each.id === `motor-peak-voltage/element/${run.motorId}`)?.limit ?? null;
    return waveCharts(wave, limit, lineUp.project.units).map((items, i) => ({
      items,
      w: CHART.w,
      h: CHART.h,
      paired: i > 0,
      says:
        i === 0
          ? `Voltage at the terminals of ${run.motorTag} after one edge: it peaks at ${Math.round(wave.peak_V)} V over a bus of ${Math.round(wave.bus_V)} V.`
          : `Peak at ${run.motorTag} against the length of its lead: ${Math.round(wave.peak_V)} V at ${formatQuantity(wave.length_m, 'length', lineUp.project.units)}.`,
    }));
  });
  if (pictures.length === 0) return [];
  const numbered = table({
    title: 'Numbers on the waves',
    columns: [
      { head: 'Number', w: 20 },
      { head: 'What happens there', grow: 1 },
    ],
    rows: TURNS.map((each) => [each.slice(0, 1), each.slice(3)]),
    empty: '',
  });
  return [{ t: 'pictures', title: 'Waves at the motors', pictures }, ...(turns ? [numbered] : [])];
}
