import type { Finding } from '../../engine/index.ts';
import { Badge } from './Badge.tsx';
import { FindingList } from './FindingList.tsx';
import { Folded } from './Folded.tsx';

export interface WorstFirstProps {
  readonly findings: readonly Finding[];
}

/** More than this many open questions are folded, so that they do not bury the cautions below them. */
const FEW = 4;

interface Parted {
  readonly fails: readonly Finding[];
  readonly open: readonly Finding[];
  readonly rest: readonly Finding[];
  readonly passes: readonly Finding[];
  /** Who is to be asked, and of how many open findings. */
  readonly asked: readonly (readonly [string, number])[];
}
/** A site has thousands of findings, and comes back to the same list with every part that is looked at and left. */
const known = new WeakMap<readonly Finding[], Parted>();

function parted(findings: readonly Finding[]): Parted {
  const before = known.get(findings);
  if (before) return before;
  const open = findings.filter(({ verdict }) => verdict === 'open');
  const asked = new Map<string, number>();
  for (const each of open) for (const ask of new Set(each.missing.map((one) => one.ask))) asked.set(ask, (asked.get(ask) ?? 0) + 1);
  const made: Parted = {
    fails: findings.filter(({ verdict }) => verdict === 'fail'),
    open,
    rest: findings.filter(({ verdict }) => !['fail', 'open', 'pass', 'not-applicable'].includes(verdict)),
    passes: findings.filter(({ verdict }) => verdict === 'pass'),
    asked: [...asked].sort((a, b) => b[1] - a[1]),
  };
  known.set(findings, made);
  return made;
}

/** What speaks: fails, then what cannot be judged yet, then cautions and notes. */
function Said({ parts: { fails, open, rest, asked } }: { readonly parts: Parted }) {
  if (open.length <= FEW) return <FindingList findings={[...fails, ...open, ...rest]} />;
  return (
    <>
      {fails.length > 0 && <FindingList findings={fails} />}
      <Folded
        summary={
          <>
            <Badge verdict="open" /> <span className="said">{open.length} cannot be judged yet</span>
            <span className="muted said">{asked.map(([ask, count]) => ` · ${ask} ${count}`).join('')}</span>
          </>
        }
      >
        {() => <FindingList findings={open} />}
      </Folded>
      {rest.length > 0 && <FindingList findings={rest} />}
    </>
  );
}

/** What passes is quiet, folded under its count. */
export function WorstFirst({ findings }: WorstFirstProps) {
  const parts = parted(findings);
  return (
    <>
      <Said parts={parts} />
      {parts.passes.length > 0 && (
        <Folded summary={<span className="said">{parts.passes.length} pass</span>}>{() => <FindingList findings={parts.passes} />}</Folded>
      )}
    </>
  );
}
