import {
  type Cable,
  cableLines,
  type Element,
  elementLines,
  type LineUp,
  type Review,
  sayOf,
  VERDICTS,
  type Verdict,
} from '../../engine/index.ts';

/** What a part is called by a screen reader: what it is, what is known of it, and how many findings it has. */

const LOUD = VERDICTS.slice(0, 3);

/** By part: '2 fail, 1 open'. */
export function findingCounts(review: Review): ReadonlyMap<string, string> {
  const counts = new Map<string, Map<Verdict, number>>();
  for (const { subject, verdict } of review.findings) {
    if (!LOUD.includes(verdict)) continue;
    const own = counts.get(subject.id) ?? new Map<Verdict, number>();
    counts.set(subject.id, own.set(verdict, (own.get(verdict) ?? 0) + 1));
  }
  const said = (own: ReadonlyMap<Verdict, number>): string =>
    LOUD.flatMap((verdict) => (own.has(verdict) ? [`${own.get(verdict)} ${verdict}`] : [])).join(', ');
  return new Map([...counts].map(([id, own]) => [id, said(own)]));
}

const joined = (name: string, known: readonly string[], found: string | undefined): string =>
  [name, ...known, found ?? ''].filter(Boolean).join('; ').replaceAll('\u00a0', ' ').replaceAll(/ {2,}/g, ' ');

export const elementName = (element: Element, lineUp: LineUp, found: string | undefined): string => {
  const say = sayOf(lineUp);
  return joined(`${say(element.kind)} ${element.tag}`, elementLines(element, lineUp.project.units).map(say), found);
};

export function cableName(cable: Cable, lineUp: LineUp, found: string | undefined): string {
  const say = sayOf(lineUp);
  const [from, to] = [cable.from, cable.to].map((end) => lineUp.elements.find((each) => each.id === end.element)?.tag ?? 'nowhere');
  return joined(`cable ${cable.tag}`, [`from ${from} to ${to}`, ...cableLines(cable, lineUp.project.units).map(say)], found);
}
