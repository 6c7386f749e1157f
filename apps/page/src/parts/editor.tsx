import {
  type CompletionContext,
  type CompletionResult,
  autocompletion,
  closeBrackets,
  completionKeymap,
} from '@codemirror/autocomplete';
import { defaultKeymap, indentWithTab } from '@codemirror/commands';
import { yaml } from '@codemirror/lang-yaml';
import { bracketMatching, defaultHighlightStyle, indentOnInput, syntaxHighlighting } from '@codemirror/language';
import { type Diagnostic, lintGutter, linter } from '@codemirror/lint';
import { Annotation, EditorState, StateEffect } from '@codemirror/state';
import { EditorView, drawSelection, highlightActiveLine, keymap, lineNumbers } from '@codemirror/view';
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { App } from '../app/app.js';
import { useApp, useAppState } from '../app/use.js';
import { between } from '../edit/change.js';
import { offersAt } from '../edit/schema.js';
import type { Told } from '../work/shown.js';
import { offsetOf } from './standing.js';

const ours = Annotation.define<boolean>();
/** New faults and warnings have come from the worker. */
const judged = StateEffect.define<null>();

const diagnosticsOf = (text: string, told: readonly Told[], severity: Diagnostic['severity']): readonly Diagnostic[] =>
  told
    .filter((f) => f.file === null)
    .map((f) => {
      const from = offsetOf(text, f.line, f.column);
      const end = text.indexOf('\n', from);
      const to = Math.max(from, Math.min(end < 0 ? text.length : end, from + Math.max(1, f.found.length)));
      return { from, to, severity, message: f.words };
    });

const complete =
  (app: App) =>
  (context: CompletionContext): CompletionResult | null => {
    const { schema } = app.state();
    if (schema === null) {
      app.askSchema();
      return null;
    }
    const found = offersAt(context.state.doc.toString(), context.pos, schema);
    if (found === null || (found.from === context.pos && !context.explicit)) return null;
    return {
      from: found.from,
      options: found.offers.map((o) => ({ label: o.label, apply: o.insert, info: o.says, type: o.kind })),
    };
  };

const stateOf = (app: App, text: string): EditorState =>
  EditorState.create({
    doc: text,
    extensions: [
      lineNumbers(),
      drawSelection(),
      indentOnInput(),
      bracketMatching(),
      closeBrackets(),
      highlightActiveLine(),
      syntaxHighlighting(defaultHighlightStyle, { fallback: true }),
      yaml(),
      autocompletion({ override: [complete(app)] }),
      lintGutter(),
      linter(
        ({ state }) => {
          const { answers } = app.state();
          const doc = state.doc.toString();
          return [...diagnosticsOf(doc, answers.faults, 'error'), ...diagnosticsOf(doc, answers.warnings, 'warning')];
        },
        // Faults come later than the key that made them: what is marked is looked over again when they do.
        { delay: 0, needsRefresh: (u) => u.transactions.some((t) => t.effects.some((e) => e.is(judged))) },
      ),
      keymap.of([
        { key: 'Mod-z', run: () => (app.undo(), true) },
        { key: 'Mod-y', run: () => (app.redo(), true) },
        { key: 'Mod-Shift-z', run: () => (app.redo(), true) },
        // The way out by keyboard: Tab indents, Escape and then Tab goes on.
        indentWithTab,
        ...completionKeymap,
        ...defaultKeymap,
      ]),
      EditorView.lineWrapping,
      EditorView.contentAttributes.of({ 'aria-label': 'The job file as text' }),
      EditorView.updateListener.of((update) => {
        if (!update.docChanged || update.transactions.every((t) => t.annotation(ours) === true)) return;
        app.change(between(app.state().history.text, update.state.doc.toString()), 'text');
      }),
    ],
  });

/** The job file itself, beside the form: the same text, edited in either. */
export const Editor = (): JSX.Element => {
  const app = useApp();
  const { history, answers, goTo } = useAppState(app);
  const place = useRef<HTMLDivElement>(null);
  const editor = useRef<EditorView | null>(null);
  useEffect(() => {
    const parent = place.current;
    if (parent === null) return undefined;
    const made = new EditorView({ state: stateOf(app, app.state().history.text), parent });
    editor.current = made;
    // What scrolls must be within reach of the keys.
    made.scrollDOM.tabIndex = 0;
    made.scrollDOM.setAttribute('role', 'group');
    made.scrollDOM.setAttribute('aria-label', 'The job file, to scroll');
    return () => made.destroy();
  }, [app]);
  useEffect(() => {
    const made = editor.current;
    if (made === null) return;
    // The text as it is now, not as it was when this was drawn: keys may have come since, and must not be taken back.
    const change = between(made.state.doc.toString(), app.state().history.text);
    if (change !== null) made.dispatch({ changes: change, annotations: ours.of(true) });
  }, [app, history.text]);
  useEffect(() => {
    editor.current?.dispatch({ effects: judged.of(null) });
  }, [answers.faults, answers.warnings]);
  useEffect(() => {
    const made = editor.current;
    if (made === null || goTo === null) return;
    made.dispatch({ selection: { anchor: Math.min(goTo.at, made.state.doc.length) }, scrollIntoView: true });
    made.focus();
  }, [goTo]);
  return (
    <section class="text" aria-label="Job file">
      <h2>The job file</h2>
      <p class="help">
        All that the page does is in this text; the command line reads the same. Escape, then Tab, leaves it.
      </p>
      <div ref={place} class="editor" />
    </section>
  );
};
