import { expect, test } from 'vitest';
import { fasten, plateOf, soundBench } from '../support/plate.js';

test('where no one change is enough, two together are tried and told', () => {
  // Nuts stand under the motor; let into a plate of 10 mm they leave too little floor.
  const thin = soundBench({
    thickness: 10,
    fasten: new Map([
      ['pump', fasten({ head: 'nut' })],
      ['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 0.5 } })],
    ]),
  });
  const faces = thin.job.faces.map((f) =>
    f.name === 'motor' ? { ...f, rim: [{ feature: 'spigot', margin: 90 }] } : f,
  );
  const plate = plateOf({ ...thin, job: { ...thin.job, faces } }, { trials: 50 });
  const nuts = plate.checks.filter((c) => c.id === 'nut-under-part');
  expect(nuts).toHaveLength(5);
  for (const nut of nuts) {
    expect(nut.ok).toBe(false);
    expect(nut.cures[0]).toMatchObject({
      clean: true,
      kind: 'together',
      steps: [{ says: 'counterbore the plate for the nuts of pump' }, { kind: 'thickness', to: 12 }],
    });
  }
});
