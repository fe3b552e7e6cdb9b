import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/engine/**/*.test.ts', 'tests/editor/**/*.test.ts', 'tests/reference/**/*.test.ts', 'tests/property/**/*.test.ts'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    testTimeout: 300_000,
  },
});
