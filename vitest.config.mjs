import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          include: ['test/**/*.test.ts'],
          exclude: ['test/{protocol,workbench}/**', '**/node_modules/**'],
          // No test is judged by the clock: on a busy machine a property may take many times its usual second.
          testTimeout: 120_000,
        },
      },
      // These two run what was built: see test/run.mjs.
      { test: { name: 'protocol', include: ['test/protocol/**/*.test.ts'], testTimeout: 20_000 } },
      {
        test: {
          name: 'workbench',
          include: ['test/workbench/**/*.spec.ts'],
          fileParallelism: false,
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
