import { create } from 'zustand';
import type { PortAt } from '../../engine/index.ts';

/** How the desk is arranged: what is open over the sheet, and what is shown of it. No part of the document. */

/** What a list over the sheet is asked for. */
export type Ask = 'anything' | 'part' | 'add' | 'insert' | 'connect' | 'start' | 'end' | 'more';

/** What the reader tells of the whole line-up: its findings, a run part by part, or one cable for the hand that lands it. */
export type Reading = 'findings' | 'walk' | 'field';

export interface Desk {
  readonly asking: Ask | null;
  /** How often something was asked: each time has a list of its own. */
  readonly asked: number;
  /** A cable was let go at nothing: the part that is chosen next is joined to this port. */
  readonly loose: PortAt | null;
  readonly keysShown: boolean;
  readonly menu: { readonly x: number; readonly y: number } | null;
  readonly renaming: string | null;
  readonly panels: boolean;
  readonly grid: boolean;
  /** Null: shown when the line-up is large. */
  readonly map: boolean | null;
  /** A click chooses a part besides those chosen before. */
  readonly several: boolean;
  /** What is chosen goes to the next click on the sheet. */
  readonly moving: boolean;
  /** Cables, motors and drives in rows lie over the sheet. */
  readonly table: boolean;
  /** What the box for rows of a spreadsheet begins with: those that were pasted on the sheet. Null: it is not open. */
  readonly pasted: string | null;
  /** The run of what is chosen lies unrolled under the sheet. Null: where there is room for it. */
  readonly strip: boolean | null;
  readonly reading: Reading;
  /** The forms and sheets of the package are shown to choose from. */
  readonly exporting: boolean;
  /** The least sizes are asked for. */
  readonly sizing: boolean;
  /** Variants stand side by side. */
  readonly comparing: boolean;
  /** Notes on the drawing lie open. */
  readonly noting: boolean;
  /** The file that was to be saved was written by somebody else, and when. */
  readonly changedFile: { readonly name: string; readonly at: number } | null;
  /** Earlier states of the line-up lie open. */
  readonly recovering: boolean;
  /** Issues and comments lie open. */
  readonly revising: boolean;
  /** The package is being written. */
  readonly issuing: boolean;
  /** Where the picture is that is to be printed. */
  readonly printing: string | null;
  /** Keys that are a single letter can be switched off, for those who speak to their machine. */
  readonly letters: boolean;
}

const LETTERS = 'copperline.letters';
const STRIP = 'copperline.strip';
const kept = (name: string): string | null => (typeof localStorage === 'undefined' ? null : localStorage.getItem(name));

/** What lies over the sheet is about the line-up that is open. */
const CLOSED = {
  asking: null,
  loose: null,
  menu: null,
  pasted: null,
  renaming: null,
  exporting: false,
  sizing: false,
  comparing: false,
  noting: false,
  changedFile: null,
  recovering: false,
  revising: false,
} as const;

export const useDesk = create<Desk>(() => ({
  ...CLOSED,
  asked: 0,
  keysShown: false,
  panels: true,
  grid: true,
  map: null,
  several: false,
  moving: false,
  table: false,
  strip: kept(STRIP) === null ? null : kept(STRIP) === 'on',
  reading: 'findings',
  issuing: false,
  printing: null,
  letters: kept(LETTERS) !== 'off',
}));

export const desk = useDesk.getState;
export const arrange = (change: Partial<Desk>): void => useDesk.setState(change);
/** Another line-up is opened. */
export const clearDesk = (): void => arrange(CLOSED);
/** The browser tells late that a dialog is closed, and a fast hand may have asked again by then: the list that it asked for stays. */
export const ask = (asking: Ask, loose: PortAt | null = null): void => arrange({ asking, asked: desk().asked + 1, loose, menu: null });

/** Who has said it once is not asked by the size of the window any more. */
export function setStrip(strip: boolean): void {
  localStorage.setItem(STRIP, strip ? 'on' : 'off');
  arrange({ strip });
}

export function setLetters(letters: boolean): void {
  localStorage.setItem(LETTERS, letters ? 'on' : 'off');
  arrange({ letters });
}
