import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/{engine,editor,reference,second,property}/**/*.test.ts'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    testTimeout: 300_000,
  },
});
