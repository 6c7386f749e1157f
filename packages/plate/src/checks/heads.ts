import { distance } from '@fayplate/core';
import { otherSide } from '../desk.js';
import type { Draft } from '../draft.js';
import { meets } from '../parts/footprint.js';
import { mouthRadius } from '../solids/cut.js';
import { spineDistance } from '../solids/spine.js';
import type { FastenerHead, PlateHole } from '../types.js';
import { type Finding, finding } from './check.js';

interface Headed {
  readonly hole: PlateHole;
  readonly head: FastenerHead;
  readonly source: string;
}

const headed = (draft: Draft): readonly Headed[] =>
  draft.holes.flatMap((hole) => {
    const head = hole.fastening?.head ?? null;
    return head === null ? [] : [{ hole, head, source: draft.made.seatSources.get(hole.id) ?? 'common practice' }];
  });

export interface HeadFindings {
  readonly findings: readonly Finding[];
  readonly unknowns: readonly string[];
}

/** Index of the part that lies on a side. */
const onSide = (side: 'A' | 'B'): 0 | 1 => (side === 'A' ? 0 : 1);

/** A nut or head on the side where the other part lies: below the surface, or clear of that part. */
const underPart = (draft: Draft): HeadFindings => {
  const findings: Finding[] = [];
  const unsure = new Map<string, string[]>();
  for (const { hole, head, source } of headed(draft)) {
    // A countersunk head lies flush by its very form.
    if (head.kind === 'countersunk screw') continue;
    const footprint = draft.parts[onSide(head.side)];
    const met = meets(footprint, hole, head.diameter / 2);
    if (met === 'not known' && head.proud > 0)
      unsure.set(footprint.face, [...(unsure.get(footprint.face) ?? []), hole.id]);
    if (met === 'yes')
      findings.push(
        finding(`${head.kind} under the other part`, [hole.id, footprint.face], head.proud, 0, {
          source,
          sense: 'most',
          at: hole,
        }),
      );
  }
  const unknowns = [...unsure].map(
    ([face, ids]) =>
      `Whether ${face} reaches over the nuts or heads of ${ids.join(', ')} is not known: give the \`rim\` of ${face}, or sink them.`,
  );
  return { findings, unknowns };
};

/** Room for a socket or key beside whatever stands on the same side, and round the head in its counterbore. */
const room = (draft: Draft): readonly Finding[] => {
  const all = headed(draft).filter((h) => h.head.kind !== 'countersunk screw');
  return all.flatMap(({ hole, head, source }) => {
    const out: Finding[] = [];
    if (hole.sink !== null)
      out.push(finding('room for the socket', [hole.id], hole.sink.diameter, head.socket, { source, at: hole }));
    else {
      // Heads on one side are those of one face, sunk or not alike.
      for (const other of all) {
        if (other.hole === hole || other.head.side !== head.side) continue;
        const clear = distance(hole, other.hole) - head.socket / 2 - other.head.diameter / 2;
        out.push(finding('room for the socket', [hole.id, other.hole.id], clear, 0, { source, at: hole }));
      }
      for (const bore of draft.bores) {
        if (bore.kind !== 'spigot' || bore.side !== head.side) continue;
        const clear = Math.abs(distance(hole, bore) - bore.diameter / 2) - head.socket / 2;
        out.push(finding('room for the socket', [hole.id, bore.id], clear, 0, { source, at: hole }));
      }
      const seatWeb = draft.bores.filter((b) => b.kind !== 'spigot' && (b.side === 'through' || b.side === head.side));
      for (const bore of seatWeb) {
        const over = distance(hole, bore) - bore.diameter / 2 - head.diameter / 2;
        out.push(finding('seat of the nut or head', [hole.id, bore.id], over, 0, { source, at: hole }));
      }
      for (const [i, cut] of draft.cuts.entries()) {
        if (cut.what !== 'hole' || draft.holes[i] === hole) continue;
        const z = head.side === 'A' ? 0 : draft.desk.thickness;
        const radius = mouthRadius(cut, z);
        if (radius > 0)
          out.push(
            finding(
              'seat of the nut or head',
              [hole.id, cut.id],
              spineDistance(cut.spine, [hole, hole]) - radius - head.diameter / 2,
              0,
              { source, at: hole },
            ),
          );
      }
    }
    return leastOf(out);
  });
};

