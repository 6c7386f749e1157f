// The fonts that every PDF reader has: ours are drawn, so none of their metrics is asked for.
export const FontNames = {};
export const Encodings = {};
export const Font = {};
