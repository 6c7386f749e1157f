import type { NamedPlace } from '@fayplate/pictures';
import type { JSX, TargetedFocusEvent, TargetedKeyboardEvent } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { useApp, useAppState } from '../app/use.js';
import { typedAt } from '../edit/peek.js';
import type { Path } from '../edit/set.js';
import type { StackView } from '../work/shown.js';
import { Field } from './field.js';
import { Picture } from './picture.js';

/** The boxes of a link or a limit: what each is called, and where it stands in the job. */
const boxesOf = ({ name, kind }: NamedPlace, text: string): readonly (readonly [string, Path])[] => {
  if (kind === 'limit')
    return [
      [`${name}: at least`, ['stack', 'limits', name, 'least']],
      [`${name}: at most`, ['stack', 'limits', name, 'most']],
    ];
  const sought = typedAt(text, ['stack', 'links', name, 'find']) !== '';
  return sought
    ? [[`${name}: find between`, ['stack', 'links', name, 'find']]]
    : [[`${name}, with its ±`, ['stack', 'links', name]]];
};

/** The chain as a section: every name on it opens its box, in its place; Enter or Escape closes it. */
export const StackSection = ({ section }: { readonly section: StackView['section'] }): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  const [open, setOpen] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const opener = useRef<HTMLButtonElement | null>(null);
  const { box } = section.picture;
  const [wide, tall] = [box.right - box.left, box.top - box.bottom];
  // Before the next key: what is typed right after the press goes into the box.
  useLayoutEffect(() => {
    const input = form.current?.querySelector('input');
    input?.focus();
    input?.select();
  }, [open]);
  const close = (): void => {
    setOpen(null);
    opener.current?.focus();
  };
  const place = section.places.find((p) => `${p.kind} ${p.name}` === open);
  return (
    <>
      <Picture
        drawn={section.picture}
        laid={
          <>
            {section.places.map((p) => (
              <button
                key={`${p.kind} ${p.name}`}
                type="button"
                class="place"
                aria-expanded={open === `${p.kind} ${p.name}`}
                aria-label={p.kind === 'link' ? `Size of ${p.name}` : `Limits of ${p.name}`}
                style={{
                  left: `${(100 * (p.box.left - box.left)) / wide}%`,
                  top: `${(100 * (box.top - p.box.top)) / tall}%`,
                  width: `${(100 * (p.box.right - p.box.left)) / wide}%`,
                  height: `${(100 * (p.box.top - p.box.bottom)) / tall}%`,
                }}
                onClick={(event: MouseEvent) => {
                  opener.current = event.currentTarget as HTMLButtonElement;
                  setOpen(`${p.kind} ${p.name}`);
                }}
              />
            ))}
            {place === undefined ? null : (
              <form
                ref={form}
                class="in-place"
                aria-label={place.name}
                style={{
                  top: `${(100 * (box.top - place.box.top)) / tall}%`,
                  ...(place.box.left - box.left < wide / 2
                    ? { left: `${(100 * (place.box.left - box.left)) / wide}%` }
                    : { right: '0.5rem' }),
                }}
                onSubmit={(event: Event) => {
                  event.preventDefault();
                  close();
                }}
                onKeyDown={(event: TargetedKeyboardEvent<HTMLFormElement>) => {
                  if (event.key === 'Escape') close();
                }}
                onFocusOut={(event: TargetedFocusEvent<HTMLFormElement>) => {
                  if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setOpen(null);
                }}
              >
                {boxesOf(place, history.text).map(([label, path]) => (
                  <Field key={label} label={label} path={path} />
                ))}
                <button type="submit">Done</button>
              </form>
            )}
          </>
        }
      />
      <p class="help">Press a name on the drawing to type its size there.</p>
    </>
  );
};
