import type { Finding, Fix } from '../checks/finding.ts';
import type { Review } from '../checks/solved.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { buildNetwork } from '../network/network.ts';
import { createReviewer } from '../review/createReviewer.ts';
import type { Concerned, Kind } from './fixKind.ts';
import { KINDS } from './fixKinds.ts';
import { type FixPreview, LEAST_POINTS, moveOf, pointsGained, previewFix } from './previewFix.ts';
import { type Watching, watched } from './watched.ts';

/** Changes that help one finding, each with everything else that it moves: all of it judged, nothing foretold. */

export interface Proposal extends FixPreview {
  /** Kinds of change in it: one, or two where no single one helps. */
  readonly kinds: readonly string[];
  /** The finding cannot be judged with it until its maker's figure is known. */
  readonly asksMaker: boolean;
}

/** A finding of more runs than this is met on its own part. */
const MOST_RUNS = 12;

/** @param kinds the changes that are tried; all of them for whoever wants help */
export async function proposeFixes(
  lineUp: LineUp,
  findingId: string,
  watching: Watching = {},
  kinds: readonly Kind[] = KINDS,
): Promise<readonly Proposal[]> {
  const reviewer = createReviewer();
  const before = reviewer.review(lineUp);
  const finding = before.findings.find(({ id }) => id === findingId);
  // What is open wants an answer, not a change, unless its check knows one that makes the question idle.
  if (!finding || (finding.verdict !== 'fail' && finding.verdict !== 'caution' && finding.fixes.length === 0)) return [];
  const preview = watched((fix: Fix) => previewFix(lineUp, fix, before, reviewer.review), watching);
  const tried = async (fix: Fix, of: readonly Kind[]): Promise<{ readonly proposal: Proposal | null; readonly eases: boolean }> => {
    const seen = await preview(fix);
    const mayAsk = of.some(({ asks }) => asks);
    const help = partFails(lineUp, seen) ? null : helps(finding, seen, mayAsk);
    const proposal = help && { ...seen, kinds: of.map(({ name }) => name), asksMaker: help === 'asked' };
    return { proposal, eases: eases(finding, seen) };
  };

  const lists = listsFor(kinds, concernedBy(lineUp, finding, before));
  const found: Proposal[] = [];
  const easing = new Set<List>();
  for (const list of lists)
    for (const fix of list.fixes) {
      const { proposal, eases: some } = await tried(fix, [list.kind]);
      if (some) easing.add(list);
      if (!proposal) continue;
      found.push(proposal);
      break;
    }
  // Two together, one of which eases it by itself: of each list its smallest and its largest step.
  if (found.length === 0)
    for (const a of easing)
      for (const b of lists) {
        if (a.kind === b.kind || (easing.has(b) && lists.indexOf(b) < lists.indexOf(a))) continue;
        for (const pair of pairs(lineUp, a.fixes, b.fixes)) {
          const { proposal } = await tried(pair, [a.kind, b.kind]);
          if (!proposal) continue;
          found.push(proposal);
          break;
        }
      }
  // What settles it before what asks; then what makes the least worse. Alike, the order of the kinds stays: the cheapest first.
  return found.sort((a, b) => Number(a.asksMaker) - Number(b.asksMaker) || a.worse.length - b.worse.length);
}

interface List {
  readonly kind: Kind;
  readonly fixes: readonly Fix[];
}

/** What several motors of one drive would have proposed each is proposed once. */
function listsFor(kinds: readonly Kind[], concerned: Concerned): readonly List[] {
  const lists = kinds.flatMap((kind) => kind.of(concerned).map((fixes): List => ({ kind, fixes })));
  return [...new Map(lists.map((list) => [JSON.stringify(list.fixes), list])).values()];
}

/** Whether it says something else of the finding, and nothing worse. */
function eases(finding: Finding, { moreRoom, unchanged }: FixPreview): boolean {
  const after = unchanged.find(({ id }) => id === finding.id);
  return moreRoom.some(({ id }) => id === finding.id) || (after !== undefined && after.margin_pct === null && after.text !== finding.text);
}

