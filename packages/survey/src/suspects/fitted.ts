import type { Adjustment } from '../adjust/adjustment.js';
import type { FittedReading } from '../types.js';
import { detectableError } from './critical.js';
import { wOf } from './w.js';

/** Every observation with its residual and how well the others check it. */
export const fittedReadings = (adjustment: Adjustment): readonly FittedReading[] =>
  adjustment.network.observations.map((o, i) => {
    const residual = adjustment.residuals[i] as number;
    return {
      id: o.id,
      text: o.text,
      kind: o.kind,
      measures: o.measures,
      value: o.value,
      fitted: o.value - residual,
      residual,
      sigma: o.sigma,
      standardized: wOf(adjustment, i),
      redundancy: adjustment.redundancy[i] as number,
      detectable: detectableError(o.sigma, adjustment.redundancy[i] as number),
    };
  });
