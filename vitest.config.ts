import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/{engine,hostile,supply,editor,reference,second,property,golden}/**/*.test.ts'],
    testTimeout: 300_000,
  },
});
