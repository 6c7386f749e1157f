#!/usr/bin/env node
const { existsSync } = require('node:fs');
const { folder, load } = require('./load.js');

if (existsSync(folder)) load('fayplate.js').main(process.argv.slice(2));
else {
  process.stderr.write('Fayplate is not built yet: run `npm run demo` once in its top folder.\n');
  process.exitCode = 3;
}
