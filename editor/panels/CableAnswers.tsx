import { useState } from 'react';
import type { Cable, LineUp } from '../../engine/index.ts';
import { Folded } from './Folded.tsx';
import { late } from './late.tsx';

/** What can be asked about one cable. The answers are fetched and worked out only then. */
export interface CableAnswersProps {
  readonly cable: Cable;
  readonly lineUp: LineUp;
}

const SizeLadder = late(() => import('./SizeLadder.tsx'));
const HowLong = late(() => import('./HowLong.tsx'));

export default function CableAnswers({ cable, lineUp }: CableAnswersProps) {
  const [ladder, setLadder] = useState(false);
  return (
    <>
      <Folded summary="How long may it be?">{() => <HowLong cable={cable} lineUp={lineUp} />}</Folded>
      <p>
        <button type="button" onClick={() => setLadder(true)}>
          Size ladder
        </button>
      </p>
      {ladder && <SizeLadder cable={cable} lineUp={lineUp} onClose={() => setLadder(false)} />}
    </>
  );
}
