import type { AddCommand } from './command.js';
import { check } from './check.js';
import { layout } from './layout.js';
import { look } from './look.js';
import { stack } from './stack.js';

/** In the order of the work. */
export const commands: readonly AddCommand[] = [check, layout, stack, look];
