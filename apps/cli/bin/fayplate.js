#!/usr/bin/env node
require('./load.js').load('fayplate.js').main(process.argv.slice(2));
