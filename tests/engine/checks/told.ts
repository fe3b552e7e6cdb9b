import type { Finding } from '../../../engine/checks/finding.ts';

/** What tests of single checks ask of findings. */

/** The one finding that there must be. */
export const only = (found: readonly Finding[]): Finding => {
  const [one, ...more] = found;
  if (!one || more.length > 0) throw new Error(`${found.length} findings`);
  return one;
};

/** What is asked: 'W: conductor.size'. */
export const fields = (found: Finding): readonly string[] => found.missing.map((each) => `${each.tag}: ${each.field}`);

/** What it rests on: 'Conductor size of W'. */
export const labels = (found: Finding): readonly string[] => found.inputs.map((each) => each.what);
