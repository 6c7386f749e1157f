import { minusSign } from '@fayplate/core';
import type { JSX, TargetedKeyboardEvent, TargetedPointerEvent } from 'preact';
import { useState } from 'preact/hooks';

interface TurnRingProps {
  /** Radius about the drawing's 0, 0, mm. */
  readonly r: number;
  /** Degrees clockwise from 12 o'clock. */
  readonly at: number;
  /** Arcs drawn thick, degrees clockwise: from, to. */
  readonly safe?: readonly (readonly [number, number])[];
  readonly label: string;
  /** Told while it is dragged; null when the hand lets go. */
  readonly onDrag?: (degrees: number | null) => void;
  readonly onTurn: (degrees: number) => void;
}

/** A degree at a time by the arrow keys, and by a hand that drags. */
const STEP = 1;
const FAR = 15;

const polar = (degrees: number, r: number): readonly [number, number] => [
  r * Math.sin((degrees * Math.PI) / 180),
  -r * Math.cos((degrees * Math.PI) / 180),
];

const arc = (from: number, to: number, r: number): string => {
  const [x, y] = polar(from, r);
  if (to - from >= 359.9) return `M 0 ${-r} A ${r} ${r} 0 1 1 0 ${r} A ${r} ${r} 0 1 1 0 ${-r}`;
  const [u, v] = polar(to, r);
  return `M ${x} ${y} A ${r} ${r} 0 ${to - from > 180 ? 1 : 0} 1 ${u} ${v}`;
};

/** An angle within half a turn of 0. */
const within = (degrees: number): number => ((((degrees + 180) % 360) + 360) % 360) - 180;

/**
 * A ring around a drawing with a grip on it, to turn what is drawn by hand or by the arrow keys; y down, as SVG has it.
 */
export const TurnRing = ({ r, at, safe = [], label, onDrag, onTurn }: TurnRingProps): JSX.Element => {
  const [dragged, setDragged] = useState<number | null>(null);
  const now = dragged ?? at;
  const [x, y] = polar(now, r);
  const wide = r / 22;
  const angleOf = (event: TargetedPointerEvent<SVGGElement>): number => {
    const svg = event.currentTarget.ownerSVGElement;
    const seen = svg?.getScreenCTM();
    if (svg === null || seen === null || seen === undefined) return now;
    const p = new DOMPoint(event.clientX, event.clientY).matrixTransform(seen.inverse());
    return Math.round((Math.atan2(p.x, -p.y) * 180) / Math.PI / STEP) * STEP;
  };
  const drag = (degrees: number | null): void => {
    setDragged(degrees);
    onDrag?.(degrees);
  };
  const key = (event: TargetedKeyboardEvent<SVGGElement>): void => {
    const by = { ArrowRight: STEP, ArrowUp: STEP, ArrowLeft: -STEP, ArrowDown: -STEP, PageUp: FAR, PageDown: -FAR }[
      event.key
    ];
    if (by === undefined && event.key !== 'Home') return;
    event.preventDefault();
    onTurn(by === undefined ? 0 : within(at + by));
  };
  return (
    <g class="turn-ring">
      <circle class="ring" r={r} stroke-width={wide} />
      {safe.map(([from, to], i) => (
        <path key={i} class="safe" d={arc(from, to, r)} stroke-width={wide} />
      ))}
      <g
        class="grip"
        role="slider"
        tabindex={0}
        aria-label={label}
        aria-valuemin={-180}
        aria-valuemax={180}
        aria-valuenow={Number(now.toFixed(1))}
        aria-valuetext={`${Number(now.toFixed(1))} degrees clockwise`}
        onKeyDown={key}
        onClick={(event: MouseEvent) => event.stopPropagation()}
        onPointerDown={(event: TargetedPointerEvent<SVGGElement>) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          drag(angleOf(event));
        }}
        onPointerMove={(event: TargetedPointerEvent<SVGGElement>) => {
          if (dragged !== null) drag(angleOf(event));
        }}
        onPointerUp={() => {
          if (dragged !== null) onTurn(within(dragged));
          drag(null);
        }}
        onPointerCancel={() => drag(null)}
      >
        <circle class="hit" cx={x} cy={y} r={wide * 2} />
        <circle class="knob" cx={x} cy={y} r={wide} />
      </g>
      {dragged === null ? null : (
        <text class="figure" y={r / 3} font-size={r / 8}>
          {`${minusSign(String(dragged))}°`}
        </text>
      )}
    </g>
  );
};
