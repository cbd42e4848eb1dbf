import { formatWhole } from '#web/format/format-number.ts';

const namesOfChosen = 3;
const namesOfBooked = 4;

/** 'B-1207, B-1311' or '12 vehicles chosen'. */
export const sayChosen = (chosen: readonly string[]): string =>
  chosen.length <= namesOfChosen
    ? `${chosen.join(', ')} chosen`
    : `${formatWhole(chosen.length)} vehicles chosen`;

/** Which of the chosen have a booking already: '3 have a booking already and keep it: B-1, B-2, B-3'. */
export function sayBooked(already: readonly string[], chosen: number): string {
  if (already.length === 0) return '';
  const keeps =
    already.length === 1 ? 'has a booking already and keeps it' : 'have a booking already and keep it';
  if (already.length === chosen && chosen > 1) return `All ${keeps}`;
  if (chosen === 1) return `It ${keeps}`;
  const names = already.slice(0, namesOfBooked).join(', ');
  const rest = already.length - namesOfBooked;
  return `${formatWhole(already.length)} of them ${keeps}: ${names}${rest > 0 ? ` and ${formatWhole(rest)} more` : ''}`;
}
