import { config, z } from 'zod';

// Else the library tries whether text may become code, which the page forbids and tells of.
config({ jitless: true });

export { z };
