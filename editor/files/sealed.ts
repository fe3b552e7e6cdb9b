import { sha256 } from '../../engine/index.ts';

/** What is kept in the browser: one state of a document, with what shows whether it is whole, under a key that says of which and when. */

export interface State {
  readonly text: string;
  readonly length: number;
  readonly sha256: string;
}

export const seal = (text: string, sum = sha256(text)): State => ({ text, length: text.length, sha256: sum });

/** Keys sort by time as they do by letter. */
export const keyOf = (document: string, at: number): string => `${document}/${String(at).padStart(15, '0')}`;
export const documentOf = (key: string): string => key.slice(0, key.lastIndexOf('/'));
export const timeOf = (key: string): number => Number(key.slice(key.lastIndexOf('/') + 1));
