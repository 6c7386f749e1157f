import { type Requirement, type Speech, distance, say } from '@fayplate/core';
import type { GasketSpec, Job } from '@fayplate/job';
import { standsOut } from '../bores/registers.js';
import { type Placed, placedOf } from '../desk.js';
import { depthInside } from '../outline/inside.js';
import type { MatedFace, Plate } from '../types.js';

/** Ease of a gasket's bore over the spigot that passes it, on the diameter, mm. Source: common practice. */
export const gasketEase = 0.5;

const SOURCE = 'common practice: a gasket clears what stands through it, and leaves ports and bores open';

/** How far what is asked of a gasket is met, mm on the diameter, with the words for each case. */
interface Asked {
  readonly title: string;
  readonly value: number;
  readonly limit: number;
  readonly fails: string;
  readonly cure: string;
}

const requirementOf = ({ title, value, limit, fails, cure }: Asked): Requirement => {
  const holds = value >= limit - 1e-9;
  return {
    id: 'gasket',
    title,
    state: holds ? 'holds' : 'fails',
    value,
    limit,
    margin: value - limit,
    unit: 'mm',
    source: SOURCE,
    because: holds ? title : fails,
    cure: holds ? null : cure,
  };
};

/** What stands through the gasket: bosses, spigots, and a bore that is said to stand out. */
const standsThrough = ({ feature }: Placed): boolean =>
  feature.kind === 'boss' || feature.kind === 'spigot' || (feature.kind === 'bore' && feature.stands !== null);

/** What must stay open: bores of the part, and holes that no fastener takes. */
const isPort = (p: Placed, plate: Plate): boolean =>
  p.feature.kind === 'bore' || (p.feature.kind === 'hole' && !plate.holes.some((h) => h.feature === p.name));

const oneGasket = (
  spec: GasketSpec,
  plate: Plate,
  own: readonly Placed[],
  mated: MatedFace,
  speech: Speech,
): readonly Requirement[] => {
  const mm = (v: number): string => say(v, speech, speech.unit === 'in' ? 3 : 2);
  const name = `the gasket of ${spec.face}`;
  const about = plate.bores.filter(
    (b) => distance(b, mated.centre) < 0.5 && (b.side === 'through' || b.side === mated.side),
  );
  const bore = spec.bore ?? Math.max(0, ...about.map((b) => b.diameter + (b.kind === 'bore' ? 0 : gasketEase)));
  const asked = own.flatMap((p): readonly Asked[] => {
    const { diameter } = p;
    if (diameter === null || p.feature.vacant) return [];
    if (depthInside(p.at, plate.outline.path) + diameter / 2 <= 0) return [];
    const off = distance(p.at, mated.centre);
    /** By how much the gasket's bore lets it by, on the diameter. */
    const clear = bore - 2 * off - diameter;
    if (standsThrough(p)) {
      const ease = p.feature.kind === 'spigot' ? gasketEase : 0;
      return [
        {
          title: `${name} clears ${p.name}`,
          value: clear,
          limit: ease,
          fails:
            clear < 0
              ? `${name} covers ${p.name}, which stands through it: its bore is ${mm(-clear)} too small`
              : `the bore of ${name} has only ${mm(clear)} over ${p.name}, where ${mm(ease)} of clearance is needed`,
          cure:
            off < 0.5 ? `make its \`bore\` ${mm(diameter + ease)} or more` : 'give the gasket a bore that clears it',
        },
      ];
    }
    if (!isPort(p, plate) || standsOut(p) === 0) return [];
    // Where the plate itself covers part of a bore, the gasket may do so too.
    const open = Math.min(
      diameter,
      ...(off < 0.5 ? about.filter((b) => b.kind === 'bore').map((b) => b.diameter) : []),
    );
    return [
      {
        title: `${name} leaves ${p.name} open`,
        value: clear + diameter,
        limit: open,
        fails: `${name} covers ${p.name}: ${bore === 0 ? 'it has no bore' : `its bore is ${mm(bore)}`}, and has no hole there`,
        cure:
          off < 0.5
            ? `make its \`bore\` ${mm(open)} or more`
            : `mark ${p.name} \`vacant\` where the gasket may close it`,
      },
    ];
  });
  return asked.map(requirementOf);
};

/** What each gasket must clear and leave open on its own part, by name; nothing for a job without gaskets. */
export const gasketRequirements = (
  job: Job,
  plate: Plate,
  mated: readonly MatedFace[],
  speech: Speech,
): readonly Requirement[] =>
  job.gaskets.flatMap((spec) => {
    const own = mated.find((m) => m.face === spec.face);
    const face = job.faces.find((f) => f.name === spec.face);
    return own === undefined || face === undefined ? [] : oneGasket(spec, plate, placedOf(face, own), own, speech);
  });
