import { type Block, type Speech, say } from '@fayplate/core';
import { meaningOf } from '../checks/rules.js';
import type { Check, Plate } from '../types.js';
import { names, places, sayCures, sayValue, short } from './say.js';

/** What is wrong, as one would say it across the bench. */
export const sayFault = (c: Check, speech: Speech): string => {
  const [a = '', b = ''] = c.of;
  if (c.rule === 'web between cuts' && c.value < 0) return `${a} breaks into ${b} by ${short(-c.value, speech)}`;
  if (c.rule === 'web between cuts')
    return `only ${short(c.value, speech)} of metal between ${a} and ${b}, where ${short(c.limit, speech)} is wanted`;
  if (c.rule.startsWith('floor under') || c.rule.startsWith('floor of'))
    return c.value < 0
      ? `${a} comes through by ${short(-c.value, speech)}`
      : `only ${short(c.value, speech)} of ${c.rule} of ${a}, where ${short(c.limit, speech)} is wanted`;
  if (c.rule === 'metal to the edge')
    return c.value < 0
      ? `${a} runs out over the edge by ${short(-c.value, speech)}`
      : `only ${short(c.value, speech)} of metal between ${a} and the edge, where ${short(c.limit, speech)} is wanted`;
  if (c.rule === 'hole to raised spigot') return `${a} cuts ${short(-c.value, speech)} into the raised spigot ${b}`;
  if (c.rule === 'register goes on' && c.value >= 0)
    return `the register ${a} clears ${b} by ${say(c.value, speech, places(speech))}, and ${b} is known to ± ${say(c.limit, speech, places(speech))} only`;
  if (c.rule === 'register goes on')
    return `the register ${a} is ${say(-c.value, speech, places(speech))} too tight for ${b}`;
  if (c.rule.startsWith('thread engaged'))
    return `${a} has ${sayValue(c, c.value, speech)} of thread${b === '' ? '' : ` in ${b}`}, where ${sayValue(c, c.limit, speech)} is wanted`;
  if (c.rule.startsWith('stud left'))
    return c.value < 0
      ? `the stud in ${a} ends ${short(-c.value, speech)} below the seat of its nut`
      : `the stud in ${a} stands only ${short(c.value, speech)} above the seat of its nut, where ${short(c.limit, speech)} is wanted`;
  if (c.rule.startsWith('a leaning stud'))
    return `the stud in ${a} may lean ${say(-c.value, speech, places(speech))} more than the hole lets it`;
  if (c.rule.startsWith('bolt passes'))
    return `the bolt of ${a} is ${say(-c.value, speech, places(speech))} too large for ${b}`;
  if (c.rule === 'two round dowels fight')
    return `the dowels in ${names(c)} fight: their spacing is unsure by ${sayValue(c, c.value, speech)}, and their play takes up ${sayValue(c, c.limit, speech)}`;
  if (c.rule === 'dowels that locate the same thing')
    return `${names(c)} locate the same thing, and two dowels are enough`;
  if (c.rule === 'hole to edge')
    return `${a} is ${sayValue(c, c.value, speech)} from the edge, where ${sayValue(c, c.limit, speech)} is wanted`;
  if (c.rule.endsWith('under the other part'))
    return `the ${c.rule.startsWith('stud') ? 'end of the stud' : (c.rule.split(' under ')[0] ?? 'nut')} in ${a} stands ${short(c.value, speech)} into ${b}`;
  if (c.rule.startsWith('fasteners out of reach'))
    return `${c.value} fasteners cannot be reached once the other part is on, whichever goes on last`;
  if (c.rule === 'chance that it goes on')
    return `${a} goes on ${sayValue(c, c.value, speech).replace(' %', '')} times in 100`;
  return `${c.rule}, ${names(c)}: ${sayValue(c, c.value, speech)} where ${c.sense === 'least' ? 'at least' : 'at most'} ${sayValue(c, c.limit, speech)} is wanted`;
};

/** What failing a check means here and now: cuts that break into each other, or a chance below half, mean that it will not go together; a register within its ± may. */
const meaning = (c: Check): 'apart' | 'chance' | 'line' | 'weak' => {
  const usual = meaningOf(c.rule);
  if (usual === 'chance') return c.value < 50 ? 'apart' : 'chance';
  if (c.rule === 'register goes on' && c.value >= 0) return 'chance';
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
      .filter((c) => c.rule === 'web between cuts' || c.rule === 'floor between cuts')
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
    text: `${openings[meaning(worst)]}: ${sayFault(worst, speech)}${cures === '' ? '' : `; ${cures}`}.${more}`,
  };
};
