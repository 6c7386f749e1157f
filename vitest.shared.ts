import { defineConfig } from 'vitest/config';

/** One vitest setting for every room: sources are read directly, and the count of tests is kept for the closing line. */
export const room = (testTimeout = 30_000) =>
  defineConfig({
    resolve: { conditions: ['@fayplate/source'] },
    ssr: { resolve: { conditions: ['@fayplate/source'] } },
    test: {
      include: ['test/**/*.test.ts'],
      testTimeout,
      maxWorkers: 2,
      passWithNoTests: true,
      reporters: ['default', ['json', { outputFile: '.vitest/report.json' }]],
    },
  });
