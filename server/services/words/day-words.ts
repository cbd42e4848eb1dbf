const day = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});

/** A day, UTC: '3 May 2026'. */
export const dayWords = (at: Date | number): string => day.format(at);
