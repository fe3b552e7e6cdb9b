import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { TABLES } from '../../../engine/catalog/index.ts';
import { cite } from '../../../engine/catalog/source.ts';
import { review } from '../../../engine/index.ts';
import { sourceTables } from '../../../engine/submittal/sourceTables.ts';
import { readExample } from '../sizing/readExample.ts';

/** The list of tables holds each that anything in the set was read from, and none that only the other basis reads. */

const EXAMPLES = readdirSync(new URL('../../../examples/', import.meta.url)).map((file) => file.replace('.json', ''));
const listed = (lineUp: Parameters<typeof sourceTables>[0], answer: Parameters<typeof sourceTables>[1]): readonly string[] =>
  sourceTables(lineUp, answer)[1]?.rows.map((row) => row[1] ?? '') ?? [];

describe.each(EXAMPLES)('the sources of %s', (name) => {
  const lineUp = readExample(name);
  it.each(['us', 'iec'] as const)('on the %s basis', (basis) => {
    const based = { ...lineUp, project: { ...lineUp.project, basis } };
    const answer = review(based);
    const list = listed(based, answer);
    const words = JSON.stringify(answer.findings.map(({ inputs, working, assumptions }) => [inputs, working, assumptions]));
    const read = TABLES.map(({ source }) => cite(source)).filter((each) => words.includes(each));
    expect(read.length).toBeGreaterThan(0);
    expect(read.filter((each) => !list.includes(each))).toEqual([]);
    const others = basis === 'us' ? /IEC 60364-5-52|IEC 60364-5-54/ : /Table 310\.1|Table 250\.122/;
    expect(list.filter((each) => others.test(each))).toEqual([]);
  });
});
