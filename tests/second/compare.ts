import { type LineUp, type Review, review, VERDICTS, type Verdict } from '../../engine/index.ts';
import { randomLineUp } from './randomLineUp.ts';
import { reckon } from './secondReckoning.ts';

export const FIXED_SEED = 20_261_126;
/** So many tell what is wrong. */
const MOST_TOLD = 20;

/** The line-ups of so many seeds from this one on: how many figures were compared, and what differs, with its seed. */
export function compareFrom(seed: number, cases: number): { readonly compared: number; readonly found: readonly string[] } {
  const found: string[] = [];
  let compared = 0;
  for (let i = seed; i < seed + cases && found.length < MOST_TOLD; i++) {
    const lineUp = randomLineUp(i);
    const result = review(lineUp);
    JSON.stringify(result, (key, value) => {
      if (typeof value === 'number' && !Number.isFinite(value)) found.push(`seed ${i}: ${key} is ${value}`);
      return value;
    });
    const { compared: more, list } = differences(lineUp, result);
    compared += more;
    found.push(...list.map((each) => `seed ${i}: ${each}`));
  }
  return { compared, found };
}

/** Where the engine and the second reckoning say different things. */
export function differences(lineUp: LineUp, review: Review): { readonly compared: number; readonly list: readonly string[] } {
  const list: string[] = [];
  let compared = 0;
  const figures = new Map<string, number | null>();
  for (const cable of review.cables) figures.set(`amperes ${cable.tag}`, cable.current_A);
  for (const run of review.runs) {
    figures.set(`terminal ${run.motorTag}`, run.terminalVoltage_pct);
    figures.set(`bus ${run.motorTag}`, run.bus_V);
    figures.set(`peak ${run.motorTag}`, run.peak_V);
  }
  const close = (a: number, b: number, relative = RELATIVE): boolean =>
    Math.abs(a - b) <= relative * Math.max(Math.abs(a), Math.abs(b)) + 1e-12;
  for (const [key, said] of reckon(lineUp)) {
    const [check, tag] = key.split(' ');
    const finding = review.findings.find((each) => each.check === check && each.subject.tag === tag);
    if (finding === undefined && !figures.has(key)) {
      list.push(`${key}: the engine says nothing`);
      continue;
    }
    compared++;
    const [verdict, value, limit] = finding ? [finding.verdict, finding.value, finding.limit] : [null, figures.get(key) ?? null, null];
    // The worst angle of one drive moves the current of its neighbours a little: the bound is good to a per cent.
    if (said.atWorst) {
      const better = finding !== undefined && VERDICTS.indexOf(finding.verdict) > VERDICTS.indexOf(said.verdict as Verdict);
      if (better || (value ?? 0) < (said.value ?? 0) * (1 - 0.01))
        list.push(`${key}: ${verdict} ${value} is better than what may be, ${said.verdict} ${said.value}`);
      continue;
    }
    if (said.most !== undefined) {
      const slack = said.relative ?? RELATIVE;
      if (value === null || value < (said.value ?? 0) * (1 - slack) || value > said.most * (1 + slack))
        list.push(`${key}: ${value} is not between ${said.value} and ${said.most}`);
      continue;
    }
    // On the very limit the last bit may fall either way.
    const onLimit = said.value != null && said.limit != null && close(said.value, said.limit);
    if (said.verdict !== null && said.verdict !== verdict && !onLimit)
      list.push(`${key}: verdict ${verdict}, second ${said.verdict} (${value} ${limit}; ${said.value} ${said.limit})`);
    if (said.verdict === 'open') continue;
    for (const [what, ours, theirs] of [
      ['value', value, said.value],
      ['limit', limit, said.limit],
    ] as const)
      if (theirs != null && (ours === null || !close(ours, theirs, said.relative))) list.push(`${key}: ${what} ${ours}, second ${theirs}`);
  }
  return { compared, list };
}
const RELATIVE = 1e-9;
