import type { NotPrinted } from '@fayplate/print';
import { loadLettering } from '../files/fonts.js';
import type { Press } from './press.js';
import { type PrintOrder, type PrintedTemplates, packetOf, templatesOf } from './prints.js';

/** The press on this thread. */
export const pressHere = (): Press => {
  let begun: { readonly order: PrintOrder; readonly templates: Promise<PrintedTemplates | NotPrinted> } | null = null;
  return {
    begin: (order) => {
      begun = { order, templates: loadLettering().then((lettering) => templatesOf(order, lettering)) };
      // Who waits for the packet is told of a fault; until then nobody need be.
      begun.templates.catch(() => null);
    },
    finish: async (sections) => {
      if (begun === null) throw new Error('the press was given nothing to print');
      const templates = await begun.templates;
      return templates.ok ? packetOf(templates, sections, begun.order, await loadLettering()) : templates;
    },
    stop: () => undefined,
  };
};
