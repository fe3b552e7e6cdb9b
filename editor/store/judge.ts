import { createSpeaker, judgedAlike, type LineUp, type Review } from '../../engine/index.ts';
import { packLineUp, type ReviewParcel, unpackReview } from './parcels.ts';

/** The one place that decides on which thread a document is judged. */

/**
 * A part costs about 0.4 ms when everything is judged anew, which an edit of the supply or of the project asks for. So many parts fit
 * into one frame of 16 ms: they are judged at once, and the verdict stands in the same frame as the edit. The number of parts decides,
 * not a clock, and never the kind of edit: a reviewer's memory lives on one thread, and on the other each edit would cost a whole review.
 */
const MOST_PARTS_AT_ONCE = 40;

/** As much of a worker as is used. */
export interface Helper {
  onmessage: ((event: MessageEvent<ReviewParcel>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  onmessageerror: ((event: MessageEvent) => void) | null;
  postMessage(message: unknown): void;
  terminate(): void;
}

interface Answered {
  readonly lineUp: LineUp;
  readonly review: Review;
}

/**
 * Judges the newest document only. Answers with its review, or with null when that is being made elsewhere: then it is handed to `take`,
 * unless another document has been asked about by then. While the helper works, what comes in between is left out.
 */
export function createJudge(start: () => Helper, take: (review: Review) => void): (lineUp: LineUp) => Review | null {
  const own = createSpeaker();
  let helper: Helper | null = null;
  let broken = false;
  /** The last exchange, which both sides remember. */
  let answered: Answered | null = null;
  let sent: LineUp | null = null;
  let wanted: LineUp | null = null;

  function ready(): Helper | null {
    if (helper || broken) return helper;
    try {
      helper = start();
      helper.onmessage = ({ data }) => answer(data);
      helper.onerror = fail;
      helper.onmessageerror = fail;
    } catch {
      broken = true;
    }
    return helper;
  }

  function send(to: Helper, lineUp: LineUp): void {
    sent = lineUp;
    to.postMessage(packLineUp(lineUp, answered?.lineUp ?? null));
  }

  function answer(parcel: ReviewParcel): void {
    if (!sent || !helper) return;
    const review = unpackReview(parcel, answered?.review ?? null);
    const current = wanted !== null && judgedAlike(sent, wanted);
    answered = { lineUp: sent, review };
    sent = null;
    if (current) {
      wanted = null;
      take(review);
    } else if (wanted) send(helper, wanted);
  }

  /** Without a helper everything is judged here: slower to the hand, but the same verdicts. */
  function fail(): void {
    helper?.terminate();
    helper = null;
    broken = true;
    const lineUp = wanted;
    [answered, sent, wanted] = [null, null, null];
    if (lineUp) take(own.review(lineUp));
  }

  return (lineUp) => {
    const other = lineUp.elements.length + lineUp.cables.length > MOST_PARTS_AT_ONCE ? ready() : null;
    wanted = null;
    if (!other) return own.review(lineUp);
    if (answered && judgedAlike(answered.lineUp, lineUp)) return answered.review;
    wanted = lineUp;
    if (!sent) send(other, lineUp);
    return null;
  };
}
