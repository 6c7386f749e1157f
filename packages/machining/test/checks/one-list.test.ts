import { type Report, distance } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { prove, proveReport, tableReport } from '../../src/index.js';
import { machinistTable } from '../../src/table/table.js';
import { job, plate } from '../fixture.js';

const readingsIn = (report: Report): readonly (readonly string[])[] =>
  report.flatMap((b) => (b.kind === 'table' && b.columns[0]?.title === 'Reading' ? b.rows : []));

describe('one list of what to measure', () => {
  const made = machinistTable(plate, job);
  if (!made.ok) throw new Error(made.faults.join('; '));
  const { table } = made;
  const speech = { unit: 'mm', fraction: null } as const;

  test('the table and the proof show the same readings in the same order with the same numbers', () => {
    const asked = readingsIn(proveReport(prove(job, plate, []), speech));
    expect(asked.length).toBeGreaterThan(0);
    expect(readingsIn(tableReport(table, speech))).toEqual(asked);
    expect(table.checks.map((c) => c.reading)).toEqual(asked.map(([reading]) => reading));
  });

  test('each is that of the plate: from centre to centre, over pins, and the metal between', () => {
    const at = new Map([...plate.holes, ...plate.bores].map((h) => [h.id, h]));
    for (const c of table.checks) {
      const [a, b] = c.between.map((id) => at.get(id)!);
      expect(c.centres).toBeCloseTo(distance(a!, b!), 12);
      expect(c.overPins - c.gap).toBeCloseTo(a!.diameter + b!.diameter, 12);
      if (c.reading.startsWith('over')) expect(c.expect).toBeCloseTo(c.overPins, 12);
    }
  });
});
