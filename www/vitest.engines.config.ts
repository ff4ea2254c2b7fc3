import { defineConfig } from 'vitest/config';

// Three engines, one after another, and one page server; goldens last.
export default defineConfig({
  test: {
    include: ['e2e/engines/**/*.e2e.ts'],
    environment: 'node',
    fileParallelism: false,
    globalSetup: ['e2e/serve.ts'],
    testTimeout: 120_000,
    hookTimeout: 60_000,
  },
});
