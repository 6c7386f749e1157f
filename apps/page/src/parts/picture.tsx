import type { ComponentChildren, JSX, TargetedKeyboardEvent, TargetedMouseEvent } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Drawn, Mark } from '../work/shown.js';

interface PictureProps {
  readonly drawn: Drawn;
  /** What can be pointed at. */
  readonly marks?: readonly Mark[];
  readonly picked?: readonly string[];
  readonly onPick?: (id: string) => void;
  /** A place pointed at: mm in the drawing's frame, y up. */
  readonly onPoint?: ((x: number, y: number) => void) | undefined;
  /** Drawn over it in the accent colour, mm with y down as SVG has it. */
  readonly over?: ComponentChildren;
  /** Boxes and buttons laid over it, placed in its frame. */
  readonly laid?: ComponentChildren;
  /** Largest height, as a share of the window's. */
  readonly high?: number;
  readonly caption?: boolean;
  /** The square about 0, 0 that is shown at least, from its middle, mm: room for what is laid around the drawing. */
  readonly room?: number;
}

/** A thumb needs so many pixels about the point. */
const THUMB = 22;

const nearest = (marks: readonly Mark[], m: Mark): number =>
  Math.min(Infinity, ...marks.filter((o) => o !== m).map((o) => Math.hypot(o.x - m.x, o.y - m.y) / 2));

/** A drawing with what can be pointed at laid over it. The arrow keys go from one feature to the next, Enter picks. */
export const Picture = (props: PictureProps): JSX.Element => {
  const { drawn, marks = [], picked = [], onPick, onPoint, over, laid, high = 70, caption = true, room = 0 } = props;
  const { box } = drawn;
  const [left, right] = [Math.min(box.left, -room), Math.max(box.right, room)];
  const [bottom, top] = [Math.min(box.bottom, -room), Math.max(box.top, room)];
  const [wide, tall] = [right - left, top - bottom];
  const frame = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(600);
  const [at, setAt] = useState(0);
  useEffect(() => {
    const element = frame.current;
    if (element === null || typeof ResizeObserver === 'undefined') return undefined;
    const watch = new ResizeObserver(([entry]) => setWidth(Math.max(1, entry?.contentRect.width ?? 600)));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  const perPixel = wide / width;
  const reach = (m: Mark): number => Math.max(m.r, Math.min(THUMB * perPixel, nearest(marks, m)));
  // Small things lie over large ones, so that a bolt inside a bore can be hit.
  const ordered = marks.map((m, index) => ({ m, index })).sort((a, b) => b.m.r - a.m.r);
  const move = (event: TargetedKeyboardEvent<SVGGElement>, index: number): void => {
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      onPick?.(marks[index]?.id ?? '');
    } else if (step !== undefined) {
      event.preventDefault();
      const next = (index + step + marks.length) % marks.length;
      setAt(next);
      frame.current?.querySelector<SVGGElement>(`[data-mark="${next}"]`)?.focus();
    }
  };
  const pointed = (event: TargetedMouseEvent<SVGSVGElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    onPoint?.(
      left + ((event.clientX - box.left) / box.width) * wide,
      top - ((event.clientY - box.top) / box.height) * tall,
    );
  };
  return (
    <figure class="picture">
      <div
        class="frame"
        ref={frame}
        style={{ aspectRatio: `${wide} / ${tall}`, maxWidth: `calc(${high}vh * ${(wide / tall).toFixed(4)})` }}
      >
        {/* Our own writer's SVG: its words are inert. */}
        <div
          class="drawn"
          style={{
            left: `${(100 * (box.left - left)) / wide}%`,
            top: `${(100 * (top - box.top)) / tall}%`,
            width: `${(100 * (box.right - box.left)) / wide}%`,
            height: `${(100 * (box.top - box.bottom)) / tall}%`,
          }}
          dangerouslySetInnerHTML={{ __html: drawn.svg }}
        />
        <svg
          class={`over${onPoint === undefined ? '' : ' pointing'}`}
          viewBox={`${left} ${-top} ${wide} ${tall}`}
          role="group"
          aria-label={marks.length > 0 && onPick !== undefined ? `${drawn.title}: pick a feature` : drawn.title}
          onClick={pointed}
        >
          {over}
          {onPick === undefined
            ? null
            : ordered.map(({ m, index }) => (
                <g
                  key={m.id}
                  role="button"
                  tabindex={index === Math.min(at, marks.length - 1) ? 0 : -1}
                  data-mark={index}
                  data-id={m.id}
                  aria-label={m.says}
                  aria-pressed={picked.includes(m.id)}
                  class="mark"
                  onClick={(event: MouseEvent) => {
                    event.stopPropagation();
                    setAt(index);
                    onPick(m.id);
                  }}
                  onKeyDown={(event: TargetedKeyboardEvent<SVGGElement>) => move(event, index)}
                >
                  <circle cx={m.x} cy={-m.y} r={reach(m)} />
                </g>
              ))}
        </svg>
        {laid}
      </div>
      {caption ? (
        <figcaption>
          <strong>{drawn.title}</strong>
          {drawn.notes.length === 0 ? null : (
            <details>
              <summary>What the drawing shows</summary>
              {drawn.notes.map((n, i) => (
                <p key={i}>{n}</p>
              ))}
            </details>
          )}
        </figcaption>
      ) : null}
    </figure>
  );
};
