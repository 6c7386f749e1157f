// Loads the bundle's chunks with what V8 made of them kept, so that nothing is compiled again at every start. Node
// keeps it itself from 22.1 on; for Node 20 we do (node:vm `cachedData`). What V8 refuses, from another version or
// other flags, is compiled as usual.
//
// What each part earns, processor ms of a whole process on the lift pump (medians of 5 to 7; bare Node takes 60 to 70
// of them):
//
//   Node                                    20             22             24
//   command                          check packet   check packet   check packet
//   neither                            275   2325     208      –     209      –
//   code kept                          206   2117     163   2001     191   1638
//   code kept, fewer functions fast    165   1460     168   1642     233   1802
//
// Stand-ins for what commander, yaml and pdf-lib load and never use earned nothing that could be told from noise; there
// are none.
const { existsSync, readFileSync } = require('node:fs');
const modules = require('node:module');
const { join } = require('node:path');
const { setFlagsFromString } = require('node:v8');
const { Script } = require('node:vm');

// A run lasts a second or two: by default V8 makes fast code of so much in that time that a second core is busy with it
// and the run itself waits. The flag is another in each version; Node 24 gains nothing by its own, and a version that
// is not named gets none.
const fewerFast = { 20: '--interrupt-budget=300000', 22: '--invocation-count-for-turbofan=12000' };
const flag = fewerFast[process.versions.node.split('.')[0]];
if (flag !== undefined) setFlagsFromString(flag);

const folder = join(__dirname, '..', 'bundle');
const nodeKeeps = typeof modules.enableCompileCache === 'function';
// In the program's own folder, where the build fills it; where it cannot be written, Node goes on without.
if (nodeKeeps) modules.enableCompileCache(join(folder, 'kept'));

const scripts = new Map();
const loaded = new Map();

const scriptOf = (name) => {
  const filename = join(folder, name);
  const kept = `${filename}.code`;
  const source = `(function(exports,require,module,__filename,__dirname){${readFileSync(filename, 'utf8')}\n})`;
  return new Script(source, { filename, ...(existsSync(kept) ? { cachedData: readFileSync(kept) } : {}) });
};

const loadKept = (name) => {
  const before = loaded.get(name);
  if (before !== undefined) return before.exports;
  const module = { exports: {} };
  loaded.set(name, module);
  const script = scriptOf(name);
  scripts.set(name, script);
  script.runInThisContext()(
    module.exports,
    (id) => (id.startsWith('./') ? loadKept(id.slice(2)) : require(id)),
    module,
    join(folder, name),
    folder,
  );
  return module.exports;
};

const load = nodeKeeps ? (name) => require(join(folder, name)) : loadKept;

module.exports = { folder, load, scripts };
