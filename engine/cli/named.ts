import { buildId } from './buildId.ts';

// Imported first: what is written then says which state of the source wrote it.
globalThis.COPPERLINE_BUILD = buildId();