/** Of each rule what fails, and the one with least to spare. */
const leastOf = (findings: readonly Finding[]): readonly Finding[] => {
  const rules = [...new Set(findings.map((f) => f.rule))];
  return rules.flatMap((rule) => {
    const own = findings.filter((f) => f.rule === rule);
    const [least] = own.toSorted((a, b) => a.value - a.limit - (b.value - b.limit));
    return own.filter((f) => !f.ok || f === least);
  });
};

/** Nuts and heads on the far side of their own part, with whether the other part lies over the room to turn them. */
const reachable = (
  draft: Draft,
  index: 0 | 1,
): readonly { readonly h: Headed; readonly met: 'yes' | 'no' | 'not known' }[] => {
  const name = draft.desk.faces[index].name;
  const footprint = draft.parts[index === 0 ? 1 : 0];
  return headed(draft)
    .filter((h) => h.head.side === otherSide(index === 0 ? 'A' : 'B') && h.hole.part?.face === name)
    .map((h) => ({ h, met: meets(footprint, h.hole, Math.max(h.head.socket, h.head.diameter) / 2) }));
};

/**
 * Order of assembly: whichever part goes on last, all its nuts and heads have to be reached with the other part in place.
 * Those on the plate's far side are reached only where the other part does not cover them.
 */
const order = (draft: Draft): HeadFindings => {
  const sides = ([0, 1] as const).map((index) => reachable(draft, index));
  const [first = [], second = []] = sides.map((s) => s.filter((r) => r.met === 'yes').map((r) => r.h));
  const unsure = sides.map((s) => s.filter((r) => r.met === 'not known').map((r) => r.h.hole.id));
  const free = sides.some((s) => s.every((r) => r.met === 'no'));
  const unknowns =
    free || (first.length > 0 && second.length > 0)
      ? []
      : [
          `Whether ${unsure.flat().join(', ')} can still be reached once the other part is on is not known: give the \`rim\` of ${draft.desk.spec.between.filter((_, i) => (unsure[1 - i] ?? []).length > 0).join(' and ')}.`,
        ];
  if (first.length === 0 && second.length === 0) return { findings: [], unknowns };
  const least = Math.min(first.length, second.length);
  const hidden = first.length <= second.length ? first : second;
  const of = least === 0 ? [...draft.desk.spec.between] : hidden.map((h) => h.hole.id);
  const source = 'common practice: one part goes on last, and its fasteners are reached from outside';
  return {
    findings: [
      finding('fasteners out of reach once the other part is on', of, least, 0, {
        source,
        unit: '1',
        sense: 'most',
        at: hidden[0]?.hole ?? null,
      }),
    ],
    unknowns,
  };
};

/** A cone leaves its head no play, whatever the hole under it leaves the shank. */
const cones = (draft: Draft): readonly string[] => {
  const own = headed(draft).filter((h) => h.head.kind === 'countersunk screw');
  return own.length === 0
    ? []
    : [
        `The countersunk heads in ${own.map((h) => h.hole.id).join(', ')} seat true only where their holes are true: the chance that it goes on counts the play of their shanks alone. Where a hole is off, the head stands up on one side: spot these holes through the part, or use cap screws.`,
      ];
};

export const headFindings = (draft: Draft): HeadFindings => {
  const under = underPart(draft);
  const last = order(draft);
  return {
    findings: [...under.findings, ...room(draft), ...last.findings],
    unknowns: [...under.unknowns, ...last.unknowns, ...cones(draft)],
  };
};
