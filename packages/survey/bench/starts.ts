import { systemOf } from '../src/adjust/system.js';
import { search } from '../src/start/search.js';
import { slide } from '../src/start/slide.js';
import { type Clocks, shop } from '../test/start/shops.js';

const [from, to] = [Number(process.argv[2] ?? 1), Number(process.argv[3] ?? 50)];
const clocks = process.argv[4] as Clocks | undefined;
let bad = 0;
let worst = 0;
let total = 0;
for (let seed = from; seed <= to; seed++) {
  const s = shop(seed, clocks === undefined ? {} : { clocks });
  const best = slide(systemOf(s.network), s.truth, 60, 1e-10);
  const t1 = performance.now();
  const got = search(s.network);
  const ms = performance.now() - t1;
  worst = Math.max(worst, ms);
  total += ms;
  const ok = got.chi2 <= best.chi2 + 1e-5 * (1 + best.chi2);
  if (!ok) bad++;
  if (!ok || got.tries > 10) console.log(seed, s.family.padEnd(15), 'n', s.network.unknowns.features.size, 'dof', s.network.observations.length - s.network.unknowns.count + (s.network.bench ? 0 : 3), 'truth', best.chi2.toFixed(2), 'got', got.chi2.toFixed(2), ok ? '' : 'BAD', got.from, 'tries', got.tries, ms.toFixed(0));
}
console.log('bad', bad, 'of', to - from + 1, 'worst', worst.toFixed(0), 'ms mean', (total / (to - from + 1)).toFixed(0));
