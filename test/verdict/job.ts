import { type Options, type World, answer } from '@fayplate/study';
import type { Requirement } from '@fayplate/core';

/** A world that has nothing: what is asked here needs nothing from outside. */
export const bare: World = {
  lettering: () => Promise.reject(new Error('no letters')),
  sheets: () => Promise.reject(new Error('no sheets')),
  press: () => Promise.reject(new Error('no press')),
};

/**
 * A small whole job that is sound: four studs and a spigot on one part, four holes, a spigot and a shaft on the other.
 */
export const sound = `job: small job
units: mm
instruments: { readout: ± 0.02, caliper: ± 0.04 }
faces:
  pump:
    centre: spigot
    up: P1
    flange: 12
    features:
      spigot: { kind: spigot, diameter: 60.00 ± 0.01, stands: 2.5 }
      P1: { kind: stud, thread: M8, diameter: 7.90 ± 0.04, clock: 12, stands: 19 }
      P2: { kind: stud, thread: M8, diameter: 7.90 ± 0.04, clock: 3, stands: 19 }
      P3: { kind: stud, thread: M8, diameter: 7.90 ± 0.04, clock: 6, stands: 19 }
      P4: { kind: stud, thread: M8, diameter: 7.90 ± 0.04, clock: 9, stands: 19 }
    readings:
      - at spigot = (0, 0) by readout
      - at P1 = (0.01, 62.00) by readout
      - at P2 = (62.01, 0.00) by readout
      - at P3 = (0.00, -61.99) by readout
      - at P4 = (-62.00, 0.01) by readout
      - over P1 P3 = 131.89 by caliper
      - over P2 P4 = 131.91 by caliper
    rim: [{ feature: spigot, margin: 50 }]
  motor:
    centre: spigot
    up: M1
    flange: 10
    shaft: { diameter: 24, over key: 27 }
    features:
      spigot: { kind: spigot, diameter: 80.00 ± 0.01, stands: 3.5 }
      M1: { kind: hole, diameter: 11.00 ± 0.04, clock: 12 }
      M2: { kind: hole, diameter: 11.00 ± 0.04, clock: 3 }
      M3: { kind: hole, diameter: 11.00 ± 0.04, clock: 6 }
      M4: { kind: hole, diameter: 11.00 ± 0.04, clock: 9 }
    readings:
      - at spigot = (0, 0) by readout
      - at M1 = (0.00, 82.51) by readout
      - at M2 = (82.50, 0.01) by readout
      - at M3 = (-0.01, -82.50) by readout
      - at M4 = (-82.50, 0.00) by readout
      - over M1 M3 = 176.01 by caliper
      - over M2 M4 = 176.00 by caliper
    rim: [{ feature: spigot, margin: 60 }]
stack:
  links:
    reach: 62.0 ± 0.1
    mouth: 8.0 ± 0.1
    floor: 46.0 ± 0.1
    plate: { find: 15 .. 30 }
  limits:
    engagement: { sum: reach - plate - mouth, least: 30 }
    tip gap: { sum: floor + plate - reach, least: 1 }
plate:
  between: [pump, motor]
  material: aluminium
  clocking: 45 deg
  thickness: 20
  bore: { diameter: 40 }
  locate:
    pump: { register: 60.03, depth: 3 }
    motor: { register: 80.03, depth: 4 }
  fasten:
    pump: { as: clearance, nut: counterbored }
    motor: { as: tapped, thread: M10, engagement: 1.5 d }
  outline: { shape: round, margin: 12 }
  limits: { web: 3, edge: 1.2 d }
  drilling: ± 0.05
`;

/** The job with one text for another; what is replaced must stand in it. */
export const change = (...pairs: readonly (readonly [from: string, to: string])[]): string =>
  pairs.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`the sound job has no "${from}"`);
    return text.replace(from, to);
  }, sound);

export interface Said {
  readonly exit: number;
  readonly answer: string;
  readonly because: string;
  readonly requirements: readonly Requirement[];
  /** What the first block of the report says. */
  readonly first: string;
  /** What keeps the job from Yes, with what settles it. */
  readonly open: readonly string[];
}

/** What a command says of a job's verdict, by few trials. */
export const verdictOf = async (
  text: string,
  options: Options = {},
  command: 'plate' | 'prove' | 'table' = 'plate',
): Promise<Said> => {
  const found = await answer(text, command, { trials: 200, ...options }, bare);
  const { verdict } = found.json as { verdict?: Omit<Said, 'exit' | 'first' | 'open'> };
  const first = found.report.find((b) => b.kind === 'verdict');
  if (verdict === undefined || first?.kind !== 'verdict')
    throw new Error(`no verdict: ${found.error ?? ''}${found.faults.map((f) => f.expected).join('; ')}`);
  const open = verdict.requirements
    .filter((r) => r.state !== 'holds')
    .map((r) => `${r.state} ${r.id}: ${r.because}; ${r.cure ?? ''}`);
  return { ...verdict, exit: found.exit, first: first.text, open };
};
