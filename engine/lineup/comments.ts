import { lastIssue } from './issues.ts';
import type { LineUp } from './lineUp.ts';

/** What the reviewer wrote, and what was answered. A part that is tied to a comment and then taken out stays named: that it went may be the answer. Each of these makes a new document. */

export type Comment = NonNullable<LineUp['comments']>[number];
/** A value that is undefined takes the field out. */
export type CommentChange = {
  readonly [K in 'number' | 'sheet' | 'says' | 'from' | 'reply' | 'parts' | 'closed']?: Comment[K] | undefined;
};

export const MOST_COMMENTS = 2000;

export const commentsOf = (lineUp: LineUp): readonly Comment[] => lineUp.comments ?? [];

/** Written on the last issue. The line-up itself comes back when there is no room for one more. */
export function addComment(lineUp: LineUp, facts: Pick<Comment, 'says' | 'sheet' | 'from' | 'parts'>): LineUp {
  const comments = commentsOf(lineUp);
  if (comments.length >= MOST_COMMENTS) return lineUp;
  const ids = new Set(comments.map((each) => each.id));
  let n = 1;
  while (ids.has(`c${n}`)) n++;
  const issue = lastIssue(lineUp)?.id;
  const number = `${Math.max(0, ...comments.map((each) => Number.parseInt(each.number, 10) || 0)) + 1}`;
  return { ...lineUp, comments: [...comments, stated({ id: `c${n}`, number, ...(issue && { issue }) }, facts)] };
}

export const changeComment = (lineUp: LineUp, id: string, change: CommentChange): LineUp => ({
  ...lineUp,
  comments: commentsOf(lineUp).map((each) => (each.id === id ? stated(each, change) : each)),
});

/** What is empty is not stated. */
const stated = (comment: object, change: CommentChange): Comment =>
  Object.fromEntries(Object.entries({ ...comment, ...change }).filter(([, value]) => value !== undefined && `${value}` !== '')) as Comment;

export function deleteComment(lineUp: LineUp, id: string): LineUp {
  const { comments = [], ...rest } = lineUp;
  const left = comments.filter((each) => each.id !== id);
  return left.length > 0 ? { ...lineUp, comments: left } : (rest as LineUp);
}
