import type { AddCommand } from './command.js';
import { completions } from './completions.js';
import { afterDrilling, beforeDrilling } from './jobs.js';
import { look } from './look.js';
import { newJob } from './new.js';
import { page } from './page.js';
import { printer } from './printer.js';
import { watch } from './watch.js';

/** In the order of the work. */
export const commands: readonly AddCommand[] = [
  newJob,
  ...beforeDrilling,
  printer,
  ...afterDrilling,
  page,
  look,
  watch,
  completions,
];
