import { isoFit } from '@fayplate/handbook';
import type { LocateSpec } from '@fayplate/job';
import { type Desk, type Placed, partOf } from '../desk.js';
import type { PlateBore } from '../types.js';

/**
 * Depth of a recess or height of a raised spigot where neither the job nor the part says, mm. Source: common practice.
 */
const USUAL_DEPTH = 3;
/**
 * A recess is this much deeper than the spigot that goes in, so that the faces meet and not the bottoms, mm. Source:
 * common practice.
 */
const DEEPER = 0.5;

export type Register = Omit<PlateBore, 'id'>;
type RegisterSpec = LocateSpec & { readonly as: 'register' };

export const centreOf = (desk: Desk, face: string): Placed | null => {
  const name = desk.faces.find((f) => f.name === face)?.centre ?? null;
  return desk.placed.find((p) => p.face.name === face && p.feature.id === name) ?? null;
};

const limitsOf = (spec: RegisterSpec): readonly [number, number] | null => {
  const { value, plusMinus } = spec.diameter;
  const fit = spec.fit === null ? null : isoFit(spec.fit, value);
  if (fit !== null) return [fit.least, fit.most];
  return plusMinus === null ? null : [value - plusMinus, value + plusMinus];
};

/** How far a round feature stands out of its face (or goes in), mm; null where the job does not say. */
export const standsOut = (p: Placed): number | null => p.feature.height ?? p.feature.stands ?? p.feature.deep;

/** The most that it may stand out, its ± counted; null where the job does not say. */
export const mostOut = (p: Placed): number | null => {
  const out = standsOut(p);
  return out === null ? null : out + (p.feature.heightWithin ?? 0);
};

/** A spigot of the part goes into a recess of the plate; into a bore of the part goes a raised spigot of the plate. */
const register = (desk: Desk, face: string, spec: RegisterSpec): Register | null => {
  const centre = centreOf(desk, face);
  if (
    centre === null ||
    (centre.feature.kind !== 'spigot' && centre.feature.kind !== 'bore' && centre.feature.kind !== 'hole')
  )
    return null;
  const spigot = centre.feature.kind === 'spigot';
  const known = standsOut(centre);
  const depth =
    spec.depth ?? (known === null ? USUAL_DEPTH : spigot ? known + DEEPER : Math.max(known - DEEPER, known / 2));
  return {
    kind: spigot ? 'recess' : 'spigot',
    feature: centre.name,
    part: partOf(centre),
    x: centre.at.x,
    y: centre.at.y,
    diameter: spec.diameter.value,
    limits: limitsOf(spec),
    side: centre.side,
    depth: spigot && depth >= desk.thickness ? null : depth,
  };
};

export const registers = (
  desk: Desk,
): { readonly registers: readonly Register[]; readonly faults: readonly string[] } => {
  const out: Register[] = [];
  const faults: string[] = [];
  for (const face of desk.faces) {
    const spec = desk.spec.locate.get(face.name);
    const loose = spec?.as === 'new dowels' ? (spec.set?.register ?? null) : null;
    if (loose !== null) {
      const made = register(desk, face.name, { as: 'register', fit: null, ...loose });
      if (made?.kind === 'recess') out.push({ ...made, kind: 'relief' });
      else
        faults.push(
          `the register of ${face.name} that is set by indicator needs a spigot as the face's \`centre\`, to be ` +
            `shifted in a recess; leave \`register\` out where the bolts alone hold it`,
        );
      continue;
    }
    if (spec?.as !== 'register') continue;
    const made = register(desk, face.name, spec);
    if (made === null)
      faults.push(
        `the register of ${face.name} needs a spigot or a bore as the face's \`centre\`, located by its readings`,
      );
    else out.push(made);
  }
  return { registers: out, faults };
};
