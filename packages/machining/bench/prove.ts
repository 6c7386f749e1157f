import { calibration } from '../test/prove/calibration.js';

/**
 * Whether a proof's chance is met: plates drilled with errors, measured with a read-out of ± 0.02 mm, proved, and tried
 * with their true holes.
 */
console.log('proof of drilled plates: chance said against what happened (2,000 plates each)');
for (const off of [0.15, 0.2, 0.25, 0.3, 0.4]) {
  const c = calibration(2000, off, 1);
  const percent = (v: number): string => `${(100 * v).toFixed(1).padStart(5)} %`;
  console.log(
    `holes off by ${off.toFixed(2)} mm: said ${percent(c.said)}  went on ${percent(c.went)}  called rightly ` +
      `${percent(c.right)}  squared error ${c.brier.toFixed(4)}, due ${c.brierDue.toFixed(4)}`,
  );
}
