/** Slip of a whole platform against command and temperature. */
export function AtlasScreen() {
  return <h1>Atlas</h1>;
}
