import { isMap, isScalar, isSeq, parseDocument } from 'yaml';
import type { Face, Job } from '../src/index.js';
import { second, secondLength } from './second.js';

type Path = readonly (string | number)[];

const pm = /±|\+\/-|\+-/;

/**
 * The number of a text without its unit, by the second reader: the page has one grammar of numbers for lengths and
 * angles.
 */
const plainNumber = (text: string): number | null => {
  const n = second(text);
  return n === null || n.unit !== 'bare' ? null : Number(n.over) / Number(n.under);
};

/** An angle by the page, radians: degrees unless `rad` stands behind it; minutes and seconds behind ° only. */
const secondAngle = (text: string, bare: 'deg' | 'rad' = 'deg'): number | null => {
  const t = text.trim();
  const minus = t.startsWith('-') || t.startsWith('−');
  const rest = t.replace(/^[-−+]/, '').trim();
  const sign = minus ? -1 : 1;
  const parts = rest.split('°');
  if (parts.length === 2 && (parts[1] ?? '').trim() !== '') {
    const [degrees = '', tail = ''] = parts;
    const [minutes = '', seconds = ''] = tail.trim().split(/['′]/);
    const m = plainNumber(minutes);
    const s = seconds.trim() === '' ? 0 : plainNumber(seconds.trim().replace(/["″]$/, ''));
    const d = plainNumber(degrees);
    return d === null || m === null || s === null || m >= 60 || s >= 60
      ? null
      : (sign * (d + m / 60 + s / 3600) * Math.PI) / 180;
  }
  const unit = /^(.*?) *(°|deg|degree|degrees|rad|radian|radians)$/i.exec(rest);
  const n = plainNumber(unit?.[1] ?? rest);
  const per = (unit === null ? bare : unit[2]?.toLowerCase().startsWith('rad') === true ? 'rad' : 'deg') === 'rad';
  return n === null ? null : sign * n * (per ? 1 : Math.PI / 180);
};

const isRad = (text: string): boolean => /rad(ians?)?$/i.test(text.trim());

/** An angle and its ±: a unit written once serves both, unless the value would be more than a whole turn. */
const angleMeasure = (text: string): { readonly value: number | null; readonly plusMinus: number | null } => {
  const [head = '', tail] = text.split(pm);
  if (tail === undefined) return { value: secondAngle(head), plusMinus: null };
  const bareHead = !/[°a-z]/i.test(head);
  const bareTail = !/[°a-z]/i.test(tail);
  const asRad = secondAngle(head, 'rad');
  const shared = bareHead && isRad(tail) && asRad !== null && Math.abs(asRad) <= 2 * Math.PI;
  return {
    value: secondAngle(head, shared ? 'rad' : 'deg'),
    plusMinus: secondAngle(tail, bareTail && isRad(head) ? 'rad' : 'deg'),
  };
};

/** A clock position, radians counter-clockwise from +x. */
const secondClock = (text: string): number | null => {
  const [hour = '', minute = '0', more] = text.trim().split(':');
  const [h, m] = [plainNumber(hour), plainNumber(minute)];
  return h === null || m === null || more !== undefined || h > 12 || m >= 60
    ? null
    : Math.PI / 2 - ((h + m / 60) * Math.PI) / 6;
};

/**
 * Every angle, place, count and name of a job that was read from `text`, and every length beside those of readings and
 * diameters, against a second reading of the same text: what differs, in words.
 */
export const misreadMore = (text: string, job: Job): readonly string[] => {
  const document = parseDocument(text, { schema: 'failsafe', logLevel: 'error' });
  const bare = job.units === 'in' ? 25.4 : 1;
  const wrong: string[] = [];
  const typed = (path: Path): string | null => {
    let node: unknown = document.contents;
    for (const key of path) {
      if (isMap(node)) node = node.items.find((p) => isScalar(p.key) && String(p.key.value) === String(key))?.value;
      else if (isSeq(node)) node = node.items[Number(key)];
      else return null;
    }
    return isScalar(node)
      ? String(node.value)
          .replace(/[\u00a0\u2000-\u200a\u202f]/g, ' ')
          .trim()
      : null;
  };
  const same = (ours: number, theirs: number): boolean => Math.abs(ours - theirs) <= 1e-9 * Math.max(1, Math.abs(ours));
  const number = (path: Path, ours: number | null | undefined, read: (words: string) => number | null): void => {
    const words = typed(path);
    if (words === null || words === '' || ours == null) return;
    const theirs = read(words);
    if (theirs === null || !same(ours, theirs))
      wrong.push(`${path.join('.')} "${words}": read as ${ours}, by the page ${theirs}`);
  };
  const length = (path: Path, ours: number | null | undefined): void =>
    number(path, ours, (w) => secondLength(w.replace(/^±|^\+\/-|^\+-/, ''), bare));
  const angle = (path: Path, ours: number | null | undefined): void =>
    number(path, ours, (w) => secondAngle(w.replace(/^±|^\+\/-|^\+-/, '')));
  const count = (path: Path, ours: number | null | undefined): void => number(path, ours, plainNumber);
  const name = (path: Path, ours: string | null | undefined): void => {
    const words = typed(path);
    if (words === null || ours == null) return;
    const plain = (s: string): string => s.toLowerCase().replace(/[\s_]+/g, ' ');
    if (plain(words) !== plain(ours)) wrong.push(`${path.join('.')} "${words}": read as the name ${ours}`);
  };
  const ofFace = (face: Face): void => {
    const at: Path = ['faces', face.name];
    name([...at, 'centre'], face.centre);
    name([...at, 'up'], face.up);
    name([...at, 'shaft'], face.shaft);
    length([...at, 'flange'], face.flange);
    if (face.layout.kind === 'stated') {
      const [circle] = face.layout.circles;
      length([...at, 'layout', 'circle'], circle?.diameter);
      count([...at, 'layout', 'divisions'], circle?.divisions);
      name([...at, 'layout', 'about'], circle?.about);
      angle([...at, 'layout', 'phase'], circle?.phase);
    }
    for (const f of face.features) {
      const own: Path = [...at, 'features', f.id];
      name([...own, 'kind'], f.kind);
      name([...own, 'thread'], f.thread);
      number([...own, 'clock'], f.clock, (w) => {
        const read = secondClock(w);
        // The same direction, a whole turn apart or not.
        return read === null || f.clock === null
          ? read
          : f.clock + Math.sin(read - f.clock) + (Math.cos(read - f.clock) < 0 ? 9 : 0);
      });
      for (const key of ['stands', 'deep', 'height'] as const) length([...own, key], f[key]);
      angle([...own, 'lean'], f.lean);
    }
    for (const r of face.readings) {
      const [before = '', behind = ''] = r.text.split('=');
      const words =
        before
          .replace(/^\s*aside\s+/, '')
          .trim()
          .split(/\sby\s|±|\+\/-|\+-/)[0] ?? '';
      const names = words
        .trim()
        .split(/[\s]+/)
        .slice(1)
        .flatMap((w) => w.split('-'));
      if (names.join(' ') !== r.features.join(' ')) wrong.push(`${r.text}: read as of ${r.features.join(' ')}`);
      const value = behind.replace(/#.*/, '').split(/\sby(?=\s|$)/i)[0] ?? '';
      if (r.kind === 'angle') {
        const m = angleMeasure(value);
        if (m.value === null || !same(r.value, m.value))
          wrong.push(`${r.text}: read as ${r.value} rad, by the page ${m.value}`);
        if (pm.test(value) && (m.plusMinus === null || !same(r.plusMinus, m.plusMinus)))
          wrong.push(`${r.text} (±): read as ${r.plusMinus} rad, by the page ${m.plusMinus}`);
      }
      if ((r.kind === 'at' || r.kind === 'touch') && r.point !== null) {
        const [x = '', y = '', more] = (/\(([^)]*)\)/.exec(value)?.[1] ?? '').split(',');
        // A unit behind the bracket or the ± serves both, where they have none; that of a ± by the rule of the greater
        // coordinate.
        const [head = '', tail] = value.split(pm);
        const behind = secondLength(`1 ${head.split(')')[1] ?? ''}`.trim(), bare);
        const greatest = Math.max(...[x, y].map((w) => Math.abs(secondLength(w, 1) ?? 0)));
        const own = [x, y].some((w) => second(w)?.unit !== 'bare') || (head.split(')')[1] ?? '').trim() !== '';
        const shared =
          own || tail === undefined || greatest === 0
            ? (behind ?? bare)
            : (secondMeasure(`${greatest.toFixed(9)} ± ${tail}`, bare).value ?? Number.NaN) / greatest;
        const [a, b] = [x, y].map((w) => secondLength(w, shared));
        if (more !== undefined || a == null || b == null || !same(r.point.x, a) || !same(r.point.y, b))
          wrong.push(`${r.text}: read as (${r.point.x}, ${r.point.y})`);
      }
    }
  };
  for (const face of job.faces) ofFace(face);
  for (const [id, i] of job.instruments)
    if (i.measures === 'angle') {
      angle(['instruments', id], i.each);
      angle(['instruments', id, 'each'], i.each);
    } else {
      length(['instruments', id], i.each);
      length(['instruments', id, 'each'], i.each);
      length(['instruments', id, 'zero'], i.zero);
    }
  const { plate, machine, stack } = job;
  if (plate !== null) {
    name(['plate', 'material'], plate.material);
    if ('at' in plate.clocking) angle(['plate', 'clocking'], plate.clocking.at);
    if (typeof plate.thickness === 'number') length(['plate', 'thickness'], plate.thickness);
    length(['plate', 'bore', 'diameter'], plate.bore?.diameter);
    name(['plate', 'bore', 'side'], plate.bore?.side);
    for (const [face, l] of plate.locate)
      if (l.as === 'register') {
        number(['plate', 'locate', face, 'register'], l.diameter.value, (w) =>
          secondLength(w.split(pm)[0] ?? '', bare),
        );
        length(['plate', 'locate', face, 'depth'], l.depth);
      } else if (l.as === 'new dowels') count(['plate', 'locate', face, 'dowels'], l.count);
    for (const [face, f] of plate.fasten) {
      name(['plate', 'fasten', face, 'as'], f.as);
      name(['plate', 'fasten', face, 'fit'], f.fit);
      name(['plate', 'fasten', face, 'thread'], f.thread);
      if (f.engagement !== null && 'times' in f.engagement)
        number(['plate', 'fasten', face, 'engagement'], f.engagement.times, (w) => plainNumber(w.replace(/d$/i, '')));
    }
    length(['plate', 'outline', 'margin'], plate.outline.margin);
    length(['plate', 'limits', 'web'], plate.limits.web);
    length(['plate', 'drilling'], plate.drilling);
    length(['plate', 'alignment', 'offset'], plate.alignment?.offset);
    angle(['plate', 'alignment', 'tilt'], plate.alignment?.tilt);
  }
  length(['machine', 'step'], machine?.step);
  count(['machine', 'top speed'], machine?.topSpeed);
  length(['machine', 'screw pitch'], machine?.screwPitch);
  for (const l of stack?.links ?? []) {
    number(['stack', 'links', l.name], l.value, (w) => secondMeasure(w, bare).value);
    number(['stack', 'links', l.name], l.plusMinus, (w) => secondMeasure(w, bare).plusMinus);
  }
  count(['stack', 'links', 'shims', 'at most'], stack?.shims?.atMost);
  for (const l of stack?.limits ?? [])
    for (const key of ['least', 'most'] as const) length(['stack', 'limits', l.name, key], l[key]);
  for (const g of job.gaskets) {
    length(['gaskets', g.face, 'hole clearance'], g.holeClearance);
    length(['gaskets', g.face, 'bore'], g.bore);
  }
  for (const key of ['margin', 'overlap'] as const) length(['print', key], job.print?.[key]);
  return wrong;
};

/** A length and its ± by the page, mm; see `measure` in misread.ts for a small unit behind the ±. */
const secondMeasure = (
  text: string,
  bare: number,
): { readonly value: number | null; readonly plusMinus: number | null } => {
  const [head = '', tail = ''] = text.split(pm);
  const [own, behind] = [second(head), second(tail)];
  if (own === null || behind === null) return { value: null, plusMinus: null };
  const per = (unit: string): number => secondLength(`1 ${unit}`, 1) ?? Number.NaN;
  const size = Math.abs(Number(own.over) / Number(own.under));
  const spread = Number(behind.over) / Number(behind.under);
  let unit = bare;
  if (own.unit === 'bare' && behind.unit !== 'bare') {
    const factor = per(behind.unit);
    const absurd = spread >= size / 2 && spread * factor < (size * bare) / 2;
    unit = factor < 0.1 ? (size * bare <= 2500 ? bare : factor) : absurd ? bare : factor;
  }
  return {
    value: secondLength(head, unit),
    plusMinus: secondLength(tail, own.unit === 'bare' ? bare : per(own.unit)),
  };
};
