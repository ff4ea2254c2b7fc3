import { defineConfig } from 'vitest/config';

// One browser, one page server: the files run one after another.
export default defineConfig({
  test: {
    include: ['e2e/*.e2e.ts'],
    environment: 'node',
    fileParallelism: false,
    globalSetup: ['e2e/serve.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
