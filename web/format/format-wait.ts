/** A wait that the server asks for, in the unit in which one waits. */
export function formatWait(seconds: number): string {
  if (seconds < 90) return seconds <= 60 ? 'a minute' : '2 minutes';
  const minutes = Math.ceil(seconds / 60);
  if (minutes <= 90) return `${minutes} minutes`;
  return `${Math.ceil(minutes / 60)} hours`;
}
