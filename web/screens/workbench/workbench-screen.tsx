/** The same statistics on a table of one's own. */
export function WorkbenchScreen() {
  return <h1>Workbench</h1>;
}
