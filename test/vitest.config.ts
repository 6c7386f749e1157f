import { defineConfig, mergeConfig } from 'vitest/config';
import { room } from '../vitest.shared.ts';

export default mergeConfig(
  room(),
  defineConfig({ test: { include: ['**/*.test.ts'], exclude: ['node_modules', 'dist'] } }),
);
