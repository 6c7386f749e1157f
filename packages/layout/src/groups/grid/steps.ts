import { MM_PER_INCH } from '@fayplate/core';

/** Steps that coordinates may have been set out in; all alike until the readings speak. */
export const gridSteps: readonly { readonly step: number; readonly unit: 'in' | 'mm' }[] = [
  ...[8, 16, 32, 64].map((parts) => ({ step: MM_PER_INCH / parts, unit: 'in' as const })),
  ...[1, 0.5, 0.25].map((step) => ({ step, unit: 'mm' as const })),
];
