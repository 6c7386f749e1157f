import { inert } from '@fayplate/core';

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text that can stand in HTML as content or attribute and do nothing. */
export const escapeHtml = (text: string): string => inert(text).replace(/[&<>"']/g, (c) => entities[c] ?? c);
