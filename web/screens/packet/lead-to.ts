/** Reading goes on at a title: what was pressed is gone, and on a phone what came of it is far from there. */
export function leadTo(find: () => HTMLElement | null | undefined): void {
  requestAnimationFrame(() => {
    const title = find();
    title?.focus({ preventScroll: true });
    title?.scrollIntoView({ block: 'start' });
  });
}
