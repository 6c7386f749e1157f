import { randomFrom } from '@fayplate/core';
import { readJob } from '@fayplate/job';
import { usedPattern } from '@fayplate/layout';
import { designPlate } from '@fayplate/plate';
import { locateFace } from '@fayplate/survey';
import { roomLeft, shopOf } from '../support/shop.js';

/** What was claimed of one face of one plate, and what came of it. */
export interface Claim {
  readonly chance: number;
  readonly wentOn: boolean;
}

/**
 * One shop from its readings to its plate, which is then drilled with the shop's errors and tried on the true parts.
 * `blind` plays a tool that takes its centres for exact.
 */
export const claimsOf = (seed: number, trials: number, blind = false): readonly Claim[] => {
  const shop = shopOf(seed);
  const read = readJob(shop.job);
  if (!read.ok) throw new Error(read.faults.map((f) => f.expected).join('\n'));
  const used = new Map(
    read.job.faces.map((face) => {
      const located = locateFace({ face, instruments: read.job.instruments }, { next: false });
      const u = usedPattern(face, located, null);
      if (!u.ok) throw new Error(u.why);
      const pattern = blind
        ? { ...u.used.pattern, covariance: u.used.pattern.covariance.map((row) => row.map(() => 0)) }
        : u.used.pattern;
      return [face.name, { ...u.used, pattern }] as const;
    }),
  );
  const designed = designPlate(read.job, used, { stack: null, trials, seed });
  if (!designed.ok) throw new Error(designed.faults.join('\n'));
  const { plate } = designed;
  const luck = randomFrom(1_000_000 + seed);
  return read.job.faces.map((face, i) => {
    const part = shop.parts[i === 0 ? 0 : 1];
    // Both faces are seen from outside, so from side B the second stands as its mirror image.
    const pins = part.pins.map((p) => (i === 0 ? p : { x: -p.x, y: p.y }));
    const drilled = part.pins.map((_, k) => {
      const hole = plate.holes.find((h) => h.feature === `${face.name}.P${k + 1}`);
      if (hole?.limits == null) throw new Error(`no hole for ${face.name}.P${k + 1}`);
      const [least, most] = hole.limits;
      const diameter = least + (most - least) * luck.uniform();
      return {
        x: hole.x + (shop.drilling / 2) * luck.normal(),
        y: hole.y + (shop.drilling / 2) * luck.normal(),
        room: (diameter - part.diameter) / 2,
      };
    });
    return { chance: plate.goesOn.get(face.name)?.probability ?? Number.NaN, wentOn: roomLeft(pins, drilled) >= 0 };
  });
};

/** How far what happened lies from what was claimed, in standard deviations of pure chance. */
export const surprise = (claims: readonly Claim[]): number =>
  claims.reduce((sum, c) => sum + Number(c.wentOn) - c.chance, 0) /
  Math.sqrt(claims.reduce((sum, c) => sum + c.chance * (1 - c.chance), 0));
