import { createKeeper, type Keeper, type Sign } from '../../editor/files/keeper.ts';
import type { Storage } from '../../editor/files/storage.ts';
import { type LineUp, newElement, newLineUp, save } from '../../engine/index.ts';
import { memoryChannel, memoryStorage, type Shared } from './memoryStorage.ts';

/** A tab without a page: what it shows, which sign it gives and what it says. */
export class Tab {
  readonly keeper: Keeper;
  lineUp: LineUp | null = null;
  following = false;
  sign: Sign = 'kept';
  readonly said: string[] = [];
  onSign = (): void => undefined;

  constructor(shared: Shared, storage: Storage = memoryStorage(shared, {}), id: object = {}) {
    const take = (lineUp: LineUp, following: boolean): void => {
      this.lineUp = lineUp;
      this.following = following;
    };
    this.keeper = createKeeper(storage, memoryChannel(shared, id), {
      sign: (sign) => {
        this.sign = sign;
        this.onSign();
      },
      say: (words) => void this.said.push(words),
      open: take,
      show: take,
      follow: (following) => {
        this.following = following;
      },
      refuse: ({ fault }) => void this.said.push(`refused: ${fault}`),
    });
  }

  begin(lineUp: LineUp): void {
    this.lineUp = lineUp;
    this.following = false;
    this.keeper.begin(lineUp);
  }

  /** As the store does it: nothing while another tab edits. */
  edit(title: string): void {
    if (!this.lineUp || this.following) return;
    this.lineUp = titled(title);
    this.keeper.edited(this.lineUp);
  }
}

const BARE = newLineUp('us');
const ONE_PART: LineUp = { ...BARE, elements: [newElement(BARE, 'motor')] };
export const titled = (title: string): LineUp => ({ ...ONE_PART, project: { ...ONE_PART.project, title } });

/** The newest state of a document as a reader finds it who knows nothing of this program but the text. */
export function newestText({ kept }: Shared, document: string): string | undefined {
  const key = [...kept.keys()]
    .filter((each) => each.startsWith(`${document}/`))
    .sort()
    .at(-1);
  const value = key === undefined ? undefined : kept.get(key);
  return typeof value === 'object' && value !== null && 'text' in value ? String(value.text) : undefined;
}
export const textOf = (lineUp: LineUp | null): string | undefined => (lineUp ? save(lineUp) : undefined);
