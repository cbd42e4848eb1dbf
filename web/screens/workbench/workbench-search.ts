/** What the address of the screen says. */
export type WorkbenchSearch = Record<string, never>;

export function parseWorkbenchSearch(_raw: Record<string, unknown>): WorkbenchSearch {
  return {};
}
