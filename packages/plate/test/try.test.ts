import { test } from 'vitest';
import { designPlate, plateReport } from '../src/index.js';
import { caseText, jobFrom, measured } from './support/fromFile.js';
const show = (text: string) => {
  const job = jobFrom(text);
  const t = performance.now();
  const d = designPlate(job, measured(job), { stack: null });
  const ms = performance.now() - t;
  if (!d.ok) { console.log(d.faults.join('\n')); return; }
  const out: string[] = [`${ms.toFixed(0)} ms`];
  for (const b of plateReport(d.plate, { unit: job.units, fraction: null })) {
    if (b.kind === 'table') { out.push(b.caption ?? '', ...b.rows.map((r) => r.slice(0, 6).join(' | '))); }
    else out.push(b.kind === 'list' ? b.items.join('\n') : `[${b.kind}] ${b.text}`);
  }
  console.log(out.join('\n'));
};
test('a', () => { show(caseText('plt02-turned')); });
test('b', () => { show(caseText('plt02-turned').replace('clocking: 22.5 deg', 'clocking: { search: -60 .. 60 deg }').replace('fit: normal }', 'fit: normal, nut: counterbored }')); });
test('c', () => { show(caseText('plt02-turned').replace('22.5 deg', '84 deg').replace(/(P\d: \{ kind: hole.*)/g, '$1').replace('outline: { shape: round, margin: 12 mm }', 'outline: follow').replace('fit: normal }', 'fit: normal, nut: counterbored }').replace('thickness: 20 mm', 'thickness: 10 mm')); });
