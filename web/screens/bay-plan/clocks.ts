/** Minutes from midnight of a time of day such as '07:30'; '24:00' ends the day. */
export function readMinutes(clock: string): number {
  const [hour = 0, minute = 0] = clock.split(':').map(Number);
  return hour * 60 + minute;
}

export const writeClock = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

/** Minutes from midnight at a place, at a moment. */
export function readLocalMinutes(timeZone: string, moment: string): number {
  const local = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  });
  return readMinutes(local.format(new Date(moment)));
}
