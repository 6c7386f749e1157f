import type { AddCommand } from './command.js';
import { check } from './check.js';
import { completions } from './completions.js';
import { layout } from './layout.js';
import { locate } from './locate.js';
import { look } from './look.js';
import { newJob } from './new.js';
import { packet } from './packet.js';
import { plate } from './plate.js';
import { print } from './print.js';
import { printer } from './printer.js';
import { prove } from './prove.js';
import { stack } from './stack.js';
import { table } from './table.js';
import { watch } from './watch.js';

/** In the order of the work. */
export const commands: readonly AddCommand[] = [
  newJob,
  check,
  locate,
  layout,
  stack,
  plate,
  table,
  print,
  printer,
  prove,
  packet,
  look,
  watch,
  completions,
];
