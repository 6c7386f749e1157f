// Loads the bundle's chunks with the code that V8 made of them kept beside them (node:vm `cachedData`), so that nothing is compiled again
// at every start. Code from another version of Node is refused by V8 itself, and the chunk is compiled as usual.
const { existsSync, readFileSync } = require('node:fs');
const { join } = require('node:path');
const { setFlagsFromString } = require('node:v8');
const { Script } = require('node:vm');

// A run lasts a second at most, as a rule: by default V8 makes fast code of so much in that time that a second core is busy with it and the
// run itself waits. Only what runs more than four times as long (in bytes of its own code passed over) is worth it; a long search hardly notices.
setFlagsFromString('--interrupt-budget=300000');

const folder = join(__dirname, '..', 'bundle');
const scripts = new Map();
const modules = new Map();

const scriptOf = (name) => {
  const filename = join(folder, name);
  const kept = `${filename}.code`;
  const source = `(function(exports,require,module,__filename,__dirname){${readFileSync(filename, 'utf8')}\n})`;
  return new Script(source, { filename, ...(existsSync(kept) ? { cachedData: readFileSync(kept) } : {}) });
};

// Every export is a getter of a getter as the builder writes it; once a chunk has run, its exports stand, and are plain values from then on.
const plain = (exported) => Object.fromEntries(Object.keys(exported).map((name) => [name, exported[name]]));

const load = (name) => {
  const before = modules.get(name);
  if (before !== undefined) return before;
  const module = { exports: {} };
  const script = scriptOf(name);
  scripts.set(name, script);
  script.runInThisContext()(
    module.exports,
    (id) => (id.startsWith('./') ? load(id.slice(2)) : require(id)),
    module,
    join(folder, name),
    folder,
  );
  const exported = plain(module.exports);
  modules.set(name, exported);
  return exported;
};

module.exports = { load, folder, scripts };
