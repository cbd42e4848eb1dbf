import { useCallback } from 'react';
import type { PlatformMovement } from '#server/contract/movement.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { listMovementNumbers, movementOption } from '#web/charts/movement-option.ts';
import head from '#web/ui/screen-head.module.css';

const heightPx = 380;

export function MovementFigure({ movement }: { movement: PlatformMovement }) {
  const draw = useCallback((frame: Frame) => movementOption(movement, frame), [movement]);
  const numbers = useCallback(() => listMovementNumbers(movement), [movement]);
  const steps = movement.events.map((event) => event.sentence).join('. ');
  const hasCarried = movement.weeks.some((week) => week.carried);
  return (
    <Chart
      title={
        <div>
          <h2>Common movement</h2>
          <p className={head.reading}>
            Slip at the reference point that all vehicles gained or lost together, week by week, vehicles that
            drift left out. The shade holds 95 %.
            {hasCarried && ' A ring is a week with too few vehicles: it takes the figure of the week before.'}
          </p>
        </div>
      }
      label={`Common movement of ${movement.name}, week by week. ${steps === '' ? 'No step.' : `${steps}.`}`}
      draw={draw}
      height={heightPx}
      numbers={numbers}
    />
  );
}
