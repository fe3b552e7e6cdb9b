/** Where a table comes from, and how far it was verified. */
export interface Source {
  readonly standard: string;
  readonly edition?: string;
  readonly place: string;
  readonly status: 'published' | 'common practice' | 'from memory';
}

/** 'NEC Chapter 9 Table 9', with 'from memory' where that is so. */
export const cite = (source: Source): string =>
  `${source.standard} ${source.place}${source.status === 'published' ? '' : ` (${source.status})`}`;
