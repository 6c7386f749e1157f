import { defineConfig } from 'vitest/config';

/** So long that only a hang meets it: no test is a race, however busy the machine. */
const HANG = 900_000;

/**
 * One vitest setting for every room: sources are read directly, and the count of tests is kept for the closing line.
 */
export const room = () =>
  defineConfig({
    resolve: { conditions: ['@fayplate/source'] },
    ssr: { resolve: { conditions: ['@fayplate/source'] } },
    test: {
      include: ['test/**/*.test.ts'],
      testTimeout: HANG,
      hookTimeout: HANG,
      maxWorkers: 2,
      reporters: ['default', ['json', { outputFile: '.vitest/report.json' }]],
    },
  });
