/** A time of day as somebody typed it, '7', '730' or '7.30' too, as '07:30'; null where it is none. 24:00 ends a day. */
export function readClock(text: string): string | null {
  const found = /^(\d{1,2})(?:[:.]?(\d{2}))?$/.exec(text.trim());
  if (found === null) return null;
  const hour = Number(found[1]);
  const minute = Number(found[2] ?? '0');
  if (minute > 59 || hour > 24 || (hour === 24 && minute > 0)) return null;
  return `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
}

/** Hours between two times of one day, written as '07:30'. */
export function hoursBetween(from: string, to: string): number {
  const [start = 0, end = 0] = [from, to].map((clock) => {
    const [hour = 0, minute = 0] = clock.split(':').map(Number);
    return hour + minute / 60;
  });
  return end - start;
}