/** A part put in that fails itself mends nothing: tails that are too thin, a box with too few places. */
const partFails = ({ elements, cables }: LineUp, { worse }: FixPreview): boolean =>
  worse.some(
    ({ after }) =>
      after?.verdict === 'fail' && after.subject.kind !== 'lineup' && ![...elements, ...cables].some(({ id }) => id === after.subject.id),
  );

/** Whether the finding comes out better, or at least as a question where the fix says that it asks one. */
function helps(finding: Finding, { better, worse, asked }: FixPreview, mayAsk: boolean): 'better' | 'asked' | null {
  // Said of another part or under another name, it is not mended; asked there, it is not settled.
  const elsewhere = [...worse, ...asked].flatMap(({ id, after }) =>
    id !== finding.id && after?.check === finding.check && moveOf(finding, after) !== 'better' ? [after.verdict] : [],
  );
  if (elsewhere.some((verdict) => verdict !== 'open' || !mayAsk)) return null;
  const own = better.find(({ id }) => id === finding.id);
  if (!own) return mayAsk && asked.some(({ id }) => id === finding.id) ? 'asked' : null;
  // A number that hardly moves is no help; one that stays, and is judged otherwise, is.
  const gained = pointsGained(own.before, own.after);
  if (gained !== null && gained !== 0 && gained < LEAST_POINTS) return null;
  return elsewhere.length > 0 ? 'asked' : 'better';
}

function* pairs(lineUp: LineUp, a: readonly Fix[], b: readonly Fix[]): Generator<Fix> {
  const outer = (list: readonly Fix[]): readonly Fix[] => [...new Set([list[0], list.at(-1)])].flatMap((each) => each ?? []);
  for (const first of outer(a))
    for (const second of outer(b)) {
      const taken = touched(lineUp, first);
      if (touched(lineUp, second).some((each) => taken.includes(each))) continue;
      yield {
        label: `${first.label}, and ${second.label}`,
        edits: [...first.edits, ...second.edits],
        inserts: [...(first.inserts ?? []), ...(second.inserts ?? [])],
        takesOut: [...(first.takesOut ?? []), ...(second.takesOut ?? [])],
        removes: [...(first.removes ?? []), ...(second.removes ?? [])],
        moves: [...(first.moves ?? []), ...(second.moves ?? [])],
      };
    }
}
/** What a change sets, takes out, moves or puts a part into: two that touch the same are not both made. */
function touched({ cables }: LineUp, { edits, inserts = [], takesOut = [], removes = [], moves = [] }: Fix): readonly string[] {
  const gone = [...takesOut, ...removes, ...moves.map(({ id }) => id)];
  const landed = cables.filter(({ from, to }) => gone.some((id) => id === from.element || id === to.element));
  return [...gone, ...landed.map(({ id }) => id), ...inserts.map(({ cable }) => cable), ...edits.map(({ id, path }) => `${id} ${path}`)];
}

/** The part itself and what lies on its runs; where it is about a great many runs, the part and what lands on it. */
function concernedBy(lineUp: LineUp, finding: Finding, { runs }: Review): Concerned {
  const { subject } = finding;
  const isCable = subject.kind === 'cable' || subject.kind === 'end';
  const few = finding.runs.length <= MOST_RUNS;
  const onRuns = new Set(few ? runs.filter(({ motorTag }) => finding.runs.includes(motorTag)).flatMap(({ path }) => path) : []);
  const own = (cable: Cable): boolean => cable.id === subject.id || cable.from.element === subject.id || cable.to.element === subject.id;
  // A cable is met in the cable: the others of its runs are not what it is about.
  const cables = lineUp.cables.filter((each) => each.kind === 'cable' && (own(each) || (!isCable && onRuns.has(each.id))));
  const elements = lineUp.elements.filter(
    (each: Element) =>
      each.id === subject.id || onRuns.has(each.id) || cables.some(({ from, to }) => from.element === each.id || to.element === each.id),
  );
  const inNetwork = buildNetwork(lineUp).runs.filter(({ motor }) => few && finding.runs.includes(motor.tag));
  return { lineUp, finding, cables, elements, runs: inNetwork };
}
