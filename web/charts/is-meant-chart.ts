/** Which chart a key of the page means: the one with the focus, else under the pointer, else the first. */
export function isMeantChart(figure: HTMLElement | null): boolean {
  if (figure === null) return false;
  const all = [...document.querySelectorAll<HTMLElement>('[data-chart]')];
  const meant =
    all.find((one) => one.contains(document.activeElement)) ??
    all.find((one) => one.matches(':hover')) ??
    all[0];
  return meant === figure;
}
