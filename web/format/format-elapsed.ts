/** Time into a recording: 0:26, 1:56, 1:02:03. Parts of a second play no part. */
export function formatElapsed(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds + 1e-6));
  const [h, m, s] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  const two = (value: number) => String(value).padStart(2, '0');
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}
