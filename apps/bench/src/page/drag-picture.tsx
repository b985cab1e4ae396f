import type { Tub } from '@tubgap/core';
import { DEGREE } from '@tubgap/units';
import { useRef } from 'preact/hooks';

/** Moves of the tub: up and ahead, m. */
export interface Move {
  up: number;
  ahead: number;
}

interface Props {
  /** The side view as SVG text. */
  svg: string;
  tub: Tub;
  /** Centre of the tub's arc from the axle as it stands, m. */
  ahead: number;
  above: number;
  /** Whether the picture shows the crown close up. */
  near: boolean;
  /** Told how far the tub was dragged since the drag began. */
  onDrag: (move: Move) => void;
  onStart: () => void;
  onEnd: () => void;
  onKey: (event: KeyboardEvent) => void;
}

interface Frame {
  width: number;
  height: number;
  scale: number;
  axleX: number;
  axleY: number;
}

/** Scale and place of a picture, which it says itself. */
function frameIn(svg: string): Frame {
  const number = (name: string): number => Number(new RegExp(`${name}="(-?[\\d.]+)`).exec(svg)?.[1]);
  const size = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg);
  return {
    width: Number(size?.[1]),
    height: Number(size?.[2]),
    scale: number('data-units-per-metre'),
    axleX: number('data-axle-x'),
    axleY: number('data-axle-y'),
  };
}

/** Hub angle of the grip on the tub's arc, rad: where no words stand; in a close-up where that still is in the picture. */
const GRIP = -52 * DEGREE;
const NEAR_GRIP = -22 * DEGREE;

/** The picture with a grip on its tub: to be dragged with finger or mouse, or moved with the arrow keys. */
export function DragPicture({ svg, tub, ahead, above, near, onDrag, onStart, onEnd, onKey }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const from = useRef<{ x: number; y: number; pointer: number } | undefined>(undefined);
  const frame = frameIn(svg);

  const at = (angle: number): [number, number] => [
    frame.axleX + frame.scale * (ahead + tub.radius * Math.sin(angle)),
    frame.axleY - frame.scale * (above + tub.radius * Math.cos(angle)),
  ];
  const [x1, y1] = at(-tub.halfExtent);
  const [x2, y2] = at(tub.halfExtent);
  const [gripX, gripY] = at(near ? NEAR_GRIP : GRIP);
  const radius = frame.scale * tub.radius;
  const start = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    event.preventDefault();
    box.current!.setPointerCapture(event.pointerId);
    from.current = { x: event.clientX, y: event.clientY, pointer: event.pointerId };
    box.current!.querySelector<HTMLButtonElement>('.grip')?.focus({ preventScroll: true });
    onStart();
  };
  const move = (event: PointerEvent): void => {
    const begun = from.current;
    if (begun === undefined || event.pointerId !== begun.pointer) return;
    const units = frame.width / box.current!.clientWidth / frame.scale;
    onDrag({ up: (begun.y - event.clientY) * units, ahead: (event.clientX - begun.x) * units });
  };
  const end = (event: PointerEvent): void => {
    if (from.current?.pointer !== event.pointerId) return;
    from.current = undefined;
    onEnd();
  };
  return (
    <div class="lens">
      <div class="picture" ref={box} onPointerMove={move} onPointerUp={end} onPointerCancel={end}>
        <div dangerouslySetInnerHTML={{ __html: svg }} />
        <svg class="hold" viewBox={`0 0 ${frame.width} ${frame.height}`} aria-hidden="true">
          <path
            d={`M${x1},${y1}A${radius},${radius},0,${tub.halfExtent > Math.PI / 2 ? 1 : 0},1,${x2},${y2}`}
            onPointerDown={start}
          />
        </svg>
        <button
          type="button"
          class="grip"
          style={{ left: `${(100 * gripX) / frame.width}%`, top: `${(100 * gripY) / frame.height}%` }}
          aria-label="Move the tub: drag it, or press the arrow keys; with Shift an inch at a time"
          onPointerDown={start}
          onKeyDown={onKey}
        >
          <svg viewBox="0 0 24 24" aria-hidden="true">
            <path d="M12 2l3.5 4h-2.5v5h5v-2.5l4 3.5-4 3.5v-2.5h-5v5h2.5l-3.5 4-3.5-4h2.5v-5h-5v2.5l-4-3.5 4-3.5v2.5h5v-5h-2.5z" />
          </svg>
        </button>
      </div>
    </div>
  );
}
