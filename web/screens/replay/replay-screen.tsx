/** A past period run again, day by day. */
export function ReplayScreen() {
  return <h1>Replay</h1>;
}
