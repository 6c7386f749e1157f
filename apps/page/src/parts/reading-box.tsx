import type { JSX, TargetedEvent, TargetedInputEvent, TargetedSubmitEvent } from 'preact';
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { answerOf } from '../app/state.js';
import { useApp, useAppState } from '../app/use.js';
import { instrumentsOf, unitsOf } from '../edit/peek.js';
import { addReading, headOf, readingLines, readingsOf, removeReading, setReading } from '../edit/readings.js';
import type { PlanItem, Told } from '../work/shown.js';
import { isAngle, isBare, isPlace } from './touch.js';
import { expectedOf } from './value.js';

/** A reading taken apart: `aside over A B = 4.1 by rule # note`. */
export const partsOf = (
  line: string,
): { readonly value: string; readonly by: string; readonly aside: boolean; readonly rest: string } => {
  const found = /^(aside\s+)?[^=#]*?(?:=\s*(.*?))?(?:\s+by\s+([^#]*?))?\s*(#.*)?$/.exec(line);
  return {
    aside: found?.[1] !== undefined,
    value: (found?.[2] ?? '').trim(),
    by: (found?.[3] ?? '').trim(),
    rest: found?.[4] ?? '',
  };
};

const lineOf = (head: string, value: string, by: string, aside = false, rest = ''): string =>
  (aside ? 'aside ' : '') +
  head +
  (value === '' ? '' : ` = ${value}`) +
  (by === '' ? '' : ` by ${by}`) +
  (rest === '' ? '' : ` ${rest}`);

const isForAngles = (band: string): boolean => /°|deg|rad/i.test(band);

/** The fault or warning of the reading at this place of its list. */
export const faultOf = (told: readonly Told[], face: string | null, index: number): Told | undefined =>
  told.find((f) => f.path === [...readingsOf(face), index].join('.'));

interface ReadingBoxProps {
  /** Null: the drilled plate. */
  readonly face: string | null;
  readonly item: PlanItem;
  readonly place: string;
  /** The reading is taken: on to the next. */
  readonly onNext: () => void;
  readonly onSkip: () => void;
}

/**
 * One reading at a time: what to take hold of in words, a large box for the number, the unit in it. Enter goes on to
 * the next, as a caliper that types does by itself. Every key changes the job at once.
 */
export const ReadingBox = ({ face, item, place, onNext, onSkip }: ReadingBoxProps): JSX.Element => {
  const app = useApp();
  const { history, answers } = useAppState(app);
  const id = useId();
  const box = useRef<HTMLInputElement>(null);
  const { text } = history;
  const lines = readingLines(text, face);
  const index = lines.findIndex((l) => headOf(l) === item.head);
  const line = index < 0 ? '' : (lines[index] ?? '');
  const parts = partsOf(line);
  const instruments = instrumentsOf(text);
  const fits = instruments.filter(
    (i) => isForAngles(i.band) === (isAngle(item.head) || item.head.startsWith('square')),
  );
  // A bare number is in the job's unit: an instrument that reads in it goes before one that does not.
  const inUnit = fits.filter((f) => !new RegExp(unitsOf(text) === 'in' ? 'mm' : 'in\\b|"', 'i').test(f.band));
  const planned = fits.find((f) => f.name === item.instrument);
  const usual =
    (planned !== undefined && (inUnit.includes(planned) || inUnit.length === 0) ? planned : (inUnit[0] ?? fits[0]))
      ?.name ??
    instruments[0]?.name ??
    '';
  const [chosenBy, setBy] = useState<string | null>(null);
  const by = index >= 0 ? parts.by : chosenBy !== null && fits.some((f) => f.name === chosenBy) ? chosenBy : usual;
  const [waitsForNumber, setWaits] = useState(false);
  const bare = isBare(item.head);
  const fault = index < 0 ? undefined : faultOf(answers.faults, face, index);
  const warning = index < 0 ? undefined : faultOf(answers.warnings, face, index);
  const view = face === null ? null : (answerOf(answers.faces, face) ?? null);
  const suspect = (face === null ? answers.prove?.suspects : view?.suspects)?.find(
    (s) => s.reading === String(index + 1),
  );
  useEffect(() => setWaits(false), [item.head, line]);

  const write = (value: string, instrument = by): void => {
    if (value === '' && !bare) {
      if (index >= 0) app.change(removeReading(text, face, index), `${place} ${item.head}`);
      return;
    }
    const next = lineOf(item.head, value, instrument, parts.aside, parts.rest);
    app.change(index < 0 ? addReading(text, face, next) : setReading(text, face, index, next), `${place} ${item.head}`);
  };
  const unit = isAngle(item.head) ? 'deg' : unitsOf(text);
  const expected = index < 0 || bare ? null : expectedOf(item.head, parts.value, unitsOf(text));
  const on = (): void => {
    if (index < 0 && !bare) setWaits(true);
    else if (expected === null) {
      onNext();
      box.current?.focus();
    }
  };
  const words = waitsForNumber
    ? 'Type the number first, or choose Skip.'
    : expected !== null
      ? `Expected ${expected}.`
      : (fault?.words ?? warning?.words ?? '');
  return (
    <form
      class="reading"
      onSubmit={(event: TargetedSubmitEvent<HTMLFormElement>) => {
        event.preventDefault();
        on();
      }}
    >
      <p class="head" id={`${id}-says`}>
        <strong>{item.says}</strong> <code>{item.head}</code>
      </p>
      {bare ? (
        <button
          type="button"
          class="wide main"
          onClick={() => {
            if (index < 0) write('', by);
            onNext();
          }}
        >
          {index < 0 ? 'It is so: note it' : 'Noted. Go on'}
        </button>
      ) : (
        <div class="boxed">
          <label for={id} class="unseen">
            {`Reading ${item.head}`}
          </label>
          <input
            id={id}
            ref={box}
            class="big"
            type="text"
            inputMode={isPlace(item.head) ? 'text' : 'decimal'}
            value={parts.value}
            placeholder={isPlace(item.head) ? '(x, y)' : ''}
            autocomplete="off"
            autocapitalize="off"
            spellcheck={false}
            enterkeyhint="next"
            aria-invalid={fault !== undefined || expected !== null}
            aria-describedby={`${id}-says ${id}-words`}
            onInput={(event: TargetedInputEvent<HTMLInputElement>) => write(event.currentTarget.value)}
          />
          <span class="unit" aria-hidden="true">
            {unit}
          </span>
        </div>
      )}
      <p
        id={`${id}-words`}
        class={`words ${fault !== undefined || expected !== null || waitsForNumber ? 'fault' : 'help'}`}
        aria-live="polite"
      >
        {words === '' ? (suspect === undefined ? '' : `Reading ${index + 1} ${suspect.says}`) : words}
      </p>
      <div class="row">
        <label class="inline" for={`${id}-by`}>
          Taken with
        </label>
        <select
          id={`${id}-by`}
          value={by}
          onChange={(event: TargetedEvent<HTMLSelectElement>) => {
            setBy(event.currentTarget.value);
            if (index >= 0) write(parts.value, event.currentTarget.value);
          }}
        >
          {instruments.some((i) => i.name === by) ? null : (
            <option value={by}>{by === '' ? 'no instrument' : by}</option>
          )}
          {instruments.map((i) => (
            <option key={i.name} value={i.name}>
              {i.name} {i.band}
            </option>
          ))}
        </select>
      </div>
      <div class="row">
        {bare ? null : (
          <button type="submit" class="main">
            Next
          </button>
        )}
        <button type="button" onClick={onSkip}>
          Skip
        </button>
        {index < 0 ? null : (
          <>
            <button
              type="button"
              onClick={() =>
                app.change(
                  setReading(text, face, index, lineOf(item.head, parts.value, parts.by, !parts.aside, parts.rest)),
                )
              }
            >
              {parts.aside ? 'Take it back in' : 'Leave it out'}
            </button>
            <button type="button" onClick={() => app.change(removeReading(text, face, index))}>
              Remove
            </button>
          </>
        )}
      </div>
    </form>
  );
};
