import type { LocatedFace } from '@fayplate/survey';

export interface NamedSuspect {
  readonly face: string;
  readonly reading: string;
}

/** Readings that do not fit, and those that cannot be told from them, under the name of where they stand. */
export const suspectsOn = (face: string, located: Pick<LocatedFace, 'suspects'> | null): readonly NamedSuspect[] =>
  (located?.suspects ?? []).flatMap((s) => [s.reading, ...s.tiedWith].map((reading) => ({ face, reading })));
