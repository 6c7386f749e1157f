import { shellWord } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { PrinterScale } from '@fayplate/drawing';
import { Refusal } from './refusal.js';
import type { World } from './world.js';

const isNumber = (v: unknown): v is number => typeof v === 'number' && Number.isFinite(v);
const isBand = (v: unknown): v is number => isNumber(v) && v >= 0;

/** The text that keeps a printer's measured scale between jobs. */
export const printerText = (profile: PrinterScale): string => `${JSON.stringify({ fayplate: 1, profile }, null, 2)}\n`;

/** What such a text keeps, or null where it is not one. */
const scaleIn = (text: string): PrinterScale | null => {
  if (text.length > 10_000) return null;
  try {
    const { profile: p } = JSON.parse(text) as { profile?: Partial<PrinterScale> };
    if (p === undefined || !isNumber(p.wide) || !isNumber(p.high) || !isNumber(p.skew)) return null;
    const u = p.plusMinus;
    if (u === undefined || !isBand(u.wide) || !isBand(u.high) || (u.skew !== null && !isBand(u.skew))) return null;
    if (typeof p.name !== 'string' || typeof p.date !== 'string' || typeof p.paper !== 'string') return null;
    return {
      name: p.name,
      wide: p.wide,
      high: p.high,
      skew: p.skew,
      plusMinus: { wide: u.wide, high: u.high, skew: u.skew },
      date: p.date,
      paper: p.paper,
    };
  } catch {
    return null;
  }
};

/**
 * The scale of the printer that was asked for or that the job names; null: none is named. Refuses in words what is not
 * kept.
 */
export const printerFor = (asked: string | undefined, job: Job, world: World): PrinterScale | null => {
  const name = asked ?? job.print?.printer ?? null;
  if (name === null) return null;
  const kept = world.printer?.(name) ?? null;
  if (kept === null)
    throw new Refusal(
      `no printer called ${name} is saved. Print the calibration sheet, measure its rulers, then: fayplate printer ` +
        `${shellWord(name)} --wide 149.4/150 --high 199.1/200`,
    );
  const scale = scaleIn(kept.text);
  if (scale === null)
    throw new Refusal(
      `${kept.where} does not hold a printer's measured scale: measure again with fayplate printer ${shellWord(name)}`,
    );
  // Two names may leave the same file name.
  if (scale.name.trim().toLowerCase() !== name.trim().toLowerCase())
    throw new Refusal(
      `${kept.where} belongs to ${scale.name}, not to ${name}: give one of the two another name and measure it again`,
    );
  return scale;
};
