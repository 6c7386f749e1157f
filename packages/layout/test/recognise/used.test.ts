import { expect, test } from 'vitest';
import { readJob } from '@fayplate/job';
import { locateFace } from '@fayplate/survey';
import { layoutFace, usedPattern } from '../../src/index.js';

// IEC 60072-1, FF165: four holes on 165 mm.
test.each(['measured', 'intended'])(
  'a standard face is cut where its standard has it, its tolerance and all (%s)',
  (how) => {
    const read = readJob(`job: x\nunits: in\nfaces:\n  motor: { standard: FF165, layout: ${how} }\n`);
    const face = read.ok ? read.job.faces[0] : undefined;
    if (!read.ok || face === undefined) throw new Error('no face');
    const located = locateFace({ face, instruments: read.job.instruments });
    const layout = layoutFace(face, located);
    expect(layout.candidates[layout.chosen ?? -1]?.circles[0]?.diameter).toBeCloseTo(165, 6);
    const used = usedPattern(face, located, layout);
    if (!used.ok) throw new Error(used.why);
    const at = used.used.pattern.ids.indexOf('B1');
    expect(used.used.pattern.points[at]?.x).toBeCloseTo(58.336, 2);
    expect(Math.sqrt(used.used.pattern.covariance[2 * at]?.[2 * at] ?? 0)).toBeGreaterThan(0.05);
    expect(used.used.undecided ?? null).toBeNull();
  },
);
