import { processIo } from './process-io.js';
import { run } from './main.js';

process.exitCode = await run(process.argv.slice(2), processIo());
