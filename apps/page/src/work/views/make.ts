import { type Speech, minusSign, sayAnswer, sayNumber } from '@fayplate/core';
import { inSetting, machinistTable, settingTag, tableReport } from '@fayplate/machining';
import { explodedPicture, settingPicture } from '@fayplate/pictures';
import { Refusal, type Study } from '@fayplate/study';
import { letters } from '../letters.js';
import type { MakeView } from '../shown.js';
import { drawnOf } from './drawn.js';

/** The machinist's table as a list to tick, one row a cut, in its order. */
export const makeView = (study: Study, speech: Speech): MakeView => {
  const verdict = study.verdict();
  const { plate, mated } = study.plate();
  const made = machinistTable(plate, study.job, { unit: speech.unit }, mated);
  if (!made.ok) throw new Refusal(made.faults.join('\n'));
  const { table } = made;
  const own: Speech = { unit: table.unit, fraction: null };
  return {
    ok: verdict.answer === 'yes',
    answer: sayAnswer(verdict.answer),
    because: verdict.because,
    report: tableReport(table, speech),
    pictures: table.setups.map((s) =>
      drawnOf(settingTag(s).replace('side', 'setting'), settingPicture(plate, inSetting(table, s), s.side, letters())),
    ),
    apart: drawnOf(
      'exploded',
      explodedPicture({ job: study.job, plate, mated, benches: study.benches() }, speech, letters()),
    ),
    settings: table.setups.map((s) => ({
      id: settingTag(s),
      title: `Side ${s.side} up${s.setting === undefined ? '' : `, setting ${s.setting} of 2`}`,
      says: s.says,
      cuts: inSetting(table, s)
        .rows.filter((r) => r.side === s.side)
        .map((r) => ({
          id: `${s.side} ${r.n} ${r.hole} ${r.op}`,
          n: r.n,
          hole: r.hole,
          tool: r.tool,
          op: r.op,
          x: minusSign(sayNumber(r.set.x, own)),
          y: minusSign(sayNumber(r.set.y, own)),
          depth: sayNumber(r.depth, own, table.unit === 'in' ? 3 : 1),
          speed: r.speed === null || r.op === 'tap' ? '' : `${r.speed} rev/min`,
          note: r.note ?? '',
        })),
    })),
    unit: table.unit,
  };
};
