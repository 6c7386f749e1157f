import type { Requirement, Speech } from '@fayplate/core';
import { checks } from '../checks/all.js';
import { marginOf } from '../checks/check.js';
import type { Check } from '../types.js';
import { names, sayCures, sayValue } from './say.js';

/** A check as one of the job's requirements, its words in the job's units. */
export const requirementOf = (c: Check, speech: Speech): Requirement => {
  const cure = c.ok ? null : sayCures(c, speech, 3);
  const atBench = c.ok ? null : sayCures(c, { ...speech, atBench: true }, 3);
  return {
    id: c.id,
    title: c.rule,
    state: c.ok ? 'holds' : 'fails',
    value: c.value,
    limit: c.limit,
    margin: marginOf(c),
    unit: c.unit,
    source: c.source,
    because: c.ok ? `${c.rule}, ${names(c)}: ${sayValue(c, c.value, speech)}` : checks[c.id].say(c, speech),
    cure,
    ...(atBench === null || atBench === cure ? {} : { cureAtBench: atBench }),
  };
};
