import { createSpeaker, type LineUp, type Review } from '../../engine/index.ts';
import { type LineUpParcel, packReview, unpackLineUp } from './parcels.ts';

/** The reviewer on a thread of its own: one document in, one review out, in turn. */

const reviewer = createSpeaker();
let lineUp: LineUp | null = null;
let review: Review | null = null;

addEventListener('message', ({ data }: MessageEvent<LineUpParcel>) => {
  lineUp = unpackLineUp(data, lineUp);
  const next = reviewer.review(lineUp);
  postMessage(packReview(next, review));
  review = next;
});
