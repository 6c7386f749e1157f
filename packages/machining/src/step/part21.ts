/** Instances of an ISO 10303-21 data section; equal ones are written once. */
export interface Instances {
  /**
   * The instance of this name; `make` adds it when the name is met first. What is one thing has one name, however often
   * its numbers are worked out.
   */
  readonly named: (name: string, make: () => string) => string;
  /** Adds `NAME(arguments)` and gives its `#n`. */
  readonly add: (name: string, ...parameters: readonly string[]) => string;
  /** Adds an instance of several types at once, written in brackets. */
  readonly addComplex: (...parts: readonly string[]) => string;
  readonly lines: () => readonly string[];
}

export const instances = (): Instances => {
  const known = new Map<string, string>();
  const keep = (text: string): string => {
    const seen = known.get(text);
    if (seen !== undefined) return seen;
    const id = `#${known.size + 1}`;
    known.set(text, id);
    return id;
  };
  const names = new Map<string, string>();
  return {
    named: (name, make) => {
      const id = names.get(name) ?? make();
      names.set(name, id);
      return id;
    },
    add: (name, ...parameters) => keep(`${name}(${parameters.join(',')})`),
    addComplex: (...parts) => keep(`(${parts.join('')})`),
    lines: () => [...known].map(([text, id]) => `${id}=${text};`),
  };
};

/** A real as Part 21 writes it: a decimal point always, `E` for a power of ten. */
export const real = (v: number): string => {
  if (!Number.isFinite(v)) throw new RangeError(`real: ${v} is no length`);
  const text = String(Object.is(v, -0) ? 0 : v);
  const [mantissa = '0', power] = text.toUpperCase().split('E');
  const dotted = mantissa.includes('.') ? mantissa : `${mantissa}.`;
  return power === undefined ? dotted : `${dotted}E${Number(power)}`;
};

export const list = (items: readonly string[]): string => `(${items.join(',')})`;
export const flag = (b: boolean): string => (b ? '.T.' : '.F.');

/**
 * A string as Part 21 writes it: quotes and backslashes doubled, anything beyond plain ASCII as \X2\ or \X4\
 * hexadecimal.
 */
export const words = (text: string): string => {
  const out = [...text].map((c) => {
    const code = c.codePointAt(0) ?? 0x20;
    if (c === "'") return "''";
    if (c === '\\') return '\\\\';
    if (code < 0x20) return ' ';
    if (code < 0x7f) return c;
    const hex = code.toString(16).toUpperCase();
    return code > 0xffff ? `\\X4\\${hex.padStart(8, '0')}\\X0\\` : `\\X2\\${hex.padStart(4, '0')}\\X0\\`;
  });
  return `'${out.join('')}'`;
};
