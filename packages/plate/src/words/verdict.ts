import { type Block, type Speech, say } from '@fayplate/core';
import { checks } from '../checks/all.js';
import type { Meaning } from '../checks/check.js';
import type { Check, Plate } from '../types.js';
import { names, places, sayCures } from './say.js';

/** What failing a check means here and now: cuts that break into each other, or a chance below half, mean that it will not go together; a register within its ± may. */
const meaning = (c: Check): Meaning => {
  const usual = checks[c.id].meaning;
  if (usual === 'chance') return c.value < 50 ? 'apart' : 'chance';
  if (c.id === 'register-fit' && c.value >= 0) return 'chance';
  return usual === 'weak' && c.sense === 'least' && c.unit === 'mm' && c.value < 0 ? 'apart' : usual;
};

const openings = {
  apart: 'Will not go together',
  chance: 'May not go together',
  line: 'Goes together, but the shafts are out of line',
  weak: 'Goes together, but not soundly',
} as const;
const order = Object.keys(openings);

/** The answer in a sentence: what is wrong, by how much, and what cures it; or that all holds. */
export const verdict = (plate: Plate, speech: Speech): Block => {
  const fails = plate.checks
    .filter((c) => !c.ok)
    .toSorted((a, b) => order.indexOf(meaning(a)) - order.indexOf(meaning(b)));
  const [worst] = fails;
  if (worst === undefined) {
    const least = plate.checks
      .filter((c) => c.id === 'web-between-cuts' || c.id === 'floor-between-cuts')
      .toSorted((a, b) => a.value - b.value)[0];
    const web =
      least === undefined
        ? ''
        : `; least metal between cuts ${say(least.value, speech, places(speech))} (${names(least)})`;
    const open = plate.unknowns.length === 0 ? '' : ' Not everything could be checked: see the end.';
    return {
      kind: 'verdict',
      ok: true,
      text: `The plate goes together: all ${plate.checks.length} checks hold${web}.${open}`,
    };
  }
  const cures = sayCures(worst, speech, 3);
  const more =
    fails.length > 1 ? ` ${fails.length - 1} more ${fails.length === 2 ? 'check fails' : 'checks fail'}.` : '';
  return {
    kind: 'verdict',
    ok: false,
    text: `${openings[meaning(worst)]}: ${checks[worst.id].say(worst, speech)}${cures === '' ? '' : `; ${cures}`}.${more}`,
  };
};
