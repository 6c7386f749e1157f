// Writes an example's job.yaml from its truth.json and its template.yaml: each reading line of the template
// carries no value; the value is what the true part would give, plus the instrument's error, rounded to its step.
// "- rim R1 by finder" in a rim gives a point of the outline, read on the same table as the face's "at" and "touch".
// Usage, after a build: node examples/simulate.mjs lift-pump
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { randomFrom } from '../packages/core/dist/index.js';

/** True places of a face's features, mm, as viewed: x right, y up. */
export const places = (truthFace) => {
  const out = {};
  for (const [id, f] of Object.entries(truthFace)) {
    const angle = ((f.clock ?? 0) * Math.PI) / 6;
    const radius = (f.circle ?? 0) / 2;
    out[id] = { x: f.x ?? radius * Math.sin(angle), y: f.y ?? radius * Math.cos(angle), r: (f.diameter ?? 0) / 2 };
  }
  return out;
};

const d = (a, b) => Math.hypot(a.x - b.x, a.y - b.y);
const angleAt = (a, v, b) => {
  const t = Math.atan2(a.y - v.y, a.x - v.x) - Math.atan2(b.y - v.y, b.x - v.x);
  return (Math.abs(Math.atan2(Math.sin(t), Math.cos(t))) * 180) / Math.PI;
};
const models = {
  centres: (a, b) => d(a, b),
  over: (a, b) => d(a, b) + a.r + b.r,
  between: (a, b) => d(a, b) - a.r - b.r,
  step: (a, b) => d(a, b) - a.r + b.r,
  wall: (a, c) => c.r - d(a, c) - a.r,
  dia: (a) => 2 * a.r,
  angle: angleAt,
  offset: (a, b, c) => Math.abs((c.x - b.x) * (a.y - b.y) - (c.y - b.y) * (a.x - b.x)) / d(b, c),
};
/** Readings that carry no number: the square or the straightedge lay true within its ±. */
const silent = ['square', 'line', 'flush'];

/** From the face's own frame to the table's, `turn` in degrees. */
const onBench = ({ x, y, turn }, p) => {
  const t = (turn * Math.PI) / 180;
  return { x: x + p.x * Math.cos(t) - p.y * Math.sin(t), y: y + p.x * Math.sin(t) + p.y * Math.cos(t) };
};
/** A point of a feature's rim, `way` degrees anticlockwise from the face's +x. */
const onRim = (f, way) => ({
  x: f.x + f.r * Math.cos((way * Math.PI) / 180),
  y: f.y + f.r * Math.sin((way * Math.PI) / 180),
});

const written = (value, instrument) => {
  const { unit, step, fraction } = instrument;
  if (unit === 'deg') return `${(Math.round(value / step) * step).toFixed(1)} deg`;
  const inUnit = unit === 'in' ? value / 25.4 : value;
  if (fraction) {
    const n = Math.round(inUnit * fraction);
    let [over, under] = [n % fraction, fraction];
    while (over && over % 2 === 0) [over, under] = [over / 2, under / 2];
    const whole = Math.floor(n / fraction);
    return [whole || '', over ? `${over}/${under}` : ''].filter(Boolean).join(' ');
  }
  const digits = String(step).split('.')[1]?.length ?? 0;
  return `${(Math.round(inUnit / step) * step).toFixed(digits)}${unit === 'mm' && instrument.say ? ' mm' : ''}`;
};

export const simulate = (template, truth) => {
  const random = randomFrom(truth.seed);
  let [face, bench, touches] = [null, null, {}];
  return template
    .split('\n')
    .map((line) => {
      const header = /^ {2}(\w+):\s*(?:#.*)?$/.exec(line);
      if (header && truth.faces[header[1]]) {
        face = { ...places(truth.faces[header[1]]), ...places(truth.rims?.[header[1]] ?? {}) };
        bench = truth.benches?.[header[1]];
        touches = structuredClone(truth.touches?.[header[1]] ?? {});
      }
      if (line.startsWith('drilled:') && truth.drilled) [face, bench] = [places(truth.drilled), truth.benches?.drilled];
      const piece = /^ {4}(\w+):\s*$/.exec(line)?.[1];
      if (truth.pieces?.[piece]) [face, bench] = [places(truth.pieces[piece]), truth.benches?.[piece]];
      const m = /^(\s+- )(\w+) ([A-Za-z0-9 -]+?) by (\w+)(.*)$/.exec(line);
      if (!m || !face || line.includes('=') || silent.includes(m[2])) return line;
      const [, lead, kind, names, by, rest] = m;
      const instrument = truth.instruments[by];
      const features = names.split(/[ -]/).map((id) => face[id] ?? fail(`no ${id} in the truth`));
      if (kind === 'at' || kind === 'touch' || kind === 'rim') {
        const p = onBench(bench, kind === 'touch' ? onRim(features[0], touches[names].shift()) : features[0]);
        const read = [p.x, p.y].map((v) => written(v + instrument.sigma * random.normal(), instrument)).join(', ');
        return kind === 'rim' ? `${lead}(${read})${rest}` : `${lead}${kind} ${names} = (${read}) by ${by}${rest}`;
      }
      const noisy = models[kind](...features) + instrument.sigma * random.normal();
      const misread = truth.misread?.[`${kind} ${names}`] ?? 0;
      return `${lead}${kind} ${names} = ${written(noisy + misread, instrument)} by ${by}${rest}`;
    })
    .join('\n');
};

function fail(message) {
  throw new Error(message);
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  for (const name of process.argv.slice(2)) {
    const folder = join(import.meta.dirname, name);
    const truth = JSON.parse(readFileSync(join(folder, 'truth.json'), 'utf8'));
    writeFileSync(join(folder, 'job.yaml'), simulate(readFileSync(join(folder, 'template.yaml'), 'utf8'), truth));
    console.log(`examples/${name}/job.yaml`);
  }
}
