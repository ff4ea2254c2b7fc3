import { defineConfig } from 'vitest/config';

// Each file goes through its engines one after another, each with a browser of its own; two files at a time.
export default defineConfig({
  test: {
    include: ['e2e/engines/**/*.e2e.ts'],
    environment: 'node',
    maxWorkers: 2,
    globalSetup: ['e2e/serve.ts'],
    testTimeout: 120_000,
    hookTimeout: 60_000,
  },
});
