import { formatWhole } from '#web/format/format-number.ts';

const mostNamed = { chosen: 3, booked: 4 };

/** 'B-1207, B-1311' or '12 vehicles chosen'. */
export const sayChosen = (chosen: readonly string[]): string =>
  chosen.length <= mostNamed.chosen
    ? `${chosen.join(', ')} chosen`
    : `${formatWhole(chosen.length)} vehicles chosen`;

/** Which of the chosen have a day already: '3 of them have a day already and keep it: B-1, B-2, B-3'. */
export const sayBooked = (booked: readonly string[], chosen: number): string =>
  sayOf(booked, chosen, 'has a day already and keeps it', 'have a day already and keep it');

/** Which of the chosen have a booking that nobody has closed. */
export const sayNotClosed = (past: readonly string[], chosen: number): string =>
  sayOf(
    past,
    chosen,
    'has a booking that is over: close it, and it can get a day',
    'have a booking that is over: close them, and they can get days',
  );

function sayOf(some: readonly string[], chosen: number, one: string, several: string): string {
  if (some.length === 0) return '';
  if (chosen === 1) return `It ${one}`;
  const does = some.length === 1 ? one : several;
  if (some.length === chosen) return `All ${does}`;
  const names = some.slice(0, mostNamed.booked).join(', ');
  const rest = some.length - mostNamed.booked;
  return `${formatWhole(some.length)} of them ${does} (${names}${rest > 0 ? ` and ${formatWhole(rest)} more` : ''})`;
}
