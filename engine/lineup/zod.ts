import * as z from 'zod/mini';

// Else the library tries whether text may become code, which the page forbids and tells of.
z.config({ jitless: true });

export { z };
